package study

import (
	"cmp"
	"math"

	"layshaft/gearbox"
)

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
	Limits     []gearbox.FirstLimit // up to three, the one reached first in front; each is another trouble, or of another part, than those before
	Left       float64              // torque margin by what arrives, where that is known; else Asked
	State      gearbox.State        // Left held against the wanted reserve
	Asked      float64              // allowable torque ÷ torque asked − 1
	Holding    float64              // torque limit that keeps the wanted reserve: allowable torque ÷ (1 + wanted reserve), N·mm; +Inf = none needed
	FaceFactor float64              // largest K_Hβ of the meshes of the speed at the torque asked; NaN when it has none
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
func reserves(r *gearbox.Result) (all []Reserve) {
	for i := range r.Speeds {
		s := &r.Speeds[i]
		one := Reserve{Speed: s.Name, FaceFactor: faceFactor(s), Limits: distinct(s), Left: math.Inf(1), State: gearbox.Clear}
		one.Asked = one.Allowable()/math.Abs(r.Torque) - 1
		one.Holding = one.Allowable() / (1 + r.Box.Limits.Reserve)
		if m := s.Deciding(); m != nil {
			one.Left, one.State = m.Left(), m.Judged()
		}
		all = append(all, one)
	}
	return all
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

// distinct are the first limits of a speed that are different troubles or of different parts. Both flanks of a mesh bear the same stress, and are one part.
func distinct(s *gearbox.SpeedResult) (all []gearbox.FirstLimit) {
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
			k.part = cmp.Or(m.Mesh, mesh)
		}
		if seen[k] {
			continue
		}
		seen[k] = true
		all = append(all, m.First())
		if len(all) == shownLimits {
			break
		}
	}
	return all
}
