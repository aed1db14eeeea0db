package gearbox

import (
	"math"
	"strings"
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

// A stiff shaft between two equal ball bearings that doesn't tilt in them moves by the ball law plus what the clearance lets it: the balls at angle φ from the load are pressed
// by δ cos φ − s/2, each carrying D^½ (δ/4.36·10⁻⁴)^(3/2) (A. Palmgren, from memory), and together they hold the bearing's share of the force.
func TestBallLawPlusClearance(t *testing.T) {
	for _, clearance := range []float64{0, 0.01, 0.02, 0.05} {
		b := threeShafts()
		b.Meshes, b.Speeds, b.Gears = b.Meshes[:1], []Speed{{Name: "only", Path: []string{"a"}}}, b.Gears[:2]
		b.Meshes[0].Helix, b.Meshes[0].Hand, b.Output = 0, Spur, Port{"out", 90}
		b.Shafts = b.Shafts[:2]
		b.Shafts[1].Axis = &[2]float64{60, 0}
		for i := range b.Shafts {
			s := &b.Shafts[i]
			s.Sections = []Section{{Length: 150, Outer: 300}}
			s.Bearings = s.Bearings[:2]
			for j := range s.Bearings {
				s.Bearings[j].At = 15 + 120*float64(j)
			}
		}
		e := bearing.Elements{Kind: bearing.Ball, Count: 9, Diameter: 11, Pitch: 46, Clearance: clearance}
		// The load of the spur pair goes along its line of action, on which one ball is set.
		_, plain := frameState(t, b, b.Torque, Method{})
		r := plain.solved[0].Reactions()[0]
		e.Turn = math.Atan2(-r.Fz, -r.Fy)
		for j := range b.Shafts[0].Bearings {
			b.Shafts[0].Bearings[j].Elements = &e
		}
		_, st := frameState(t, b, b.Torque, Method{})
		for j, r := range st.solved[0].Reactions() {
			lo, hi := 0.0, 0.5
			for range 100 {
				d, sum := lo+(hi-lo)/2, 0.0
				for k := range 9 {
					c := math.Cos(2 * math.Pi * float64(k) / 9)
					if close := d*c - clearance/2; close > 0 {
						sum += c * math.Sqrt(11) * math.Pow(close/4.36e-4, 1.5)
					}
				}
				if sum < math.Hypot(r.Fy, r.Fz) {
					lo = d
				} else {
					hi = d
				}
			}
			if got := st.solved[0].At(b.Shafts[0].Bearings[j].At, beam.Left).Deflection(); math.Abs(got-hi) > 1e-4*hi {
				t.Errorf("clearance %g mm, bearing %d: moved %.3f µm, ball law plus clearance %.3f µm", clearance, j, 1e3*got, 1e3*hi)
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

// onTapered is the sample box with its last shaft on two tapered bearings.
func onTapered(play float64) *Box {
	b := threeShafts()
	for j := range b.Shafts[2].Bearings {
		b.Shafts[2].Bearings[j].Elements = &bearing.Elements{Kind: bearing.Tapered, Count: 17, Diameter: 9, Length: 12, Pitch: 60, ContactAngle: 14 * math.Pi / 180}
	}
	b.Shafts[2].Pair = &BearingPair{Arrangement: bearing.FaceToFace, EndPlay: play}
	return b
}

// From end play to preload a pair moves without a jump: as much play as is taken away moves a shaft by no more than the cones open across.
func TestPreloadGrowsOutOfEndPlay(t *testing.T) {
	t.Parallel()
	const step = 0.001
	for _, torque := range []float64{200e3, -200e3, 5e3} {
		var last [2]point
		for k := range 120 {
			b := onTapered(0.08 - step*float64(k))
			_, st := frameState(t, b, torque, Method{})
			for j, br := range b.Shafts[2].Bearings {
				at := st.solved[2].At(br.At, beam.Left)
				now := point{at.Y.Deflection, at.Z.Deflection}
				if most := step / math.Tan(14*math.Pi/180); k > 0 && now.minus(last[j]).norm() > most {
					t.Errorf("%g N·mm: with %.3f mm the shaft stands at %v in bearing %s, with %g mm more play at %v", torque, b.Shafts[2].Pair.EndPlay, now, br.Name, step, last[j])
				}
				last[j] = now
			}
		}
	}
}

// A torque met in the search alone, so far away that it crushes the bearings, is told and costs nothing else; at the asked torque it is an error that names the bearing.
func TestCrushedFarAway(t *testing.T) {
	b := threeShafts()
	b.Shafts[0].Bearings[1].Elements = &bearing.Elements{Kind: bearing.Ball, Count: 6, Diameter: 0.5, Pitch: 45}
	b.Torque = 100e3
	s := mustSolve(t, b, Load{}).Speeds[0]
	told := false
	for _, n := range s.Notes {
		told = told || strings.Contains(n, "in step with the torque") && strings.Contains(n, "in shaft, bearing right: the shaft moves")
	}
	if !told {
		t.Errorf("nobody is told: %q", s.Notes)
	}
	for _, m := range s.Margins {
		if !(m.Allowable[m.Level] > 0) {
			t.Errorf("%s %s: allowable torque %g", m.Kind, m.Item, m.Allowable[m.Level])
		}
	}
	b.Torque = 2000e3
	if _, err := Solve(b, Load{}); err == nil || !strings.Contains(err.Error(), "bearing right: the shaft moves") {
		t.Errorf("crushed at the asked torque: %v", err)
	}
}

// A shaft that only the tilting stiffness of its elements would hold is refused: that depends on how they happen to be loaded.
func TestElementsMustNotHoldAShaftAlone(t *testing.T) {
	b := onRollers(0)
	b.Shafts[0].Bearings = b.Shafts[0].Bearings[:1]
	if _, err := Solve(b, Load{}); err == nil || !strings.Contains(err.Error(), "free to tilt") {
		t.Errorf("one bearing on elements: %v", err)
	}
}
