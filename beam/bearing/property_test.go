package bearing

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// between draws a number from a grid, so that bearings keep to sizes that could be bought.
func between(t *rapid.T, name string, low, high float64) float64 {
	return low + (high-low)*float64(rapid.IntRange(0, 1000).Draw(t, name))/1000
}

// anyRow is a row that could be: of one of the given kinds, full or not.
func anyRow(t *rapid.T, kinds ...Kind) Elements {
	e := Elements{Kind: rapid.SampledFrom(kinds).Draw(t, "kind")}
	e.Diameter = between(t, "diameter", 2, 20)
	e.Count = rapid.IntRange(7, 30).Draw(t, "count")
	e.Pitch = e.Diameter / math.Sin(math.Pi/float64(e.Count)) * between(t, "spread", 1, 1.6)
	e.Clearance = e.Diameter * between(t, "clearance", -0.002, 0.006)
	e.Turn = between(t, "turn", 0, 7)
	if e.Kind == Ball {
		e.Groove = between(t, "groove", 0.51, 0.54)
	} else {
		e.Length = e.Diameter * between(t, "length", 0.8, 3)
	}
	if e.Kind == Tapered {
		e.ContactAngle = between(t, "angle", 0.15, 0.5)
		e.Clearance = 0
		if rapid.Bool().Draw(t, "left") {
			e.ContactAngle = -e.ContactAngle
		}
	}
	return e
}

// size is a force that such a row carries with ease: a few µm of closing.
func (e Elements) force(t *rapid.T, name string) float64 {
	r, err := e.prepare()
	if err != nil {
		t.Fatal(err)
	}
	load, _ := r.law(e.Diameter * math.Exp(between(t, name, -13, -6.5)))
	return load * float64(e.Count) / 4.2
}

// anyLoad is a load that the row can carry: with thrust where it takes some, and a couple within
// what the length or the pitch allows.
func (e Elements) anyLoad(t *rapid.T) (force [3]float64, couple [2]float64) {
	radial := e.force(t, "force")
	s, c := math.Sincos(between(t, "direction", 0, 6.3))
	force[1], force[2] = radial*c, radial*s
	arm := e.Length / 8
	if e.Kind == Ball {
		if rapid.Bool().Draw(t, "thrust at all") {
			force[0] = radial * between(t, "thrust", -1, 1)
		}
		arm = e.Pitch / 12
	}
	if e.Kind == Tapered {
		force[0] = radial * math.Tan(e.ContactAngle) * between(t, "thrust", 1.25, 3)
	}
	s, c = math.Sincos(between(t, "couple direction", 0, 6.3))
	m := radial * arm * between(t, "couple", 0, 1)
	couple[0], couple[1] = m*c, m*s
	return force, couple
}

var allKinds = []Kind{Ball, Cylindrical, Needle, Tapered}

// The displacement found gives the load back.
func TestForcesBalance(t *testing.T) {
	worst := 0.0
	rapid.Check(t, func(t *rapid.T) {
		e := anyRow(t, allKinds...)
		f, m := e.anyLoad(t)
		d, tilt, err := e.Displacement(f, m)
		if err != nil {
			t.Fatal(err)
		}
		gf, gm, err := e.Force(d, tilt)
		if err != nil {
			t.Fatal(err)
		}
		size := math.Hypot(math.Hypot(f[0], f[1]), f[2])
		miss := 0.0
		for i := range 3 {
			miss = max(miss, math.Abs(gf[i]-f[i])/size)
		}
		for i := range 2 {
			miss = max(miss, math.Abs(gm[i]-m[i])/size/e.Pitch*2)
		}
		worst = max(worst, miss)
		if miss > 1e-8 {
			t.Errorf("load %v %v comes back as %v %v", f, m, gf, gm)
		}
	})
	t.Logf("largest miss %.2g of the force", worst)
}

// The tangent stiffness is the derivative of the force, and symmetric: the change of force over a
// small step is the mean stiffness on the way. (Where an element or a slice just touches, the
// stiffness itself rises steeply, with the ninth root of the approach: hence a mean, and 1 %.)
func TestTangentIsDerivative(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyRow(t, allKinds...)
		f, m := e.anyLoad(t)
		d, tilt, err := e.Displacement(f, m)
		if err != nil {
			t.Fatal(err)
		}
		scale := [5]float64{1, 1, 1, 2 / e.Pitch, 2 / e.Pitch}
		i := rapid.IntRange(0, 4).Draw(t, "direction of the step")
		step := 1e-8 * e.Diameter * scale[i]
		if rapid.Bool().Draw(t, "backwards") {
			step = -step
		}
		from, _ := e.at(t, d, tilt, i, 0)
		var h [5][5]float64
		for n := range 8 {
			_, k := e.at(t, d, tilt, i, step*(float64(n)+0.5)/8)
			for a := range h {
				for b := range h {
					h[a][b] += k[a][b] / 8
				}
			}
		}
		to, _ := e.at(t, d, tilt, i, step)
		most := 0.0
		for j := range 5 {
			most = max(most, h[j][j]*scale[j]*scale[j])
		}
		for j := range 5 {
			slope := (to[j] - from[j]) / step
			if math.Abs(slope-h[i][j])*scale[i]*scale[j] > 1e-2*most {
				t.Errorf("stiffness %d,%d is %g, the force says %g", i, j, h[i][j], slope)
			}
			if h[i][j] != h[j][i] {
				t.Errorf("stiffness %d,%d not symmetric", i, j)
			}
		}
	})
}

// at is force and stiffness with one movement increased by step, mm or rad.
func (e Elements) at(t interface{ Fatal(...any) }, d [3]float64, tilt [2]float64, i int, step float64) ([5]float64, [5][5]float64) {
	if i < 3 {
		d[i] += step
	} else {
		tilt[i-3] += step
	}
	f, m, err := e.Force(d, tilt)
	if err != nil {
		t.Fatal(err)
	}
	h, err := e.TangentStiffness(d, tilt)
	if err != nil {
		t.Fatal(err)
	}
	return [5]float64{f[0], f[1], f[2], m[0], m[1]}, h
}

// Deep in contact the derivative can be had to many digits.
func TestTangentIsDerivativeWhereAllCarry(t *testing.T) {
	for _, e := range []Elements{
		{Kind: Cylindrical, Count: 13, Diameter: 9, Length: 10, Pitch: 52, Clearance: -0.04, Turn: 0.3},
		{Kind: Tapered, Count: 17, Diameter: 8, Length: 12, Pitch: 50, ContactAngle: -0.25, Clearance: -0.04},
		{Kind: Ball, Count: 9, Diameter: 12, Pitch: 60, Clearance: -0.04, Turn: 1},
		{Kind: Ball, Count: 11, Diameter: 10, Pitch: 60, ContactAngle: 0.44, Clearance: -0.04},
	} {
		d, tilt := [3]float64{0.001, 0.004, -0.003}, [2]float64{1e-4, -2e-4}
		h := must[[5][5]float64](t)(e.TangentStiffness(d, tilt))
		for i := range 5 {
			step := 1e-6
			if i >= 3 {
				step = 1e-7
			}
			up, _ := e.at(t, d, tilt, i, step)
			down, _ := e.at(t, d, tilt, i, -step)
			for j := range 5 {
				size := math.Sqrt(h[i][i] * h[j][j])
				if got := (up[j] - down[j]) / (2 * step); math.Abs(got-h[i][j]) > 1e-7*size {
					t.Errorf("%v: stiffness %d,%d is %.10g, the force says %.10g", e.Kind, i, j, h[i][j], got)
				}
			}
		}
	}
}

// Without clearance the secant goes with F^0.1 (lines) or F^(1/3) (points), and the tangent is 10/9
// or 3/2 of it.
func TestStiffnessFollowsTheContactLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyRow(t, Cylindrical, Needle, Ball)
		e.Clearance = 0
		f := e.force(t, "force")
		ratio := between(t, "ratio", 0.01, 3)
		a, errA := e.Radial(f)
		b, errB := e.Radial(f * ratio)
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		n := e.Kind.exponent()
		want := math.Pow(ratio, 1-1/n)
		if got := b.Secant / a.Secant; math.Abs(got/want-1) > 1e-9 {
			t.Errorf("secant grows %g times, want %g", got, want)
		}
		if got := a.Tangent / a.Secant; math.Abs(got/n-1) > 1e-9 {
			t.Errorf("tangent is %g of the secant, want %g", got, n)
		}
	})
}

// Turning the elements by their pitch changes nothing; turning elements and load together changes
// nothing either; nor does changing the sense of all along x.
func TestRowIsRoundAndMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyRow(t, allKinds...)
		s, thrust := e.anyStance(t)
		h, _, err := e.Hold(s, thrust)
		if err != nil {
			t.Fatal(err)
		}
		same := func(what string, e Elements, s Stance, thrust float64, force, couple [2]float64) {
			g, _, err := e.Hold(s, thrust)
			if err != nil {
				t.Fatal(err)
			}
			for i := range 2 {
				if math.Abs(g.Force[i+1]-force[i]) > 1e-8*h.Total || math.Abs(g.Couple[i]-couple[i]) > 1e-8*h.Total*e.Pitch {
					t.Errorf("%s: %v, want %v and %v", what, g, force, couple)
				}
			}
		}
		pitched := e
		pitched.Turn += 2 * math.Pi / float64(e.Count)
		same("turned by a pitch", pitched, s, thrust, [2]float64{h.Force[1], h.Force[2]}, h.Couple)

		angle := between(t, "angle turned", 0, 6)
		sin, cos := math.Sincos(angle)
		round := func(v [2]float64) [2]float64 { return [2]float64{v[0]*cos - v[1]*sin, v[0]*sin + v[1]*cos} }
		turned := e
		turned.Turn += angle
		same("turned with the shaft", turned, Stance{round(s.Across), round(s.Tilt)}, thrust, round([2]float64{h.Force[1], h.Force[2]}), round(h.Couple))

		mirrored := e
		mirrored.ContactAngle = -e.ContactAngle
		same("mirrored", mirrored, Stance{s.Across, [2]float64{-s.Tilt[0], -s.Tilt[1]}}, -thrust, [2]float64{h.Force[1], h.Force[2]}, [2]float64{-h.Couple[0], -h.Couple[1]})
	})
}

// A row with more clearance gives way further under the same load. With clearance or none the
// tangent is never below the secant, and both rise with the load.
func TestClearanceSoftensAndLoadStiffens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyRow(t, Cylindrical, Needle, Ball)
		f := e.force(t, "force")
		tight, err := e.Radial(f)
		if err != nil {
			t.Fatal(err)
		}
		loose := e
		loose.Clearance += e.Diameter * between(t, "more clearance", 0.0001, 0.003)
		l, err := loose.Radial(f)
		if err != nil {
			t.Fatal(err)
		}
		if l.Displacement <= tight.Displacement || l.Secant >= tight.Secant {
			t.Errorf("clearance %g mm gives %g mm, %g mm gives %g mm", e.Clearance, tight.Displacement, loose.Clearance, l.Displacement)
		}
		if e.Clearance < 0 {
			return
		}
		if tight.Tangent < tight.Secant*(1-1e-12) {
			t.Errorf("tangent %g below secant %g", tight.Tangent, tight.Secant)
		}
		more, err := e.Radial(f * (1 + between(t, "more load", 0.01, 3)))
		if err != nil {
			t.Fatal(err)
		}
		if more.Secant < tight.Secant || more.Tangent < tight.Tangent {
			t.Errorf("more load softens: secant %g to %g, tangent %g to %g", tight.Secant, more.Secant, tight.Tangent, more.Tangent)
		}
	})
}

// anyStance is a place of the shaft in which the row carries something a bearing carries, with thrust where it takes some.
func (e Elements) anyStance(t *rapid.T) (s Stance, thrust float64) {
	f, m := e.anyLoad(t)
	d, tilt, err := e.Displacement(f, m)
	if err != nil {
		t.Fatal(err)
	}
	return Stance{[2]float64{d[1], d[2]}, tilt}, f[0]
}
