package critical

import "math"

// Discs is the frequency at which two discs swing against each other, rad/s: √(k (J1 + J2)/(J1 J2)), k in N·mm/rad, J in kg·mm²; node is where
// between them the shaft stands still, as a share of its length from the first.
func Discs(j1, j2, stiffness float64) (frequency, node float64) {
	return math.Sqrt(stiffness * perMeter * (j1 + j2) / (j1 * j2)), j2 / (j1 + j2)
}

// Geared are the two frequencies of a disc on a shaft, a mesh, and a shaft with a disc, rad/s. The wheels of the mesh have inertias of their own; ratio is
// how often the first shaft turns per turn of the second. Seen from the first, inertias and stiffnesses behind the mesh are divided by
// its square.
func Geared(first, firstShaft, pinion, wheel, secondShaft, second, ratio float64) (low, high float64) {
	i2 := ratio * ratio
	middle, k2, last := pinion+wheel/i2, secondShaft/i2*perMeter, second/i2
	k1 := firstShaft * perMeter
	// det(K − ω² M) = 0 of three discs, less the rigid turning: J1 J2 J3 ω⁴ − (…) ω² + k1 k2 (J1 + J2 + J3) = 0.
	a := first * middle * last
	b := k1*last*(first+middle) + k2*first*(middle+last)
	c := k1 * k2 * (first + middle + last)
	root := math.Sqrt(b*b - 4*a*c)
	return math.Sqrt(2 * c / (b + root)), math.Sqrt((b + root) / (2 * a))
}

// Spring is a shaft on the way of the torque: its stiffness, N·mm/rad, and how often the input turns per turn of it.
type Spring struct{ Stiffness, Ratio float64 }

// WindUp is the stiffness of springs in series seen from the input, N·mm/rad, and the share of each in what gives way: a stiffness is
// divided by the square of the ratio between.
func WindUp(springs []Spring) (stiffness float64, shares []float64) {
	give := 0.0
	for _, s := range springs {
		give += s.Ratio * s.Ratio / s.Stiffness
	}
	for _, s := range springs {
		shares = append(shares, s.Ratio*s.Ratio/s.Stiffness/give)
	}
	return 1 / give, shares
}
