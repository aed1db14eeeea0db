package page

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/reports/view"
)

// The input torques shown, as parts of the torque asked about, and how many.
const (
	leastTorque = 0.3
	mostTorque  = 2.5
	torqueSteps = 60
)

// torqueChart shows what is left of the governing limit of every speed at other input torques.
func (s *set) torqueChart() ([]chart, figureBox) {
	f := figureBox{ID: "torque", Title: "Margin of the first limit against the input torque"}
	low, high := math.Inf(1), 0.0
	var asked []float64
	for _, r := range s.results {
		if t := math.Abs(r.Torque); t > 0 && !math.IsInf(t, 0) {
			low, high = min(low, t), max(high, t)
			if v := s.value(t, quantity.Torque); !slices.Contains(asked, v) {
				asked = append(asked, v)
			}
		}
	}
	slices.Sort(asked)
	type line struct {
		box, row int
		m        *gearbox.Margin
	}
	var lines []line
	for b := range s.results {
		for k, r := range s.rows {
			if m := governing(r.boxes[b]); m != nil && !math.IsInf(m.Margin, 0) && !math.IsNaN(m.Margin) {
				lines = append(lines, line{b, k, m})
			}
		}
	}
	if high == 0 || len(lines) == 0 {
		return nil, figureBox{Title: f.Title, Note: "Nothing to draw: no limit is reached at any torque."}
	}
	unit := s.value(1, quantity.Torque)
	x := roundScale(leastTorque*low*unit, mostTorque*high*unit, 14)
	x.Low = max(x.Low, x.Step/2) // the margin at no torque is without end
	from, to := x.Low/unit, x.High/unit
	data := make(table, torqueSteps+1)
	least, most := 0.0, 100.0
	for i := range data {
		t := from * math.Pow(to/from, float64(i)/torqueSteps)
		row := make([]float64, 1, len(lines)+1)
		row[0] = s.value(t, quantity.Torque)
		for _, l := range lines {
			row = append(row, 100*l.m.MarginAt(t))
		}
		data[i] = row
	}
	c := chart{ID: f.ID, Kind: "torque", XUnit: s.unit(quantity.Torque), Boxes: s.names}
	names := make([]string, len(lines))
	marks := make([]series, len(s.results))
	var beyond, said []string
	for i, l := range lines {
		worst, _ := s.worst(l.box)
		first := l.row == worst
		names[i] = s.names[l.box] + ", " + s.rows[l.row].name
		role := "speed"
		if first {
			role = "first"
		}
		c.Series = append(c.Series, series{Box: l.box, Role: role})
		least = min(least, data[torqueSteps][i+1])
		if first {
			most = max(most, 2*100*l.m.Margin)
		}
		a := l.m.Allowable[l.m.Level]
		if a < from || a > to {
			beyond = append(beyond, fmt.Sprintf("%s (%s)", names[i], s.text(a, quantity.Torque, 3)))
		} else {
			marks[l.box].Cross = append(marks[l.box].Cross, cross{rounded(s.value(a, quantity.Torque)), s.rows[l.row].name, first})
		}
		said = append(said, fmt.Sprintf("%s reaches zero at %s", names[i], s.text(a, quantity.Torque, 3)))
	}
	for b := range marks {
		marks[b].Box, marks[b].Role = b, "cross"
		c.Series = append(c.Series, marks[b])
	}
	y := roundScale(max(least, -100), min(most, 200), 6)
	c.Option = torqueOption(names, s.names, data, x, y, c.XUnit, asked)
	f.Alt = "Torque margin against input torque, one line for each speed. " + strings.Join(said, "; ") + "."
	f.Note = "One line for each speed, by the limit it reaches first; the thick line is the speed in which least is left by what arrives. " +
		"A dot marks where nothing is left: the allowable torque of that speed. Lines follow allowable ÷ input torque − 1."
	if len(asked) > 1 {
		var words []string
		for _, v := range asked {
			words = append(words, short(v))
		}
		f.Note += " The dotted lines mark the torques asked: " + view.List(words) + " " + c.XUnit + "."
	}
	if len(beyond) > 0 {
		f.Note += " Beyond the chart: " + view.List(beyond) + "."
	}
	return []chart{c}, f
}
