package bearing

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// What a row holds is what Force says of the place where its ring has come to rest, and along the axis that is the thrust.
func TestHoldIsTheForceAtItsPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyRow(t, allKinds...)
		s, thrust := e.anyStance(t)
		h, tangent, err := e.Hold(s, thrust)
		if err != nil {
			t.Fatal(err)
		}
		f, m, err := e.Force([3]float64{h.Axial, s.Across[0], s.Across[1]}, s.Tilt)
		if err != nil {
			t.Fatal(err)
		}
		if f != h.Force || m != h.Couple {
			t.Errorf("holds %v %v, at that place the row gives %v %v", h.Force, h.Couple, f, m)
		}
		if math.Abs(f[0]-thrust) > 1e-9*h.Total+1e-10 { // the last digit of the place is worth so much
			t.Errorf("a thrust of %g N is met by %g N", thrust, f[0])
		}
		// With the axial movement taken out it is still a potential, and convex: symmetric, nothing below zero.
		scale := [4]float64{1, 1, 2 / e.Pitch, 2 / e.Pitch}
		along := [4]float64{}
		for i := range along {
			along[i] = between(t, "direction", -1, 1) * scale[i]
		}
		work, size := 0.0, 0.0
		for i := range 4 {
			for j := range 4 {
				work += along[i] * tangent[i][j] * along[j]
				size = max(size, math.Abs(tangent[i][j])*scale[i]*scale[j])
				if math.Abs(tangent[i][j]-tangent[j][i])*scale[i]*scale[j] > 1e-9*math.Abs(tangent[0][0]+tangent[1][1]) {
					t.Errorf("stiffness %d,%d not symmetric", i, j)
				}
			}
		}
		if work < -1e-9*size {
			t.Errorf("moving along %v releases energy: %g of %g N/mm", along, work, size)
		}
	})
}

// The tangent is the derivative of what is held, the axial movement following; of a pair too, whose rows feel each other. Where all elements carry it can be had to many digits.
func TestHoldTangentIsDerivative(t *testing.T) {
	at := Stance{[2]float64{0.004, -0.003}, [2]float64{1e-4, -2e-4}}
	flat := func(h Hold) [4]float64 { return [4]float64{h.Force[1], h.Force[2], h.Couple[0], h.Couple[1]} }
	moved := func(s Stance, i int, step float64) Stance {
		if i < 2 {
			s.Across[i] += step
		} else {
			s.Tilt[i-2] += step
		}
		return s
	}
	steps := [4]float64{1e-6, 1e-6, 1e-7, 1e-7}
	compare := func(what string, tangent *Tangent, hold func(i int, step float64) [4]float64) {
		for i, step := range steps {
			up, down := hold(i, step), hold(i, -step)
			for j := range 4 {
				size := math.Sqrt(tangent[0][0] * tangent[1][1])
				if i > 1 {
					size *= 30
				}
				if j > 1 {
					size *= 30
				}
				if got := (up[j] - down[j]) / (2 * step); math.Abs(got-tangent[j][i]) > 1e-6*size {
					t.Errorf("%s: stiffness %d,%d is %.10g, what is held says %.10g", what, j, i, tangent[j][i], got)
				}
			}
		}
	}
	for _, c := range []struct {
		e      Elements
		thrust float64
	}{
		{Elements{Kind: Cylindrical, Count: 13, Diameter: 9, Length: 10, Pitch: 52, Clearance: -0.04, Turn: 0.3}, 0},
		{Elements{Kind: Ball, Count: 9, Diameter: 12, Pitch: 60, Clearance: -0.04, Turn: 1}, 0},
		{Elements{Kind: Ball, Count: 9, Diameter: 12, Pitch: 60, Clearance: -0.04, Turn: 1}, -3000},
		{Elements{Kind: Ball, Count: 11, Diameter: 10, Pitch: 60, ContactAngle: 0.44}, 5000},
		{Elements{Kind: Tapered, Count: 17, Diameter: 8, Length: 12, Pitch: 50, ContactAngle: -0.25}, -9000},
	} {
		_, tangent, err := c.e.Hold(at, c.thrust)
		if err != nil {
			t.Fatal(err)
		}
		compare(c.e.Kind.String(), &tangent, func(i int, step float64) [4]float64 {
			h, _, err := c.e.Hold(moved(at, i, step), c.thrust)
			if err != nil {
				t.Fatal(err)
			}
			return flat(h)
		})
	}
	other := Stance{[2]float64{-0.002, -0.005}, [2]float64{-1e-4, 1e-4}}
	a := Elements{Kind: Tapered, Count: 17, Diameter: 8, Length: 12, Pitch: 50, ContactAngle: 0.25}
	b := Elements{Kind: Tapered, Count: 15, Diameter: 10, Length: 14, Pitch: 60, ContactAngle: 0.3}
	for _, p := range []Pair{{FaceToFace, a, b, -0.06}, {BackToBack, b, a, -0.06}} {
		_, _, ta, tb, cross, err := p.Hold(at, other, 700)
		if err != nil {
			t.Fatal(err)
		}
		hold := func(a, b Stance) (Hold, Hold) {
			ha, hb, _, _, _, err := p.Hold(a, b, 700)
			if err != nil {
				t.Fatal(err)
			}
			return ha, hb
		}
		compare("A by A", &ta, func(i int, step float64) [4]float64 { h, _ := hold(moved(at, i, step), other); return flat(h) })
		compare("B by B", &tb, func(i int, step float64) [4]float64 { _, h := hold(at, moved(other, i, step)); return flat(h) })
		// cross has no size of its own to be measured by.
		for i, step := range steps {
			up, _ := hold(at, moved(other, i, step))
			down, _ := hold(at, moved(other, i, -step))
			fu, fd := flat(up), flat(down)
			for j := range 4 {
				size := math.Sqrt(ta[j][j] * tb[i][i])
				if got := (fu[j] - fd[j]) / (2 * step); math.Abs(got-cross[j][i]) > 1e-6*size {
					t.Errorf("A by B: stiffness %d,%d is %.10g, what is held says %.10g", j, i, cross[j][i], got)
				}
			}
		}
	}
}

// A radial movement alone is that of RadialAt, whatever the row, and no thrust moves its ring along.
func TestHoldOfARadialMovement(t *testing.T) {
	for _, clearance := range []float64{0, 0.02, -0.01} {
		for _, e := range []Elements{crb, {Kind: Ball, Count: 9, Diameter: 12, Pitch: 60}} {
			e.Clearance = clearance
			h, _, err := e.Hold(Stance{Across: [2]float64{0.03, 0}}, 0)
			if err != nil {
				t.Fatal(err)
			}
			r := must[RadialState](t)(e.RadialAt(0.03))
			if h.Axial != 0 || math.Abs(h.Force[1]-r.Force) > 1e-12*r.Force {
				t.Errorf("%v with %g mm: at %g mm along it carries %g N, want %g N at 0", e.Kind, clearance, h.Axial, h.Force[1], r.Force)
			}
		}
	}
}

// A ball row lies loose over its end play: without thrust it stays where it is, and the least one takes it to the end.
func TestLooseRingStaysWhereItIs(t *testing.T) {
	e := Elements{Kind: Ball, Count: 9, Diameter: 12, Pitch: 60, Clearance: 0.02}
	play := math.Sqrt(0.48*0.48 - 0.47*0.47)
	for _, c := range []struct{ thrust, want float64 }{{0, 0}, {1e-6, play}, {-1e-6, -play}} {
		h, _, err := e.Hold(Stance{}, c.thrust)
		if err != nil || math.Abs(h.Axial-c.want) > 1e-4*play {
			t.Errorf("under %g N the ring lies at %g mm, want %g (%v)", c.thrust, h.Axial, c.want, err)
		}
	}
}

// A pair: both rows together meet the thrust; without radial movement it is the pair of Settle; and from the other end it is the same.
func TestPairHoldsTheThrust(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Pair{Arrangement: FaceToFace, A: anyRow(t, Tapered), B: anyRow(t, Tapered), Setting: between(t, "setting", -0.01, 0.1)}
		if rapid.Bool().Draw(t, "back to back") {
			p.Arrangement = BackToBack
		}
		stance := func(name string, e Elements) Stance {
			size := e.Diameter * 1e-3
			return Stance{[2]float64{size * between(t, name+" y", -1, 1), size * between(t, name+" z", -1, 1)}, [2]float64{1e-3 * between(t, name+" about y", -1, 1), 1e-3 * between(t, name+" about z", -1, 1)}}
		}
		a, b := stance("A", p.A), stance("B", p.B)
		thrust := min(p.A.force(t, "force"), p.B.force(t, "force")) * between(t, "thrust", -0.3, 0.3)
		ha, hb, _, _, _, err := p.Hold(a, b, thrust)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(ha.Force[0]+hb.Force[0]-thrust) > 1e-9*(ha.Total+hb.Total) {
			t.Errorf("%g and %g N do not meet %g N", ha.Force[0], hb.Force[0], thrust)
		}
		if off := (hb.Axial - ha.Axial) * p.Arrangement.sign(); math.Abs(off-p.Setting) > 1e-12 {
			t.Errorf("rows at %g and %g mm along, the setting is %g mm", ha.Axial, hb.Axial, p.Setting)
		}
		back := func(s Stance) Stance { return Stance{s.Across, [2]float64{-s.Tilt[0], -s.Tilt[1]}} }
		mb, ma, _, _, _, err := Pair{p.Arrangement, p.B, p.A, p.Setting}.Hold(back(b), back(a), -thrust)
		if err != nil {
			t.Fatal(err)
		}
		total := ha.Total + hb.Total
		for i := range 3 {
			if math.Abs(math.Abs(ma.Force[i])-math.Abs(ha.Force[i])) > 1e-8*total || math.Abs(math.Abs(mb.Force[i])-math.Abs(hb.Force[i])) > 1e-8*total {
				t.Errorf("from the other end %v %v, was %v %v", ma, mb, ha, hb)
			}
		}
		straightA, straightB, _, _, _, err := p.Hold(Stance{}, Stance{}, thrust)
		if err != nil {
			t.Fatal(err)
		}
		s, err := p.Settle(0, 0, thrust)
		if err != nil {
			t.Skip("beyond what Settle takes")
		}
		if size := math.Abs(thrust) + s.AxialA + s.AxialB; math.Abs(math.Abs(straightA.Force[0])-s.AxialA) > 1e-7*size || math.Abs(math.Abs(straightB.Force[0])-s.AxialB) > 1e-7*size {
			t.Errorf("straight: %g and %g N, Settle says %g and %g N", straightA.Force[0], straightB.Force[0], s.AxialA, s.AxialB)
		}
	})
}

// End play grows into preload without a jump: a smaller setting presses both rows harder, by no more than they are stiff.
func TestEndPlayGrowsIntoPreload(t *testing.T) {
	e := Elements{Kind: Tapered, Count: 17, Diameter: 9, Length: 12, Pitch: 60, ContactAngle: 0.25}
	a, b := Stance{[2]float64{0.01, 0.004}, [2]float64{2e-4, -3e-4}}, Stance{[2]float64{-0.006, 0.012}, [2]float64{2e-4, -3e-4}}
	for _, thrust := range []float64{0, 2500, -2500} {
		const step = 1e-4
		last := -1.0
		for setting := 0.15; setting > -0.05; setting -= step {
			ha, hb, _, _, _, err := Pair{FaceToFace, e, e, setting}.Hold(a, b, thrust)
			if err != nil {
				t.Fatal(err)
			}
			now := math.Abs(ha.Force[0]) + math.Abs(hb.Force[0])
			// No row is stiffer along than with all its rollers in touch and twice the load.
			stiffest := 2 * e.sumStiffness(t, max(ha.Total, hb.Total)) * math.Pow(math.Sin(e.ContactAngle), 2)
			if last >= 0 && (now < last-1e-9 || now-last > 2*stiffest*step+1e-3) {
				t.Errorf("thrust %g N, setting %g mm: the rows press with %g N, with %g mm more play with %g N", thrust, setting, now, step, last)
			}
			last = now
		}
	}
}

// sumStiffness is that of all elements side by side, each under the whole load, N/mm.
func (e Elements) sumStiffness(t *testing.T, load float64) float64 {
	r, err := e.prepare()
	if err != nil {
		t.Fatal(err)
	}
	_, slope := r.law(max(math.Pow(load/r.factor, 1/e.Kind.exponent()), 1e-12))
	return float64(e.Count) * slope
}

// A row and a pair that were asked other things before answer as new ones do.
func TestReadyRowsForgetWhatTheyWereAsked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom([]Kind{Ball, Cylindrical, Tapered}).Draw(t, "kind")
		e := Elements{Kind: kind, Count: 11, Diameter: 12, Length: 12, Pitch: 60, Clearance: rapid.SampledFrom([]float64{-0.01, 0, 0.02}).Draw(t, "clearance")}
		if kind == Ball {
			e.Length = 0
		}
		if kind == Tapered {
			e.ContactAngle, e.Clearance = 0.25, 0
		}
		other := e
		other.ContactAngle = -e.ContactAngle
		pair := Pair{Arrangement: BackToBack, A: e, B: other, Setting: rapid.Float64Range(-0.03, 0.03).Draw(t, "setting")}
		row, err := e.Ready()
		if err != nil {
			t.Fatal(err)
		}
		var both *ReadyPair
		if kind == Tapered {
			if both, err = pair.Ready(); err != nil {
				t.Fatal(err)
			}
		}
		stance := func(name string) (s Stance) {
			for i := range 2 {
				s.Across[i] = rapid.Float64Range(-0.05, 0.05).Draw(t, name)
				s.Tilt[i] = rapid.Float64Range(-2e-3, 2e-3).Draw(t, name)
			}
			return s
		}
		same := func(what string, got, want Hold, size float64) {
			for i := range want.Force {
				if math.Abs(got.Force[i]-want.Force[i]) > 1e-9*size {
					t.Fatalf("%s: %v, new %v", what, got, want)
				}
			}
			for i := range want.Couple {
				if math.Abs(got.Couple[i]-want.Couple[i]) > 1e-9*size*e.Pitch {
					t.Fatalf("%s: %v, new %v", what, got, want)
				}
			}
		}
		for range 4 {
			a, b, thrust := stance("a"), stance("b"), rapid.SampledFrom([]float64{0, 300, -900, 2500}).Draw(t, "thrust")
			if kind == Cylindrical {
				thrust = 0
			}
			if both != nil {
				wantA, wantB, _, _, _, errWant := pair.Hold(a, b, thrust)
				gotA, gotB, _, _, _, err := both.Hold(a, b, thrust)
				if (err == nil) != (errWant == nil) {
					t.Fatalf("error %v, new %v", err, errWant)
				}
				if err == nil {
					same("A", gotA, wantA, wantA.Total+wantB.Total)
					same("B", gotB, wantB, wantA.Total+wantB.Total)
				}
				continue
			}
			want, _, errWant := e.Hold(a, thrust)
			got, _, err := row.Hold(a, thrust)
			if (err == nil) != (errWant == nil) {
				t.Fatalf("error %v, new %v", err, errWant)
			}
			if err == nil {
				same("row", got, want, want.Total)
			}
		}
	})
}
