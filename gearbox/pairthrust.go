package gearbox

import (
	"math"
	"slices"

	"layshaft/beam"
	"layshaft/beam/bearing"
)

// A pair of tapered bearings holds its shaft along the axis by itself: each pushes the shaft with what its radial force
// induces and with its preload, and one of them takes the thrust of the gears on top. To the beam the first of the pair
// is fixed along the axis, and what the last one gives is put on as a load, so that the first is left with the rest.

// rowLoad is what a bearing of known elements carries beside what the shaft shows.
type rowLoad struct {
	ring     float64 // where its inner ring rests along +x, mm
	along    float64 // force of it on the shaft along +x, N
	heaviest float64 // load of its heaviest element, N
}

// pairForce is the last bearing of a pair pushing its shaft along +x, N.
func (p *prepared) pairForce(shaft int, force float64) beam.Load {
	all := p.box.Shafts[shaft].Bearings
	return beam.Load{X: all[len(all)-1].At, Fx: force}
}

// pairLoad is what the last bearing of a pair puts on its shaft along it: what its rollers carry there, or by the rule of
// catalogues (F_a = 0.5 F_r/Y at least) from the radial forces of both; reactions are those without it.
func (v *solver) pairLoad(shaft int, reactions []beam.Reaction, rows []rowLoad) beam.Load {
	s := &v.p.box.Shafts[shaft]
	last := len(s.Bearings) - 1
	if s.Bearings[0].Elements != nil {
		for k := range rows {
			if m := &v.footing.mounts[k]; m.shaft == shaft && m.bearing == last {
				return v.p.pairForce(shaft, rows[k].along)
			}
		}
		return v.p.pairForce(shaft, 0) // torque alone: no row was asked
	}
	thrust := 0.0
	for _, r := range reactions {
		thrust -= r.Fx
	}
	induced := func(j int) float64 {
		return bearing.Induced(math.Hypot(reactions[j].Fy, reactions[j].Fz), s.Bearings[j].Rating.Y)
	}
	_, b := bearing.PairAxial(s.Pair.Arrangement, induced(0), induced(last), thrust)
	if s.Pair.Arrangement == bearing.FaceToFace {
		b = -b
	}
	return v.p.pairForce(shaft, b)
}

// reactions are the forces and couples of the bearings on a shaft.
func (st *state) reactions(shaft int) []beam.Reaction {
	all := slices.Clone(st.solved[shaft].Reactions())
	if st.last != nil {
		all[len(all)-1].Fx += st.last[shaft]
	}
	return all
}

// bearingStates enters what the beam doesn't know of the bearings of a shaft.
func (p *prepared) bearingStates(shaft int, st *state, r *ShaftResult) {
	s := &p.box.Shafts[shaft]
	if s.Pair != nil {
		last := len(s.Bearings) - 1
		if s.Bearings[0].Elements != nil {
			preload := s.preload()
			r.Bearings[0].Preload, r.Bearings[last].Preload = preload, preload
		}
	}
	for k, row := range st.rows {
		if m := &st.mounts[k]; m.shaft == shaft {
			r.Bearings[m.bearing].Ring, r.Bearings[m.bearing].Heaviest = row.ring, row.heaviest
		}
	}
}

// Bench is the pair of a shaft as it stands on the bench, in a case of a stiffness along the shaft, N/mm; ok is false
// where the shaft has none of known elements.
func (s *Shaft) Bench(stiffness float64) (b bearing.Bench, ok bool) {
	if s.Pair == nil || s.Bearings[0].Elements == nil {
		return b, false
	}
	first, last := s.Bearings[0], s.Bearings[len(s.Bearings)-1]
	pair := bearing.Pair{Arrangement: s.Pair.Arrangement, A: *first.Elements, B: *last.Elements}
	return bearing.Bench{Pair: pair, Case: stiffness}, true
}

// preload is that of the pair of a shaft at rest in a rigid case, N; NaN where it can't be told.
func (s *Shaft) preload() float64 {
	b, ok := s.Bench(math.Inf(1))
	if !ok {
		return math.NaN()
	}
	rest, err := b.At(s.Pair.EndPlay)
	if err != nil {
		return math.NaN()
	}
	return rest.Preload
}

// facingNote tells that the thrust of tapered bearings is only roughly shown where nobody says how they face each other.
func (p *prepared) facingNote(shaft int) []string {
	s := &p.box.Shafts[shaft]
	if s.Pair != nil || len(s.Bearings) < 2 || !p.tapered([]Bearing{s.Bearings[0], s.Bearings[len(s.Bearings)-1]}) {
		return nil
	}
	return []string{ShaftTitle(s.Name) + ": how its tapered bearings face each other isn't given (pair), so the thrust stands whole at the one that is fixed along the axis, without what their radial forces induce."}
}
