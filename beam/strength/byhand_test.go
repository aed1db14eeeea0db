package strength

import (
	"math"
	"testing"
)

// Formulas that no published figure here reaches, written down once more and reckoned by hand.

func TestFactorsByHand(t *testing.T) {
	// √a of torsion at 100 ksi: 0.190 − 0.251 + 0.135 − 0.0267 = 0.0473 √in; r = 3 mm: √r = 0.34367 √in.
	_, torsion := Sensitivity(100*ksi, 3)
	near(t, "q_s", torsion, 1/(1+0.0473/0.34367), 1e-4)
	near(t, "k_b of 100 mm", sizeFactor(100), 0.7328, 1e-4)
	near(t, "k_b of 300 mm is that of 254 mm", sizeFactor(300), sizeFactor(254), 0)
	// Morrow's true fracture strength of a steel of 600 MPa is 945 MPa.
	near(t, "Morrow", Morrow.Used(Swing{100, 189}, Steel{600, 400}, 250), 0.4+0.2, 1e-12)
	near(t, "Morrow reversed", Morrow.Reversed(Swing{100, 189}, Steel{600, 400}), 100/0.8, 1e-9)
}

// A keyway leaves what a shaft turned down to its bottom on one side has.
func TestNetOfAKeyway(t *testing.T) {
	n := Notch{Kind: Keyway, Outer: 40, Bore: 10, Depth: 5}
	if n.Net() != Ring(35, 10) || n.Nominal() != Ring(40, 10) {
		t.Errorf("net %+v, nominal %+v", n.Net(), n.Nominal())
	}
}

// An axial force that presses isn't credited; one that pulls counts with its own factor.
func TestPressingForceIsNotCredited(t *testing.T) {
	f, err := Notch{Kind: Shoulder, Outer: 40, Bottom: 34, Radius: 1.5}.Fatigue(Steel{900, 700}, UsualRules)
	if err != nil {
		t.Fatal(err)
	}
	still, pressed, pulled := f.Swing(Load{Moment: 1e5}), f.Swing(Load{Moment: 1e5, Normal: -1e4}), f.Swing(Load{Moment: 1e5, Normal: 1e4})
	if pressed != still {
		t.Errorf("pressed %+v, without %+v", pressed, still)
	}
	near(t, "pulled", pulled.Mean, f.Felt.Tension*1e4/(math.Pi/4*34*34), 1e-9)
}
