package strength

import (
	"errors"
	"fmt"
	"math"

	"layshaft/material"
)

// Torsion says how torsion goes while bending turns.
type Torsion string

// The ways of torsion.
const (
	Steady    Torsion = "steady"    // it stays as it is
	Pulsating Torsion = "pulsating" // it comes and goes, from nothing to all of it
)

// Torsions lists them, the usual one first.
func Torsions() []Torsion { return []Torsion{Steady, Pulsating} }

// Rules are what has to be chosen about fatigue.
type Rules struct {
	Surface   Surface
	Criterion Criterion
	Torsion   Torsion
}

// UsualRules are what is taken where nothing is given.
var UsualRules = Rules{Machined, Goodman, Steady}

// Fatigue is a notch of a turning shaft in a steel, ready for any load.
type Fatigue struct {
	Shape     Concentration // of the notch
	Felt      Factors       // K_f and K_fs, what fatigue feels of it
	Endurance float64       // S_e, without notch factors, MPa

	nominal Modulus
	steel   Steel
	rules   Rules
	curve   material.Curve
}

// Fatigue readies a notch for loads, in a steel.
func (n Notch) Fatigue(s Steel, r Rules) (*Fatigue, error) {
	if err := errors.Join(n.Check(), s.Check()); err != nil {
		return nil, err
	}
	f := &Fatigue{Shape: n.Concentration(s.Tensile), nominal: n.Nominal(), steel: s, rules: r, Endurance: Endurance(s.Tensile, n.reference(), r.Surface, Reliability)}
	f.Felt = n.felt(f.Shape, s.Tensile)
	var err error
	f.curve, err = Cycles(s.Tensile, f.Endurance, FatigueFraction(s.Tensile))
	return f, err
}

// Swing is the equivalent stresses of a section that turns once under a load, MPa: bending swings to and fro, axial
// force stays, torsion as the rules say. Each has its factor, on the mean too. A pressing axial force isn't credited.
//
//	σ_a' = √((K_f σ_b)² + 3 (K_fs τ_a)²), σ_m' = √((K_f σ_ax)² + 3 (K_fs τ_m)²)
//
// Source: Shigley's Mechanical Engineering Design, 9th ed., eqs 7-5 and 7-6.
func (f *Fatigue) Swing(l Load) Swing {
	n := f.nominal.Under(l).times(f.Felt)
	steady, swinging := n.Torsion, 0.0
	if f.rules.Torsion == Pulsating {
		steady, swinging = n.Torsion/2, n.Torsion/2
	}
	return Swing{math.Hypot(n.Bending, math.Sqrt(3)*swinging), math.Hypot(max(0, n.Axial), math.Sqrt(3)*steady)}
}

// Used is how much of an endless life a swing uses up, –: amplitude and mean may both grow by one over it.
func (f *Fatigue) Used(w Swing) float64 { return f.rules.Criterion.Used(w, f.steel, f.Endurance) }

// OfStatic is how much of what is borne once a swing needs, –; more than 1: there is no life.
func (f *Fatigue) OfStatic(w Swing) float64 {
	return f.rules.Criterion.Reversed(w, f.steel) / f.steel.Tensile
}

// Damage is what a swing adds to Miner's sum in so many turns, –. Nothing at or below the endurance; one beyond what is
// borne once counts as if it stopped there, since that has a name of its own.
func (f *Fatigue) Damage(w Swing, turns float64) float64 {
	s := min(f.rules.Criterion.Reversed(w, f.steel), f.steel.Tensile)
	if s <= f.Endurance || turns == 0 {
		return 0
	}
	return turns / f.curve.Cycles(s/f.Endurance)
}

// Bin is so many turns under one swing.
type Bin struct {
	Swing
	Turns float64 // –
}

// hair is how far beyond the endurance a bin surely counts, as a share of it.
const hair = 1e-12

// UsedUp is how much of a limited life some bins use up together, –: all their loads may grow by one over it until
// Miner's sum is 1. It grows with the loads as they do, where the sum itself jumps up from nothing at the endurance.
func (f *Fatigue) UsedUp(bins []Bin) float64 {
	// The loads grow from nothing: one bin after the other passes the endurance, from where on it counts.
	const usual = 16
	waiting := append(make([]Bin, 0, usual), bins...)
	counting := waiting[:0]
	from, turns := 0.0, 0.0
	for len(counting) < len(waiting) {
		next, used := len(counting), 0.0
		for i := next; i < len(waiting); i++ {
			if u := f.Used(waiting[i].Swing); u > used && waiting[i].Turns > 0 {
				next, used = i, u
			}
		}
		at := 1 / used
		if math.IsInf(at, 1) {
			break // the others bear nothing
		}
		sum := f.sum(counting, at)
		if sum >= 1 {
			return 1 / f.until(counting, from, at)
		}
		waiting[len(counting)], waiting[next] = waiting[next], waiting[len(counting)]
		counting = waiting[:len(counting)+1]
		from = at * (1 + hair)
		if turns += waiting[len(counting)-1].Turns; sum+f.sum(counting[len(counting)-1:], from) >= 1 {
			return used * (1 + 10*hair) // so that who comes as close to it as can be told is still on this side
		}
	}
	if turns < 1 {
		return 0 // no load does it
	}
	// Miner's sum is 1 at the latest when no bin is borne more often than all turns together.
	to, borne := from, f.Endurance*f.curve.At(turns)
	for _, b := range counting {
		to = max(to, 1/f.rules.Criterion.Used(b.Swing, f.steel, borne))
	}
	return 1 / f.until(counting, from, to)
}

// sum is Miner's of some bins that have grown.
func (f *Fatigue) sum(bins []Bin, growth float64) (d float64) {
	for _, b := range bins {
		d += f.Damage(Swing{b.Amplitude * growth, b.Mean * growth}, b.Turns)
	}
	return d
}

// until is the growth between two at which Miner's sum of some bins is 1; all of them count from the first on, and at
// the second it is at least that, but for rounding. On logarithmic scales it is all but straight.
func (f *Fatigue) until(bins []Bin, from, to float64) float64 {
	miss := func(x float64) float64 { return math.Log(f.sum(bins, math.Exp(x))) }
	low, high := math.Log(from), math.Log(to)
	last, lastY := low, miss(low)
	x, y := high, miss(high)
	for k := 0; k < 200 && math.Abs(y) > 1e-13 && high-low > 1e-14; k++ {
		next := x - y*(x-last)/(y-lastY)
		if !(next > low && next < high) || k%8 == 7 {
			next = low + (high-low)/2
		}
		last, lastY, x = x, y, next
		if y = miss(x); y < 0 {
			low = x
		} else {
			high = x
		}
	}
	return math.Exp(x)
}

// Source says where a limit of fatigue comes from.
func (f *Fatigue) Source() string {
	return fmt.Sprintf("%s; K_f %.2f, K_fs %.2f by Neuber; S_e %.0f MPa (%s, size, %g %% reliability) by Shigley's Mechanical Engineering Design, 9th ed.; %s with %s torsion",
		f.Shape.Source, f.Felt.Bending, f.Felt.Torsion, f.Endurance, f.rules.Surface, 100*Reliability, f.rules.Criterion, f.rules.Torsion)
}
