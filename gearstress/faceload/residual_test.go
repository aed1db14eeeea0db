package faceload

import (
	"math"
	"testing"
)

// What a solution misses is measured, term by term: a solved one is spoilt in one place at a time, by hand.
func TestResidualSeesEachSlip(t *testing.T) {
	solved := func() *Solver {
		p := one(Mesh{Slices: 6, Face: 12, Stiffness: 15000, Force: 900}, stocky)
		p.Meshes[0].Gap = []float64{0, 0.002, 0.004, 0.006, 0.4, 0.5} // the last two stay clear
		s := new(Solver)
		if _, err := s.Solve(p); err != nil {
			t.Fatal(err)
		}
		return s
	}
	if r := solved().residual(); r.worst() > 1e-12 {
		t.Fatalf("a solution misses its conditions: %+v", r)
	}
	for _, c := range []struct {
		what  string
		spoil func(*Solver)
		want  residual
	}{
		{"loaded flanks apart", func(s *Solver) { s.slack[1] = 0.01 * s.size[1] }, residual{contact: 0.01}},
		{"loaded flanks in one another", func(s *Solver) { s.slack[1] = -0.02 * s.size[1] }, residual{contact: 0.02}},
		{"unloaded flanks in one another", func(s *Solver) { s.slack[5] = -0.03 * s.size[5] }, residual{overlap: 0.03}},
		{"unloaded flanks apart", func(s *Solver) { s.slack[5] = 0.03 * s.size[5] }, residual{}},
		{"force missing", func(s *Solver) { s.load[0] -= 9 }, residual{force: 0.01}},
		{"a load pulls", func(s *Solver) { s.load[5], s.load[0] = -18, s.load[0]+18 }, residual{pull: 0.02}},
	} {
		s := solved()
		if s.load[1] <= 0 || s.load[5] != 0 {
			t.Fatalf("loads %v", s.load)
		}
		c.spoil(s)
		r := s.residual()
		for k, got := range [4]float64{r.contact, r.overlap, r.force, r.pull} {
			want := [4]float64{c.want.contact, c.want.overlap, c.want.force, c.want.pull}[k]
			if math.Abs(got-want) > 1e-9 {
				t.Errorf("%s: %+v, want %+v", c.what, r, c.want)
				break
			}
		}
		if want := c.want.worst(); math.Abs(r.worst()-want) > 1e-9 {
			t.Errorf("%s: worst %g, want %g", c.what, r.worst(), want)
		}
	}
}
