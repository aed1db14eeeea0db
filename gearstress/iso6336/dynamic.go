package iso6336

import (
	"fmt"
	"math"
)

// Regime says on which side of its resonance a mesh runs.
type Regime string

// The regimes of ISO 6336-1, and what else K_v may come from.
const (
	Standing      Regime = "standing still"
	Subcritical   Regime = "below resonance"
	MainResonance Regime = "at resonance"
	Intermediate  Regime = "between resonance and above"
	Supercritical Regime = "above resonance"
	Given         Regime = "given"
)

// Dynamic is how K_v came about.
type Dynamic struct {
	ReducedMass float64 // m_red, of both gears at the line of action per mm of face, kg/mm
	Resonance   float64 // ω_E1, speed of the pinion at resonance, rad/s
	Ratio       float64 // N, speed over that at resonance, –
	Lower       float64 // N_S, where resonance begins, –
	Regime      Regime
	PitchPart   float64 // B_p, –
	ProfilePart float64 // B_f, –
	ReliefPart  float64 // B_k, –
	KV          float64 // K_v, –
}

// reducedMass is m_red, kg/mm of face.
//
//	m_red = π/8 (d_m1/d_b1)² d_m1²/(1/((1 − q1⁴) ρ1) + 1/((1 − q2⁴) ρ2 u²))
//
// with d_m = (d_a + d_f)/2, q = d_i/d_m for a rim of inner diameter d_i, q = 0 for a
// solid gear; webs are left out. Index 1 is the pinion.
// Source: ISO 6336-1:2006 and 2019, 6.5 (method B), approximation for external pairs.
func (f *Form) reducedMass(in *Input) float64 {
	p := f.Pair
	body := func(i int) float64 {
		g := in.Gear[i]
		if g.Body.Rim == 0 {
			return g.Strength.Density
		}
		q := max(0, p.Root[i]-2*g.Body.Rim) / ((p.Tip[i] + p.Root[i]) / 2)
		return (1 - q*q*q*q) * g.Strength.Density
	}
	a, b := f.pinion, 1-f.pinion
	mean := (p.Tip[a] + p.Root[a]) / 2
	u := float64(p.Teeth[b]) / float64(p.Teeth[a])
	lever := mean / p.Base[a]
	return math.Pi / 8 * lever * lever * mean * mean / (1/body(a) + 1/(body(b)*u*u))
}

// coefficients are C_v1 … C_v7 of ISO 6336-1:2006 and 2019, table of 6.5.6, –,
// from ε_γ; from memory.
func coefficients(eps float64) (c [8]float64) {
	c = [8]float64{1: 0.32, 2: 0.34, 3: 0.23, 4: 0.90, 5: 0.47, 6: 0.47, 7: 0.75}
	if eps > 2 {
		c[2] = 0.57 / (eps - 0.3)
		c[3] = 0.096 / (eps - 1.56)
		c[4] = (0.57 - 0.05*eps) / (eps - 1.44)
		c[6] = 0.12 / (eps - 1.74)
	}
	switch {
	case eps > 2.5:
		c[7] = 1
	case eps > 1.5:
		c[7] = 0.125*math.Sin(math.Pi*(eps-2)) + 0.875
	}
	// The formula of C_v4 would turn negative for very long contact.
	c[4] = max(0, c[4])
	return c
}

// leastLoad is the line load, N/mm, below which K_v and K_Hα are held. Source: ISO 6336-1:2006 and 2019, 6.5, where
// the risk of lifting off begins.
const leastLoad = 50

// lowerEnd is N_S, where resonance begins, –, under a specific load of K_A K_γ F_t/b, N/mm.
func lowerEnd(specificLoad float64) float64 {
	if specificLoad >= softLoad {
		return 0.85
	}
	return 0.5 + 0.35*math.Sqrt(specificLoad/softLoad)
}

// dynamic works out K_v by method B in all four regimes.
//
//	N = ω_1/ω_E1, ω_E1 = (1/z1) √(c_γα/m_red)
//	N_S = 0.85, below K_A K_γ F_t/b = 100 N/mm: 0.5 + 0.35 √(K_A K_γ F_t/(100 b))
//	B_p = c' f_pb eff/(K_A K_γ F_t/b), B_f = c' f_fα eff/(K_A K_γ F_t/b)
//	B_k = |1 − c' C_a/(K_A K_γ F_t/b)|; 1 for grade 6 and coarser
//	N ≤ N_S:        K_v = 1 + N (C_v1 B_p + C_v2 B_f + C_v3 B_k)
//	N_S < N ≤ 1.15: K_v = 1 + C_v1 B_p + C_v2 B_f + C_v4 B_k
//	N ≥ 1.5:        K_v = C_v5 B_p + C_v6 B_f + C_v7
//	between:        straight line
//
// and never less than 1. Source: ISO 6336-1:2006 and 2019, 6.5. K_γ stands beside K_A
// as the standard asks for divided power paths.
//
// Below leastLoad the parts B are those of leastLoad: there the standard itself says that teeth may
// lift off and its formula no longer tells. Carried on, it would make F_t K_v, and with it the
// stress, grow again as the load goes to nothing.
func (c *Compiled) dynamic(s *Stiffness, specificLoad float64) Dynamic {
	p, in, cv := c.form.Pair, &c.in, &c.cv
	pinion := c.form.pinion
	d := Dynamic{ReducedMass: c.reducedMass, Lower: lowerEnd(specificLoad)}
	// Force per mm of face, mm of approach and kg per mm of face: N/(mm·kg) = 1000/s².
	d.Resonance = math.Sqrt(1000*s.Mean/d.ReducedMass) / float64(p.Teeth[pinion])
	d.Ratio = in.Speed * p.Reference[0] / p.Reference[pinion] / d.Resonance
	held := max(specificLoad, leastLoad)
	d.PitchPart = s.Single * c.deviation.Pitch / held
	d.ProfilePart = s.Single * c.deviation.Profile / held
	d.ReliefPart = 1
	if max(in.Gear[0].Grade, in.Gear[1].Grade) < 6 {
		d.ReliefPart = math.Abs(1 - s.Single*in.TipRelief/held)
	}
	resonance := 1 + cv[1]*d.PitchPart + cv[2]*d.ProfilePart + cv[4]*d.ReliefPart
	above := cv[5]*d.PitchPart + cv[6]*d.ProfilePart + cv[7]
	switch n := d.Ratio; {
	case in.KV != 0:
		d.Regime, d.KV = Given, in.KV
	case in.Speed == 0:
		d.Regime, d.KV = Standing, 1
	case n <= d.Lower:
		d.Regime, d.KV = Subcritical, 1+n*(cv[1]*d.PitchPart+cv[2]*d.ProfilePart+cv[3]*d.ReliefPart)
	case n <= 1.15:
		d.Regime, d.KV = MainResonance, resonance
	case n < 1.5:
		d.Regime, d.KV = Intermediate, above+(resonance-above)/0.35*(1.5-n)
	default:
		d.Regime, d.KV = Supercritical, above
	}
	d.KV = max(1, d.KV)
	return d
}

// notes says what about K_v should make the reader careful.
func (d Dynamic) notes(specificLoad float64) (notes []string) {
	switch d.Regime {
	case MainResonance:
		notes = append(notes, fmt.Sprintf("the mesh runs at its resonance (N = %.2f, from %.2f to 1.15): K_v = %.2f is a guide only; other speed or better teeth should be sought (ISO 6336-1)", d.Ratio, d.Lower, d.KV))
	case Intermediate:
		notes = append(notes, fmt.Sprintf("the mesh runs just above its resonance (N = %.2f): K_v = %.2f is read from a straight line between two regimes", d.Ratio, d.KV))
	}
	if d.Regime != Standing && d.Regime != Given && specificLoad < leastLoad {
		notes = append(notes, fmt.Sprintf("the line load K_A K_γ F_t/b is only %.3g N/mm: below %d N/mm teeth may lift off and hammer, which ISO 6336-1 does not describe; K_v = %.2f and K_Hα are those of %d N/mm", specificLoad, leastLoad, d.KV, leastLoad))
	}
	return notes
}
