package faceload

import "math"

// Profile is a gap along the face: mm of gap at ξ mm from the middle of the face. It holds on the face only,
// −b/2 ≤ ξ ≤ b/2.
type Profile func(xi float64) float64

// Crowning is lead crowning of the given amount C, mm: gap = C (2ξ/b)², nothing in the middle and C at both ends of
// the face of width b, mm (a parabola; the arc of ISO 21771 differs from it by far less than it can be ground).
func Crowning(face, amount float64) Profile {
	return func(xi float64) float64 {
		u := 2 * xi / face
		return amount * u * u
	}
}

// LeadError is a straight lead error, helix angle error or helix correction of the given amount A over the whole
// face, mm: gap = A (ξ/b + 1/2). A positive amount opens the end at ξ = +b/2, a negative one closes it.
func LeadError(face, amount float64) Profile {
	return func(xi float64) float64 { return amount * (xi/face + 0.5) }
}

// Relief is what is taken off one end of a face. Its zero value takes off nothing.
type Relief struct {
	Length float64 // from the end of the face inwards, mm
	Amount float64 // at the end of the face, mm
	Power  float64 // –: 1 straight, 2 parabola, …; 0 counts as 1
}

// EndRelief opens both ends of a face of width b, mm: with t the distance from the inner edge of the relief as a
// share of its length, gap = Amount · t^Power. low acts at ξ = −b/2, high at ξ = +b/2.
func EndRelief(face float64, low, high Relief) Profile {
	return func(xi float64) float64 { return low.at(face/2+xi) + high.at(face/2-xi) }
}

// at is the relief at some distance from the end of the face, mm.
func (r Relief) at(fromEnd float64) float64 {
	if fromEnd >= r.Length || r.Amount == 0 {
		return 0
	}
	t := 1 - fromEnd/r.Length
	if r.Power == 0 {
		return r.Amount * t
	}
	return r.Amount * math.Pow(t, r.Power)
}

// Gap is the sum of the profiles at the stations of a mesh, mm, as Mesh.Gap wants it.
func Gap(slices int, face float64, profiles ...Profile) []float64 {
	g := make([]float64, slices)
	for i := range g {
		for _, p := range profiles {
			g[i] += p(station(i, slices, face))
		}
	}
	return g
}
