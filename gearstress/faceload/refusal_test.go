package faceload

import (
	"math"
	"strings"
	"testing"
)

func TestBadProblemsAreRefusedWithTheirNumber(t *testing.T) {
	good := func() *Problem { return one(Mesh{Slices: 5, Face: 10, Stiffness: 15000, Force: 100}, stocky) }
	for _, c := range []struct {
		name   string
		change func(*Problem)
		want   []string
	}{
		{"no mesh", func(p *Problem) { p.Meshes = nil }, []string{"no mesh given"}},
		{"all at once", func(p *Problem) {
			p.Meshes[0] = Mesh{Slices: 3, Face: 0, Stiffness: -1, Force: math.NaN(), Gap: []float64{math.Inf(-1)}}
		}, []string{"mesh 1 is cut into 3 slices: give at least 4", "face width is 0 mm", "stiffness is -1 N/mm²", "force is NaN N", "1 gap values for 3 slices", "the gap at station 1 is -Inf mm", "25 values: 3 stations in all need 3 × 3 = 9"}},
		{"negative slices", func(p *Problem) { p.Meshes[0].Slices = -2 }, []string{"cut into -2 slices"}},
		{"infinite", func(p *Problem) { p.Meshes[0].Face, p.Meshes[0].Force = math.Inf(1), math.Inf(1) }, []string{"face width is +Inf", "force is +Inf"}},
		{"second mesh without its compliance", func(p *Problem) { p.Meshes = append(p.Meshes, p.Meshes[0]) }, []string{"10 stations in all need 10 × 10 = 100"}},
		{"negative diagonal", func(p *Problem) { p.Compliance[6] = -1e-6 }, []string{"station 2 of all is -1e-06 mm/N", "sign"}},
		{"NaN on the diagonal", func(p *Problem) { p.Compliance[24] = math.NaN() }, []string{"station 5 of all is NaN"}},
		{"asymmetric", func(p *Problem) { p.Compliance[1] *= 1.001 }, []string{"not symmetric: row 2 column 1", "same line"}},
		{"NaN off the diagonal", func(p *Problem) { p.Compliance[1], p.Compliance[5] = math.NaN(), math.NaN() }, []string{"not symmetric: row 2 column 1 is NaN"}},
		{"infinite off the diagonal", func(p *Problem) { p.Compliance[1], p.Compliance[5] = math.Inf(1), math.Inf(1) }, []string{"not symmetric: row 2 column 1 is +Inf"}},
		{"overflow", func(p *Problem) { p.Meshes[0].Stiffness, p.Meshes[0].Force = 1e-308, 1e308 }, []string{"too many powers of ten apart"}},
		{"overflow of one mesh of two", func(p *Problem) {
			p.Meshes = append(p.Meshes, p.Meshes[0])
			p.Meshes[0].Stiffness, p.Meshes[0].Force = 1e-308, 1e308
			p.Compliance = nil
		}, []string{"too many powers of ten apart"}},
		{"gives energy away", func(p *Problem) { p.Compliance[1], p.Compliance[5] = 1e-3, 1e-3 }, []string{"not positive definite", "energy"}},
	} {
		p := good()
		c.change(p)
		var s Solver
		r, err := s.Solve(p)
		if err == nil || r != nil {
			t.Errorf("%s: got %v, %v; want an error and no solution", c.name, r, err)
			continue
		}
		for _, want := range c.want {
			if !strings.Contains(err.Error(), want) {
				t.Errorf("%s: error lacks %q:\n%v", c.name, want, err)
			}
		}
		// A refusal leaves the solver fit for use.
		if _, err := s.Solve(good()); err != nil {
			t.Errorf("%s: after the refusal: %v", c.name, err)
		}
	}
}

// Rounding of 1e-9 in a compliance built elsewhere is no reason to refuse it.
func TestRoundedComplianceIsAccepted(t *testing.T) {
	p := one(Mesh{Slices: 21, Face: 20, Stiffness: 15000, Force: 9000}, stocky)
	want := solve(t, p)
	for i := range p.Compliance {
		p.Compliance[i] *= 1 + 1e-9*math.Sin(float64(i))
	}
	near(t, "K", solve(t, p).FaceLoadFactor(0), want.FaceLoadFactor(0), 1e-6)
}

func TestResidualNamesWhatIsWrong(t *testing.T) {
	for _, c := range []struct {
		r    residual
		want string
	}{
		{residual{contact: 1e-6, pull: 1e-8}, "don't stay together by 1e-06"},
		{residual{overlap: 1e-6}, "overlap"},
		{residual{force: 1e-6}, "add up"},
		{residual{pull: 1e-6}, "pulls"},
	} {
		if got := c.r.explain().Error(); !strings.Contains(got, c.want) {
			t.Errorf("%+v: %s, want %q in it", c.r, got, c.want)
		}
	}
}
