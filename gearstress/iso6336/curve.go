package iso6336

import "math"

// Curve is the stress that a tooth bears against the number of load cycles: level
// up to its first corner, straight lines between its corners on double-logarithmic
// paper, level after the last. It never rises.
type Curve struct {
	n      int
	cycles [4]float64 // at the corners, –
	stress [4]float64 // at the corners, MPa (or – for a curve of life factors)
	slope  [4]float64 // of the line that ends at the corner, ln σ over ln N, ≤ 0, –; the first has none
}

func (c *Curve) add(cycles, stress float64) {
	if k := c.n; k > 0 {
		stress = min(stress, c.stress[k-1])
		c.slope[k] = math.Log(stress/c.stress[k-1]) / math.Log(cycles/c.cycles[k-1])
	}
	c.cycles[c.n], c.stress[c.n] = cycles, stress
	c.n++
}

// At is the stress borne for a number of load cycles (–), MPa.
func (c *Curve) At(cycles float64) float64 {
	for k := range c.n {
		switch {
		case cycles > c.cycles[k]:
		case k == 0:
			return c.stress[0]
		default:
			return c.stress[k-1] * math.Exp(c.slope[k]*math.Log(cycles/c.cycles[k-1]))
		}
	}
	return c.stress[c.n-1]
}

// Cycles is the number of load cycles (–) for which a stress (MPa) is borne: 0 when it
// is above the static strength, +Inf when the curve stays at or above it for ever.
func (c *Curve) Cycles(stress float64) float64 {
	if stress > c.stress[0] {
		return 0
	}
	if stress <= c.stress[c.n-1] {
		return math.Inf(1)
	}
	k := 1
	for stress <= c.stress[k] {
		k++
	}
	return c.cycles[k-1] * math.Exp(math.Log(stress/c.stress[k-1])/c.slope[k])
}

// Static is the stress borne once, MPa.
func (c *Curve) Static() float64 { return c.stress[0] }

// Bin is one step of a spectrum of stresses.
type Bin struct {
	Stress float64 // MPa
	Cycles float64 // number of load cycles, –
}

// Damage is the sum Σ n_i/N_i over the bins, –: 1 is the end of life by Miner's
// rule. A stress above the static strength makes it +Inf. Source: ISO 6336-6, clause 4 (service life, Palmgren–Miner).
func (c *Curve) Damage(bins []Bin) float64 {
	sum := 0.0
	for _, b := range bins {
		sum += c.DamageOf(b.Stress, b.Cycles)
	}
	return sum
}

// DamageOf is what one stress (MPa) adds to the sum in a number of load cycles (–): n/N, –.
func (c *Curve) DamageOf(stress, cycles float64) float64 {
	if !(cycles > 0) {
		return 0
	}
	return cycles / c.Cycles(stress)
}
