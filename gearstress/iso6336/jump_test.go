package iso6336

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// four are the stresses of one load, MPa.
func four(c *Compiled, torque, khb float64) [4]float64 {
	s := c.At(torque, khb)
	return [4]float64{s.Flank[0].Stress, s.Flank[1].Stress, s.Root[0].Stress, s.Root[1].Stress}
}

func loadOf(c *Compiled, torque, khb float64) (l load) {
	c.put(&l, torque, khb)
	return l
}

// From nearly nothing to 3000 N/mm every stress grows with the torque, and without a gap, but at the jump; there it
// falls from resonance to subcritical.
func TestStressesGrowWithTheTorqueButAtTheJump(t *testing.T) {
	jumps := 0
	rapid.Check(t, func(t *rapid.T) {
		f := drawUsualForm(t)
		in := drawUsualInput(t, f)
		in.Gear[0].Grade, in.Gear[1].Grade = rapid.IntRange(1, 11).Draw(t, "both grades"), 1
		full := resonance(f, in)
		for _, n := range speeds {
			in.Speed = n * full
			c, err := f.Compile(in)
			if err != nil {
				t.Fatal(err)
			}
			newton := 1 / (c.specific * in.KA * c.gamma) // torque of 1 N/mm
			var marks []float64
			for w := 1e-2; w < 3000; w *= 1.3 {
				marks = append(marks, w*newton)
			}
			below, above, ok := c.Jump()
			if ok {
				jumps++
				if a, b := loadOf(c, below, 1).dynamic.Regime, loadOf(c, above, 1).dynamic.Regime; a != MainResonance || b != Subcritical {
					t.Fatalf("N = %g: from %q to %q at the jump", n, a, b)
				}
				if a, b := four(c, below, in.KHb), four(c, above, in.KHb); !(b[0] < a[0] && b[2] < a[2]) {
					t.Fatalf("N = %g: %v MPa below the jump, %v above", n, a, b)
				}
			}
			grows := func(from, to float64) {
				a, b := four(c, from, in.KHb), four(c, to, in.KHb)
				for k := range a {
					if !(b[k] >= a[k]) {
						t.Fatalf("N = %g: stress %d falls from %v MPa at %v N·mm to %v at %v", n, k, a[k], from, b[k], to)
					}
				}
				// A gap stays a gap in ever smaller parts.
				for range 40 {
					mid := math.Sqrt(from * to)
					if m := four(c, mid, in.KHb); m[2]/a[2] > b[2]/m[2] {
						to, b = mid, m
					} else {
						from, a = mid, m
					}
				}
				if gap := b[2]/a[2] - 1; gap > 1e-9 {
					t.Fatalf("N = %g: the root stress leaps by %g of it at %v N·mm", n, gap, from)
				}
			}
			for k, to := range marks[1:] {
				switch from := marks[k]; {
				case ok && from < below && above < to:
					grows(from, below)
					grows(above, to)
				case ok && (from < above && below < to):
				default:
					grows(from, to)
				}
			}
		}
	})
	if jumps == 0 {
		t.Error("no draw has a jump")
	}
}

// N_100 = 0.6 is met at t = 0.86365: 0.35 · 0.48048 + 0.5 · 0.86365 = 0.6; w = 100 t⁸ = 30.95 N/mm.
func TestJumpByHand(t *testing.T) {
	f := formOf(t, helicalSpec(), Edition2019)
	in := inputOf(t)
	full := resonance(f, in)
	in.Speed = 0.6 * full
	c, err := f.Compile(in)
	if err != nil {
		t.Fatal(err)
	}
	below, above, ok := c.Jump()
	near(t, "line load of the jump", below*c.specific*in.KA, 30.95, 0.005)
	near(t, "width of the jump", above/below, 1, 1e-11)
	if !ok || !(below < above) || loadOf(c, below, 1).k.V < loadOf(c, above, 1).k.V+0.5 {
		t.Errorf("jump %v from %v to %v N·mm", ok, below, above)
	}
	for what, change := range map[string]func(*Input){
		"K_v given": func(in *Input) { in.KV = 1.2 }, "speed not known": func(in *Input) { in.Speed = 0 }, "at resonance": func(in *Input) { in.Speed = 0.86 * full },
	} {
		other := in
		change(&other)
		c, err := f.Compile(other)
		if err != nil {
			t.Fatal(err)
		}
		if _, _, ok := c.Jump(); ok {
			t.Errorf("%s: a jump", what)
		}
	}
}
