package gearbox

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"layshaft/testdata/draws"
)

// anyLeaning draws a gear on its seat under some force, with a thrust face that takes some couple.
func anyLeaning(t *rapid.T) leaning {
	number := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	force := point{number("force y", -8e3, 8e3), number("force z", -8e3, 8e3)}
	soft := rapid.SampledFrom([]float64{0, 1e-5, 1e-6}).Draw(t, "give of an end") // mm/N
	seat := &Seat{Length: number("length", 12, 30), Clearance: number("clearance", 0.005, 0.05)}
	if soft > 0 {
		seat.Stiffness = 1 / soft
	}
	return leaning{
		seat: seat, stiff: soft,
		force: force, small: floats * (force.norm() + 1), face: rapid.SampledFrom([]float64{0, 1, 10, 100}).Draw(t, "face") * number("face", 1, 1e3),
	}
}

func anyCouple(t *rapid.T) point {
	size, way := rapid.Float64Range(1, 3e5).Draw(t, "couple"), rapid.Float64Range(0, 2*math.Pi).Draw(t, "way")
	return point{size * math.Cos(way), size * math.Sin(way)}
}

// upright reports whether a gear leans next to nothing: rigid ends that are loaded alike keep it so by themselves.
func upright(l leaning, lean point) bool { return lean.norm() < 1e-6*l.seat.Clearance/l.seat.Length }

// What the thrust face takes obeys its law: it takes all of the couple, and the gear stands upright, or it takes all that it can, along the lean.
func TestThrustFaceTakesItsCouple(t *testing.T) {
	leant := 0
	rapid.Check(t, func(t *rapid.T) {
		l, couple := anyLeaning(t), anyCouple(t)
		lean, _, seat := l.lean(1, couple)
		taken := couple.minus(seat)
		if couple.norm() <= l.face {
			if lean != (point{}) || seat != (point{}) {
				t.Fatalf("a couple of %g N·mm, less than the %g that the face can take, leans the gear by %v", couple.norm(), l.face, lean)
			}
			return
		}
		leant++
		if taken.norm() > l.face+1e-12*couple.norm() {
			t.Fatalf("the face takes %g N·mm of %g", taken.norm(), l.face)
		}
		if !upright(l, lean) {
			alikeTo(t, "couple on the face", taken.norm(), l.face, 1e-12, couple.norm())
			alikeTo(t, "couple along the lean", taken.dot(lean), l.face*lean.norm(), 1e-9, l.face*lean.norm())
		}
		alone, _ := l.seat.lean(l.force, seat, l.small)
		alikeTo(t, "lean of the seat", alone.minus(lean).norm(), 0, 1e-12, lean.norm())
		// No other couple that the face can give leaves the seat less energy.
		least := l.energy(1, couple)
		for k := range 200 {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / 200)
			for _, share := range []float64{0.3, 0.9, 1} {
				other := couple.minus(point{cos, sin}.scaled(share * l.face))
				if e := l.seat.energy(l.force, other, l.small); e < least*(1-1e-12) {
					t.Fatalf("with the face's couple at %d/200 of a turn the seat stores %.15g N·mm, less than %.15g", k, e, least)
				}
			}
		}
	})
	if draws.Full() && leant < 20 {
		t.Errorf("only %d gears lean", leant)
	}
}

// The lean is the gradient of the energy, and its answer to the couple the second derivative.
func TestLeanIsTheGradientOfTheEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, couple := anyLeaning(t), anyCouple(t)
		const step, least = 1e-2, 1e-3 // N·mm
		if math.Abs(couple.norm()-l.face) < 0.05*couple.norm() {
			return // across the edge of the face the second derivative jumps
		}
		one, other := l.seat.ends(l.force, couple)
		if _, _, seat := l.lean(1, couple); seat != (point{}) {
			one, other = l.seat.ends(l.force, seat)
		}
		if min(one.norm(), other.norm()) < 500 {
			return // and beside an end that floats it is too steep for differences
		}
		lean, give, _ := l.lean(1, couple)
		if upright(l, lean) {
			return // and where it begins to lean is not told by differences
		}
		for i := range 2 {
			up, down := couple, couple
			up[i] += step
			down[i] -= step
			energy := l.energy(1, couple)
			alikeTo(t, "lean", (l.energy(1, up)-l.energy(1, down))/(2*step), lean[i], 1, 1e-12*energy/step+1e-6*lean.norm())
			up[i] = couple[i] + least
			down[i] = couple[i] - least
			above, _, _ := l.lean(1, up)
			below, _, _ := l.lean(1, down)
			for j := range 2 {
				size := math.Abs(give[0][0]) + math.Abs(give[1][1])
				alikeTo(t, "give", (above[j]-below[j])/(2*least), give[j][i], 1, 1e-5*size+1e-14*(lean.norm()+l.seat.Clearance/l.seat.Length)/least)
			}
		}
	})
}

// Limit cases on a whole box: with next to no thrust face K_Hβ is that of the seat alone, with a large one that of a gear that is fast on its shaft (but for the wind-up, which is left out); the lean falls as the radius grows.
func TestThrustFaceBetweenItsLimits(t *testing.T) {
	solve := func(seat *Seat) (factor, lean float64) {
		b := frameSystem("helical")
		b.Gears[1].Seat = seat
		_, st := frameState(t, b, b.Torque, Method{NoTwist: true})
		return st.carried.faces.FaceLoadFactor(0), st.carried.leans[1].norm()
	}
	with := func(radius float64) *Seat {
		return &Seat{Length: 24, Clearance: 0.03, Stiffness: 4e5, ThrustFace: radius}
	}
	fast, _ := solve(nil)
	if upright, lean := solve(with(500)); math.Abs(upright-fast) > 1e-12 || lean != 0 {
		t.Errorf("on a thrust face of 500 mm K_Hβ is %g and the gear leans %g, fast on its shaft K_Hβ is %g", upright, lean, fast)
	}
	last := math.Inf(1)
	for _, radius := range []float64{bare, 5, 10, 15, 20, 25, 30} {
		_, lean := solve(with(radius))
		if !(lean < last || lean == 0) {
			t.Errorf("with a thrust face of %g mm the gear leans %g, with a smaller one %g", radius, lean, last)
		}
		last = lean
	}
	b := frameSystem("helical")
	p := prepare(b, Method{})
	_, assumed := solve(with(0))
	if _, want := solve(with(usualThrustFace * p.pairs[0].geometry.Working[1] / 2)); assumed != want {
		t.Errorf("where no thrust face is given the gear leans %g, with the usual one %g", assumed, want)
	}
}
