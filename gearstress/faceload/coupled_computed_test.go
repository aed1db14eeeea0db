package faceload

import (
	"math"
	"testing"
)

// section is a piece of shaft: length, outer diameter, bore, mm.
type section struct{ length, outer, bore float64 }

// stepped is the compliance of a stepped shaft on two rigid bearings at the given places, in one plane, by virtual work:
// ∫ M M̄/(E I) + ∫ V V̄/(κ G A), with the shear coefficient κ of Cowper (1966). The middle of the face is at x.
func stepped(sections []section, left, right, x float64) kernel {
	const young, poisson = 206000, 0.3
	// state is moment and shear at s under a unit load at p.
	state := func(s, p float64) (moment, shear float64) {
		reaction := (right - p) / (right - left)
		if s < p {
			return reaction * (s - left), reaction
		}
		return reaction*(s-left) - (s - p), reaction - 1
	}
	return func(a, b float64) float64 {
		a, b = a+x, b+x
		sum, from := 0.0, 0.0
		for _, q := range sections {
			to := from + q.length
			m := q.bore / q.outer
			inertia := math.Pi / 64 * (math.Pow(q.outer, 4) - math.Pow(q.bore, 4))
			area := math.Pi / 4 * (q.outer*q.outer - q.bore*q.bore)
			r := (1 + m*m) * (1 + m*m)
			cowper := 6 * (1 + poisson) * r / ((7+6*poisson)*r + (20+12*poisson)*m*m)
			// Between these places the integrand is a parabola, so Simpson's rule is exact.
			at := []float64{max(from, left), min(max(min(a, b), from, left), to, right), min(max(a, b, from, left), to, right), min(to, right)}
			for i := 1; i < len(at); i++ {
				l := at[i] - at[i-1]
				if l <= 0 {
					continue
				}
				for _, p := range []struct{ at, weight float64 }{{1e-12, 1}, {0.5, 4}, {1 - 1e-12, 1}} {
					s := at[i-1] + p.at*l
					ma, va := state(s, a)
					mb, vb := state(s, b)
					sum += l / 6 * p.weight * (ma*mb/(young*inertia) + va*vb/(cowper*young/(2*(1+poisson))*area))
				}
			}
			from = to
		}
		return sum
	}
}

// Figures of a separate program of our own: spur pair, both gears fast on stepped shafts, rigid bearings; dense Timoshenko frame,
// 81 slices of equal width read in their middle. Status: computed. 14/43 teeth, module 2.25, face 18 mm, c_γ 15000 N/mm²,
// 250 N·m on a base circle of 29.600318 mm. A spur pair bends in the plane of action alone.
func TestSpurPairOnElasticShafts(t *testing.T) {
	const face, force = 18.0, 16891.7
	driver := stepped([]section{{30, 30, 0}, {30, 34, 0}, {60, 38, 10}, {35, 36, 10}, {25, 28, 0}}, 12, 168, 48)
	driven := stepped([]section{{22, 35, 0}, {45, 42, 14}, {50, 46, 14}, {45, 44, 0}, {40, 38, 0}}, 10, 192, 48)
	both := func(a, b float64) float64 { return driver(a, b) + driven(a, b) }
	near(t, "force from the torque", 2*250000/29.600318, force, 0.05)

	// With 81 stations the middle of the first of 81 slices lies 40/81 of a spacing from the first station.
	r := solve(t, one(Mesh{Slices: 81, Face: face, Stiffness: 15000, Force: force}, both))
	q := r.LineLoad[0]
	left := q[0] + (q[1]-q[0])*40.0/81
	right := q[80] + (q[79]-q[80])*40.0/81
	near(t, "line load in the first slice", left, 1133.89, 0.6)
	near(t, "line load in the last slice", right, 800.59, 0.5)
	near(t, "K in the first slice", left/(force/face), 1.2083, 0.0006)
	near(t, "contact", r.ContactFraction(0), 1, 0)

	// The end of the face itself, to be read with fewer stations.
	end := r.FaceLoadFactor(0)
	for _, count := range []int{11, 21, 41} {
		k := solve(t, one(Mesh{Slices: count, Face: face, Stiffness: 15000, Force: force}, both)).FaceLoadFactor(0)
		near(t, "K at the end", k, end, 1e-4)
	}
}
