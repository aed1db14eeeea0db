package beam

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// between draws a number. The plain generator of rapid likes extreme values;
// an integer grid keeps shafts to things that could be turned.
func between(t *rapid.T, name string, low, high float64) float64 {
	return low + (high-low)*float64(rapid.IntRange(0, 1000).Draw(t, name))/1000
}

// anyShaft is a random stepped shaft with two to four supports, at least two
// of them radial and well apart.
func anyShaft(t *rapid.T) Shaft {
	s := Shaft{Young: 206000, Poisson: 0.3, NoShear: rapid.Bool().Draw(t, "no shear"), NoShoulder: rapid.Bool().Draw(t, "no shoulder")}
	for i := range rapid.IntRange(1, 8).Draw(t, "sections") {
		s.Sections = append(s.Sections, Section{
			Length: between(t, fmt.Sprintf("length %d", i), 5, 60),
			Outer:  between(t, fmt.Sprintf("outer %d", i), 25, 60),
			Bore:   between(t, fmt.Sprintf("bore %d", i), 0, 20),
		})
	}
	length := s.length()
	stiffness := func(name string, low, high float64) float64 {
		if rapid.Bool().Draw(t, name+" rigid") {
			return rigid
		}
		return math.Pow(10, between(t, name, low, high))
	}
	n := rapid.IntRange(2, 4).Draw(t, "supports")
	for i := range n {
		p := Support{X: length * (float64(i) + between(t, fmt.Sprintf("x %d", i), 0.1, 0.9)) / float64(n)}
		if rapid.Bool().Draw(t, fmt.Sprintf("wide %d", i)) {
			p.Width = 2 * min(p.X, length-p.X) * between(t, fmt.Sprintf("width %d", i), 0, 1)
		}
		p.Radial = stiffness(fmt.Sprintf("radial %d", i), 4, 7)
		if rapid.Bool().Draw(t, fmt.Sprintf("tilts %d", i)) {
			p.Tilt = stiffness(fmt.Sprintf("tilt %d", i), 6, 9)
		}
		if i == 0 || rapid.Bool().Draw(t, fmt.Sprintf("axial %d", i)) {
			p.Axial = stiffness(fmt.Sprintf("axial stiffness %d", i), 4, 7)
		}
		s.Supports = append(s.Supports, p)
	}
	return s
}

// anyCase is a random set of loads; the torques balance.
func anyCase(t *rapid.T, length float64) Case {
	var c Case
	var torque float64
	for i := range rapid.IntRange(1, 4).Draw(t, "loads") {
		n := func(what string) string { return fmt.Sprintf("%s %d", what, i) }
		l := Load{
			X:  length * between(t, n("at"), 0, 1),
			Fx: between(t, n("Fx"), -5000, 5000), Fy: between(t, n("Fy"), -9000, 9000), Fz: between(t, n("Fz"), -9000, 9000),
			Mx: between(t, n("Mx"), -3e5, 3e5), My: between(t, n("My"), -1e5, 1e5), Mz: between(t, n("Mz"), -1e5, 1e5),
		}
		if rapid.Bool().Draw(t, n("spread")) {
			l.Length = between(t, n("width"), 0, 2) * min(l.X, length-l.X)
			l.Length = min(l.Length, 2*l.X, 2*(length-l.X))
		}
		torque += l.Mx
		c.Loads = append(c.Loads, l)
	}
	c.Loads = append(c.Loads, Load{X: length * between(t, "torque out", 0, 1), Mx: -torque})
	return c
}

func answer(t *rapid.T, s Shaft, c Case) *Solution {
	m, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	sol, err := m.Solve(c)
	if err != nil {
		t.Fatal(err)
	}
	return sol
}

// alike compares two solutions at the places xs of the first and map of xs of
// the second, each quantity relative to its largest value.
func alike(t *rapid.T, a, b *Solution, place func(float64) float64, change func(State) State, tolerance float64) {
	t.Helper()
	const parts = 23
	var as, bs [parts + 1][]float64
	for k := range parts + 1 {
		// Between breaks, so that no jump is met.
		x := a.model.length * (float64(k) + 0.1234567) / (parts + 1)
		as[k] = flat(a.At(x, Left))
		bs[k] = flat(change(b.At(place(x), Left)))
	}
	// On soft supports a shaft moves far and hardly leans: its slope is the small difference of large movements, and
	// no better than their rounding.
	moved := 0.0
	for q := range as[0] {
		var largest float64
		for k := range as {
			largest = max(largest, math.Abs(as[k][q]), math.Abs(bs[k][q]))
		}
		small := least[q]
		if slope := q%4 == 1 && q < 8; slope {
			small = max(small, 1e-12*moved/a.model.length)
		}
		if deflection := q%4 == 0 && q < 8; deflection {
			moved = largest
		}
		for k := range as {
			if d := math.Abs(as[k][q] - bs[k][q]); d > tolerance*largest && d > small {
				t.Fatalf("%s at part %d: %g and %g, the largest is %g", names[q], k, as[k][q], bs[k][q], largest)
			}
		}
	}
}

var (
	names = []string{"y deflection", "y slope", "y moment", "y shear", "z deflection", "z slope", "z moment", "z shear", "displacement", "normal", "twist", "torque"}
	// least is what cannot matter: mm, rad, N·mm, N. It is far below what
	// the random loads, thousands of N, cause.
	least = []float64{1e-12, 1e-14, 1e-3, 1e-5, 1e-12, 1e-14, 1e-3, 1e-5, 1e-12, 1e-5, 1e-14, 1e-3}
)

func flat(s State) []float64 {
	return []float64{s.Y.Deflection, s.Y.Slope, s.Y.Moment, s.Y.Shear, s.Z.Deflection, s.Z.Slope, s.Z.Moment, s.Z.Shear, s.Displacement, s.Normal, s.Twist, s.Torque}
}

func same(s State) State         { return s }
func identity(x float64) float64 { return x }

func TestLoadsAndReactionsBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shaft := anyShaft(t)
		c := anyCase(t, shaft.length())
		s := answer(t, shaft, c)
		var fx, fy, fz, my, mz, size float64
		add := func(x float64, l Load) {
			fx, fy, fz = fx+l.Fx, fy+l.Fy, fz+l.Fz
			my += l.My - x*l.Fz
			mz += l.Mz + x*l.Fy
			size += math.Abs(l.Fx) + math.Abs(l.Fy) + math.Abs(l.Fz) + (math.Abs(l.My)+math.Abs(l.Mz))/shaft.length()
		}
		for _, l := range c.Loads {
			add(l.X, l)
		}
		for i, r := range s.Reactions() {
			add(shaft.Supports[i].X, Load{Fx: r.Fx, Fy: r.Fy, Fz: r.Fz, My: r.My, Mz: r.Mz})
		}
		if worst := max(math.Abs(fx), math.Abs(fy), math.Abs(fz), math.Abs(my)/shaft.length(), math.Abs(mz)/shaft.length()); worst > 1e-10*size {
			t.Fatalf("out of balance by %g of %g N", worst, size)
		}
		if s.imbalance > 1e-9 {
			t.Fatalf("imbalance %g", s.imbalance)
		}
	})
}

// Maxwell and Betti, and Flexibility against Solve.
func TestFlexibilityIsReciprocal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, err := New(anyShaft(t))
		if err != nil {
			t.Fatal(err)
		}
		a, b := m.length*between(t, "a", 0, 1), m.length*between(t, "b", 0, 1)
		s, err := m.Solve(Case{Loads: []Load{{X: b, Fz: 1}}})
		if err != nil {
			t.Fatal(err)
		}
		ab, ba, v := m.Flexibility(a, b), m.Flexibility(b, a), s.At(a, Left).Z.Deflection
		size := max(m.Flexibility(a, a), m.Flexibility(b, b), 1e-6*m.tip)
		if math.Abs(ab-ba) > 1e-9*size || math.Abs(ab-v) > 1e-9*size {
			t.Fatalf("%g and %g, solved %g mm/N", ab, ba, v)
		}
	})
}

func TestSuperposition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shaft := anyShaft(t)
		c := anyCase(t, shaft.length())
		both := c
		both.Loads = append(append([]Load{}, c.Loads...), c.Loads...)
		alike(t, answer(t, shaft, c), answer(t, shaft, both), identity, func(s State) State { return scaled(s, 0.5, 0.5) }, 1e-10)
	})
}

// scaled multiplies motions and forces.
func scaled(s State, motion, force float64) State {
	for _, b := range []*Bend{&s.Y, &s.Z} {
		b.Deflection *= motion
		b.Slope *= motion
		b.Moment *= force
		b.Shear *= force
	}
	s.Displacement *= motion
	s.Twist *= motion
	s.Normal *= force
	s.Torque *= force
	return s
}

// Twice as stiff a material on supports twice as stiff moves half as much.
func TestStiffnessScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shaft := anyShaft(t)
		c := anyCase(t, shaft.length())
		hard := shaft.clone()
		hard.Young *= 2
		for i := range hard.Supports {
			hard.Supports[i].Radial *= 2
			hard.Supports[i].Tilt *= 2
			hard.Supports[i].Axial *= 2
		}
		alike(t, answer(t, shaft, c), answer(t, hard, c), identity, func(s State) State { return scaled(s, 2, 1) }, 1e-9)
	})
}

// All lengths and diameters times k: the same forces with couples times k give
// deflections over k and slopes over k².
func TestSizeScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const k = 2
		shaft := anyShaft(t)
		c := anyCase(t, shaft.length())
		large := shaft.clone()
		for i := range large.Sections {
			s := &large.Sections[i]
			*s = Section{s.Length * k, s.Outer * k, s.Bore * k}
		}
		for i := range large.Supports {
			p := &large.Supports[i]
			*p = Support{p.X * k, p.Radial * k, p.Tilt * k * k * k, p.Axial * k, p.Width * k}
		}
		var loads []Load
		for _, l := range c.Loads {
			l.X, l.Length, l.Mx, l.My, l.Mz = l.X*k, l.Length*k, l.Mx*k, l.My*k, l.Mz*k
			loads = append(loads, l)
		}
		alike(t, answer(t, shaft, c), answer(t, large, Case{Loads: loads}), func(x float64) float64 { return k * x }, func(s State) State {
			for _, b := range []*Bend{&s.Y, &s.Z} {
				b.Deflection *= k
				b.Slope *= k * k
				b.Moment /= k
			}
			s.Displacement *= k
			s.Twist *= k * k
			s.Torque /= k
			return s
		}, 1e-9)
	})
}

// Turned end for end about the y axis: x and z, and with them Fx, Fz, Mx and
// Mz, change sign.
func TestMirrorImage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shaft := anyShaft(t)
		length := shaft.length()
		c := anyCase(t, length)
		turned := shaft.clone()
		for i, s := range shaft.Sections {
			turned.Sections[len(shaft.Sections)-1-i] = s
		}
		for i := range turned.Supports {
			turned.Supports[i].X = max(length-turned.Supports[i].X, 0)
		}
		var loads []Load
		for _, l := range c.Loads {
			l.X = length - l.X
			l.Fx, l.Fz, l.Mx, l.Mz = -l.Fx, -l.Fz, -l.Mx, -l.Mz
			loads = append(loads, l)
		}
		a, b := answer(t, shaft, c), answer(t, turned, Case{Loads: loads})
		start := b.At(length, Right).Twist
		alike(t, a, b, func(x float64) float64 { return length - x }, func(s State) State {
			s.Y.Slope, s.Y.Shear = -s.Y.Slope, -s.Y.Shear
			s.Z.Deflection, s.Z.Moment = -s.Z.Deflection, -s.Z.Moment
			s.Displacement = -s.Displacement
			s.Twist = start - s.Twist
			return s
		}, 1e-9)
	})
}

// Cuts that change nothing change nothing, however thin the slices.
func TestCutsChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shaft := anyShaft(t)
		c := anyCase(t, shaft.length())
		cut := shaft
		cut.Sections = nil
		for i, s := range shaft.Sections {
			part := math.Pow(10, -between(t, fmt.Sprintf("cut %d", i), 0.3, 7))
			rest := s
			s.Length *= part
			rest.Length -= s.Length
			cut.Sections = append(cut.Sections, s, rest)
		}
		alike(t, answer(t, shaft, c), answer(t, cut, c), identity, same, 1e-9)
	})
}

// No stiffness and hardly any, rigid and very stiff: no jump in the results.
func TestSupportLimitsAreContinuous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shaft := anyShaft(t)
		c := anyCase(t, shaft.length())
		limit, nearly := shaft.clone(), shaft.clone()
		for i := range limit.Supports {
			if i%2 == 0 {
				limit.Supports[i].Radial, nearly.Supports[i].Radial = rigid, 1e19
				limit.Supports[i].Tilt, nearly.Supports[i].Tilt = 0, 1e-3
			} else {
				limit.Supports[i].Tilt, nearly.Supports[i].Tilt = rigid, 1e23
			}
		}
		alike(t, answer(t, limit, c), answer(t, nearly, c), identity, same, 1e-6)
	})
}

// A spread load that shrinks becomes the point load.
func TestNarrowLoadIsPointLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shaft := anyShaft(t)
		c := anyCase(t, shaft.length())
		point, narrow := c, Case{}
		point.Loads = nil
		for _, l := range c.Loads {
			l.X = min(max(l.X, 1), shaft.length()-1)
			l.Length = 0
			point.Loads = append(point.Loads, l)
			l.Length = math.Pow(10, -between(t, "width", 6, 13))
			narrow.Loads = append(narrow.Loads, l)
		}
		a, b := answer(t, shaft, point), answer(t, shaft, narrow)
		for i, r := range a.Reactions() {
			o := b.Reactions()[i]
			if math.Hypot(r.Fy-o.Fy, r.Fz-o.Fz) > 0.1 || math.Abs(r.Fx-o.Fx) > 0.1 {
				t.Fatalf("support %d: %+v and %+v", i+1, r, o)
			}
		}
		if d := math.Abs(a.MaxDeflection().Deflection() - b.MaxDeflection().Deflection()); d > 1e-6*a.MaxDeflection().Deflection()+1e-9 {
			t.Fatalf("deflections differ by %g mm", d)
		}
	})
}

// The work of the point loads equals the energy in the shaft, by Gauss's
// quadrature of M²/EI, S²/κGA, N²/EA and T²/GJ over the pieces, and in the
// springs.
func TestWorkEqualsEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shaft := anyShaft(t)
		c := anyCase(t, shaft.length())
		for i := range c.Loads {
			c.Loads[i].Length = 0
		}
		s := answer(t, shaft, c)
		energy := 0.0
		for i, r := range s.Reactions() {
			p := shaft.Supports[i]
			energy += (r.Fy*r.Fy + r.Fz*r.Fz) / p.Radial
			if p.Tilt > 0 {
				energy += (r.My*r.My + r.Mz*r.Mz) / p.Tilt
			}
			if p.Axial > 0 {
				energy += r.Fx * r.Fx / p.Axial
			}
		}
		energy += s.energy()
		if done := work(s, c); math.Abs(done-energy) > 1e-9*energy+1e-9 {
			t.Fatalf("work %g, energy %g N·mm", done, energy)
		}
	})
}

// energy is twice what is stored in the shaft under point loads, N·mm. Within
// a cell the compliance is a parabola and the moment linear, so Gauss's three
// points are exact.
func (s *Solution) energy() float64 {
	var sum float64
	for i := range s.pieces {
		p := &s.pieces[i]
		end := p.start.X + p.length
		for x := p.start.X; x < end; {
			k := s.model.cellAt(x)
			c, to := &s.model.cells[k], min(s.model.breaks[k+1], end)
			for g, weight := range map[float64]float64{-math.Sqrt(0.6): 5.0 / 9, 0: 8.0 / 9, math.Sqrt(0.6): 5.0 / 9} {
				at := x + (to-x)*(1+g)/2
				b := p.forces(at - p.start.X)
				m, v, u := b.Moment(), b.Shear(), at-s.model.breaks[k]
				sum += weight * (to - x) / 2 * (m*m*c.bend.from(u).at + v*v*c.shear + b.Normal*b.Normal*c.stretch + b.Torque*b.Torque*c.twist.from(u).at)
			}
			x = to
		}
	}
	return sum
}

// The largest deflection and stress are not smaller than any sampled one.
func TestExtremesAreExtremes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shaft := anyShaft(t)
		c := anyCase(t, shaft.length())
		s := answer(t, shaft, c)
		top := s.MaxDeflection()
		curve := s.Curve(shaft.length() / 500)
		var sampled float64
		last := math.Inf(-1)
		for _, b := range curve {
			if b.X < last || b.X-last > shaft.length()/500*(1+1e-9) && last >= 0 {
				t.Fatalf("curve steps from %g to %g", last, b.X)
			}
			last = b.X
			sampled = max(sampled, b.Deflection())
		}
		if d := top.Deflection(); d < sampled*(1-1e-9) {
			t.Fatalf("largest deflection %g at %g, sampled %g", d, top.X, sampled)
		}
		x := 0.0
		for i, section := range shaft.Sections {
			worst := s.SectionStress(i)
			r := newRing(section)
			var most float64
			for k := range 401 {
				side := Left
				if k == 0 {
					side = Right
				}
				b := s.At(x+section.Length*float64(k)/400, side)
				most = max(most, r.stress(&b).VonMises)
			}
			if worst.VonMises < most*(1-1e-9) {
				t.Fatalf("section %d: %+v, sampled %g MPa", i+1, worst, most)
			}
			if worst.X < x-1e-9 || worst.X > x+section.Length+1e-9 {
				t.Fatalf("section %d: stress at x = %g outside it", i+1, worst.X)
			}
			x += section.Length
		}
	})
}

// Within a piece the axis departs from its chord by no more than the bound.
func TestSagIsABound(t *testing.T) {
	tight := 0.0
	rapid.Check(t, func(t *rapid.T) {
		shaft := anyShaft(t)
		s := answer(t, shaft, anyCase(t, shaft.length()))
		rounding := 1e-12 * s.MaxDeflection().Deflection()
		for i := range s.pieces {
			p := &s.pieces[i]
			end, bound := p.end(), p.give.sag(&p.start, &p.spread)
			for k := 1; k < 8; k++ {
				u := float64(k) / 8
				b := s.within(p, u*p.length)
				y := b.Y.Deflection - (1-u)*p.start.Y.Deflection - u*end.Y.Deflection
				z := b.Z.Deflection - (1-u)*p.start.Z.Deflection - u*end.Z.Deflection
				if off := math.Hypot(y, z); off > bound+rounding {
					t.Fatalf("piece %d departs by %g mm, the bound is %g", i, off, bound)
				} else if bound > 0 {
					tight = max(tight, off/bound)
				}
			}
		}
	})
	if tight < 0.3 {
		t.Errorf("no piece comes closer than %.2g to the bound: it says little", tight)
	}
}
