package study

import (
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/chance"
)

// sample is what one draw makes of one box.
type sample struct {
	gap    string // why there is no such box; "" when there is
	asked  float64
	speeds []drawnSpeed
}

// drawnSpeed is one speed of it.
type drawnSpeed struct {
	name    string
	first   gearbox.FirstLimit
	margins []drawnMargin // nil in brief
}

// drawnMargin is one limit of it.
type drawnMargin struct {
	kind gearbox.Kind
	item string
	left float64
}

// least is the allowable torque, the least of all speeds; NaN in a gap.
func (s *sample) least() float64 {
	if s.gap != "" {
		return math.NaN()
	}
	least := math.Inf(1)
	for i := range s.speeds {
		least = min(least, s.speeds[i].first.Torque)
	}
	return least
}

// speed is that of a name; nil when the sample has none.
func (s *sample) speed(name string) *drawnSpeed {
	if i := slices.IndexFunc(s.speeds, func(v drawnSpeed) bool { return v.name == name }); i >= 0 {
		return &s.speeds[i]
	}
	return nil
}

// take keeps of a solution what the spread looks at.
func (s *sample) take(r *gearbox.Result) {
	s.asked = math.Abs(r.Torque)
	for i := range r.Speeds {
		v := &r.Speeds[i]
		d := drawnSpeed{name: v.Name, first: v.First}
		for k := range v.Margins {
			m := &v.Margins[k]
			d.margins = append(d.margins, drawnMargin{m.Kind, m.Item, m.Left()})
		}
		s.speeds = append(s.speeds, d)
	}
}

// boxSpread gathers what the samples of one box say.
func boxSpread(solved [][]sample, b int) (s BoxSpread) {
	bears, over := make([]float64, len(solved)), make([]float64, len(solved))
	brief := true
	for i := range solved {
		one := &solved[i][b]
		bears[i], over[i] = one.least(), math.NaN()
		if one.gap != "" {
			if s.Gaps++; s.Gap == "" {
				s.Gap = one.gap
			}
			continue
		}
		for k := range one.speeds {
			for _, m := range one.speeds[k].margins {
				brief = false
				if over[i] = min(m.left, over[i]); math.IsNaN(over[i]) {
					over[i] = m.left
				}
			}
		}
	}
	s.Bears, s.Short = band(bears), short(solved, b, bears)
	s.Over = chance.Interval{Value: math.NaN(), From: math.NaN(), To: math.NaN()}
	if !brief {
		s.Over = chance.Chance(over, exceeded)
	}
	for _, name := range speedNames(solved, b) {
		each := make([]float64, len(solved))
		for i := range solved {
			each[i] = math.NaN()
			if v := solved[i][b].speed(name); v != nil {
				each[i] = v.first.Torque
			}
		}
		s.Speeds = append(s.Speeds, SpeedSpread{name, band(each), short(solved, b, each)})
		s.Margins = append(s.Margins, marginSpreads(solved, b, name)...)
	}
	slices.SortStableFunc(s.Margins, func(x, y MarginSpread) int { return sign(x.Left.Low.Value - y.Left.Low.Value) })
	s.First = often(solved, b)
	return s
}

func exceeded(left float64) bool { return left < 0 }

// short is the chance that a torque lies below that asked in its sample.
func short(solved [][]sample, b int, torques []float64) chance.Interval {
	left := make([]float64, len(torques))
	for i, t := range torques {
		left[i] = t - solved[i][b].asked
	}
	return chance.Chance(left, exceeded)
}

// speedNames are the speeds of the first sample that could be built.
func speedNames(solved [][]sample, b int) (names []string) {
	for i := range solved {
		if solved[i][b].gap == "" {
			for k := range solved[i][b].speeds {
				names = append(names, solved[i][b].speeds[k].name)
			}
			return names
		}
	}
	return nil
}

// marginSpreads are the limits of one speed.
func marginSpreads(solved [][]sample, b int, speed string) (all []MarginSpread) {
	type key struct {
		kind gearbox.Kind
		item string
	}
	lefts := map[key][]float64{}
	var order []key
	for i := range solved {
		v := solved[i][b].speed(speed)
		if v == nil {
			continue
		}
		for _, m := range v.margins {
			k := key{m.kind, m.item}
			if lefts[k] == nil {
				lefts[k] = make([]float64, len(solved))
				for n := range lefts[k] {
					lefts[k][n] = math.NaN()
				}
				order = append(order, k)
			}
			if was := lefts[k][i]; math.IsNaN(was) || m.left < was { // a gear in two meshes has the limit twice
				lefts[k][i] = m.left
			}
		}
	}
	for _, k := range order {
		all = append(all, MarginSpread{speed, k.kind, k.item, band(lefts[k]), chance.Chance(lefts[k], exceeded)})
	}
	return all
}

// often counts which limit is first.
func often(solved [][]sample, b int) (all []Often) {
	n := 0
	for i := range solved {
		one := &solved[i][b]
		if one.gap != "" {
			continue
		}
		n++
		o := Often{}
		least := math.Inf(1)
		for k := range one.speeds {
			if v := &one.speeds[k]; v.first.Torque < least {
				least, o = v.first.Torque, Often{Speed: v.name, Kind: v.first.Kind, Item: v.first.Item}
			}
		}
		at := slices.IndexFunc(all, func(have Often) bool { return have.Speed == o.Speed && have.Kind == o.Kind && have.Item == o.Item })
		if at < 0 {
			at, all = len(all), append(all, o)
		}
		all[at].Share++
	}
	for i := range all {
		all[i].Share /= float64(n)
	}
	slices.SortStableFunc(all, func(a, b Often) int { return sign(b.Share - a.Share) })
	return all
}

// Same tells whether two margins are of one limit that stands alike in several speeds, as what a duty uses up of a part does.
func (m *MarginSpread) Same(o *MarginSpread) bool {
	return m.Kind == o.Kind && m.Item == o.Item && m.Left == o.Left
}

// ratioSpreads compare the second box with the first, sample by sample.
func ratioSpreads(solved [][]sample, boxes []BoxSpread) (all []RatioSpread) {
	of := func(speed string, torque func(*sample) float64) RatioSpread {
		ratio := make([]float64, len(solved))
		for i := range solved {
			ratio[i] = torque(&solved[i][1]) / torque(&solved[i][0]) // ∞/∞ is none
		}
		return RatioSpread{speed, band(ratio), chance.Chance(ratio, func(r float64) bool { return r < 1 })}
	}
	all = append(all, of("", (*sample).least))
	for _, v := range boxes[0].Speeds {
		if slices.ContainsFunc(boxes[1].Speeds, func(w SpeedSpread) bool { return w.Name == v.Name }) {
			all = append(all, of(v.Name, func(s *sample) float64 {
				if d := s.speed(v.Name); d != nil {
					return d.first.Torque
				}
				return math.NaN()
			}))
		}
	}
	return all
}
