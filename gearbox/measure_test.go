package gearbox

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"layshaft/material"
)

// alikeTo fails where two numbers differ by more than a share of a size.
func alikeTo(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, got, want, share, size float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*size) {
		t.Errorf("%s: %.14g, want %.14g", what, got, want)
	}
}

// What limits look at is what the shafts show when they are bent: tilts, separations and slopes without bending them, stresses from sums along them. Boxes with pilots, seats and elements, drive and coast.
func TestMeasuresAreThoseOfBentShafts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := frameBox(t)
		if rapid.Bool().Draw(t, "on elements") {
			b = onElements(t)
		}
		torque := b.Torque * rapid.SampledFrom([]float64{1, -1}).Draw(t, "sense")
		v, _ := frameState(t, b, torque, Method{})
		torque = b.Torque * rapid.SampledFrom([]float64{0.1, 1, 2}).Draw(t, "share")
		st, err := v.at(torque)
		if err != nil {
			t.Skip(err)
		}
		m, err := v.measure(torque)
		if err != nil {
			t.Fatal(err)
		}
		if m.grown != 1 {
			return // past an edge
		}
		p := v.p
		for i := range st.flow.steps {
			pose := p.pose(st, i)
			tilt, _ := m.tilt(i)
			apart, _ := m.separation(i)
			moved, slopes := 0.0, 0.0
			for k, s := range p.pairs[st.flow.steps[i].mesh].shafts {
				at := st.solved[s].At(p.pairs[st.flow.steps[i].mesh].at[k], 0)
				moved, slopes = max(moved, at.Deflection()), max(slopes, at.Slope())
			}
			alikeTo(t, "tilt", tilt, pose.axes.norm(), 1e-9, slopes)
			alikeTo(t, "separation", apart, math.Abs(pose.separation), 1e-9, moved)
			k, _ := v.factor(i, torque, material.High)
			alikeTo(t, "K_Hβ", k, st.carried.faces.FaceLoadFactor(i), 1e-11, k)
		}
		for _, s := range v.shafts {
			top := 0.0
			for j := range b.Shafts[s].Sections {
				top = max(top, st.solved[s].SectionStress(j).VonMises)
			}
			for j := range b.Shafts[s].Sections {
				stress, err := m.stress(s, j)
				if err != nil {
					t.Fatal(err)
				}
				alikeTo(t, "stress", stress, st.solved[s].SectionStress(j).VonMises, 1e-9, top)
			}
			steepest := st.solved[s].MaxDeflection().Deflection() / 50
			for j := range b.Shafts[s].Bearings {
				slope, _ := m.slope(s, j)
				want := p.bearingSlope(st, s, j)
				alikeTo(t, "slope", slope, want, 1e-9, max(want, steepest))
			}
		}
	})
}

// numbers are all that limits look at, in one row.
func (m *measure) numbers(t *rapid.T) (all []float64) {
	v := m.solver
	add := func(x float64, err error) {
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, x)
	}
	for i := range v.speed.Path {
		add(v.factor(i, m.torque, 0))
		add(m.tilt(i))
		add(m.separation(i))
	}
	for _, s := range v.shafts {
		for j := range v.p.box.Shafts[s].Bearings {
			add(m.slope(s, j))
		}
		for j := range v.p.box.Shafts[s].Sections {
			add(m.stress(s, j))
		}
	}
	return all
}

// What is found at a torque is the same whatever torque was asked, a twentieth or twenty times as much, and whatever was solved before: to the last digits on springs, and on elements as far as their balance goes.
func TestNothingDependsOnTheAskedTorque(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		b, digits, least := frameBox(t), 1e-12, 1e-12
		if rapid.Bool().Draw(t, "on elements") {
			b, digits, least = onElements(t), 1e-10, 1e-5 // rad, mm: less is the difference of what is more
		}
		sense := rapid.SampledFrom([]float64{1, -1}).Draw(t, "sense")
		torque := b.Torque * math.Exp(rapid.Float64Range(-4, 4).Draw(t, "torque"))
		var want []float64
		for _, asked := range []float64{1, 0.05, 20} {
			p := prepare(b, Method{})
			if p.found.HasErrors() {
				t.Fatal(p.found)
			}
			v := p.solverFor(b.Speeds[0], p.layouts[0][0], sense*asked*torque)
			for _, before := range []float64{v.asked, torque * asked * asked} {
				if _, err := v.measure(before); err != nil {
					t.Skip(err)
				}
			}
			m, err := v.measure(torque)
			if err != nil {
				t.Skip(err)
			}
			got := m.numbers(t)
			if want == nil {
				want = got
			}
			for i := range want {
				alikeTo(t, "number", got[i], want[i], digits, want[i]+least)
			}
		}
	})
}
