package gearbox

import (
	"fmt"
	"math"

	"layshaft/beam/bearing"
)

// bearingLoad is what one bearing carries at one torque.
type bearingLoad struct {
	radial, axial float64 // N, ≥ 0; of a tapered pair with induced thrust and preload
	heaviest      float64 // load of its heaviest element, N; 0 = its elements aren't known
}

// bearing is what a bearing of a shaft carries.
func (m *measure) bearing(shaft, j int) (l bearingLoad, err error) {
	reactions, err := m.reactions(shaft)
	if err != nil {
		return l, err
	}
	r := reactions[j]
	l = bearingLoad{radial: m.grown * math.Hypot(r.Fy, r.Fz), axial: m.grown * math.Abs(r.Fx)}
	for k, row := range m.rows {
		if at := &m.solver.footing.mounts[k]; at.shaft == shaft && at.bearing == j {
			l.heaviest = m.grown * row.heaviest
		}
	}
	return l, nil
}

// bearingRating is what a bearing bears, as it is judged.
type bearingRating struct {
	bearing.Rating
	elements *bearing.Elements
	at       [3]float64 // C and C₀ over those of Rating at each end of the band
	source   string     //
	fatigue  float64    // C_u, N; 0 = not known
	squeezed float64    // byHeaviest of a row that is squeezed, at rest, N
	pitch    float64    // diameter of the circle through the elements, mm; 0 = not known
}

// rowScatter is how far a maker's rating may lie from that of the elements by the standard; common practice, no source.
const rowScatter = 0.2

// rated finds the ratings of a bearing: of its catalogue, or else of its elements. It is not ok where there are none, or the thrust of a tapered bearing isn't known.
func (p *prepared) rated(shaft, j int) (r bearingRating, ok bool) {
	s := &p.box.Shafts[shaft]
	br := s.Bearings[j]
	if br.Type == TaperedRoller && s.Pair == nil {
		return r, false
	}
	r = bearingRating{elements: br.Elements, at: [3]float64{1, 1, 1}}
	switch {
	case br.Rating != nil:
		r.Rating, r.source = *br.Rating, "rating of the box file"
		r.complete(br.Elements)
	case br.Elements != nil:
		var err error
		if r.Rating, err = br.Elements.RowRating(); err != nil {
			return r, false
		}
		r.at = [3]float64{1 - rowScatter, 1, 1 + rowScatter}
		r.source = fmt.Sprintf("rating of its elements by ISO 281 and ISO 76 (from memory), ±%.0f %% as makers differ", 100*rowScatter)
	default:
		return r, false
	}
	if br.Elements != nil && br.Elements.Clearance < 0 {
		r.squeezed = r.byHeaviest(p.atRest(shaft, j))
	}
	if r.pitch = r.Mean; br.Elements != nil {
		r.pitch = br.Elements.Pitch
	}
	if r.fatigue = r.Fatigue; r.fatigue == 0 && r.Static > 0 {
		r.fatigue = bearing.FatigueLimit(r.Kind, r.Static)
	}
	return r, true
}

// complete fills in what the catalogue's factors have in common: e = 1.5 tan α, Y = 0.4 cot α, Y₀ = 0.22 cot α, and the contact angle of balls.
func (r *bearingRating) complete(e *bearing.Elements) {
	if r.Kind == bearing.Ball && e != nil {
		r.Angle = math.Abs(e.ContactAngle)
	}
	if r.Kind != bearing.Tapered {
		return
	}
	if r.Y == 0 && e != nil {
		_, r.Y, _ = bearing.TaperedFactors(e.ContactAngle)
	}
	if r.E == 0 && r.Y > 0 {
		r.E = 1.5 * 0.4 / r.Y
	}
	if r.Y0 == 0 {
		r.Y0 = 0.22 / 0.4 * r.Y
	}
}

// takes are the radial and axial force that count: straight rollers take thrust at their ribs, which no rating speaks of.
func (r *bearingRating) takes(l bearingLoad) (radial, axial float64) {
	if r.Kind == bearing.Cylindrical || r.Kind == bearing.Needle {
		return l.radial, 0
	}
	return l.radial, l.axial
}

// byHeaviest is the radial force that would load the heaviest element of a row without play as much, N: play, squeeze,
// preload and tilt load it more than the forces from outside say, and what they take from the life isn't given back.
func (r *bearingRating) byHeaviest(l bearingLoad) float64 {
	if r.elements == nil {
		return 0
	}
	half := 4.37 // of half a ring of balls, 4.08 of rollers (Sjövall's integrals)
	if r.Kind != bearing.Ball {
		half = 4.08
	}
	return l.heaviest * float64(r.elements.Count) * math.Cos(r.elements.ContactAngle) / half
}

// equivalent is the dynamic equivalent load, N, and staticEquivalent the static one. What a squeezed row carries at rest comes on top.
func (r *bearingRating) equivalent(l bearingLoad) (float64, error) {
	p, err := r.Equivalent(r.takes(l))
	return max(p+r.squeezed, r.byHeaviest(l)), err
}

func (r *bearingRating) staticEquivalent(l bearingLoad) (float64, error) {
	p, err := r.StaticEquivalent(r.takes(l))
	return max(p+r.squeezed, r.byHeaviest(l)), err
}

// lasts reports whether a life can be told: C is known, and what the thrust is weighed with.
func (r *bearingRating) lasts() bool {
	switch {
	case r.Dynamic == 0:
		return false
	case r.Kind == bearing.Ball:
		return r.Static > 0
	case r.Kind == bearing.Tapered:
		return r.Y > 0
	}
	return true
}

// atRest is what a bearing carries without any torque: the preload of its pair, and elements that are squeezed.
func (p *prepared) atRest(shaft, j int) (l bearingLoad) {
	s := &p.box.Shafts[shaft]
	last := len(s.Bearings) - 1
	e := s.Bearings[j].Elements
	switch {
	case e == nil:
	case s.Pair != nil && (j == 0 || j == last):
		if preload := s.preload(); preload > 0 {
			l.axial = preload
			l.heaviest = preload / (float64(e.Count) * math.Sin(math.Abs(e.ContactAngle)))
		}
	case e.Clearance < 0:
		if h, _, err := e.Hold(bearing.Stance{}, 0); err == nil {
			l.heaviest = h.Heaviest
		}
	}
	return l
}
