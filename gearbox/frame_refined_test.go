package gearbox

import (
	"fmt"
	"math"
	"testing"
)

// frameEnds are the line loads at the ends of the face of mesh m and the largest of all, N/mm; with strips counted in their middles the ends lie half a
// strip outside and follow on a straight line.
func (s *frameSolution) frameEnds(m int) (left, right, most float64) {
	q := s.lineLoad(m)
	n := len(q)
	left, right = q[0], q[n-1]
	if s.f.meshes[m][0].width == s.f.meshes[m][1].width {
		left, right = max(0, q[0]+(q[0]-q[1])/2), max(0, q[n-1]+(q[n-1]-q[n-2])/2)
	}
	most = max(left, right)
	for _, v := range q {
		most = max(most, v)
	}
	return left, right, most
}

// frameEndMiss is the largest difference of end and largest line loads, as a share of the largest.
func frameEndMiss(r *Result, s *frameSolution) (miss float64) {
	for m := range r.Speeds[0].Meshes {
		q := r.Speeds[0].Meshes[m].LineLoad
		left, right, most := s.frameEnds(m)
		got := 0.0
		for _, v := range q {
			got = max(got, v)
		}
		for _, d := range []float64{left - q[0], right - q[len(q)-1], most - got} {
			miss = max(miss, math.Abs(d)/most)
		}
	}
	return miss
}

// With another cut of the faces, strips of equal width counted in their middles, the frame settles: in full contact what is left to its limit falls by about
// four with every halving (the midpoint rule is of second order). What then lies between its limit and the coupled solution is the own error
// of 21 strips: up to 10⁻⁴ of the largest line load when shafts only bend, 2·10⁻⁴ when they wind up too, since the twist under a load has a kink there
// (package faceload, table of errors), up to 0.3 % where an edge of the contact lies between two strips.
func TestFrameConvergesToTheCoupledSolution(t *testing.T) {
	for _, c := range []struct {
		name    string
		change  func(*Box)
		torque  float64
		noTwist bool
		left    float64 // difference from the limit, as a share of the largest line load
		whole   bool    // in contact over the whole face
	}{
		{"spur", nil, 250e3, true, 1e-4, true},
		{"helical", nil, 320e3, true, 1e-4, true},
		{"three", nil, 320e3, true, 1e-4, true},
		{"spur", nil, 250e3, false, 2e-4, true},
		{"helical", nil, 320e3, false, 2e-4, true},
		{"three", nil, 320e3, false, 2e-4, true},
		{"inline", nil, 300e3, false, 2e-4, true},
		{"helical", func(b *Box) { b.Gears[0].LeadError = 0.05 }, 60e3, false, 4e-3, false},
		{"three", func(b *Box) { b.Gears[0].Crowning, b.Gears[2].Crowning = 0.03, 0.03 }, 30e3, false, 4e-3, false},
	} {
		t.Run(fmt.Sprint(c.name, " noTwist=", c.noTwist, " whole=", c.whole), func(t *testing.T) {
			b := frameSystem(c.name)
			if c.change != nil {
				c.change(b)
			}
			r, err := frameResult(b, c.torque, Method{NoShoulder: true, NoTwist: c.noTwist})
			if err != nil {
				t.Fatal(err)
			}
			cut := func(n int) *frameSolution {
				return frameSolve(t, b, c.torque, frameOptions{strips: n, middles: true, noTwist: c.noTwist})
			}
			limit := cut(320)
			before := math.Inf(1)
			for _, n := range []int{20, 40, 80} {
				s := cut(n)
				away := 0.0
				for m := range s.load {
					l1, r1, top := s.frameEnds(m)
					l2, r2, most := limit.frameEnds(m)
					away = max(away, math.Abs(l1-l2)/most, math.Abs(r1-r2)/most, math.Abs(top-most)/most)
				}
				t.Logf("%3d strips: %.1e from the limit", n, away)
				if c.whole && away > before/3 {
					t.Errorf("%d strips are %.2e from the limit, half of them %.2e", n, away, before)
				}
				before = away
			}
			miss := frameEndMiss(r, limit)
			t.Logf("coupled solution: %.1e from the limit", miss)
			if miss > c.left {
				t.Errorf("coupled solution: %.2e from the limit", miss)
			}
		})
	}
}

// The element is exact at its nodes: more of them change nothing.
func TestFrameNeedsNoFinerElements(t *testing.T) {
	b := frameSystem("three")
	coarse, fine := same, same
	fine.spacing = 1
	p, q := frameSolve(t, b, b.Torque, coarse), frameSolve(t, b, b.Torque, fine)
	if q.f.unknown < 2*p.f.unknown {
		t.Fatalf("%d and %d unknowns", p.f.unknown, q.f.unknown)
	}
	for m := range p.load {
		for i := range p.load[m] {
			if math.Abs(p.load[m][i]-q.load[m][i]) > 1e-7*p.load[m][i] {
				t.Errorf("mesh %d strip %d: %g N and %g N", m, i, p.load[m][i], q.load[m][i])
			}
		}
	}
}

// The coupled solution leaves out that shafts stretch under axial force between the strips of a mesh. The frame can have it: it is worth about 0.2 %
// of the largest line load at a helix angle of 24°.
func TestFrameStretchIsSmall(t *testing.T) {
	for _, name := range []string{"helical", "three", "inline"} {
		b := frameSystem(name)
		o := same
		o.stretch = true
		r, err := frameResult(b, b.Torque, Method{NoShoulder: true})
		if err != nil {
			t.Fatal(err)
		}
		miss := frameCompare(r, frameSolve(t, b, b.Torque, o))
		t.Logf("%s: %v", name, miss)
		if miss.factor > 0.003 || miss.lineLoad > 0.003 {
			t.Errorf("%s: stretch counts: %v", name, miss)
		}
		if miss.lineLoad < 1e-7 {
			t.Errorf("%s: stretch is not in the frame", name)
		}
	}
}

// The coupled solution lets a gear on a seat bend with its shaft and lean besides, and puts its load on the shaft along the face. A rigid body that touches the shaft
// at the ends of its seat only, as in the derivation of the lean, is nearer to the real thing. What that is worth: about 1 % of K_Hβ.
func TestFrameRigidGearOnItsSeat(t *testing.T) {
	for _, c := range []struct {
		name string
		gear int
		seat Seat
	}{
		{"helical", 1, Seat{Length: 24, Stiffness: 4e5, ThrustFace: bare}},
		{"helical", 1, Seat{Length: 24, Stiffness: 4e5, Clearance: 0.03, ThrustFace: bare}},
		{"helical", 0, Seat{Length: 30, Stiffness: 2e5, Clearance: 0.02, ThrustFace: bare}},
		{"three", 1, Seat{Length: 20, Stiffness: 4e5, Clearance: 0.05, ThrustFace: bare}},
		{"inline", 3, Seat{Length: 22, Stiffness: 3e5, Clearance: 0.04, ThrustFace: bare}},
	} {
		b := frameSystem(c.name)
		b.Gears[c.gear].Seat = &c.seat
		r, err := frameResult(b, b.Torque, Method{NoShoulder: true})
		if err != nil {
			t.Fatal(err)
		}
		o := same
		o.bodies = true
		miss := frameCompare(r, frameSolve(t, b, b.Torque, o))
		t.Logf("%s, %+v: %v", c.name, c.seat, miss)
		if miss.factor > 0.02 {
			t.Errorf("%s, %+v: %v", c.name, c.seat, miss)
		}
	}
}
