package gearbox

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"layshaft/material"
)

// What a speed allows at each end of its ranges is what it allows when the box is judged by that end, whichever limit then comes first.
func TestAllowableAtAnEndIsThatOfABoxJudgedByIt(t *testing.T) {
	b := threeShafts()
	all := mustSolve(t, b, Load{})
	for level := material.Low; level <= material.High; level++ {
		b.Limits.Strength = level
		r, brief := mustSolve(t, b, Load{}), mustSolve(t, b, Load{Brief: true})
		least := math.Inf(1)
		for i := range r.Speeds {
			want := r.Speeds[i].Governing().Allowable[level]
			if got := all.Speeds[i].Allowable(level); math.Abs(got-want) > 1e-6*want {
				t.Errorf("%s, %s: allowable %g, judged by that end %g", r.Speeds[i].Name, level, got, want)
			}
			if got := brief.Speeds[i].Allowable(level); got != brief.Speeds[i].First.Torque {
				t.Errorf("%s, %s, in brief: allowable %g, the first limit is at %g", r.Speeds[i].Name, level, got, brief.Speeds[i].First.Torque)
			}
			least = min(least, all.Speeds[i].Allowable(level))
		}
		if got := all.Allowable(level); got != least {
			t.Errorf("%s: the box allows %g, the least of its speeds %g", level, got, least)
		}
	}
	low, high := all.Speeds[0].Allowable(material.Low), all.Speeds[0].Allowable(material.High)
	if !(low < high) {
		t.Fatalf("low end %g, high end %g: this box can't tell the ends apart", low, high)
	}
}

// Stronger parts and wider limits never allow less: low ≤ typical ≤ high, and the end that the box is judged by is that of the limit in front.
func TestEndsStandInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := randomBox(t)
		b.Limits.Strength = material.Level(rapid.IntRange(0, 2).Draw(t, "level"))
		r, err := Solve(b, Load{})
		if err != nil {
			t.Skip(err)
		}
		for _, s := range r.Speeds {
			a := [3]float64{s.Allowable(0), s.Allowable(1), s.Allowable(2)}
			// Equal ends of a range are searched one by one, each to about 10⁻¹¹.
			if s := 1 + 1e-9; !(a[0] <= a[1]*s && a[1] <= a[2]*s) {
				t.Errorf("allowable torques %g are out of order", a)
			}
			if got := s.Governing().Allowable[b.Limits.Strength]; math.Abs(got-a[b.Limits.Strength]) > 1e-9*got {
				t.Errorf("judged by the %s end: %g, but the limit in front allows %g", b.Limits.Strength, a[b.Limits.Strength], got)
			}
		}
	})
}
