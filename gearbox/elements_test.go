package gearbox_test

import (
	"math"
	"testing"

	"layshaft/beam"
	"layshaft/beam/bearing"
	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
)

func readBox(t *testing.T, file string) *gearbox.Box {
	t.Helper()
	b, _, found := boxfile.ReadFile(file)
	if found.HasErrors() {
		t.Fatal(found)
	}
	return b
}

// The balls that the starting box shows in its comment settle, and no shaft stands nearer to the middle of a loaded bearing than half its clearance: there nothing would touch.
// What it stands off beyond that is the closing of the balls, which the tilt of the shaft spreads a little differently: the closed form of a straight shaft is met to 10 %.
func TestStartingBoxOnBalls(t *testing.T) {
	t.Parallel()
	for _, clearance := range []float64{0, 0.01, 0.02, 0.05} {
		for _, torque := range []float64{60e3, -60e3} {
			b := readBox(t, "boxfile/starter.yaml")
			for i := range b.Shafts {
				for j := range b.Shafts[i].Bearings {
					b.Shafts[i].Bearings[j].Elements = &bearing.Elements{Kind: bearing.Ball, Count: 9, Diameter: 11, Pitch: 46, Clearance: clearance}
				}
			}
			r, err := gearbox.Solve(b, gearbox.Load{Torque: torque})
			if err != nil {
				t.Errorf("clearance %g mm, %g N·mm: %v", clearance, torque, err)
				continue
			}
			for _, s := range r.Speeds[0].Shafts {
				for _, br := range s.Bearings {
					alone, err := b.Shafts[0].Bearings[0].Elements.Radial(br.Radial)
					if err != nil {
						t.Fatal(err)
					}
					if closing := br.Deflection - clearance/2; closing <= 0 || math.Abs(br.Deflection-alone.Displacement) > 0.1*alone.Displacement {
						t.Errorf("clearance %g mm, %s, %s: stands %.2f µm off under %.0f N, a straight shaft %.2f µm", clearance, s.Name, br.Name, 1e3*br.Deflection, br.Radial, 1e3*alone.Displacement)
					}
				}
			}
		}
	}
}

// A five-speed box on balls, on rollers and with its last shaft on a tapered pair, loose and tight, forwards and backwards: all speeds settle, and what each ball or roller bearing carries is what
// its elements give where the shaft stands in it.
func TestFiveSpeedsOnElements(t *testing.T) {
	t.Parallel()
	ball := bearing.Elements{Kind: bearing.Ball, Count: 9, Diameter: 14, Pitch: 60}
	roller := bearing.Elements{Kind: bearing.Cylindrical, Count: 14, Diameter: 10, Length: 12, Pitch: 60}
	taper := bearing.Elements{Kind: bearing.Tapered, Count: 18, Diameter: 10, Length: 16, Pitch: 85, ContactAngle: 14 * math.Pi / 180}
	for _, clearance := range []float64{0, 0.02, 0.06, -0.005} {
		for _, play := range []float64{0, 0.05, -0.02} {
			for _, sense := range []float64{1, -1} {
				b := readBox(t, "../testdata/alder.yaml")
				for i := range b.Shafts {
					s := &b.Shafts[i]
					for j := range s.Bearings {
						br := &s.Bearings[j]
						e := roller
						switch {
						case i == 2:
							e = taper
						case br.Type == gearbox.DeepGrooveBall:
							e = ball
						}
						if i < 2 {
							e.Clearance = clearance
						}
						br.Elements, br.Tilt = &e, 0
					}
				}
				b.Shafts[2].Pair = &gearbox.BearingPair{Arrangement: bearing.FaceToFace, EndPlay: play}
				r, err := gearbox.Solve(b, gearbox.Load{Torque: sense * b.Torque, Brief: true})
				if err != nil {
					t.Errorf("clearance %g mm, end play %g mm: %v", clearance, play, err)
					continue
				}
				for _, speed := range r.Speeds {
					for i, s := range speed.Shafts[:2] {
						checkRows(t, &b.Shafts[i], &s, speed.Name)
					}
				}
			}
		}
	}
}

// checkRows holds what the bearings of a shaft in a rigid case carry against their elements at that place.
func checkRows(t *testing.T, shaft *gearbox.Shaft, s *gearbox.ShaftResult, speed string) {
	t.Helper()
	largest := 0.0
	for _, r := range s.Solution.Reactions() {
		largest = max(largest, math.Hypot(r.Fy, r.Fz))
	}
	for j, r := range s.Solution.Reactions() {
		at, e := s.Solution.At(shaft.Bearings[j].At, beam.Left), shaft.Bearings[j].Elements
		ask := func(x float64) (force [3]float64, couple [2]float64) {
			force, couple, err := e.Force([3]float64{x, at.Y.Deflection, at.Z.Deflection}, [2]float64{-at.Z.Slope, at.Y.Slope})
			if err != nil {
				t.Fatal(err)
			}
			return force, couple
		}
		lo, hi := -e.Diameter/4, e.Diameter/4
		for k := 0; k < 100 && e.Kind == bearing.Ball; k++ {
			x := lo + (hi-lo)/2
			if force, _ := ask(x); force[0] < -r.Fx {
				lo = x
			} else {
				hi = x
			}
		}
		if e.Kind != bearing.Ball {
			hi = 0
		}
		force, couple := ask(hi)
		if math.Hypot(force[1]+r.Fy, force[2]+r.Fz) > 1e-6*largest || math.Hypot(couple[0]+r.My, couple[1]+r.Mz) > 1e-6*largest*e.Pitch/2 {
			t.Errorf("%s, %s, bearing %d: carries %+v, its elements give %v %v", speed, s.Name, j, r, force, couple)
		}
	}
}
