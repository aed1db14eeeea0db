package boxfile

import (
	"strings"
	"testing"

	"layshaft/beam/strength"
	"layshaft/gearbox"
)

func TestNotchesAndTheirRules(t *testing.T) {
	box, list := Read("box.yaml", []byte(strings.NewReplacer(
		"      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", `      right: {at: 70 mm, type: plain, axial: fixed}
    surface: ground
    notches:
      spline: {shape: spline, at: 6 mm, length: 12 mm, root: 27.5 mm}
      ring: {shape: circlip groove, at: 20 mm, depth: 0.95 mm, width: 1.85 mm, radius: 0.1 mm}
      key: {shape: keyway, at: 40 mm, length: 18 mm, depth: 4 mm}
      oil: {shape: cross hole, at: 55 mm, hole: 1/8 in}
  output:`, "speeds:\n", "limits: {shaft_criterion: Gerber, shaft_torsion: pulsating}\nspeeds:\n").Replace(plain)))
	if box == nil {
		t.Fatal(list)
	}
	want := []gearbox.Notch{
		{Name: "spline", Shape: strength.SplineRoot, At: 6, Length: 12, Root: 27.5},
		{Name: "ring", Shape: strength.CirclipGroove, At: 20, Depth: 0.95, Width: 1.85, Radius: 0.1},
		{Name: "key", Shape: strength.Keyway, At: 40, Length: 18, Depth: 4},
		{Name: "oil", Shape: strength.CrossHole, At: 55, Hole: 3.175},
	}
	for i, n := range box.Shafts[0].Notches {
		if n != want[i] {
			t.Errorf("%+v, want %+v", n, want[i])
		}
	}
	if len(box.Shafts[0].Notches) != len(want) || box.Shafts[0].Surface != strength.Ground || box.Limits.ShaftCriterion != strength.Gerber || box.Limits.ShaftTorsion != strength.Pulsating {
		t.Errorf("%+v, %+v", box.Shafts[0], box.Limits)
	}
}

func TestJoints(t *testing.T) {
	box := read(t, "rated.yaml")
	want := []gearbox.Joint{
		{Name: "clutch", Type: gearbox.InvoluteSpline, At: 20, Length: 12, Teeth: 24, Outer: 30, Inner: 28},
		{Name: "key", Type: gearbox.ParallelKey, At: 50, Length: 18, Width: 8, Height: 7},
		{Name: "pressed", Type: gearbox.PressedOn, At: 140, Length: 20, Outer: 60, Interference: 0.03, Friction: 0.15},
		{Name: "ring", Type: gearbox.CirclipRing, At: 90, Depth: 1.25, Holds: "pinion"},
	}
	for i, j := range box.Shafts[0].Joints {
		if j != want[i] {
			t.Errorf("%+v, want %+v", j, want[i])
		}
	}
	if len(box.Shafts[0].Joints) != len(want) {
		t.Errorf("%d joints, want %d", len(box.Shafts[0].Joints), len(want))
	}
}
