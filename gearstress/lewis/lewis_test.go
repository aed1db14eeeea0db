package lewis

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"

	"layshaft/gearstress/involute"
)

func pair(t testing.TB, s involute.Spec) *involute.Pair {
	t.Helper()
	s.Face = 20
	if s.CentreDistance == 0 {
		s.ShiftKnown = [2]bool{true, true}
	}
	p, err := involute.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestTablesRiseFromRowToRow(t *testing.T) {
	for _, table := range []Table{FullDepth20, FullDepth145} {
		for k, r := range table.rows[1:] {
			if before := table.rows[k]; r.teeth <= before.teeth || r.y <= before.y {
				t.Errorf("%s: row %v follows %v", table.Name, r, before)
			}
		}
		if last := table.rows[len(table.rows)-1]; table.rack <= last.y {
			t.Errorf("%s: rack %v is not above %v", table.Name, table.rack, last.y)
		}
		if table.Source == "" {
			t.Errorf("%s has no source", table.Name)
		}
	}
}

func TestTableInterpolation(t *testing.T) {
	for _, c := range []struct{ teeth, want float64 }{
		{12, 0.245}, {12.5, 0.253}, {23, 0.334}, {400, 0.480}, {800, 0.4825}, {math.Inf(1), 0.485},
	} {
		y, err := FullDepth20.Y(c.teeth)
		if err != nil || math.Abs(y-c.want) > 1e-12 {
			t.Errorf("Y(%v) = %v, %v; want %v", c.teeth, y, err, c.want)
		}
	}
	for _, bad := range []float64{11.99, 0, -3, math.NaN()} {
		if y, err := FullDepth20.Y(bad); err == nil || !strings.Contains(err.Error(), "starts at 12 teeth") {
			t.Errorf("Y(%v) = %v, %v", bad, y, err)
		}
	}
	if _, err := (Table{}).Y(20); err == nil {
		t.Error("an empty table gave a value")
	}
}

func TestTableInterpolationIsMonotonic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(12, 1000).Draw(t, "a")
		b := rapid.Float64Range(a, 2000).Draw(t, "b")
		for _, table := range []Table{FullDepth20, FullDepth145} {
			ya, errA := table.Y(a)
			yb, errB := table.Y(b)
			if errA != nil || errB != nil || ya > yb {
				t.Fatalf("%s: Y(%v) = %v %v, Y(%v) = %v %v", table.Name, a, ya, errA, b, yb, errB)
			}
		}
	})
}

func TestTableForSaysWhenItDoesNotFit(t *testing.T) {
	rack := func(angle, addendum, dedendum float64) involute.Rack {
		return involute.Rack{PressureAngle: angle * math.Pi / 180, Addendum: addendum, Dedendum: dedendum, TipRadius: 0.2}
	}
	standard := rack(20, 1, 1.25)
	for _, c := range []struct {
		name  string
		spec  involute.Spec
		table string
		want  []string // parts of the note; none: fits
	}{
		{"standard", involute.Spec{Rack: standard, Teeth: [2]int{20, 40}}, "20°", nil},
		{"helical", involute.Spec{Rack: standard, Teeth: [2]int{20, 40}, Helix: 0.4}, "20°", nil},
		{"few teeth, but enough of the equivalent gear", involute.Spec{Rack: standard, Teeth: [2]int{11, 60}, Helix: 0.5}, "20°", nil},
		{"old rack", involute.Spec{Rack: rack(14.5, 1, 1.157), Teeth: [2]int{34, 50}}, "14.5°", nil},
		{"shifted", involute.Spec{Rack: standard, Teeth: [2]int{20, 40}, Shift: [2]float64{0.3, 0}}, "20°", []string{"profile shift 0.300"}},
		{"17.5 degrees", involute.Spec{Rack: rack(17.5, 1, 1.25), Teeth: [2]int{25, 40}}, "20°", []string{"pressure angle 17.5°"}},
		{"17 degrees", involute.Spec{Rack: rack(17, 1, 1.25), Teeth: [2]int{25, 40}}, "14.5°", []string{"pressure angle 17°"}},
		{"stub", involute.Spec{Rack: rack(20, 0.8, 1), Teeth: [2]int{20, 40}}, "20°", []string{"rack addendum 0.8", "rack dedendum 1 "}},
		{"tip cut down", involute.Spec{Rack: standard, Teeth: [2]int{20, 40}, TipDiameter: [2]float64{43.6, 0}}, "20°", []string{"tip 0.900 modules"}},
		{"ten teeth", involute.Spec{Rack: standard, Teeth: [2]int{10, 40}, Shift: [2]float64{0.4, 0}}, "20°", []string{"profile shift", "10 equivalent teeth, fewer than the 12"}},
	} {
		c.spec.Module = 2
		table, fits, note := TableFor(pair(t, c.spec), 0)
		if !strings.Contains(table.Name, " "+c.table) {
			t.Errorf("%s: table %q", c.name, table.Name)
		}
		if fits != (c.want == nil) || fits != (note == "") {
			t.Errorf("%s: fits = %v, note %q", c.name, fits, note)
		}
		for _, part := range c.want {
			if !strings.Contains(note, part) {
				t.Errorf("%s: note %q lacks %q", c.name, note, part)
			}
		}
	}
	// The driven gear is judged by itself.
	p := pair(t, involute.Spec{Module: 2, Rack: standard, Teeth: [2]int{20, 40}, Shift: [2]float64{0.3, 0}})
	if _, fits, note := TableFor(p, 1); !fits {
		t.Errorf("driven gear without shift: %s", note)
	}
}

// The inscribed parabola by brute force on the drawn outline: for each of many
// points, the parabola through it; the narrowest one is inscribed. Coarser, and
// independent of fillet and flank being searched apart.
func TestRealFormIsTheLargestInscribedParabola(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := involute.Spec{
			Module: rapid.Float64Range(1, 6).Draw(t, "module"), Helix: rapid.Float64Range(0, 0.5).Draw(t, "helix"),
			Rack: involute.StandardRack, Teeth: [2]int{rapid.IntRange(11, 400).Draw(t, "teeth"), 61},
			Shift: [2]float64{rapid.Float64Range(0, 0.6).Draw(t, "x"), 0}, ShiftKnown: [2]bool{true, true}, Face: 20,
		}
		p, err := involute.New(s)
		if err != nil {
			t.Skip(err.Error())
		}
		tooth, err := p.Tooth(0)
		if err != nil {
			t.Fatal(err)
		}
		got, err := RealForm(p, 0)
		if err != nil {
			t.Fatal(err)
		}
		// Load line: through the tip corner, square to the flank there, the flank's
		// direction taken from the outline itself.
		corner, below := tooth.Flank(1), tooth.Flank(1-1e-6)
		apex := corner.Y - corner.X*(corner.X-below.X)/(below.Y-corner.Y)
		least := math.Inf(1)
		for _, q := range tooth.Outline(2000) {
			if q.X > 0 && q.Y < apex {
				least = min(least, q.X*q.X/(apex-q.Y))
			}
		}
		thickness := 2 * math.Sqrt(least) // at distance 1 below the apex
		want := thickness * thickness / (6 * p.Module)
		if math.Abs(got-want) > 1e-4*want {
			t.Fatalf("Y = %v, by brute force %v", got, want)
		}
	})
}

func TestRealFormOfAThirdGearIsAnError(t *testing.T) {
	p := pair(t, involute.Spec{Module: 2, Rack: involute.StandardRack, Teeth: [2]int{20, 40}})
	if y, err := RealForm(p, 2); err == nil {
		t.Errorf("Y = %v", y)
	}
}

func BenchmarkRealForm(b *testing.B) {
	p := pair(b, involute.Spec{Module: 2.5, Rack: involute.StandardRack, Teeth: [2]int{23, 35}, Helix: 0.4})
	for b.Loop() {
		if _, err := RealForm(p, 0); err != nil {
			b.Fatal(err)
		}
	}
}
