package gearbox

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"
)

// A shaft of which two distances are known lies on either side of the line through its neighbours: what is reported is the less of the box with its axis written down and of the one with the
// axis mirrored at that line. With a sense that isn't known either, it is the least of four. A fourth shaft that meshes with it leaves one side alone.
func TestReportedIsTheLeastOfRandomBoxes(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		b := randomBox(t)
		if len(b.Shafts) < 3 {
			t.Skip("two shafts have no sides")
		}
		var axes [3]point
		for i := range axes {
			axes[i] = point(*b.Shafts[i].Axis)
		}
		base := axes[1].minus(axes[0])
		across := base.turned().scaled(1 / base.norm())
		height := axes[2].minus(axes[0]).dot(across)
		if math.Abs(height) < 5 {
			t.Skip("nearly on the line")
		}
		mirrored := axes[2].minus(across.scaled(2 * height))
		open := b.apart()
		open.Shafts[2].Axis = nil
		for i := range 2 {
			open.Centres = append(open.Centres, Centre{[2]string{b.Shafts[i].Name, b.Shafts[2].Name}, axes[2].minus(axes[i]).norm()})
		}
		axesTried := [][2]float64{axes[2], mirrored}
		if len(b.Shafts) == 4 {
			if last := point(*b.Shafts[3].Axis); math.Abs(mirrored.minus(last).norm()-axes[2].minus(last).norm()) < 2*misplaced {
				t.Skip("the fourth shaft doesn't tell the sides apart")
			}
			axesTried = axesTried[:1]
		}
		senses := []int{b.Turns}
		if rapid.Bool().Draw(t, "sense unknown") {
			open.Unknown = map[string]bool{"input.turns": true}
			senses = []int{1, -1}
		}
		load := Load{Torque: b.Torque * rapid.SampledFrom([]float64{1, -1}).Draw(t, "drive or coast"), Loose: true, Brief: true}
		least := math.Inf(1)
		for _, turns := range senses {
			for _, axis := range axesTried {
				c := b.apart()
				c.Turns, c.Shafts[2].Axis = turns, &axis
				r, err := Solve(c, load)
				if err != nil {
					t.Fatal(err)
				}
				least = min(least, r.Speeds[0].First.Torque)
			}
		}
		r, err := Solve(open, load)
		if err != nil {
			t.Fatal(err)
		}
		if got := r.Speeds[0].First.Torque; math.Abs(got-least) > 1e-6*least {
			t.Errorf("reported %g N·mm, the least of %d boxes written down %g", got, len(senses)*len(axesTried), least)
		}
	})
}
