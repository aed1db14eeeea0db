package bearing

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
)

// Reading is one trial on the bench: a shim, mm, and the torque that it takes to turn the shaft with it, N·mm, less what
// the shaft drags without preload.
type Reading struct{ Shim, Torque float64 }

// ShimQuestion is which shim a wanted torque needs, from what was read with others. A thicker shim loads the rows more.
type ShimQuestion struct {
	Readings []Reading
	Unsure   float64 // standard uncertainty of each torque, N·mm
	Want     float64 // N·mm

	// Zero is the shim at which the rows just touch, mm, as a squeezed strip of soft wire shows it; NaN = not known.
	// ZeroUnsure is its standard uncertainty, mm.
	Zero, ZeroUnsure float64
}

// ShimAnswer is the shim that is asked for.
type ShimAnswer struct {
	Shim   float64    // mm
	Unsure float64    // standard uncertainty, mm; to first order where it follows from a line
	Range  [3]float64 // what 5 %, half and 95 % of sampled readings stay below, mm
	Slope  float64    // torque per shim there, N·mm/mm
	Steps  float64    // how far it lies past the readings, in steps of their whole spread: 0 = within them
	Curve  bool       // from the shim of zero clearance and the law of the rollers, else a straight line
	Notes  []string   // why to doubt it
}

// sampled is how many readings are drawn; the same in every run.
const sampled = 20000

// farOut is how far past the readings a straight line is still taken seriously, in their spread; common sense, no source.
const farOut = 1.0

// Shim answers by a straight line through the readings, or where zero clearance is known by the law of rollers from
// there, torque ∝ (shim − zero)^(1/0.9).
//
//	line   s = s̄ + (T − T̄)/b, u(s) = u/|b| √(1/n + (s − s̄)²/Σ(s_i − s̄)²)
//
// of two readings u/|b| √((1 − λ)² + λ²), λ the place between them. Source: least squares; the readings are drawn anew
// beside it, since far out the formula is meaningless.
func (q ShimQuestion) Shim() (ShimAnswer, error) {
	known := !math.IsNaN(q.Zero)
	if err := q.check(known); err != nil {
		return ShimAnswer{}, err
	}
	a := ShimAnswer{Curve: known}
	best, ok := q.solve(q.Readings, q.Zero)
	if !ok {
		return a, errors.New("the torque doesn't grow with the shim in these readings: turn the shaft twenty times before each, and read again")
	}
	a.Shim = best.shim
	a.Slope = best.slope
	random := rand.New(rand.NewPCG(1, 2))
	drawn := make([]float64, 0, sampled)
	varied := slices.Clone(q.Readings)
	for range sampled {
		for i, r := range q.Readings {
			varied[i].Torque = r.Torque + q.Unsure*random.NormFloat64()
		}
		zero := q.Zero
		if known {
			zero += q.ZeroUnsure * random.NormFloat64()
		}
		if s, ok := q.solve(varied, zero); ok {
			drawn = append(drawn, s.shim)
		}
	}
	slices.Sort(drawn)
	for i, share := range []float64{0.05, 0.5, 0.95} {
		a.Range[i] = drawn[min(int(share*float64(len(drawn))), len(drawn)-1)]
	}
	if known {
		a.Unsure = spread(drawn)
	} else {
		a.Unsure = q.Unsure * best.noise
	}
	a.Steps, a.Notes = q.doubts(a, len(drawn))
	return a, nil
}

func (q ShimQuestion) check(known bool) error {
	least := 2
	if known {
		least = 1
	}
	var all []error
	if len(q.Readings) < least {
		all = append(all, fmt.Errorf("%d readings given: at least %d with different shims are needed", len(q.Readings), least))
	}
	if !(q.Want > 0 && q.Want < math.Inf(1)) {
		all = append(all, fmt.Errorf("a wanted torque of %g N·mm: a number above 0 is expected", q.Want))
	}
	if !(q.Unsure >= 0 && q.Unsure < math.Inf(1)) || known && !(q.ZeroUnsure >= 0 && q.ZeroUnsure < math.Inf(1)) {
		all = append(all, errors.New("an uncertainty is a number from 0 up"))
	}
	for _, r := range q.Readings {
		if math.IsNaN(r.Shim+r.Torque) || math.IsInf(r.Shim+r.Torque, 0) {
			all = append(all, fmt.Errorf("a reading of %g N·mm with a shim of %g mm: numbers are expected", r.Torque, r.Shim))
		}
	}
	return errors.Join(all...)
}

// answered is a shim with the slope of the torque there, and what a unit of uncertainty of the readings does to it.
type answered struct{ shim, slope, noise float64 }

// solve is the shim by line, or by curve where zero is known.
func (q ShimQuestion) solve(readings []Reading, zero float64) (a answered, ok bool) {
	n := float64(len(readings))
	if !math.IsNaN(zero) {
		// The factor by least squares over the readings past zero.
		top, bottom := 0.0, 0.0
		for _, r := range readings {
			if past := r.Shim - zero; past > 0 {
				law := math.Pow(past, lineExponent)
				top, bottom = top+r.Torque*law, bottom+law*law
			}
		}
		if !(top > 0) {
			return a, false
		}
		past := math.Pow(q.Want*bottom/top, 1/lineExponent)
		return answered{shim: zero + past, slope: lineExponent * q.Want / past}, true
	}
	var shim, torque, square, product float64
	for _, r := range readings {
		shim, torque = shim+r.Shim/n, torque+r.Torque/n
	}
	for _, r := range readings {
		square += (r.Shim - shim) * (r.Shim - shim)
		product += (r.Shim - shim) * (r.Torque - torque)
	}
	slope := product / square
	if square == 0 || slope == 0 || math.IsNaN(slope) {
		return a, false
	}
	a = answered{shim: shim + (q.Want-torque)/slope, slope: slope}
	a.noise = math.Sqrt(1/n+(a.shim-shim)*(a.shim-shim)/square) / math.Abs(slope)
	return a, true
}

// lineExponent is that of preload over how far rollers are pushed together, with a torque that grows as the preload.
const lineExponent = 1 / 0.9

// doubts is how far past the readings the answer lies, and what is to be said against it.
func (q ShimQuestion) doubts(a ShimAnswer, drawn int) (steps float64, notes []string) {
	thinner := func(a, b Reading) int { return cmp.Compare(a.Shim, b.Shim) }
	low, high := slices.MinFunc(q.Readings, thinner).Shim, slices.MaxFunc(q.Readings, thinner).Shim
	if a.Slope < 0 {
		notes = append(notes, "The torque falls as the shim grows: either the shim eases the rows in this box (then turn its sign round), or the readings are too unsure.")
	}
	if a.Curve {
		low = min(low, q.Zero)
	}
	if out := max(a.Shim-high, low-a.Shim); out > 0 && high > low {
		steps = out / (high - low)
		if steps > farOut {
			notes = append(notes, fmt.Sprintf("This lies %.1f times the spread of the readings past them: it says little. Try a shim on the way and read again.", steps))
		} else {
			notes = append(notes, "This lies past the readings: read once more with it.")
		}
	}
	free := 2 * q.Unsure
	for _, r := range q.Readings {
		switch {
		case !math.IsNaN(q.Zero) && r.Shim <= q.Zero:
			notes = append(notes, fmt.Sprintf("The reading at %.3f mm was taken with play: it says nothing of the preload and isn't counted.", r.Shim))
		case r.Torque <= free:
			notes = append(notes, fmt.Sprintf("The torque at %.3f mm is no more than its uncertainty: there may have been play, and no line goes across the kink where it ends.", r.Shim))
		}
	}
	if !a.Curve {
		notes = append(notes, "A straight line is taken: the torque really grows a little faster than the shim, and not at all while there is play. The shim of zero clearance is the better base.")
	}
	if wide := a.Range[2] - a.Range[0]; a.Unsure > 0 && wide > 1.5*3.29*a.Unsure || drawn < sampled*99/100 {
		notes = append(notes, "So far out the uncertainty has no middle any more: go by the sampled range.")
	}
	return steps, notes
}

// spread is the standard deviation.
func spread(values []float64) float64 {
	mean, square, n := 0.0, 0.0, float64(len(values))
	for _, v := range values {
		mean += v / n
	}
	for _, v := range values {
		square += (v - mean) * (v - mean) / n
	}
	return math.Sqrt(square)
}
