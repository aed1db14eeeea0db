package gearbox_test

import (
	"math"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
)

func demo(t *testing.T, file string) *gearbox.Box {
	t.Helper()
	box, _, found := boxfile.ReadFile("../testdata/" + file)
	if found.HasErrors() {
		t.Fatal(found)
	}
	return box
}

func solved(t *testing.T, b *gearbox.Box, load gearbox.Load) *gearbox.Result {
	t.Helper()
	r, err := gearbox.Solve(b, load)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// A lead error that bending takes back: the stress rises, falls and rises again as the torque grows. The first crossing is the allowable torque whatever is asked, and the bad range ends where
// the limit is just left.
func TestALimitThatIsMetLeftAndMetAgain(t *testing.T) {
	b := demo(t, "answers/cancelling-lead.yaml")
	base := solved(t, b, gearbox.Load{})
	m := base.Speeds[0].Governing()
	if m.Kind != gearbox.FlankPeak || !(m.Bad[0] == m.Allowable[m.Level] && m.Bad[1] > 1.3*m.Bad[0]) {
		t.Fatalf("%s allows %g, bad range %g", m.Phrase(), m.Allowable, m.Bad)
	}
	for _, asked := range []float64{5e3, 24e3, 60e3, 80e3, 95e3, 1000e3} {
		again := solved(t, b, gearbox.Load{Torque: asked}).Speeds[0].Governing()
		if again.Phrase() != m.Phrase() || math.Abs(again.Margin-(m.Bad[0]/asked-1)) > 1e-9 || math.Abs(again.Bad[1]/m.Bad[1]-1) > 1e-9 {
			t.Errorf("asked %g: %s allows %g, bad %g; want %g", asked, again.Phrase(), again.Allowable[again.Level], again.Bad, m.Bad)
		}
		if want := asked > m.Bad[0]; (again.State == gearbox.Over) != want {
			t.Errorf("asked %g: %s", asked, again.State)
		}
	}
	for _, end := range m.Bad {
		again := solved(t, b, gearbox.Load{Torque: end}).Speeds[0].Governing()
		if limit := again.Limit.At(again.Level); math.Abs(again.Demand/limit-1) > 1e-9 {
			t.Errorf("at the end of the bad range, %g: %g MPa of %g", end, again.Demand, limit)
		}
	}
}

// The allowable torque doesn't depend on the torque asked, from a twentieth to twenty times of it, and put back it leaves nothing.
func TestAllowableTorqueDoesNotDependOnTheTorqueAsked(t *testing.T) {
	t.Parallel()
	b := demo(t, "alder.yaml")
	base := solved(t, b, gearbox.Load{})
	for _, times := range []float64{0.05, 0.3, 20} {
		again := solved(t, b, gearbox.Load{Torque: times * b.Torque})
		for i, s := range base.Speeds {
			for k := range s.Margins[:3] {
				m, n := &s.Margins[k], &again.Speeds[i].Margins[k]
				if m.Phrase() != n.Phrase() || math.Abs(n.Allowable[n.Level]/m.Allowable[m.Level]-1) > 1e-9 {
					t.Errorf("%s asked %g times: %s at %.12g, was %s at %.12g", s.Name, times, n.Phrase(), n.Allowable[n.Level], m.Phrase(), m.Allowable[m.Level])
				}
			}
		}
	}
	for _, s := range base.Speeds {
		for k := range s.Margins[:3] {
			m := &s.Margins[k]
			for _, n := range solved(t, b, gearbox.Load{Torque: m.Allowable[m.Level], Speeds: []string{s.Name}}).Speeds[0].Margins {
				if n.Kind == m.Kind && n.Item == m.Item && math.Abs(n.Margin) > 1e-9 {
					t.Errorf("%s: %s put back leaves %g", s.Name, m.Phrase(), n.Margin)
				}
			}
		}
	}
}
