package gearbox

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Gears stand in their seats as the law of seats and thrust faces says: what is left of the couple on a gear leans it as its seat gives, the face takes all that it can, along the lean, or all of the couple while the gear
// stays upright. The couples are those of the loads on the strips, and the search from nothing ends where that from a solution nearby ends.
func TestGearsStandInTheirSeats(t *testing.T) {
	leant, upright := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		c := anyCoupling(t).fixed
		for range 3 {
			scale := math.Exp(rapid.Float64Range(-4, 4).Draw(t, "scale"))
			if err := c.seek(scale, making{}, nil, nil); err != nil {
				t.Fatal(err)
			}
			var cold spread
			cold.copyFrom(&c.now)
			if err := c.find(scale, making{}, nil); err != nil {
				t.Fatal(err)
			}
			loads := make([]float64, len(cold.state))
			for k := range loads {
				loads[k] = cold.load(k)
			}
			for k := range c.leaning {
				l, seat := &c.leaning[k], &cold.seats[k]
				size := max(l.seat.Clearance/l.seat.Length, l.stiff*scale)
				alikeTo(t, "lean from nearby", c.now.seats[k].lean.minus(seat.lean).norm(), 0, 1e-9, size)
				couple, face := l.under(scale, loads), l.face*scale
				most := couple.norm() + scale*l.force.norm()*l.seat.Length
				if seat.couple == (point{}) && face > 0 {
					upright++
					if seat.lean != (point{}) || couple.norm() > face+1e-9*most {
						t.Errorf("upright, leaning by %v under %g N·mm, of which the face takes %g", seat.lean, couple.norm(), face)
					}
					continue
				}
				leant++
				taken := couple.minus(seat.couple)
				alikeTo(t, "couple of the face", taken.norm(), face, 1e-9, most)
				alikeTo(t, "along the lean", taken.dot(seat.lean), face*seat.lean.norm(), 1e-9, most*seat.lean.norm()+1e-9*most*size)
				// Beside an end that floats the lean says nothing of the couple that is as exact.
				first, second := l.seat.ends(l.force.scaled(scale), seat.couple)
				if min(first.norm(), second.norm()) > 100*l.small*scale {
					alone, _ := l.seat.lean(l.force.scaled(scale), seat.couple, l.small*scale)
					alikeTo(t, "lean of the seat", alone.minus(seat.lean).norm(), 0, 1e-9, size)
				}
			}
		}
	})
	if leant == 0 || upright == 0 {
		t.Errorf("%d gears lean, %d stay upright", leant, upright)
	}
}
