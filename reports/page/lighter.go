package page

import (
	_ "embed"
	"html/template"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

//go:embed assets/lighter.html
var lighterText string

// lighterPart is what the page tells of masses.
type lighterPart struct {
	Cases  []lighterCase
	Tables []template.HTML
	Notes  []string
}

// lighterCase is one box against another.
type lighterCase struct {
	view.Case
	Bars []balanceRow
}

// balanceRow is one quantity. The drawing is 200 wide, with no change in its middle.
type balanceRow struct {
	Name, Value string
	Bars        []balanceBar
}

type balanceBar struct {
	Side string // "for" or "against" the lighter box
	X, W string
}

// balanceNames are what quantities are called beside their bars.
var balanceNames = map[study.ReasonKind]string{
	study.ByMass: "mass", study.ByTorque: "allowable torque", study.ByPerMass: "allowable torque over mass",
	study.ByTransmitted: "allowable over transmitted torque", study.ByWheels: "allowable torque at the wheels",
	study.BySpin:       "inertia for the synchroniser",
	study.ByDeflection: "largest deflection of a shaft", study.ByRoot: "largest root stress (σ_F)", study.ByFlank: "largest flank stress (σ_H)",
}

// lighter is the part about masses; nil when the boxes are not compared, or don't tell them.
func (s *set) lighter(c *study.Comparison) *lighterPart {
	if c == nil || len(c.Weighed) == 0 {
		return nil
	}
	p := &lighterPart{Tables: s.tables(view.MassTables(c.Weighed, s.Options)...)}
	for i := range c.Lighter {
		k := &c.Lighter[i]
		p.Cases = append(p.Cases, lighterCase{view.CaseOf(c, k, s.Options), balanceRows(k, widestBalance(c.Lighter))})
	}
	for _, w := range c.Weighed {
		for _, n := range w.Result.Weights.Notes {
			if n = view.Line(n); !slices.Contains(p.Notes, n) {
				p.Notes = append(p.Notes, n)
			}
		}
	}
	return p
}

// widestBalance is the largest change of all cases: their bars have one scale.
func widestBalance(all []study.LighterCase) (most float64) {
	for _, k := range all {
		for _, b := range k.Balance {
			most = math.Max(most, math.Max(math.Abs(b.Least), math.Abs(b.Most)))
		}
	}
	return most
}

// balanceRows draws by how much the lighter box differs; most is the change that fills half of the drawing.
func balanceRows(k *study.LighterCase, most float64) (rows []balanceRow) {
	if most == 0 {
		return nil
	}
	x := func(change float64) float64 { return 96 * change / most }
	for _, b := range k.Balance {
		row := balanceRow{Name: balanceNames[b.Kind], Value: changeRange(b.Least, b.Most)}
		bar := func(from, to float64, side string) {
			// A single change is a mark wide enough to be seen.
			width := math.Max(x(to)-x(from), 2)
			row.Bars = append(row.Bars, balanceBar{side, places1((x(from)+x(to))/2 - width/2), places1(width)})
		}
		sides := [2]string{"for", "against"} // below zero, above it
		if b.More {
			sides = [2]string{"against", "for"}
		}
		switch {
		case b.Most <= 0:
			bar(b.Least, b.Most, sides[0])
		case b.Least >= 0:
			bar(b.Least, b.Most, sides[1])
		default:
			bar(b.Least, 0, sides[0])
			bar(0, b.Most, sides[1])
		}
		rows = append(rows, row)
	}
	return rows
}

// changeRange is "−35 to −20 %".
func changeRange(least, most float64) string {
	a, b := percent(least), percent(most)
	if a == b {
		return a
	}
	return strings.TrimSuffix(a, " %") + " to " + b
}
