package strength

import (
	"fmt"
	"math"
)

// Factors multiply nominal stresses, –.
type Factors struct{ Bending, Torsion, Tension float64 }

// Concentration is what the shape of a notch does to the stress in its bottom.
type Concentration struct {
	Factors
	// Sensitive says that these are K_t, which a steel feels in part (Sensitivity); else they hold for fatigue as they are.
	Sensitive bool
	Source    string
	// Outside names where the notch leaves the range of a fit. A radius that is smaller than it knows then counts as at a
	// sharp corner, on the safe side; all else is kept to the end of the range.
	Outside []string
}

// fit is K_t as Σ C_i (2h/D)^i with C_i = a + b √(h/r) + c h/r.
type fit struct {
	rows     [4][3]float64
	from, to float64 // of h/r
}

// fits are those of one notch and load over h/r, in rising order. Beyond the last, where the radius is small against the
// depth, K_t grows as r^−sharp, as the stress at the tip of the corner without a radius does.
type fits struct {
	all   []fit
	sharp float64
}

// The powers of sharp corners: that of a right angle in bending and tension (Williams 1952: 1 − 0.5445; from memory), the
// same in torsion (1 − π/(3π/2)), and that of a slit, which a deep and narrow groove is.
const (
	cornerPulled  = 0.4555
	cornerTwisted = 1. / 3
	slit          = 0.5
)

// The shoulder: Pilkey, Peterson's Stress Concentration Factors, charts 3.4, 3.10 and 3.12. The sizes of the
// coefficients were seen, their signs stem from memory; they are confirmed by the sum of each column, which must leave
// 1 and nothing of h/r where 2h/D is 1. Against finite elements the fit lies up to 9 % low in bending, 7 to 22 % low in
// tension, and within 2.5 % in torsion.
var (
	shoulderBending = fits{[]fit{
		{[4][3]float64{{0.947, 1.206, -0.131}, {0.022, -3.405, 0.915}, {0.869, 1.777, -0.555}, {-0.810, 0.422, -0.260}}, 0.1, 2},
		{[4][3]float64{{1.232, 0.832, -0.008}, {-3.813, 0.968, -0.260}, {7.423, -4.868, 0.869}, {-3.839, 3.070, -0.600}}, 2, 20},
	}, cornerPulled}
	shoulderTension = fits{[]fit{
		{[4][3]float64{{0.926, 1.157, -0.099}, {0.012, -3.036, 0.961}, {-0.302, 3.977, -1.744}, {0.365, -2.098, 0.878}}, 0.1, 2},
		{[4][3]float64{{1.200, 0.860, -0.022}, {-1.805, -0.346, -0.038}, {2.198, -0.486, 0.165}, {-0.593, -0.028, -0.106}}, 2, 20},
	}, cornerPulled}
	shoulderTorsion = fits{[]fit{
		{[4][3]float64{{0.905, 0.783, -0.075}, {-0.437, -1.969, 0.553}, {1.557, 1.073, -0.578}, {-1.061, 0.171, 0.086}}, 0.25, 4},
	}, cornerTwisted}
)

// The same shoulder in an older set: Roark, Formulas for Stress and Strain, 5th ed., Table 37, cases 17a and 17b (from
// memory, confirmed by a printed example).
var (
	olderBending = fits{[]fit{
		{[4][3]float64{{0.927, 1.149, -0.086}, {0.015, -3.281, 0.837}, {0.847, 1.716, -0.506}, {-0.790, 0.417, -0.246}}, 0.25, 2},
	}, cornerPulled}
	olderTension = fits{[]fit{
		{[4][3]float64{{0.927, 1.149, -0.086}, {0.011, -3.029, 0.948}, {-0.304, 3.979, -1.737}, {0.366, -2.098, 0.875}}, 0.25, 2},
	}, cornerPulled}
)

// The groove with a round bottom: Pilkey, Peterson's Stress Concentration Factors (bending and torsion), and Roark,
// Formulas for Stress and Strain, 7th ed., Table 17.1 (both from memory, confirmed to six digits).
var (
	grooveBending = fits{[]fit{
		{[4][3]float64{{0.594, 2.958, -0.520}, {0.422, -10.545, 2.692}, {0.501, 14.375, -4.486}, {-0.613, -6.573, 2.177}}, 0.25, 2},
		{[4][3]float64{{0.965, 1.926, 0}, {-2.773, -4.414, -0.017}, {4.785, 4.681, 0.096}, {-1.995, -2.241, -0.074}}, 2, 50},
	}, slit}
	grooveTorsion = fits{[]fit{
		{[4][3]float64{{0.966, 1.056, -0.022}, {-0.192, -4.037, 0.674}, {0.808, 5.321, -1.231}, {-0.567, -2.364, 0.566}}, 0.25, 2},
		{[4][3]float64{{1.089, 0.924, 0.018}, {-1.504, -2.141, -0.047}, {2.486, 2.289, 0.091}, {-1.056, -1.104, -0.059}}, 2, 50},
	}, slit}
	grooveBendingRoark = fits{[]fit{
		{[4][3]float64{{0.455, 3.354, -0.769}, {0.891, -12.721, 4.593}, {0.286, 15.481, -6.392}, {-0.632, -6.115, 2.568}}, 0.25, 2},
	}, slit}
	grooveTorsionRoark = fits{[]fit{
		{[4][3]float64{{1.245, 0.264, 0.491}, {-3.030, 3.269, -3.633}, {7.199, -11.286, 8.318}, {-4.414, 7.753, -5.176}}, 0.25, 2},
	}, slit}
)

// overBending is what the factor of a groove in tension is taken to be over that in bending: own finite elements of
// three grooves give 1.07 to 1.20, and no fit is at hand.
const overBending = 1.2

// at is K_t for 2h/D and an h/r within the range.
func (f *fit) at(q, x float64) float64 {
	root := math.Sqrt(q)
	sum, power := 0.0, 1.0
	for _, c := range f.rows {
		sum += (c[0] + c[1]*root + c[2]*q) * power
		power *= x
	}
	return max(1, sum)
}

// read takes the fit whose range holds h/r, or the nearest; missed says by how far h/r lies outside.
func (s fits) read(depth, radius, diameter float64) (k float64, missed string) {
	q := depth / radius
	f := &s.all[0]
	for i := range s.all {
		if q > s.all[i].from {
			f = &s.all[i]
		}
	}
	k = f.at(min(max(q, f.from), f.to), 2*depth/diameter)
	switch {
	case q > f.to:
		k *= math.Pow(q/f.to, s.sharp)
	case q >= f.from:
		return k, ""
	}
	return k, fmt.Sprintf("h/r = %.3g lies outside %g to %g", q, s.all[0].from, s.all[len(s.all)-1].to)
}

// larger reads two sets of fits and takes the larger; one that doesn't hold steps back for one that does.
func larger(a, b fits, depth, radius, diameter float64) (float64, string) {
	first, missed := a.read(depth, radius, diameter)
	second, other := b.read(depth, radius, diameter)
	switch {
	case other != "":
		return first, missed
	case missed != "":
		return second, ""
	}
	return max(first, second), ""
}

// Concentration is the factors of a notch, in a steel of a tensile strength, MPa, which those of keyway, fit and teeth
// hang on. The notch must have passed Check.
func (n Notch) Concentration(tensile float64) Concentration {
	depth := (n.Outer - n.Bottom) / 2
	c := Concentration{Sensitive: true}
	outside := func(load, missed string) {
		if missed != "" {
			c.Outside = append(c.Outside, load+": "+missed)
		}
	}
	switch n.Kind {
	case Shoulder:
		c.Source = "shoulder: Pilkey, Peterson's Stress Concentration Factors, charts 3.4, 3.10, 3.12 (signs from memory), and Roark, 5th ed., Table 37, 17a, 17b (from memory), the larger; nominal stress on the smaller diameter"
		var missed [3]string
		c.Bending, missed[0] = larger(shoulderBending, olderBending, depth, n.Radius, n.Outer)
		c.Torsion, missed[1] = shoulderTorsion.read(depth, n.Radius, n.Outer)
		c.Tension, missed[2] = larger(shoulderTension, olderTension, depth, n.Radius, n.Outer)
		outside("bending", missed[0])
		outside("torsion", missed[1])
		outside("tension", missed[2])
	case RoundGroove:
		c.Source = "round groove: Pilkey, Peterson's Stress Concentration Factors, and Roark, 7th ed., Table 17.1 (both from memory), the larger; tension 1.2 times bending (own finite elements); nominal stress on the bottom diameter"
		var missed [2]string
		c.Bending, missed[0] = larger(grooveBending, grooveBendingRoark, depth, n.Radius, n.Outer)
		c.Torsion, missed[1] = larger(grooveTorsion, grooveTorsionRoark, depth, n.Radius, n.Outer)
		c.Tension = overBending * c.Bending
		outside("bending", missed[0])
		outside("torsion", missed[1])
	case CirclipGroove:
		c.Source = "circlip groove: form of DIN 743-2 for the rectangular groove (from memory; own finite elements within +1 % in bending, +3 % in tension, +8 % in torsion); nominal stress on the bottom diameter"
		root := math.Sqrt(depth / n.Radius)
		c.Factors = Factors{1.14 + 1.08*root, 1.48 + 0.45*root, 1.27 + 1.17*root}
		if n.Width > 0 && n.Width < 1.4*depth {
			outside("all loads", fmt.Sprintf("width %.3g mm is less than 1.4 times the depth", n.Width))
		}
	case CrossHole:
		n.crossHole(&c, outside)
	case Keyway, PressFit, SplineRoot, PinionRoot:
		n.bySteel(&c, tensile, outside)
	}
	return c
}

// crossHole is Pilkey, Peterson's Stress Concentration Factors, round bar or tube with a transverse hole, for bending,
// and Roark, Table 17.1, for tension and torsion; all from memory, confirmed by a printed example. The torsion factor is
// the largest tension over the nominal shear, since at a hole in a sheared wall the fibre is pulled: half of it counts
// as a factor on shear.
func (n Notch) crossHole(c *Concentration, outside func(load, missed string)) {
	c.Source = "cross hole: Pilkey, Peterson's Stress Concentration Factors, for bending, Roark, Table 17.1, for tension and torsion (from memory); nominal stress on the full ring"
	const most, wall = 0.4, 0.9
	x, m := n.Hole/n.Outer, n.Bore/n.Outer
	if x > most {
		outside("all loads", fmt.Sprintf("hole over diameter %.3g is more than %g", x, most))
	}
	if m > wall {
		outside("all loads", fmt.Sprintf("bore over diameter %.3g is more than %g", m, wall))
	}
	x, m = min(x, most), min(m, wall)
	c.Tension = 3 + (2.773+1.529*m-4.379*m*m)*x + (-0.421-12.782*m+22.781*m*m)*x*x + (16.841+16.678*m-40.007*m*m)*x*x*x
	c.Bending = 3 + (-6.250-0.585*m+3.115*m*m)*x + (41-1.071*m-6.746*m*m)*x*x + (-45+1.389*m+13.889*m*m)*x*x*x
	c.Torsion = HoleTorsion(x, m) / math.Sqrt(3)
}

// HoleTorsion is the largest tension at the edge of a cross hole over the nominal shear stress of the full ring, –, for
// a hole of so much of the outer diameter and such a bore. Source: Roark, Formulas for Stress and Strain, Table 17.1.
//
// As a factor on the shear stress in an equivalent stress it counts 1/√3: the fibre at the hole is pulled along itself
// and nowhere sheared.
func HoleTorsion(hole, bore float64) float64 {
	x, m := hole, bore
	return 4 + (-6.793+1.133*m-0.126*m*m)*x + (38.382-7.242*m+6.495*m*m)*x*x + (-44.576-7.428*m+58.656*m*m)*x*x*x
}

// bySteel is factors that hold for fatigue as they are and grow with the strength of the steel: the forms of DIN 743-2
// for a diameter of 40 mm (from memory; those of bending at keyways and fits give its table). What the standard does
// about other diameters, a few per cent, is left out.
func (n Notch) bySteel(c *Concentration, tensile float64, outside func(load, missed string)) {
	c.Sensitive = false
	const least, most = 400, 1200
	if tensile < least || tensile > most {
		outside("all loads", fmt.Sprintf("tensile strength %.0f MPa lies outside %d to %d MPa", tensile, least, most))
	}
	s := min(max(tensile, least), most)
	switch n.Kind {
	case Keyway:
		b := 3.0 * math.Pow(s/1000, 0.38)
		c.Factors = Factors{b, 0.56*b + 0.1, b}
		c.Source = "keyway: DIN 743-2, end-milled (from memory; its torsion unchecked, tension as bending); nominal stress on the full ring"
	case PressFit:
		b := 2.7 * math.Pow(s/1000, 0.43)
		c.Factors = Factors{b, 0.65 * b, b}
		c.Source = "edge of a press fit: DIN 743-2 (from memory; its torsion unchecked, tension as bending); nominal stress on the full ring"
	default:
		t := math.Exp(4.2e-7 * s * s)
		b := 1 + 0.45*(t-1)
		c.Factors = Factors{b, t, b}
		c.Source = "involute spline: DIN 743-2 (from memory, unchecked; tension as bending); nominal stress on the root circle"
		if n.Kind == PinionRoot {
			c.Source = "root of a pinion cut into the shaft: taken as an involute spline (DIN 743-2, from memory, unchecked), no source for gear teeth; nominal stress on the root circle"
		}
	}
}
