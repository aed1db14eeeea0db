package boxfile

import (
	"math"
	"os"
	"slices"
	"testing"

	"layshaft/gearbox"
)

// What a drawing shows of senses, thrusts, ratios and distances is what the box is solved with.
func TestArrangementIsThatOfTheSolution(t *testing.T) {
	birch, err := os.ReadFile("../../testdata/birch.yaml")
	if err != nil {
		t.Fatal(err)
	}
	five, err := os.ReadFile("testdata/five-speed.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{"birch": birch, "five": five, "transaxle": StarterOf("transaxle"),
		"inline": StarterOf("inline")} {
		box, list := Read(name, data)
		if list.HasErrors() {
			t.Fatal(list)
		}
		for _, turns := range []int{1, -1} {
			box.Turns = turns
			a, err := gearbox.Arrange(box)
			if err != nil {
				t.Fatal(err)
			}
			r, err := gearbox.Solve(box, gearbox.Load{})
			if err != nil {
				t.Fatal(err)
			}
			for i, s := range r.Speeds {
				m := a.Moves[i]
				if m.Name != s.Name || math.Abs(m.Ratio-s.Ratio) > 1e-12*math.Abs(s.Ratio) || len(m.Steps) != len(s.Meshes) {
					t.Errorf("%s, %s: ratio %g over %d meshes, solved with %g over %d", name, s.Name, m.Ratio,
						len(m.Steps), s.Ratio, len(s.Meshes))
					continue
				}
				for k := range s.Meshes {
					mesh, step := &s.Meshes[k], m.Steps[k]
					for side := range 2 {
						thrust := map[string]float64{"right": 1, "left": -1, "": 0}[mesh.Thrust(side)]
						if step.Sense[side] != mesh.Sense(side) || math.Copysign(1, step.Thrust[side])*thrust < 0 || (thrust == 0) != (step.Thrust[side] == 0) {
							t.Errorf("%s, %s, mesh %s, gear %d: sense %g, thrust %g; solved with %g, %q", name, s.Name, mesh.Name, side, step.Sense[side], step.Thrust[side], mesh.Sense(side), mesh.Thrust(side))
						}
						if a.Gears[step.Gears[side]].Name != mesh.Gears[side] {
							t.Errorf("%s: gear %s is drawn for %s", name, a.Gears[step.Gears[side]].Name, mesh.Gears[side])
						}
					}
					p, q := a.Shafts[a.Gears[step.Gears[0]].Shaft], a.Shafts[a.Gears[step.Gears[1]].Shaft]
					if d := math.Hypot(p.Y-q.Y, p.Z-q.Z); math.Abs(d-mesh.Geometry.Centre) > 0.3 { // what is known of distances need not close better
						t.Errorf("%s, mesh %s: axes drawn %g mm apart, solved with %g mm", name, mesh.Name, d, mesh.Geometry.Centre)
					}
				}
			}
		}
	}
}

// A gear has one hand, its mate the other; coaxial shafts share an axis; the hub of a free gear lies beside it.
func TestArrangementOfTheInlineBox(t *testing.T) {
	box, _ := Read("inline.yaml", StarterOf("inline"))
	a, err := gearbox.Arrange(box)
	if err != nil {
		t.Fatal(err)
	}
	if len(a.Findings) > 0 || a.Chosen != "" || !a.Direct {
		t.Errorf("%v, %q, direct %v", a.Findings, a.Chosen, a.Direct)
	}
	if a.Shafts[0].Axis != a.Shafts[1].Axis || a.Shafts[2].Axis == a.Shafts[0].Axis {
		t.Errorf("axes: %+v", a.Shafts)
	}
	if !slices.ContainsFunc(a.Shafts[1].Bearings, func(b gearbox.BearingPlace) bool { return b.Pilot }) {
		t.Error("no pilot bearing")
	}
	for _, g := range a.Gears {
		if g.Free && !(g.Hub <= g.From+1e-9 || g.Hub >= g.To-1e-9) {
			t.Errorf("the hub of %s lies at %g mm, within its face from %g to %g mm", g.Name, g.Hub, g.From, g.To)
		}
	}
	if a.Gears[0].Hand != gearbox.Left || a.Gears[1].Hand != gearbox.Right || a.Gears[6].Hand != gearbox.Spur {
		t.Errorf("hands: %+v", a.Gears)
	}
}
