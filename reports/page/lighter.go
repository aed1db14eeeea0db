package page

import (
	_ "embed"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

//go:embed assets/lighter.html
var lighterText string

// CaseWords is the case for and against a lighter box in plain sentences.
type CaseWords struct {
	Title        string
	Head         string
	For, Against []string
	Shared       []string
	Unknown      []string
}

// lighterPart is what the page tells of masses.
type lighterPart struct {
	Cases         []lighterCase
	Masses, Pulls template.HTML
	Notes         []string
}

// lighterCase is one box against another.
type lighterCase struct {
	Lighter, Other string
	Words          CaseWords
	Bars           []balanceRow
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
func (s *set) lighter(c *study.Comparison, o Options) *lighterPart {
	if c == nil || len(c.Weighed) == 0 {
		return nil
	}
	p := &lighterPart{Masses: s.massGrid(c.Weighed), Pulls: s.pullGrid(c.Weighed)}
	for i := range c.Lighter {
		k := &c.Lighter[i]
		l := lighterCase{Lighter: s.names[k.Lighter], Other: s.names[k.Other], Bars: balanceRows(k, widestBalance(c.Lighter))}
		if o.CaseWords != nil {
			l.Words = o.CaseWords(c, k)
		}
		p.Cases = append(p.Cases, l)
	}
	for _, w := range c.Weighed {
		for _, n := range w.Result.Weights.Notes {
			if n = view.Clean(n); !slices.Contains(p.Notes, n) {
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

// massGrid has one row per box.
func (s *set) massGrid(boxes []study.WeighedBox) template.HTML {
	unit := ", " + s.unit(quantity.Mass)
	g := grid{Caption: "What the boxes weigh", Heads: []string{"Box", "Shafts" + unit, "Gears" + unit, "Shafts and gears" + unit, "Other parts given" + unit, "Whole box, weighed" + unit, "Not itemised" + unit}}
	kg := func(v float64) gridCell {
		if v == 0 || math.IsNaN(v) {
			return digit(view.Absent)
		}
		return digit(s.number(v, quantity.Mass, 4))
	}
	for i, box := range boxes {
		w := box.Result.Weights
		g.Rows = append(g.Rows, gridRow{Head: s.names[i], Cells: []gridCell{kg(w.Shafts), kg(w.Gears), kg(w.Turning()), kg(w.Others), kg(w.Box.Weighed.Box), kg(w.Rest())}})
	}
	return g.html()
}

// pullGrid has one row per speed and box.
func (s *set) pullGrid(boxes []study.WeighedBox) template.HTML {
	of := "shafts and gears"
	if boxes[0].Whole {
		of = "the whole box"
	}
	g := grid{
		Caption: fmt.Sprintf("Torque per mass (%s), and what its synchronisers match", of),
		Heads: []string{"Speed", "Box", "Allowable torque, " + s.unit(quantity.Torque), "Over its mass, " + s.unit(quantity.TorquePerMass), "Inertia, " + s.unit(quantity.MomentOfInertia),
			"Torque × time, shifting up, " + s.unit(quantity.TorqueTime), "Shifting down, " + s.unit(quantity.TorqueTime)},
	}
	for _, row := range s.rows {
		for b, sp := range row.boxes {
			if sp == nil {
				continue
			}
			inertia, up, down := digit(view.Absent), digit(view.Absent), digit(view.Absent)
			if y := boxes[b].Synchroniser(sp.Name); y != nil && y.Unknown == "" {
				inertia = digit(s.number(y.Inertia, quantity.MomentOfInertia, 4))
				if y.Up != nil {
					up = digit(s.number(y.Up.TorqueTime, quantity.TorqueTime, 3))
				}
				if y.Down != nil {
					down = digit(s.number(y.Down.TorqueTime, quantity.TorqueTime, 3))
				}
			}
			g.Rows = append(g.Rows, gridRow{Head: row.name, Cells: []gridCell{
				word(s.names[b]), digit(s.number(sp.First.Torque, quantity.Torque, 3)), digit(s.number(boxes[b].PerMassOf(sp.Name), quantity.TorquePerMass, 3)), inertia, up, down,
			}})
		}
	}
	return g.html()
}
