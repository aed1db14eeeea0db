package gearbox

import (
	"math"
	"slices"
	"testing"

	"layshaft/beam"
)

// The shaft at a gear: its slope is how fast its deflection changes along it, by central differences of the deflections beside it (without shear, which adds its own to them), and no gear is deflected more than the shaft is anywhere.
func TestShaftAtAGear(t *testing.T) {
	for _, s := range mustSolve(t, twoSpeeds(0), Load{Method: Method{NoShear: true, NoShoulder: true}}).Speeds {
		for _, sh := range s.Shafts {
			if len(sh.Gears) == 0 {
				t.Errorf("%s, %s: no gear", s.Name, sh.Name)
			}
			for _, g := range sh.Gears {
				const h = 1e-3 // mm; within it the load along the face bends nothing that shows
				x := (g.From + g.To) / 2
				at := func(x float64) (y, z float64) {
					p := sh.Solution.At(x, beam.Left)
					return p.Y.Deflection, p.Z.Deflection
				}
				y, z := at(x)
				left, right := [2]float64{}, [2]float64{}
				left[0], left[1] = at(x - h)
				right[0], right[1] = at(x + h)
				slope := math.Hypot(right[0]-left[0], right[1]-left[1]) / (2 * h)
				if math.Abs(g.Deflection-math.Hypot(y, z)) > 1e-12 || g.Deflection > sh.MaxDeflection*(1+1e-6) {
					t.Errorf("%s, %s: deflection %g mm, want %g; the shaft's largest is %g", s.Name, g.Name, g.Deflection, math.Hypot(y, z), sh.MaxDeflection)
				}
				if !(g.Slope > 0) || math.Abs(g.Slope-slope) > 1e-4*g.Slope {
					t.Errorf("%s, %s: slope %g, by differences %g", s.Name, g.Name, g.Slope, slope)
				}
			}
		}
	}
}

// A gear that runs in two meshes of a speed has its limits named by mesh, and no other gear has.
func TestMeshOfAnIdlerIsNamed(t *testing.T) {
	b := threeShafts()
	b.Gears = slices.DeleteFunc(b.Gears, func(g Gear) bool { return g.Name == "p2" })
	b.Meshes[1].Driver, b.Meshes[1].Module, b.Meshes[1].Helix, b.Meshes[1].Hand = "w1", 2, b.Meshes[0].Helix, Left
	b.Gears[2].At, b.Shafts[2].Start = 65, b.Gears[1].At-65
	distance := (39. + 71) * 2 / 2 / math.Cos(b.Meshes[0].Helix)
	b.Shafts[2].Axis = &[2]float64{66, distance}
	s := mustSolve(t, b, Load{Loose: true}).Speeds[0]
	named := map[string]map[string]bool{}
	for _, m := range s.Margins {
		if m.Gear == "" {
			continue
		}
		if named[m.Gear] == nil {
			named[m.Gear] = map[string]bool{}
		}
		named[m.Gear][m.Mesh] = true
	}
	for gear, want := range map[string][]string{"p1": {""}, "w1": {"a", "b"}, "w2": {""}} {
		for _, mesh := range want {
			if !named[gear][mesh] || len(named[gear]) != len(want) {
				t.Errorf("%s: meshes %v, want %q", gear, named[gear], want)
			}
		}
	}
	f := FirstLimit{Kind: FlankPeak, Item: "w1", Mesh: "b"}
	if got := f.Phrase(); got != "peak at flank of w1 (mesh b)" {
		t.Error(got)
	}
}

// Where limits are chosen, the others are no guides and no wear without a duty.
func TestLimitsBesideTheChosen(t *testing.T) {
	r := mustSolve(t, twoSpeeds(10, DutyStep{Speed: "only", Turns: 100, Share: 1}), Load{Kinds: []Kind{RootPeak}})
	for _, s := range r.Speeds {
		for _, m := range s.Margins {
			if m.Kind != RootPeak {
				t.Errorf("%s decides", m.Kind)
			}
		}
		for _, m := range s.Guides {
			if m.Class() != Guide {
				t.Errorf("%s is a guide", m.Kind)
			}
		}
		if len(s.Endless) > 0 {
			t.Errorf("%d limits for endless life under a duty", len(s.Endless))
		}
		if !slices.ContainsFunc(s.Beside, func(m Margin) bool { return m.Kind == FlankFatigue }) || !slices.ContainsFunc(s.Beside, func(m Margin) bool { return m.Kind == ShaftYield }) {
			t.Error("what was not chosen is nowhere")
		}
	}
}
