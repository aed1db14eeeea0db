package bearing

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Springs change little when the load changes little, down to no load at all: with clearance they
// go to 0, squeezed they go to the tangent at rest.
func TestSpringsAreContinuous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyRow(t, allKinds...)
		f, m := e.anyLoad(t)
		a, err := e.Springs(f, m)
		if err != nil {
			t.Fatal(err)
		}
		for i := range f {
			f[i] *= 1 + 1e-7
		}
		for i := range m {
			m[i] *= 1 + 1e-7
		}
		b, err := e.Springs(f, m)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range [][2]float64{{a.Radial, b.Radial}, {a.Axial, b.Axial}, {a.Tilt, b.Tilt}} {
			if math.Abs(v[0]-v[1]) > 1e-4*(v[0]+v[1]) {
				t.Errorf("springs jump from %v to %v", a, b)
			}
			if !(v[0] >= 0) {
				t.Errorf("springs %v below 0", a)
			}
		}
	})
	loose, tight, line := crb, crb, crb
	loose.Clearance, tight.Clearance = 0.02, -0.02
	rest := must[Springs](t)(tight.Springs([3]float64{}, [2]float64{}))
	if !(rest.Radial > 1e5 && rest.Tilt > 1e5) {
		t.Fatalf("a squeezed row holds nothing at rest: %v", rest)
	}
	last, lastLine := math.Inf(1), math.Inf(1)
	for f := 1000.; f > 1e-9; f /= 10 {
		load := [3]float64{0, 0.6 * f, 0.8 * f}
		s := must[Springs](t)(loose.Springs(load, [2]float64{}))
		if !(s.Radial < last && s.Radial <= 1.05*f/0.01) {
			t.Errorf("loose at %g N: %g N/mm", f, s.Radial)
		}
		last = s.Radial
		s = must[Springs](t)(line.Springs(load, [2]float64{}))
		if !(s.Radial < lastLine) {
			t.Errorf("without clearance at %g N: %g N/mm", f, s.Radial)
		}
		lastLine = s.Radial
		if f < 1 {
			s = must[Springs](t)(tight.Springs(load, [2]float64{}))
			near(t, "squeezed", s.Radial, rest.Radial, 1e-5)
			near(t, "squeezed, tilting", s.Tilt, rest.Tilt, 1e-5)
		}
	}
	if s := must[Springs](t)(loose.Springs([3]float64{}, [2]float64{})); s != (Springs{}) {
		t.Errorf("loose without load: %v, want nothing", s)
	}
}

// A shaft on the springs sits where the row does: load over spring is the displacement. Exact for
// load and couple in one plane that the elements stand symmetric to.
func TestSpringsSitWhereTheRowDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyRow(t, Cylindrical, Needle)
		e.Count += e.Count % 2
		e.Pitch *= 1.2
		e.Turn = math.Pi / float64(e.Count) * float64(rapid.IntRange(0, 1).Draw(t, "between"))
		f := e.force(t, "force")
		m := f * e.Length / 8 * between(t, "couple", 0, 1)
		d, tilt, err := e.Displacement([3]float64{1: f}, [2]float64{1: m})
		if err != nil {
			t.Fatal(err)
		}
		s, err := e.Springs([3]float64{1: f}, [2]float64{1: m})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(s.Radial*d[1]-f) > 1e-7*f || math.Abs(s.Tilt*tilt[1]-m) > 1e-7*f*e.Length {
			t.Errorf("springs %v, displacement %v %v, load %g N %g N·mm", s, d, tilt, f, m)
		}
	})
}

// Askew loads: the row slides sideways into the gap between two elements, the springs do not. That
// is at most half the spacing of the elements, seen from the middle, and only with clearance.
func TestSpringsNearlySitAskew(t *testing.T) {
	worst := 0.0
	rapid.Check(t, func(t *rapid.T) {
		e := anyRow(t, Cylindrical, Needle)
		f := [3]float64{1: e.force(t, "force")}
		d, _, err := e.Displacement(f, [2]float64{})
		if err != nil {
			t.Fatal(err)
		}
		s, err := e.Springs(f, [2]float64{})
		if err != nil {
			t.Fatal(err)
		}
		off := math.Hypot(d[1]-f[1]/s.Radial, d[2]) / math.Hypot(d[1], d[2])
		worst = max(worst, off)
		if most := math.Tan(math.Pi / float64(e.Count)); off > most {
			t.Errorf("off by %g of the displacement, expected at most %g", off, most)
		}
	})
	t.Logf("largest distance of the two places %.2g of the displacement", worst)
}
