package beam

import (
	"math"
	"strings"
	"sync"
	"testing"
)

func TestLooseShaftIsRefused(t *testing.T) {
	for _, c := range []struct {
		name     string
		supports []Support
		want     string // "" if the shaft is held
	}{
		{"none", nil, "free to move sideways and to tilt: no support holds it radially"},
		{"one", []Support{{X: 12, Radial: 1e5}}, "free to tilt: only one radial support at x = 12 mm"},
		{"one rigid", []Support{{X: 12, Radial: rigid}}, "free to tilt: only one radial support at x = 12 mm"},
		{"one and an axial", []Support{{X: 12, Radial: rigid}, {X: 80, Axial: rigid}}, "free to tilt: only one radial support at x = 12 mm"},
		{"two at one place", []Support{{X: 12, Radial: 1e5}, {X: 12, Radial: 2e5}}, "free to tilt: all 2 radial supports sit at x = 12 mm"},
		{"only tilting", []Support{{X: 12, Tilt: 1e7}, {X: 90, Tilt: rigid}}, "free to move sideways: no support holds it radially"},
		{"hardly at all", []Support{{X: 12, Radial: 1e-12}, {X: 90, Radial: 1e-12}}, "held far too softly"},
		{"rigid and hardly", []Support{{X: 12, Radial: rigid}, {X: 90, Radial: 1e-12}}, "held far too softly"},
		{"two", []Support{{X: 12, Radial: 10}, {X: 90, Radial: 10}}, ""},
		{"rigid and soft", []Support{{X: 12, Radial: rigid}, {X: 90, Radial: 0.1}}, ""},
		{"close together", []Support{{X: 12, Radial: rigid}, {X: 13, Radial: rigid}}, ""},
		{"one that stops tilting", []Support{{X: 12, Radial: 1e5, Tilt: 1e6}}, ""},
		{"fixed end", []Support{{X: 0, Radial: rigid, Tilt: rigid}}, ""},
		{"radial here, tilting there", []Support{{X: 0, Radial: rigid}, {X: 90, Tilt: rigid}}, ""},
		{"tilting rigid, radial soft", []Support{{X: 0, Tilt: rigid}, {X: 90, Radial: 1}}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			m, err := New(Shaft{Sections: []Section{{100, 30, 0}}, Young: 206000, Poisson: 0.3, Supports: c.supports})
			if c.want != "" {
				if err == nil || !strings.Contains(err.Error(), c.want) {
					t.Errorf("got %v, want %q", err, c.want)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			s, err := m.Solve(Case{Loads: []Load{{X: 40, Fy: 100}}})
			if err != nil {
				t.Fatal(err)
			}
			if s.imbalance > 1e-9 {
				t.Errorf("imbalance %g", s.imbalance)
			}
		})
	}
}

// lines are the messages of joined errors.
func lines(err error) []string {
	if err == nil {
		return nil
	}
	return strings.Split(err.Error(), "\n")
}

func expect(t *testing.T, err error, want ...string) {
	t.Helper()
	got := lines(err)
	if len(got) != len(want) {
		t.Fatalf("%d messages, want %d:\n%v", len(got), len(want), err)
	}
	for i, w := range want {
		if !strings.Contains(got[i], w) {
			t.Errorf("message %d: %q, want %q in it", i+1, got[i], w)
		}
	}
}

func TestAllFaultsOfAShaftAreToldAtOnce(t *testing.T) {
	_, err := New(Shaft{
		Sections: []Section{{-3, 30, 0}, {20, 30, 31}, {20, math.NaN(), 0}, {20, 60, 40}, {20, 35, 0}},
		Young:    0, Poisson: 0.7,
		Supports: []Support{{X: -5, Radial: rigid}, {X: 10, Radial: -1}, {X: 20, Tilt: math.NaN()}, {X: 60, Radial: rigid, Tilt: rigid}, {X: 60, Radial: rigid}, {X: 5, Radial: 1, Width: 12}},
	})
	expect(t, err,
		"section 1: length is -3 mm",
		"section 2: bore is 31 mm with an outer diameter of 30 mm",
		"section 3: outer diameter is NaN mm",
		"sections 4 and 5 do not touch",
		"support 1: x is -5 mm: the shaft runs from 0 to 77 mm",
		"support 2: radial stiffness is -1 N/mm",
		"support 3: tilting stiffness is NaN N·mm/rad",
		"supports 4 and 5 both hold the shaft rigidly radially at x = 60 mm",
		"support 6: the width of the seat is 12 mm at x = 5 mm",
		"modulus of elasticity is 0 MPa",
		"Poisson's ratio) is 0.7",
	)
	_, err = New(Shaft{Young: 206000, Poisson: 0.3})
	expect(t, err, "no sections")
}

func TestAllFaultsOfACaseAreToldAtOnce(t *testing.T) {
	m, err := New(Shaft{
		Sections: []Section{{100, 30, 0}}, Young: 206000, Poisson: 0.3,
		Supports: []Support{{X: 10, Radial: rigid}, {X: 90, Radial: rigid}},
	})
	if err != nil {
		t.Fatal(err)
	}
	_, err = m.Solve(Case{
		Loads: []Load{{X: 101}, {X: 95, Length: 12}, {X: 50, Fy: math.Inf(1)}, {X: math.NaN()}, {X: 50, Length: -1}},
		Seats: []Seat{{Move: [2]float64{math.NaN(), 0}, Tilt: [2]float64{0, math.Inf(1)}}},
	})
	expect(t, err,
		"load 1: x is 101 mm: the shaft runs from 0 to 100 mm",
		"load 2: it reaches from 89 to 101 mm",
		"load 3: forces 0, +Inf, 0 N",
		"load 4: x is NaN mm",
		"load 5: x is 50 mm and its length -1 mm",
		"movements of 1 seats for 2 supports",
		"seat 1: displacement is NaN, 0 mm",
		"seat 1: tilt is 0, +Inf rad",
	)
	_, err = m.Solve(Case{Loads: []Load{{X: 20, Mx: 5000, Fx: 100}, {X: 60, Mx: -4999}}})
	expect(t, err,
		"the torques do not balance: Mx of all loads sums to 1 N·mm with 5000 N·mm the largest",
		"free to move along its axis: Fx of all loads sums to 100 N",
	)
	// Rounding of a torque worked out from forces is no fault.
	if _, err = m.Solve(Case{Loads: []Load{{X: 20, Mx: 5000}, {X: 60, Mx: -5000 * (1 + 1e-12)}}}); err != nil {
		t.Error(err)
	}
}

func TestTwoRigidAxialSupportsAtOnePlaceAreRefused(t *testing.T) {
	_, err := New(Shaft{
		Sections: []Section{{100, 30, 0}}, Young: 206000, Poisson: 0.3,
		Supports: []Support{{X: 10, Radial: rigid, Axial: rigid}, {X: 10, Axial: rigid}, {X: 90, Radial: rigid}},
	})
	expect(t, err, "both hold the shaft rigidly axially at x = 10 mm")
}

// Places worked out by different sums are the same place.
func TestPlacesWithinRoundingAreOne(t *testing.T) {
	third := 0.1 + 0.2 // 0.30000000000000004
	s := solve(t, Shaft{
		Sections: []Section{{0.3, 1, 0}, {0.3, 1.2, 0}, {0.3, 1, 0}}, Young: 206000, Poisson: 0.3,
		Supports: []Support{{X: 0, Radial: rigid}, {X: 0.9, Radial: rigid}},
	}, Case{Loads: []Load{{X: third, Mz: 7}}})
	left, right := s.At(0.3, Left).Y.Moment, s.At(0.3, Right).Y.Moment
	near(t, "jump", left-right, 7, 1e-12)
}

// A short end section used up by its shoulder: the zone's start, worked out by
// a sum, is the left end of the shaft and nothing left of it.
func TestEndSectionUsedUpByItsShoulder(t *testing.T) {
	m, err := New(Shaft{
		Sections: []Section{{0.1, 15.715, 0}, {0.1, 15.11, 0}, {20, 30, 0}}, Young: 206000, Poisson: 0.3,
		Supports: []Support{{X: 0, Radial: 10}, {X: 1, Radial: 10}},
	})
	if err != nil {
		t.Fatal(err)
	}
	s, err := m.Solve(Case{Loads: []Load{{X: 0.5, Fy: 4}}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "R0", s.Reactions()[0].Fy, -2, 1e-9)
	near(t, "deflection at the support", s.At(0, Left).Y.Deflection, 0.2, 1e-9)
}

// What lies outside loads and supports carries exactly nothing.
func TestFreeEndsCarryNothing(t *testing.T) {
	s := solve(t, shaftS1.Shaft, Case{Loads: loadsS1})
	for _, x := range []float64{0, 5, 13, 230, 244} {
		b := s.At(x, Left)
		if b.Y.Moment != 0 || b.Z.Moment != 0 || b.Y.Shear != 0 || b.Z.Shear != 0 || b.Normal != 0 || b.Torque != 0 {
			t.Errorf("x = %g: %+v", x, b)
		}
	}
	if w := s.SectionStress(7); w.X < 212 || w.X > 224 || w.VonMises <= 0 {
		t.Errorf("last section: %+v", w)
	}
	if w := s.SectionStress(8); w != (Stress{}) {
		t.Errorf("section 9 of 8: %+v", w)
	}
}

// Many supports on a long thin shaft under a uniform load. By the theorem of
// three moments M[i-1] + 4 M[i] + M[i+1] = −w l²/2: far from the ends M is
// −w l²/12 and the reaction w l; the departure from that dies out as (√3 − 2)
// to the power of i, which gives the end reaction w l (1/2 − (3−√3)/12).
func TestManySupportsKeepTheirDigits(t *testing.T) {
	const spans, span = 20, 100.0
	shaft := Shaft{Sections: []Section{{spans * span, 20, 0}}, Young: 206000, Poisson: 0.3, NoShear: true}
	for i := range spans + 1 {
		shaft.Supports = append(shaft.Supports, Support{X: span * float64(i), Radial: rigid})
	}
	s := solve(t, shaft, Case{Loads: []Load{{X: spans * span / 2, Length: spans * span, Fy: -1000 * spans}}})
	r := s.Reactions()
	near(t, "end", r[0].Fy, 1000*(0.5-(3-math.Sqrt(3))/12), 1e-6)
	near(t, "middle", r[spans/2].Fy, 1000, 1e-4)
	for i := range r {
		near(t, "symmetry", r[i].Fy, r[spans-i].Fy, 1e-6)
	}
}

// A model keeps no link to the slices it was made from, nor hands out its own.
func TestModelKeepsItsShaft(t *testing.T) {
	shaft := shaftS1.clone()
	m, err := New(shaft)
	if err != nil {
		t.Fatal(err)
	}
	shaft.Sections[0].Outer = 1
	m.Shaft().Supports[0].X = 99
	if got := m.Shaft(); got.Sections[0].Outer != 35 || got.Supports[0].X != 14 || m.length != 244 {
		t.Errorf("the model's shaft changed: %+v", got)
	}
}

// One model, several goroutines (run with -race).
func TestModelMayBeShared(t *testing.T) {
	shaft := shaftS1E.Shaft
	m, err := New(shaft)
	if err != nil {
		t.Fatal(err)
	}
	want := m.Flexibility(80, 195)
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() {
			for range 20 {
				s, err := m.Solve(Case{Loads: []Load{{X: 195, Fy: 1}}})
				if err != nil {
					t.Error(err)
					return
				}
				if got := m.Flexibility(80, 195); got != want || math.Abs(s.At(80, Left).Y.Deflection/want-1) > 1e-9 {
					t.Errorf("%g and %g, want %g", got, s.At(80, Left).Y.Deflection, want)
				}
			}
		})
	}
	group.Wait()
}
