package gauge

import (
	"cmp"
	"math"
	"slices"

	"layshaft/gearstress/involute"
)

// Pairing is what is measured of a pair whose base pitch and helix nothing else tells: the distance and both tips.
type Pairing struct {
	Teeth    [2]int
	Distance float64      // of the axes, mm
	Tip      [2]float64   // mm, both needed
	Root     [2]float64   // mm; 0 = not measured
	Spans    [2][]Reading // base tangent lengths
}

// Fitting is a set of gear data with which a pair closes on its distance without backlash and makes full teeth as
// high as those that were measured.
type Fitting struct {
	Tool
	Helix float64    // β, rad
	Shift [2]float64 // x of the full teeth, in modules
	order float64
}

// What a pairing must keep: the sum of profile shifts, and how many sets are worth telling. Common practice, no source.
const (
	leastSum, mostSum = -0.6, 1.3
	mostFittings      = 3
	worstFitting      = 12.0 // sum of squared misfits, as in Label
	backlashRoom      = 0.2  // mm by which spans may be short, for backlash
)

// Fittings are the sets of the standard series, with helices of whole and half degrees, that fit a pair, best first,
// the best helix of each tool.
func (p Pairing) Fittings() (all []Fitting) {
	if !(p.Tip[0] > 0 && p.Tip[1] > 0 && p.Distance > 0) {
		return nil
	}
	// Tips stand over the axes' distance by two addenda each, less what they are shortened by: that is near four modules.
	size := (p.Tip[0] + p.Tip[1] - 2*p.Distance) / 4
	for _, tool := range Tools {
		if size < 0.6*tool.Module || size > 1.3*tool.Module {
			continue
		}
		best := Fitting{order: math.Inf(1)}
		for step := 0; step <= 90; step++ {
			helix := float64(step) * halfDegree
			if helix > 0 && helix < 8*degree {
				continue // hardly cut
			}
			if f := p.fit(tool, helix); f.order < best.order {
				best = f
			}
		}
		if best.order < worstFitting {
			all = append(all, best)
		}
	}
	slices.SortStableFunc(all, func(a, b Fitting) int { return cmp.Compare(a.order, b.order) })
	return all[:min(len(all), mostFittings)]
}

// fit holds a tool and a helix (rad) against the pair; the order is infinite where it can't be.
func (p Pairing) fit(tool Tool, helix float64) Fitting {
	f := Fitting{Tool: tool, Helix: helix, order: math.Inf(1)}
	spec := involute.Spec{Module: tool.Module, Helix: helix, Rack: involute.Rack{PressureAngle: tool.PressureAngle},
		Teeth: p.Teeth, CentreDistance: p.Distance}
	reference, sum := spec.Closing()
	if !(sum >= leastSum && sum <= mostSum) {
		return f
	}
	var d [2]float64
	for i, z := range p.Teeth {
		d[i] = float64(z) * tool.Module / math.Cos(helix)
	}
	// Both tips are shortened alike, so their difference is that of the shifts, and their sum tells the addendum.
	difference := ((p.Tip[0] - d[0]) - (p.Tip[1] - d[1])) / (2 * tool.Module)
	f.Shift = [2]float64{(sum + difference) / 2, (sum - difference) / 2}
	shortened := min(0, (p.Distance-reference)/tool.Module-sum)
	addendum := (p.Tip[0]+p.Tip[1]-2*reference)/(4*tool.Module) - sum/2 - shortened
	order := tool.Rare + square((addendum-fullAddendum)/usualAddendum)
	if math.Mod(math.Round(helix/halfDegree), 2) != 0 {
		order++
	}
	for i, x := range f.Shift {
		order += square(max(0, leastUsualShift-x, x-mostUsualShift) / shiftStep)
		if p.Root[i] > 0 {
			dedendum := (d[i]-p.Root[i])/(2*tool.Module) + x
			order += square((dedendum - fullDedendum) / usualDedendum)
		}
		g := involute.Gauge{Module: tool.Module, PressureAngle: tool.PressureAngle, Helix: helix, Teeth: p.Teeth[i]}
		for k, r := range p.Spans[i] {
			off := g.Span(r.Teeth, x) - r.Value
			order += square(max(0, -off, off-backlashRoom) / (0.5*r.Width() + 0.02*tool.Module)) // the shifts are no better than the tips
			if k > 0 {
				first := p.Spans[i][0]
				pitch := (r.Value - first.Value) / float64(r.Teeth-first.Teeth)
				order += square((pitch - tool.basePitch()) / (math.Hypot(r.Width(), first.Width()) / wide))
			}
		}
	}
	f.order = order
	return f
}

func square(v float64) float64 { return v * v }
