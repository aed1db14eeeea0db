package beam

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// hardShaft is a random shaft that is unkind to rounding: sections down to
// 0.1 mm, supports down to 1 mm from each other or an end, springs from
// 10 N/mm to rigid.
func hardShaft(t *rapid.T) *Model {
	s := Shaft{Young: 206000, Poisson: 0.3, NoShear: rapid.Bool().Draw(t, "no shear"), NoShoulder: rapid.Bool().Draw(t, "no shoulder")}
	for i := range rapid.IntRange(1, 12).Draw(t, "sections") {
		s.Sections = append(s.Sections, Section{
			Length: rapid.SampledFrom([]float64{0.1, 1, 7.3, 20, 55, 130}).Draw(t, fmt.Sprintf("length %d", i)),
			Outer:  between(t, fmt.Sprintf("outer %d", i), 15, 70),
			Bore:   between(t, fmt.Sprintf("bore %d", i), 0, 12),
		})
	}
	s.Sections = append(s.Sections, Section{20, 30, 0})
	length := s.length()
	x := rapid.SampledFrom([]float64{0, 1, length / 3, length - 10}).Draw(t, "first support")
	for i := range rapid.IntRange(2, 4).Draw(t, "supports") {
		n := func(what string) string { return fmt.Sprintf("%s %d", what, i) }
		s.Supports = append(s.Supports, Support{
			X:      x,
			Radial: rapid.SampledFrom([]float64{10, 1e3, 1e5, 1e7, rigid}).Draw(t, n("radial")),
			Tilt:   rapid.SampledFrom([]float64{0, 0, 1e4, 1e6, 1e9, rigid}).Draw(t, n("tilt")),
		})
		x += rapid.SampledFrom([]float64{1, 1, 5, length / 3, max(length-1-x, 1)}).Draw(t, n("span"))
		if i > 0 && x > length {
			break
		}
		x = min(x, length)
	}
	if last := len(s.Supports) - 1; s.Supports[last].X == s.Supports[last-1].X {
		s.Supports = s.Supports[:last]
	}
	m, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// anyPlaces is a list of places in no order; supports, steps and ends are
// among them.
func anyPlaces(t *rapid.T, m *Model) []float64 {
	x := []float64{0, m.length}
	for i := range rapid.IntRange(1, 6).Draw(t, "places") {
		x = append(x, m.length*between(t, fmt.Sprintf("place %d", i), 0, 1))
	}
	for _, p := range m.shaft.Supports {
		x = append(x, p.X)
	}
	x = append(x, rapid.SliceOfN(rapid.SampledFrom(m.breaks), 0, 6).Draw(t, "breaks")...)
	return rapid.Permutation(x).Draw(t, "places in order")
}

// columns solves the shaft once for each column. SV, the slope per force, comes
// on top.
func columns(t *rapid.T, m *Model, x []float64) (f *Influence, sv []float64) {
	n := len(x)
	f = &Influence{X: x, VV: make([]float64, n*n), VS: make([]float64, n*n), SS: make([]float64, n*n), TT: make([]float64, n*n)}
	sv = make([]float64, n*n)
	for j := range n {
		// A force in one plane, a couple in the other.
		s, err := m.Solve(Case{Loads: []Load{{X: x[j], Fy: 1, My: -1, Mx: 1}, {X: 0, Mx: -1}}})
		if err != nil {
			t.Fatal(err)
		}
		for i := range n {
			at := s.At(x[i], Left)
			f.VV[i*n+j], sv[i*n+j] = at.Y.Deflection, at.Y.Slope
			f.VS[i*n+j], f.SS[i*n+j] = at.Z.Deflection, at.Z.Slope
			f.TT[i*n+j] = at.Twist
		}
	}
	return f, sv
}

// apart is the largest difference relative to the largest entry.
func apart(a, b []float64) float64 {
	var most, size float64
	for i := range a {
		most = max(most, math.Abs(a[i]-b[i]))
		size = max(size, math.Abs(a[i]), math.Abs(b[i]))
	}
	return relative(most, size)
}

func compareInfluence(t *rapid.T, got, want *Influence, tolerance float64) {
	t.Helper()
	for _, c := range []struct {
		name string
		a, b []float64
	}{{"VV", got.VV, want.VV}, {"VS", got.VS, want.VS}, {"SS", got.SS, want.SS}, {"TT", got.TT, want.TT}} {
		if d := apart(c.a, c.b); !(d <= tolerance) {
			t.Fatalf("%s differs by %.2g of its largest entry:\n%v\n%v", c.name, d, c.a, c.b)
		}
	}
}

// The largest difference of 3000 shafts was 4e-11.
func TestInfluenceIsSolveByColumns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := hardShaft(t)
		x := anyPlaces(t, m)
		got := m.Influence(x, nil)
		want, sv := columns(t, m, x)
		compareInfluence(t, got, want, 1e-9)
		n := len(x)
		turned, flexible := make([]float64, n*n), make([]float64, n*n)
		for i := range n {
			for j := range n {
				turned[j*n+i] = got.VS[i*n+j]
				flexible[i*n+j] = m.Flexibility(x[i], x[j])
			}
		}
		if d := apart(turned, sv); d > 1e-9 {
			t.Fatalf("the transpose of VS differs from the slopes per force by %.2g", d)
		}
		if d := apart(got.VV, flexible); d > 1e-9 {
			t.Fatalf("VV differs from Flexibility by %.2g", d)
		}
	})
}

// Each pair of places is worked out once: with the places turned round it is
// the other half that is.
func TestInfluenceDoesNotMindTheOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := hardShaft(t)
		x := anyPlaces(t, m)
		got := m.Influence(x, nil)
		slices.Reverse(x)
		turned := m.Influence(x, nil)
		for _, a := range [][]float64{turned.VV, turned.VS, turned.SS, turned.TT} {
			slices.Reverse(a)
		}
		compareInfluence(t, got, turned, 1e-9)
	})
}

// No load can win energy: the matrix of deflections and slopes per forces and
// couples has no negative pivot, by Cholesky's elimination with the largest
// pivot first. Couples are counted in forces at the length of the shaft.
func TestInfluenceIsPositiveSemidefinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := hardShaft(t)
		x := anyPlaces(t, m)
		f := m.Influence(x, nil)
		n := len(x)
		a := make([][]float64, 2*n)
		for i := range a {
			a[i] = make([]float64, 2*n)
		}
		for i := range n {
			for j := range n {
				a[i][j] = f.VV[i*n+j]
				a[i][n+j] = f.VS[i*n+j] / m.length
				a[n+j][i] = a[i][n+j]
				a[n+i][n+j] = f.SS[i*n+j] / m.length / m.length
			}
		}
		var size float64
		for step := range 2 * n {
			at := step
			for i := step; i < 2*n; i++ {
				if a[i][i] > a[at][at] {
					at = i
				}
			}
			if step == 0 {
				size = a[at][at]
			}
			for i := step; i < 2*n; i++ {
				if a[i][i] < -1e-10*size {
					t.Fatalf("pivot %d is %g, the first was %g", step, a[i][i], size)
				}
			}
			if a[at][at] < 1e-10*size {
				return // the rest is rounding
			}
			a[step], a[at] = a[at], a[step]
			for i := range a {
				a[i][step], a[i][at] = a[i][at], a[i][step]
			}
			for i := step + 1; i < 2*n; i++ {
				k := a[i][step] / a[step][step]
				for j := step + 1; j < 2*n; j++ {
					a[i][j] -= k * a[step][j]
				}
			}
		}
	})
}

// Memory is used again, whatever it held, and nothing is asked for.
func TestInfluenceUsesMemoryAgain(t *testing.T) {
	shaft, _ := benchShaft()
	m, err := New(shaft)
	if err != nil {
		t.Fatal(err)
	}
	many, few := []float64{5, 80, 83, 120, 195, 230}, []float64{195, 80, 20}
	reuse := m.Influence(many, nil)
	got, want := m.Influence(few, reuse), m.Influence(few, nil)
	if got != reuse {
		t.Error("other memory came back")
	}
	if !slices.Equal(got.X, few) || !slices.Equal(got.VV, want.VV) || !slices.Equal(got.VS, want.VS) || !slices.Equal(got.SS, want.SS) || !slices.Equal(got.TT, want.TT) {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if n := testing.AllocsPerRun(10, func() { m.Influence(many, reuse) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// Places beyond the ends are the ends, as for Flexibility.
func TestInfluenceStaysOnTheShaft(t *testing.T) {
	shaft, _ := benchShaft()
	m, err := New(shaft)
	if err != nil {
		t.Fatal(err)
	}
	got, want := m.Influence([]float64{-3, 300}, nil), m.Influence([]float64{0, 240}, nil)
	if !slices.Equal(got.X, []float64{0, 240}) || !slices.Equal(got.VV, want.VV) || !slices.Equal(got.TT, want.TT) {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if none := m.Influence(nil, nil); len(none.X) != 0 || len(none.VV) != 0 {
		t.Errorf("no places: %+v", none)
	}
}

// A shaft fixed at its left end, without shear. Shigley's Mechanical
// Engineering Design, 9th edition, table A-9, case 2 (cantilever, intermediate
// load) and case 4 (cantilever, moment load, here with the moment at any place),
// from memory: for x ≤ a
//
//	y = F x² (3a − x)/(6EI)   and   y = M x²/(2EI), θ = M x/(EI).
//
// The twist T x/(GJ), section 3-12 (from memory), here with a step.
func TestInfluenceOfFixedShaft(t *testing.T) {
	shaft := plain(Support{X: 0, Radial: rigid, Tilt: rigid})
	m, err := New(shaft)
	if err != nil {
		t.Fatal(err)
	}
	const x, a = 140.0, 300.0
	ei := shaft.Young * inertia(40, 0)
	f := m.Influence([]float64{x, a}, nil)
	near(t, "VV", f.VV[1], x*x*(3*a-x)/(6*ei), 1e-12)
	near(t, "VV the other way", f.VV[2], x*x*(3*a-x)/(6*ei), 1e-12)
	near(t, "VV at the load", f.VV[3], a*a*a/(3*ei), 1e-12)
	near(t, "VS, couple farther out", f.VS[1], x*x/(2*ei), 1e-12)
	near(t, "VS, couple nearer", f.VS[2], x*x/(2*ei)+x*(a-x)/ei, 1e-12)
	near(t, "SS", f.SS[1], x/ei, 1e-12)

	shaft.Sections = []Section{{100, 40, 0}, {200, 50, 20}}
	shaft.NoShoulder = true
	if m, err = New(shaft); err != nil {
		t.Fatal(err)
	}
	g := shaft.Young / 2.6
	thin, thick := math.Pi*math.Pow(40, 4)/32, math.Pi*(math.Pow(50, 4)-math.Pow(20, 4))/32
	f = m.Influence([]float64{60, 100, 250}, nil)
	for i, want := range []float64{60 / (g * thin), 100 / (g * thin), 100/(g*thin) + 150/(g*thick)} {
		for j := i; j < 3; j++ {
			near(t, "TT", f.TT[i*3+j], want, 1e-12)
			near(t, "TT the other way", f.TT[j*3+i], want, 1e-12)
		}
	}
}
