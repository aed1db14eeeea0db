package study

import (
	"cmp"
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/material"
)

// Ranking sets the allowable torques of a box against those of the first, with what neither knows drawn once for both: a
// steel of one name is poor in both boxes, or good in both.
type Ranking struct {
	Box    int      // of Comparison.Results
	Steels []string // the steels that both boxes are made of
	Common bool     // whether they are drawn once for both: the boxes are made of steels of the same names, and not of batches that are told to differ
	Batch  bool     // whether the batch of each is told, so that it is known to be one steel
	Speeds []RankedSpeed
	Alone  [2][]string // speeds that only the first box has, and that only this one has
	Steel  bool        // whether any of the torques is one of what breaks or wears out, which hangs on the steel
	Guides bool        // whether any of them is one of a guide, where guides were let decide
}

// RankedSpeed is one speed that both boxes have.
type RankedSpeed struct {
	Name  string
	Ratio [material.High + 1]float64 // allowable torque over that of the first box, with all ranges of both at one end, by level
	// Least and Most are the range of the ratio: over the common levels, or where nothing is common over all pairs of levels.
	Least, Most float64
	Holds       bool // whether one box allows more, or both the same, over all of the range
}

// ranked sets every box against the first. Solutions in brief don't tell enough; their speeds are left out.
func ranked(results []*gearbox.Result) (all []Ranking) {
	for i := 1; i < len(results); i++ {
		r := Ranking{Box: i}
		r.steels(results[0].Box, results[i].Box)
		for k := range results[0].Speeds {
			a := &results[0].Speeds[k]
			n := slices.IndexFunc(results[i].Speeds, named(a.Name))
			if n < 0 {
				r.Alone[0] = append(r.Alone[0], a.Name)
				continue
			}
			if s, ok := r.speed(a, &results[i].Speeds[n]); ok {
				r.Speeds = append(r.Speeds, s)
				r.sorts(a)
				r.sorts(&results[i].Speeds[n])
			}
		}
		for k := range results[i].Speeds {
			if name := results[i].Speeds[k].Name; !slices.ContainsFunc(results[0].Speeds, named(name)) {
				r.Alone[1] = append(r.Alone[1], name)
			}
		}
		all = append(all, r)
	}
	return all
}

// Same tells whether both boxes allow the same over all of the range, but for less than anybody measures.
func (s *RankedSpeed) Same() bool { return s.Least > 1-sameNumber && s.Most < 1+sameNumber }

// sorts finds out of what sort the limits are that the torques of a speed are those of.
func (r *Ranking) sorts(s *gearbox.SpeedResult) {
	for level := range s.Ends {
		switch end := &s.Ends[level]; {
		case math.IsInf(end.Torque, 1):
		case end.Kind.Class() == gearbox.Guide:
			r.Guides = true
		default:
			r.Steel = true
		}
	}
}

// speed ranks one speed.
func (r *Ranking) speed(a, b *gearbox.SpeedResult) (s RankedSpeed, ok bool) {
	s = RankedSpeed{Name: a.Name, Least: math.Inf(1), Most: math.Inf(-1)}
	for l := range s.Ratio {
		s.Ratio[l] = ratio(b.Allowable(material.Level(l)), a.Allowable(material.Level(l)))
		for k := range s.Ratio {
			if l == k || !r.Common {
				of := ratio(b.Allowable(material.Level(l)), a.Allowable(material.Level(k)))
				s.Least, s.Most = min(s.Least, of), max(s.Most, of)
			}
		}
	}
	s.Holds = s.Least > 1-sameNumber || s.Most < 1+sameNumber
	return s, !math.IsNaN(s.Least) && !math.IsNaN(s.Most)
}

// ratio of two torques of which either may be without end.
func ratio(b, a float64) float64 {
	if math.IsInf(a, 1) && math.IsInf(b, 1) {
		return 1
	}
	return b / a
}

// steels finds out whether two boxes are made of the same steels.
func (r *Ranking) steels(a, b *gearbox.Box) {
	r.Steels, r.Common, r.Batch = steelNames(a), true, true
	if !slices.Equal(r.Steels, steelNames(b)) {
		r.Steels, r.Common, r.Batch = nil, false, false
		return
	}
	for _, name := range r.Steels {
		x, _ := a.Steel(name)
		y, _ := b.Steel(name)
		told := x.Batch != "" && y.Batch != ""
		r.Batch = r.Batch && told
		r.Common = r.Common && !(told && x.Batch != y.Batch)
	}
}

// steelNames are the steels that gears and shafts are made of, in alphabetical order.
func steelNames(b *gearbox.Box) (names []string) {
	for _, s := range b.Shafts {
		names = append(names, cmp.Or(s.Steel, gearbox.DefaultSteel))
	}
	for _, g := range b.Gears {
		names = append(names, cmp.Or(g.Steel, gearbox.DefaultSteel))
	}
	slices.Sort(names)
	return slices.Compact(names)
}
