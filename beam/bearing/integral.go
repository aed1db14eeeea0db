package bearing

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// LoadIntegrals are the limits of the load distribution for a great many elements (Sjövall's
// integrals) for a contact law Q ∝ δⁿ. The zone ε is the share of the diameter, seen along the
// load, over which elements carry: 0.5 is half the ring, 1 and more all of it. For a row of Z
// elements with contact angle α and heaviest element load Q
//
//	F_r = Z Q cos α · radial    F_a = Z Q sin α · axial
//
//	radial = 1/2π ∫ (1 − (1 − cos ψ)/2ε)ⁿ cos ψ dψ    axial: without cos ψ
//
// over the loaded angles. Source: the integrals as a bearing maker's technical report prints them.
func LoadIntegrals(exponent, zone float64) (radial, axial float64) {
	half := math.Acos(max(-1, 1-2*zone))
	load := func(psi float64) float64 {
		return math.Pow(max(0, 1-(1-math.Cos(psi))/(2*zone)), exponent)
	}
	const points = 96
	radial = quad.Fixed(func(psi float64) float64 { return load(psi) * math.Cos(psi) }, 0, half, points, nil, 0) / math.Pi
	axial = quad.Fixed(load, 0, half, points, nil, 0) / math.Pi
	return radial, axial
}
