package gearbox

import (
	"fmt"
	"math"
	"slices"
)

// Synchroniser is what has to be brought to another turning speed when a speed is engaged with the clutch open: all that hangs on
// the input shaft while every gear that can turn freely is released.
//
// It is told at the axis on which the free gear sits: J_s = Σ J_k (ω_k/ω_s)², over the parts k that turn with the input shaft; ω_s is how fast the side of the
// synchroniser turns that belongs to them. The kinetic energy is that of all parts: ½ J_s ω_s² = Σ ½ J_k ω_k².
type Synchroniser struct {
	Speed   string
	Gear    string  // the free gear that it joins to Shaft; "" where a direct speed joins two shafts
	Shaft   string  // the shaft whose axis Inertia is told for
	Ratio   float64 // turns of its input side per turn of the input shaft; negative the other way round
	Inertia float64 // J_s, kg·mm²; NaN when it can't be known
	Shares  []InertiaShare
	Up      *Shift // into this speed from the next shorter one; nil when there is none, or the input's revs or J_s aren't known
	Down    *Shift // into this speed from the next longer one
	Unknown string // why J_s can't be known, and which key would tell; "" when it is
}

// InertiaShare is what one part brings to J_s.
type InertiaShare struct {
	Part    string
	Ratio   float64 // turns per turn of the synchroniser's input side
	Inertia float64 // J_k (ω_k/ω_s)², kg·mm²
}

// Shift is what a synchroniser does in one shift. The input shaft turns at the revs of the box before it when shifting up, and after it when shifting down, so that
// both have it at the engine's best; the car goes on as fast as it went; oil drag, which helps up and hinders down, is left out.
type Shift struct {
	From       string  // the speed it comes from
	Difference float64 // of turning speed over the synchroniser at its beginning, rad/s, ≥ 0
	TorqueTime float64 // ∫ T dt = J_s Δω that matches both sides, N·mm·s
	Heat       float64 // ½ J_s Δω², what slipping leaves in the cones, N·mm
}

// perNewton turns kg·mm²/s² into N·mm: 1 N = 1 kg·m/s² = 1000 kg·mm/s².
const perNewton = 1.0 / 1000

// synchronisers works out every speed, in the order of the file.
func (p *prepared) synchronisers(w *Weights) []Synchroniser {
	all := make([]Synchroniser, len(p.box.Speeds))
	r := p.release()
	for i, s := range p.box.Speeds {
		all[i] = p.synchroniser(s, r, w)
	}
	if p.box.Revs > 0 {
		p.shifts(all)
	}
	return all
}

// released is the tie between gears and shafts when every gear on a seat is let go: how fast each turns against the input shaft; NaN = not tied to it.
type released struct {
	shafts, gears []float64
	locked        bool // two ways lead to one part, and don't agree
}

// release lets every free gear go and follows the input shaft over gears that are fast and meshes that stay in contact.
func (p *prepared) release() released {
	r := released{make([]float64, len(p.box.Shafts)), make([]float64, len(p.box.Gears)), false}
	for _, list := range [][]float64{r.shafts, r.gears} {
		for i := range list {
			list[i] = math.NaN()
		}
	}
	lasting := p.lasting()
	r.shafts[p.shaft[p.box.Input.Shaft]] = 1
	// Each round ties what touches the tied; a box has fewer ties than parts.
	for again := true; again; {
		again = false
		tie := func(to *float64, speed float64) {
			switch {
			case math.IsNaN(speed):
			case math.IsNaN(*to):
				*to, again = speed, true
			case math.Abs(*to-speed) > 1e-9*math.Abs(speed):
				r.locked = true
			}
		}
		for i, g := range p.box.Gears {
			if g.Seat == nil {
				s := &r.shafts[p.shaft[g.Shaft]]
				tie(&r.gears[i], *s)
				tie(s, r.gears[i])
			}
		}
		for m, q := range p.pairs {
			if lasting[m] {
				u := float64(q.geometry.Teeth[0]) / float64(q.geometry.Teeth[1])
				tie(&r.gears[q.gears[1]], -u*r.gears[q.gears[0]])
				tie(&r.gears[q.gears[0]], -r.gears[q.gears[1]]/u)
			}
		}
	}
	return r
}

// lasting tells of each mesh whether it is known to stay in contact in other speeds: some speed uses it that has a free gear to engage. A speed without one is engaged in a way the file doesn't tell, perhaps by sliding a gear into mesh.
func (p *prepared) lasting() []bool {
	all := make([]bool, len(p.pairs))
	for _, s := range p.box.Speeds {
		if len(p.freeOn(s)) > 0 {
			for _, m := range s.Path {
				all[p.mesh[m]] = true
			}
		}
	}
	return all
}

// freeOn lists the gears on the way of a speed that turn freely on the shaft to or from which they hand the power. An idler hands it from mesh to mesh, however it sits.
func (p *prepared) freeOn(s Speed) (free []int) {
	var chain []int // gears in the order of the power
	for _, m := range s.Path {
		chain = append(chain, p.pairs[p.mesh[m]].gears[:]...)
	}
	for k, g := range chain {
		idler := k%2 == 1 && k+1 < len(chain) && chain[k+1] == g || k%2 == 0 && k > 0 && chain[k-1] == g
		if !idler && p.box.Gears[g].Seat != nil {
			free = append(free, g)
		}
	}
	return free
}

// synchroniser works out one speed.
func (p *prepared) synchroniser(s Speed, r released, w *Weights) Synchroniser {
	y := Synchroniser{Speed: s.Name, Inertia: math.NaN()}
	unknown := func(format string, args ...any) Synchroniser {
		y.Unknown = fmt.Sprintf(format, args...)
		return y
	}
	input, output := p.box.Input.Shaft, p.box.Output.Shaft
	if r.locked || !math.IsNaN(r.shafts[p.shaft[output]]) {
		return unknown("with every gear that has a seat released, input and output shaft are still tied together: give a seat to each gear that turns freely until it is engaged")
	}
	seats := slices.ContainsFunc(p.box.Gears, func(g Gear) bool { return g.Seat != nil })
	switch {
	case len(p.box.Meshes) > 0 && !seats:
		return unknown("no gear of the box is told to turn freely: give a seat to each one that does until it is engaged")
	case s.Direct:
		y.Shaft, y.Ratio = input, 1
	default:
		free := p.freeOn(s)
		switch {
		case len(free) == 0:
			return unknown("no gear on its way is told to turn freely: give that one a seat; if a gear slides into mesh instead, there is no synchroniser")
		case len(free) > 1:
			return unknown("more than one gear on its way turns freely (%s), and which one the synchroniser engages isn't told", quotedNames(p.box.Gears, free))
		}
		g := p.box.Gears[free[0]]
		y.Gear, y.Shaft = g.Name, g.Shaft
		gear, shaft := r.gears[free[0]], r.shafts[p.shaft[g.Shaft]]
		switch {
		case math.IsNaN(gear) == math.IsNaN(shaft):
			return unknown("%q and the %s are not on different sides of the synchroniser, as far as the file tells: look which gears have a seat", g.Name, ShaftTitle(g.Shaft))
		case math.IsNaN(gear):
			y.Ratio = shaft
		default:
			y.Ratio = gear
		}
	}
	y.Inertia = 0
	for _, part := range w.Parts {
		speed := math.NaN()
		switch part.Kind {
		case ShaftPart:
			speed = r.shafts[p.shaft[part.Name]]
		case GearPart:
			speed = r.gears[p.gear[part.Name]]
		case OtherPart:
			if part.On != "" {
				speed = r.shafts[p.shaft[part.On]]
			}
		}
		if math.IsNaN(speed) || math.IsNaN(part.Inertia) {
			continue
		}
		name := part.Name
		if part.Kind == ShaftPart {
			name = ShaftTitle(name)
		}
		ratio := speed / y.Ratio
		share := InertiaShare{name, ratio, part.Inertia * ratio * ratio}
		y.Shares = append(y.Shares, share)
		y.Inertia += share.Inertia
	}
	return y
}

// noteSynchronisers says what the inertia at the synchronisers lacks.
func (p *prepared) noteSynchronisers(w *Weights) {
	if !slices.ContainsFunc(w.Synchronisers, func(y Synchroniser) bool { return y.Unknown == "" }) {
		return
	}
	if !slices.ContainsFunc(p.box.Parts, func(o Part) bool { return o.TurnsWith == p.box.Input.Shaft }) {
		w.Notes = append(w.Notes, "At the synchronisers: no other part is told to turn with the input shaft. A clutch disc does: tell it under parts, with its inertia and turns_with: "+p.box.Input.Shaft+".")
	}
	for _, s := range p.box.Speeds {
		if !s.Direct && len(p.freeOn(s)) == 0 {
			w.Notes = append(w.Notes, fmt.Sprintf("At the synchronisers: no gear on the way of %s is told to turn freely, so its meshes are taken to be apart while another speed is engaged, where no other speed uses them.", s.Name))
		}
	}
}

func quotedNames(gears []Gear, which []int) (list string) {
	for k, g := range which {
		if k > 0 {
			list += ", "
		}
		list += quoted(gears[g].Name)
	}
	return list
}

// shifts adds what each synchroniser does in the shifts from its neighbours: the next shorter and the next longer ratio of the same sense.
func (p *prepared) shifts(all []Synchroniser) {
	ratios := make([]float64, len(all))
	order := make([]int, len(all))
	for i, s := range p.box.Speeds {
		ratios[i] = p.follow(s, float64(p.box.Turns)).ratio
		order[i] = i
	}
	// Shortest first: it has the largest ratio. Reverse comes apart from the others.
	slices.SortStableFunc(order, func(i, j int) int {
		switch a, b := ratios[i], ratios[j]; {
		case a == b:
			return 0
		case a > b:
			return -1
		}
		return 1
	})
	shift := func(into, from int, slower float64) *Shift {
		y := &all[into]
		if math.IsNaN(y.Inertia) || math.Signbit(ratios[into]) != math.Signbit(ratios[from]) || ratios[into] == ratios[from] {
			return nil
		}
		d := p.box.Revs * (1 - slower) * math.Abs(y.Ratio)
		return &Shift{
			From: p.box.Speeds[from].Name, Difference: d,
			TorqueTime: y.Inertia * d * perNewton, Heat: y.Inertia * d * d / 2 * perNewton,
		}
	}
	for k := range order[1:] {
		a, b := order[k], order[k+1]
		short, long := a, b
		if math.Abs(ratios[a]) < math.Abs(ratios[b]) {
			short, long = b, a
		}
		step := ratios[long] / ratios[short] // input revs after an upshift over those before it
		all[long].Up = shift(long, short, step)
		all[short].Down = shift(short, long, step)
	}
}
