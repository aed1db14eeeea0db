package gearbox

import (
	"math"
	"testing"
)

// Without a duty a limit of fatigue says how many turns of the input shaft it lasts at the asked torque. A duty of just so many
// turns, once, uses that limit up: it allows the asked torque and no more. The second mesh's driver turns slower than the input.
func TestADutyOfTheTurnsLeftUsesThemUp(t *testing.T) {
	asked := twoSpeeds(1)
	asked.Torque = 400e3
	tried := 0
	for _, s := range mustSolve(t, asked, Load{}).Speeds {
		for _, m := range s.All() {
			if m.Kind != RootFatigue && m.Kind != FlankFatigue || !(m.Turns > 1) || math.IsInf(m.Turns, 1) {
				continue
			}
			tried++
			b := twoSpeeds(1, DutyStep{Speed: s.Name, Turns: m.Turns, Share: 1})
			b.Torque = asked.Torque
			for _, other := range mustSolve(t, b, Load{Speeds: []string{s.Name}}).Speeds {
				for _, n := range other.All() {
					if n.Kind == m.Kind && n.Item == m.Item && n.Mesh == m.Mesh && math.Abs(n.Margin) > 1e-7 {
						t.Errorf("%s, %v of %s: after its %g turns a margin of %g is left", s.Name, m.Kind, m.Item, m.Turns, n.Margin)
					}
				}
			}
			if tried == 6 {
				return
			}
		}
	}
	if tried < 3 {
		t.Errorf("only %d limits of fatigue last for some turns", tried)
	}
}

// Of what was survived in several pieces of history the largest of each guide counts, in whatever order they come.
func TestMostSurvivedIsTheLargest(t *testing.T) {
	less := []Survived{{Kind: MeshTilt, Item: "a", Demand: 0.001, Speed: "1st"}, {Kind: MeshTilt, Item: "b", Demand: 0.004}}
	more := []Survived{{Kind: MeshTilt, Item: "a", Demand: 0.002, Speed: "2nd"}, {Kind: BearingSlope, Item: "a", Demand: 0.0005}}
	for _, order := range [][2][]Survived{{less, more}, {more, less}} {
		got := MostSurvived(order[0], order[1])
		if len(got) != 3 {
			t.Fatalf("%+v", got)
		}
		for _, s := range got {
			if want := map[string]float64{"a" + MeshTilt.String(): 0.002, "b" + MeshTilt.String(): 0.004, "a" + BearingSlope.String(): 0.0005}[s.Item+s.Kind.String()]; s.Demand != want {
				t.Errorf("%+v, want %g", s, want)
			}
		}
	}
}
