package gearbox

import (
	"math"
	"testing"

	"layshaft/beam"
	"layshaft/beam/bearing"
)

func onRollers(clearance float64) *Box {
	b := threeShafts()
	for i := range b.Shafts {
		for j := range b.Shafts[i].Bearings {
			b.Shafts[i].Bearings[j].Elements = &bearing.Elements{Kind: bearing.Cylindrical, Count: 14, Diameter: 7.5, Length: 10, Pitch: 50, Clearance: clearance}
		}
	}
	return b
}

// Where the exchange of springs and loads has settled, each bearing has moved just as far as its own contact law says for the force it carries.
func TestBearingsSitWhereTheirLawSays(t *testing.T) {
	for _, clearance := range []float64{0, 0.02, -0.005} {
		b := onRollers(clearance)
		for _, torque := range []float64{50e3, 200e3} {
			for _, s := range mustSolve(t, b, Load{Torque: torque}).Speeds[0].Shafts {
				for j, br := range s.Bearings {
					reaction := s.Solution.Reactions()[j]
					e := b.Shafts[0].Bearings[j].Elements
					at := s.Solution.At(br.At, beam.Left)
					moved, _, err := e.Displacement([3]float64{0, -reaction.Fy, -reaction.Fz}, [2]float64{-reaction.My, -reaction.Mz})
					if err != nil {
						t.Fatal(err)
					}
					want, got := math.Hypot(moved[1], moved[2]), at.Deflection()
					if math.Abs(got-want) > 0.01*want {
						t.Errorf("clearance %g, %s, bearing %s at %g N·mm: moved %.3f µm, its law says %.3f µm", clearance, s.Name, br.Name, torque, 1e3*got, 1e3*want)
					}
				}
			}
		}
	}
}

// Rollers stiffen: twice the torque moves a bearing less than twice as far, since δ grows with Q^0.9.
func TestBearingsStiffenWithLoad(t *testing.T) {
	one := mustSolve(t, onRollers(0), Load{Torque: 100e3}).Speeds[0].Shafts[0].Bearings[0].Deflection
	two := mustSolve(t, onRollers(0), Load{Torque: 200e3}).Speeds[0].Shafts[0].Bearings[0].Deflection
	if growth := two / one; growth < 1.8 || growth > 1.95 {
		t.Errorf("twice the torque moves the bearing %.3f times as far, want about 2^0.9 = %.3f", growth, math.Pow(2, 0.9))
	}
}

// A case of known stiffness is in series with each bearing, and a bench test of that case finds its stiffness.
func TestHousing(t *testing.T) {
	b := threeShafts()
	stiff := mustSolve(t, b, Load{}).Speeds[0].Shafts[1].Bearings[0]
	b.Housing.Radial = 2.5e5
	soft := mustSolve(t, b, Load{}).Speeds[0].Shafts[1].Bearings[0]
	if want := stiff.Deflection + stiff.Radial/2.5e5; math.Abs(soft.Deflection-want) > 1e-9*want {
		// The load crowds a little differently on the softer case, which moves forces by a few newtons.
		if math.Abs(soft.Deflection-(stiff.Deflection*soft.Radial/stiff.Radial+soft.Radial/2.5e5)) > 1e-9*want {
			t.Errorf("on a case of 250 N/µm the bearing moves %g mm, want %g", soft.Deflection, want)
		}
	}
	b.Housing = Housing{Test: &HousingTest{Speed: "only", Torque: 100e3, Shaft: "out", Bearing: "left"}}
	half := threeShafts()
	half.Housing.Radial = 2.5e5
	b.Housing.Test.Movement = mustSolve(t, half, Load{Torque: 100e3}).Speeds[0].Shafts[1].Bearings[0].Radial / 2.5e5
	found := mustSolve(t, b, Load{}).Speeds[0].Shafts[1].Bearings[0]
	if math.Abs(found.Deflection-soft.Deflection) > 1e-7*soft.Deflection {
		t.Errorf("with the stiffness from the bench test the bearing moves %g mm, want %g", found.Deflection, soft.Deflection)
	}
}

// Two tapered bearings with preload: both carry thrust, and the box settles.
func TestTaperedPair(t *testing.T) {
	b := threeShafts()
	tapered := bearing.Elements{Kind: bearing.Tapered, Count: 17, Diameter: 9, Length: 12, Pitch: 60, ContactAngle: 14 * math.Pi / 180}
	for j := range b.Shafts[2].Bearings {
		e := tapered
		b.Shafts[2].Bearings[j].Elements = &e
	}
	for _, play := range []float64{-0.02, 0, 0.03} {
		b.Shafts[2].Pair = &BearingPair{Arrangement: bearing.FaceToFace, EndPlay: play}
		s := mustSolve(t, b, Load{}).Speeds[0].Shafts[2]
		for _, br := range s.Bearings {
			if !(br.Deflection > 0) || br.Deflection > 0.2 {
				t.Errorf("end play %g: bearing %s moves %g mm", play, br.Name, br.Deflection)
			}
		}
	}
}
