package gearbox

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"layshaft/material"
)

// Between two torques no load along a face is less even than what is said to bound it, and no tilt, separation or
// slope is more than its limit would have it: solved in between, over three powers of ten, boxes with crowned and
// skewed flanks, seats with play and pilots. What is said of teeth isn't idle: mostly it is far from all load on one
// strip.
func TestNoLoadIsLessEvenThanIsSaid(t *testing.T) {
	told, all := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		b := frameBox(t)
		v, _ := frameState(t, b, b.Torque, Method{})
		outOfLine(t, v)
		level := rapid.SampledFrom([]material.Level{material.Typical, material.High}).Draw(t, "level")
		from := b.Torque * math.Exp(rapid.Float64Range(-6, 1).Draw(t, "from"))
		to := from * math.Exp(rapid.Float64Range(0.05, 1.5).Draw(t, "wide"))
		for step := range v.speed.Path {
			for _, solve := range []bool{false, true} {
				most, err := v.uneven(step, from, to, level, solve)
				if err != nil {
					t.Skip(err)
				}
				if all++; most < mostUneven/2 {
					told++
				}
				for i := range 9 {
					torque := from * math.Pow(to/from, float64(i)/8)
					k, err := v.factor(step, torque, level)
					if err != nil {
						t.Skip(err)
					}
					if k > most*(1+1e-9) {
						t.Errorf("solve %v: K_Hβ is %.6g at %.6g N·mm, said to be %.6g at most from %.6g to %.6g", solve, k, torque, most, from, to)
					}
				}
			}
		}
	})
	if 2*told < all {
		t.Errorf("of %d bounds only %d say something", all, told)
	}
}

// outOfLine has the meshes of a speed out of line from their making.
func outOfLine(t *rapid.T, v *solver) {
	for _, name := range v.speed.Path {
		v.p.pairs[v.p.mesh[name]].deviation = rapid.Float64Range(0, 0.03).Draw(t, "deviation")
	}
}

// judged are the limits of the first speed of a box, with a solver of their own.
func judged(t interface {
	Helper()
	Fatal(...any)
}, b *Box, speed int) (*solver, []limit) {
	t.Helper()
	p := prepare(b, Method{})
	if p.found.HasErrors() {
		t.Fatal(p.found)
	}
	solvers, chosen := p.choose(b.Torque, nil)
	v := chosen[speed]
	sr, err := v.result(solvers)
	if err != nil {
		return v, nil
	}
	all, err := v.limits(sr, solvers)
	if err != nil {
		t.Fatal(err)
	}
	return v, all
}

// A limit that is said to hold below a torque holds at all torques below; what is said to be the most at any torque
// of a stretch is no less than what is used up in it.
func TestWhatIsSaidToHoldHolds(t *testing.T) {
	t.Parallel()
	held := 0
	rapid.Check(t, func(t *rapid.T) {
		b := frameBox(t)
		v, all := judged(t, b, 0)
		for i := range all {
			l := &all[i]
			if l.most == nil {
				continue
			}
			top, err := crossing(func(x float64) (float64, error) { return l.used(x, v.p.box.Limits.Strength) }, v.asked, 1)
			if err != nil || !(top > 0) || math.IsInf(top, 1) {
				continue
			}
			top *= rapid.Float64Range(0.3, 1).Draw(t, "share")
			if used, err := l.used(top, v.p.box.Limits.Strength); err != nil || !(used < 1) {
				continue
			}
			holds, err := l.holds(v.p.box.Limits.Strength, top)
			if err != nil {
				t.Skip(err)
			}
			if !holds {
				continue
			}
			held++
			for k := range 60 {
				torque := top * math.Exp(-float64(k)*0.0637)
				if used, err := l.used(torque, v.p.box.Limits.Strength); err != nil || used > 1+1e-9 {
					t.Errorf("%v of %s: %.6g is used up at %.6g of %.6g N·mm, %v", l.kind, l.item, used, torque, top, err)
				}
			}
		}
	})
	if held == 0 {
		t.Error("nothing was ever said to hold")
	}
}

// The quick way to where a limit is reached first finds what looking at every torque of the grid finds, with the bad
// range above it.
func TestTheQuickWayFindsWhatTheGridFinds(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		b := frameBox(t)
		if rapid.IntRange(0, 3).Draw(t, "on elements") == 0 {
			b = onElements(t)
		}
		v, all := judged(t, b, 0)
		slow, again := judged(t, b, 0)
		for i := range all {
			level := v.p.box.Limits.Strength
			f, err := v.reached(&all[i], level)
			if err != nil {
				continue
			}
			l := &again[i]
			want, err := slow.firstCrossing(func(x float64) (float64, error) { return l.used(x, level) }, slow.asked, allKinds[l.kind].power, l.follows(level))
			if err != nil {
				continue
			}
			if !together(f.torque, want.torque) || math.Abs(f.bad[1]-want.bad[1]) > 1e-9*want.bad[1] {
				t.Errorf("%v of %s: %+v, on the grid %+v", l.kind, l.item, f, want)
			}
		}
	})
}

// The same from any rung of the ladder to any other, however far: the straight way between them with what energy
// lets loads stray from it. Every strip is looked at.
func TestLoadsStrayFromTheStraightWayByTheirEnergy(t *testing.T) {
	strays := 0
	rapid.Check(t, func(t *rapid.T) {
		b := frameBox(t)
		v, _ := frameState(t, b, b.Torque, Method{})
		outOfLine(t, v)
		as := rapid.SampledFrom([]making{{}, {0, 1}, {0, -1}}).Draw(t, "made")
		n := rungBelow(b.Torque) - rapid.IntRange(0, 8).Draw(t, "below")
		low, err := v.rung(n, as)
		if err != nil {
			t.Skip(err)
		}
		high, err := v.rung(n+rapid.IntRange(1, 8).Draw(t, "apart"), as)
		if err != nil {
			t.Skip(err)
		}
		c := v.fixed
		energy := c.between(low, high)
		for _, share := range []float64{0.01, 0.1, 0.3, 0.5, 0.8} {
			s, err := v.find((low.scale+share*(high.scale-low.scale))*math.Abs(c.engine), as)
			if err != nil {
				t.Skip(err)
			}
			for m := range c.steps {
				mesh := &c.problem.Meshes[m]
				for i, width := range c.p.pairs[c.steps[m].mesh].widths {
					k := m*strips + i
					straight := low.loads[k] + share*(high.loads[k]-low.loads[k])
					stray := math.Abs(s.load(k) - straight)
					may := math.Sqrt(2 * mesh.Stiffness * width * share * (1 - share) * energy)
					even := mesh.Force * high.scale / strips
					if stray > 1e-3*even {
						strays++
					}
					if stray > may+1e-9*even {
						t.Errorf("strip %d strays by %.6g N, by its energy %.6g at most", k, stray, may)
					}
				}
			}
		}
	})
	if strays == 0 {
		t.Error("nothing ever strays")
	}
}
