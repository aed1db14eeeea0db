package beam

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// A recurring case has the reactions and the stresses of the same case solved at once. Two supports side by side bear
// a couple by forces that are larger than the loads in the measure of its lever, and that is how much more rounding
// shows.
func TestRecurringIsSolve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := hardShaft(t).Shaft()
		if rapid.Bool().Draw(t, "held along") {
			s.Supports[0].Axial = rapid.SampledFrom([]float64{1e4, rigid}).Draw(t, "axial")
			s.Supports[len(s.Supports)-1].Axial = rapid.SampledFrom([]float64{0, 1e5}).Draw(t, "axial at the other end")
		}
		for i := range s.Supports {
			s.Supports[i].Width = rapid.SampledFrom([]float64{0, 0, 6}).Draw(t, "width")
		}
		m, err := New(s)
		if err != nil {
			t.Skip(err) // a seat may reach beyond the end
		}
		x := anyPlaces(t, m)
		r := m.Recurring(x)
		closest := m.length
		for i := range s.Supports[1:] {
			closest = min(closest, s.Supports[i+1].X-s.Supports[i].X)
		}
		for round := range 2 {
			c := Case{}
			var twist, thrust float64
			for i := range x {
				f := func(what string) float64 { return between(t, fmt.Sprint(what, round, i), -1, 1) }
				l := Load{X: x[i], Fy: 1e3 * f("fy"), Fz: 1e3 * f("fz"), Mx: 1e5 * f("mx"), My: 1e4 * f("my"), Mz: 1e4 * f("mz"), Fx: 1e3 * f("fx")}
				twist += l.Mx
				thrust += l.Fx
				c.Loads = append(c.Loads, l)
			}
			c.Loads[0].Mx -= twist
			if m.axial == nil {
				c.Loads[0].Fx -= thrust
			}
			if round == 1 {
				c.Seats = make([]Seat, len(s.Supports))
				for i := range c.Seats {
					f := func(what string) float64 { return between(t, fmt.Sprint(what, i), -1, 1) }
					c.Seats[i] = Seat{Move: [2]float64{0.01 * f("y"), 0.01 * f("z")}, Tilt: [2]float64{1e-4 * f("xy"), 1e-4 * f("xz")}}
				}
			}
			want, err := m.Solve(c)
			if err != nil {
				t.Skip(err) // such a shaft on such seats is refused
			}
			got, err := r.Solve(c.Loads, c.Seats)
			if err != nil {
				t.Fatal(err)
			}
			force, couple := want.transverse()
			allowed := 1e-9 * m.length / closest
			for i, w := range want.reactions {
				g := got[i]
				if d := math.Hypot(g.Fy-w.Fy, g.Fz-w.Fz); d > allowed*force {
					t.Fatalf("support %d: %v, solved at once %v", i, g, w)
				}
				if d := math.Hypot(g.My-w.My, g.Mz-w.Mz); d > allowed*couple {
					t.Fatalf("support %d: %v, solved at once %v", i, g, w)
				}
				if math.Abs(g.Fx-w.Fx) > 1e-9*want.size.axial {
					t.Fatalf("support %d: %v, solved at once %v", i, g, w)
				}
			}
			stress, top := make([]float64, len(s.Sections)), 0.0
			r.VonMises(stress)
			for i := range stress {
				top = max(top, want.SectionStress(i).VonMises)
			}
			for i := range stress {
				if w := want.SectionStress(i).VonMises; math.Abs(stress[i]-w) > allowed*max(w, top) {
					t.Fatalf("section %d: %.12g MPa, solved at once %.12g", i, stress[i], w)
				}
			}
			inside := append(slices.Clone(x), between(t, fmt.Sprint("x", round), 0, m.length))
			for _, place := range inside {
				left, right := r.Beside(place)
				for side, g := range map[Side]State{Left: left, Right: right} {
					w := want.At(place, side)
					if d := math.Hypot(g.Y.Moment-w.Y.Moment, g.Z.Moment-w.Z.Moment); d > allowed*couple {
						t.Fatalf("at %g, side %d: moment %v, solved at once %v", place, side, g, w)
					}
					if d := math.Hypot(g.Y.Shear-w.Y.Shear, g.Z.Shear-w.Z.Shear); d > allowed*force {
						t.Fatalf("at %g, side %d: shear %v, solved at once %v", place, side, g, w)
					}
					if math.Abs(g.Torque-w.Torque) > 1e-9*want.size.twist || math.Abs(g.Normal-w.Normal) > 1e-9*want.size.axial {
						t.Fatalf("at %g, side %d: %v, solved at once %v", place, side, g, w)
					}
				}
			}
		}
	})
}

// What doesn't balance, and a case of other loads than places, is refused.
func TestRecurringRefuses(t *testing.T) {
	m, err := New(Shaft{Young: 206000, Poisson: 0.3, Sections: []Section{{100, 30, 0}}, Supports: []Support{{X: 0, Radial: rigid}, {X: 100, Radial: rigid}}})
	if err != nil {
		t.Fatal(err)
	}
	r := m.Recurring([]float64{50})
	for _, loads := range [][]Load{nil, {{Mx: 1}}, {{Fx: 1}}} {
		if _, err := r.Solve(loads, nil); err == nil {
			t.Errorf("%v was accepted", loads)
		}
	}
}
