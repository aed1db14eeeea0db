package study

import (
	"context"
	"math"
	"slices"
	"sync"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
)

// solvedDemo are the demonstration boxes, solved once for all tests.
var solvedDemo = sync.OnceValues(func() (results [2]*gearbox.Result, err error) {
	for i, name := range demoNames {
		box, _, found := boxfile.ReadFile("../../testdata/" + name)
		if found.HasErrors() {
			return results, found
		}
		box.Origin.File = name
		if results[i], err = gearbox.Solve(box, gearbox.Load{}); err != nil {
			return results, err
		}
	}
	return results, nil
})

// splitDemo is the difference between them, there and back, shared out once.
var splitDemo = sync.OnceValues(func() (both [2]*CauseSplit, err error) {
	r, err := solvedDemo()
	for i := 0; i < 2 && err == nil; i++ {
		both[i], err = SplitCauses(context.Background(), r[i], r[1-i], gearbox.Load{}, nil)
	}
	return both, err
})

var demoNames = [2]string{"alder.yaml", "birch.yaml"}

// demo are the demonstration boxes as they are solved. Results, their speeds and the boxes are copies; what lies deeper is that of all tests and must not be changed.
func demo(t *testing.T) (alder, birch *gearbox.Result) {
	t.Helper()
	results, err := solvedDemo()
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range results {
		own := *r
		own.Box, own.Speeds = altered(r.Box, func(b *gearbox.Box) { b.Speeds = slices.Clone(b.Speeds) }), slices.Clone(r.Speeds)
		results[i] = &own
	}
	return results[0], results[1]
}

func demoBoxes(t testing.TB) (alder, birch *gearbox.Box) {
	t.Helper()
	var boxes []*gearbox.Box
	for _, name := range demoNames {
		box, _, found := boxfile.ReadFile("../../testdata/" + name)
		if found.HasErrors() {
			t.Fatal(found)
		}
		box.Origin.File = name // boxes of two files differ in this too, and it must not matter
		boxes = append(boxes, box)
	}
	return boxes[0], boxes[1]
}

func item(t *testing.T, row SpeedRow, key, part string) Difference {
	t.Helper()
	for _, d := range row.Items {
		if d.Key == key && d.Part == part {
			return d
		}
	}
	t.Fatalf("speed %s has no %s of %q", row.Name, key, part)
	return Difference{}
}

func TestCompareTakesItsNumbersFromTheResults(t *testing.T) {
	alder, birch := demo(t)
	c := Compare([]*gearbox.Result{alder, birch})
	if len(c.Speeds) != 5 {
		t.Fatalf("%d speeds, want 5", len(c.Speeds))
	}
	for i, row := range c.Speeds {
		a, b := &alder.Speeds[i], &birch.Speeds[i]
		for _, w := range []struct {
			key, part string
			a, b      float64
		}{
			{"allowable_torque", "", a.Governing().Allowable[a.Governing().Level], b.Governing().Allowable[b.Governing().Level]},
			{"largest_deflection", "output shaft", a.Shafts[1].MaxDeflection, b.Shafts[1].MaxDeflection},
			{"misalignment", "final", a.Meshes[1].FaceGap, b.Meshes[1].FaceGap},
			{"root_stress", a.Meshes[0].Name + ", driven", a.Meshes[0].Rating.Root[1].Stress, b.Meshes[0].Rating.Root[1].Stress},
		} {
			d := item(t, row, w.key, w.part)
			if d.Values[0] != w.a || d.Values[1] != w.b || d.Change[0] != 0 || math.Abs(d.Change[1]-(w.b/w.a-1)) > 1e-12 {
				t.Errorf("%s, %s of %q: %v, change %v; want %g and %g", row.Name, w.key, w.part, d.Values, d.Change, w.a, w.b)
			}
		}
	}
	// The case of the demonstration: the shorter span bends less.
	if d := item(t, c.Speeds[0], "largest_deflection", "output shaft"); d.Change[1] > -0.1 {
		t.Errorf("the short box's output shaft bends %+.0f %% of the long one's", 100*d.Change[1])
	}
}

// A box compared with itself differs in nothing.
func TestCompareWithItself(t *testing.T) {
	alder, _ := demo(t)
	for _, row := range Compare([]*gearbox.Result{alder, alder}).Speeds {
		for _, d := range row.Items {
			if d.Values[0] != d.Values[1] || d.Change[1] != 0 && !math.IsNaN(d.Change[1]) {
				t.Errorf("%s, %s of %q: %v, change %v", row.Name, d.Key, d.Part, d.Values, d.Change)
			}
		}
	}
}

func TestSpeedsThatOnlyOneBoxHas(t *testing.T) {
	alder, birch := demo(t)
	alder.Speeds = alder.Speeds[:4]
	birch.Speeds[0].Name = "crawler"
	c := Compare([]*gearbox.Result{alder, birch})
	var names []string
	for _, row := range c.Speeds {
		names = append(names, row.Name)
		switch row.Name {
		case "1st":
			if row.Boxes[1] != nil || !math.IsNaN(item(t, row, "allowable_torque", "").Values[1]) {
				t.Error("the second box has no 1st, but shows one")
			}
		case "crawler", "5th":
			if row.Boxes[0] != nil || !math.IsNaN(item(t, row, "allowable_torque", "").Change[1]) {
				t.Errorf("the first box has no %s, but shows one", row.Name)
			}
		}
	}
	if len(names) != 6 {
		t.Errorf("speeds %v, want those of both boxes once each", names)
	}
}

func TestChange(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct{ v, base, want float64 }{
		{12, 10, 0.2}, {-12, -10, 0.2}, {-5, -10, -0.5}, {1, -1, nan}, {1, 0, nan}, {inf, 1, nan}, {1, inf, nan}, {nan, 1, nan},
	} {
		if got := change(c.v, c.base, false); math.Abs(got-c.want) > 1e-15 || math.IsNaN(got) != math.IsNaN(c.want) {
			t.Errorf("from %g to %g: %g, want %g", c.base, c.v, got, c.want)
		}
	}
}

// Shafts and meshes of other names stand beside what they are in the first box.
func TestRenamedPartsStandSideBySide(t *testing.T) {
	a := pairBox(t, "long")
	b := altered(pairBox(t, "short"), func(b *gearbox.Box) {
		b.Shafts[1].Name, b.Output.Shaft, b.Gears[1].Shaft = "main", "main", "main"
		b.Centres = []gearbox.Centre{{Between: [2]string{"input", "main"}, Distance: b.Centres[0].Distance}}
		b.Meshes[0].Name = "pair"
		b.Speeds = []gearbox.Speed{{Name: "only", Path: []string{"pair"}}}
	})
	ra, rb := solve(t, a), solve(t, b)
	c := Compare([]*gearbox.Result{ra, rb})
	if len(c.Renamed[0]) != 0 || len(c.Renamed[1]) != 2 {
		t.Errorf("renamed %v", c.Renamed)
	}
	row := c.Speeds[0]
	if d := item(t, row, "misalignment", "only pair"); d.Values[1] != rb.Speeds[0].Meshes[0].FaceGap {
		t.Errorf("misalignment %v", d.Values)
	}
	if d := item(t, row, "bearing_span", "output shaft"); d.Values[0] != 170 || d.Values[1] != 140 {
		t.Errorf("spans %v", d.Values)
	}
	for _, d := range row.Items {
		if d.Part == "pair" || d.Part == "main shaft" {
			t.Errorf("%s of %q stands alone", d.Key, d.Part)
		}
	}
}
