package study

import (
	"fmt"
	"math"

	"layshaft/gearbox"
)

// Limit is a limit with the torque at which it is reached.
type Limit struct {
	Kind   gearbox.Kind
	Item   string  // what runs out: "first pinion"
	Torque float64 // input torque at which it is reached, N·mm > 0; +Inf = not reached
}

// trouble is what a limit is about: fatigue and peak of one tooth are the same trouble, root and flank are not.
func trouble(k gearbox.Kind) gearbox.Kind {
	switch k {
	case gearbox.RootPeak:
		return gearbox.RootFatigue
	case gearbox.FlankPeak:
		return gearbox.FlankFatigue
	}
	return k
}

// Reserve is what one speed has left.
type Reserve struct {
	Speed      string
	Limits     []Limit       // up to three, the one reached first in front; each is another trouble, or of another part, than those before
	Left       float64       // allowable torque ÷ torque asked − 1
	State      gearbox.State // Left held against the wanted reserve
	Holding    float64       // torque limit that keeps the wanted reserve: allowable torque ÷ (1 + wanted reserve), N·mm; +Inf = none needed
	FaceFactor float64       // largest K_Hβ of the meshes of the speed at the torque asked; NaN when it has none
}

// Allowable is the torque at which the first limit is reached, N·mm; +Inf when none is.
func (r *Reserve) Allowable() float64 {
	if len(r.Limits) == 0 {
		return math.Inf(1)
	}
	return r.Limits[0].Torque
}

// shownLimits is how many limits of a speed are told.
const shownLimits = 3

// reserves are those of every speed of a solved box.
func reserves(r *gearbox.Result, load gearbox.Load) (all []Reserve, err error) {
	for i := range r.Speeds {
		s := &r.Speeds[i]
		one := Reserve{Speed: s.Name, FaceFactor: faceFactor(s)}
		if one.Limits, err = exactLimits(r.Box, s, load); err != nil {
			return nil, fmt.Errorf("speed %s: %w", s.Name, err)
		}
		one.judge(r.Box, math.Abs(r.Torque))
		all = append(all, one)
	}
	return all, nil
}

// judge holds the first limit against a torque.
func (r *Reserve) judge(b *gearbox.Box, torque float64) {
	r.Left = r.Allowable()/torque - 1
	r.Holding = r.Allowable() / (1 + b.Limits.Reserve)
	switch {
	case r.Left < 0:
		r.State = gearbox.Over
	case r.Left < b.Limits.Reserve:
		r.State = gearbox.Thin
	default:
		r.State = gearbox.Clear
	}
}

func faceFactor(s *gearbox.SpeedResult) float64 {
	_, most := worstFace(s)
	return most
}

// worstFace is the mesh of a speed with the largest K_Hβ; "" and NaN when it has none.
func worstFace(s *gearbox.SpeedResult) (mesh string, most float64) {
	most = math.NaN()
	for _, m := range s.Meshes {
		if !(m.FaceFactor <= most) {
			mesh, most = m.Name, m.FaceFactor
		}
	}
	return mesh, most
}

// exactLimits are the first limits of a speed, exact however far they lie from the torque asked. A solution tells limits far above its own torque to about one part in a
// thousand, so the speed is solved again near each of those that are told.
func exactLimits(b *gearbox.Box, s *gearbox.SpeedResult, load gearbox.Load) ([]Limit, error) {
	const (
		near  = 1.9 // how far above the torque of a solution its limits are exact, as a factor; gearbox promises twice
		tries = 6
	)
	asked := load.Torque
	if asked == 0 {
		asked = b.Torque
	}
	all := distinct(s)
	for k := range all {
		from := math.Abs(asked)
		for range tries {
			if t := all[k].Torque; math.IsInf(t, 0) || !(t > near*from) {
				break
			}
			from = all[k].Torque
			again := load
			again.Torque, again.Speeds, again.Second = math.Copysign(from, asked), []string{s.Name}, nil
			r, err := gearbox.Solve(b, again)
			if err != nil {
				return nil, err
			}
			for i, l := range distinct(&r.Speeds[0]) {
				if i >= k && i < len(all) { // those in front are exact already
					all[i] = l
				}
			}
		}
	}
	return all, nil
}

// distinct are the first limits of a speed that are different troubles or of different parts. Both flanks of a mesh bear the same stress, and are one part.
func distinct(s *gearbox.SpeedResult) (all []Limit) {
	type key struct {
		of   gearbox.Kind
		part string
	}
	meshOf := map[string]string{}
	for _, m := range s.Meshes {
		meshOf[m.Gears[0]], meshOf[m.Gears[1]] = m.Name, m.Name
	}
	seen := map[key]bool{}
	for i := range s.Margins {
		m := &s.Margins[i]
		k := key{trouble(m.Kind), m.Item}
		if mesh, ok := meshOf[m.Gear]; ok && k.of == gearbox.FlankFatigue {
			k.part = mesh
		}
		if seen[k] {
			continue
		}
		seen[k] = true
		all = append(all, Limit{m.Kind, m.Item, m.Allowable[m.Level]})
		if len(all) == shownLimits {
			break
		}
	}
	return all
}
