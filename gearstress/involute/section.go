package involute

import "math"

// Section is the transverse section of a gear, filled to its axis: what mass and inertia follow from.
type Section struct {
	Area  float64 // mm²
	Polar float64 // second moment about the axis, ∫ r² dA, mm⁴
}

// filletSteps is the number of steps of Simpson's rule along a fillet, even. The
// integrand is smooth; a test holds the sum against polygons.
const filletSteps = 256

// Section is the transverse section of gear i (0 driver, 1 driven) by its real outline, less what is thinned off its
// teeth.
//
// Derivation: by Green's theorem A = ½ ∮ r² dθ and I_p = ¼ ∮ r⁴ dθ along the outline.
// Tip and root are arcs. On the involute r = r_b/cos α and dθ = tan²α dα, which gives
// closed forms in tan α; the fillet is integrated along its own parameter. Thinning by
// s turns each flank in by the same angle at every radius, 2 s/(d cos β) for both
// flanks of a tooth together, since the tool goes that much aside.
func (p *Pair) Section(i int) (Section, error) {
	t, err := p.TransverseTooth(i)
	if err != nil {
		return Section{}, err
	}
	root, tip := t.Root/2, t.Tip/2
	half := arc(tip, t.HalfAngle(t.Tip)).plus(t.flankSection()).plus(t.filletSection())
	_, foot := t.fillet(math.Pi / 2)
	half = half.plus(arc(root, math.Pi/t.Teeth-foot))
	whole := Section{2 * t.Teeth * half.Area, 2 * t.Teeth * half.Polar}

	if p.CutShift(i) != p.X[i] {
		return whole, nil // the outline has the thinning in it
	}
	thinned := t.Teeth * p.Thinning[i] / (p.Reference[i] / 2 * math.Cos(p.Helix))
	return whole.plus(arc(root, thinned)).plus(arc(tip, -thinned)), nil
}

// arc is the sector of a circle of a radius (mm) over an angle (rad).
func arc(radius, angle float64) Section {
	square := radius * radius
	return Section{square / 2 * angle, square * square / 4 * angle}
}

func (s Section) plus(o Section) Section { return Section{s.Area + o.Area, s.Polar + o.Polar} }

// flankSection is the part of half a tooth that lies towards the axis from its involute.
func (t *Tooth) flankSection() Section {
	at := func(diameter float64) Section {
		square := t.Base * t.Base / 4
		tan := math.Tan(math.Acos(min(1, t.Base/diameter)))
		cube := tan * tan * tan
		return Section{square / 2 * cube / 3, square * square / 4 * (cube/3 + cube*tan*tan/5)}
	}
	from, to := at(t.Form), at(t.Tip)
	return Section{to.Area - from.Area, to.Polar - from.Polar}
}

// filletSection is the part of half a tooth that lies towards the axis from its fillet.
func (t *Tooth) filletSection() (sum Section) {
	// Three points at a time: radius power and angle are parabolas of the parameter there. So an undercut, where the
	// angle runs back, counts with its sign.
	const n = filletSteps
	var radius, angle [n + 1]float64
	for k := range n + 1 {
		radius[k], angle[k] = t.fillet(t.direction(1 - float64(k)/n))
	}
	add := func(f func(r float64) float64) (area float64) {
		for k := 0; k < n; k += 2 {
			a, b, c := f(radius[k]), f(radius[k+1]), f(radius[k+2])
			d1, d2 := angle[k+1]-angle[k], angle[k+2]-angle[k+1]
			f1, f2 := (c-a)/2, (a+c)/2-b
			t1, t2 := (d1+d2)/2, (d2-d1)/2
			area += 2*b*t1 + (2*f2*t1+4*f1*t2)/3
		}
		return area
	}
	sum.Area = add(func(r float64) float64 { return r * r / 2 })
	sum.Polar = add(func(r float64) float64 { return r * r * r * r / 4 })
	return sum
}
