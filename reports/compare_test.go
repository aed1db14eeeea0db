package reports_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/text"
)

// What is the same in all boxes is said in one line, and margins stand in per cent, with the difference in points.
func TestSideBySide(t *testing.T) {
	third := birch()
	third.Box.Name = "Cedar"
	for _, results := range [][]*gearbox.Result{{alder(), birch()}, {alder(), birch(), third}} {
		c := &study.Comparison{Results: results}
		values := func(first float64, others ...float64) []float64 {
			return append([]float64{first}, slices.Repeat(others, len(results)-1)...)
		}
		for i, name := range []string{"1st", "2nd"} {
			row := study.SpeedRow{Name: name, Boxes: make([]*gearbox.SpeedResult, len(results))}
			for k, r := range results {
				row.Boxes[k] = &r.Speeds[i]
			}
			row.Items = append(row.Items,
				study.Difference{Name: "allowable torque", Key: "allowable_torque", Dimension: quantity.Torque, Values: values(2e5, 2e5), Change: values(0, 0)},
				study.Difference{Name: "torque transmitted", Key: "transmitted", Dimension: quantity.Torque, Values: values(1e5, 1e5*(1+1e-12)), Change: values(0, 0)},
				study.Difference{Name: "margin", Key: "transmitted_margin", Values: values(1.92, 1.5), Change: values(0, -0.42)},
				study.Difference{Name: "ratio", Key: "ratio", Values: values(3, 3+float64(i)), Change: values(0, float64(i)/3)},
			)
			c.Speeds = append(c.Speeds, row)
		}
		var b bytes.Buffer
		if err := text.Compare(&b, c, text.Options{}); err != nil {
			t.Fatal(err)
		}
		_, text, _ := strings.Cut(b.String(), "Side by side")
		of := map[int]string{2: "both", 3: "all"}[len(results)]
		for _, want := range []string{
			"The same in " + of + ": torque transmitted.\n", "  allowable torque, N·m: more is better\n", "  margin, %: more is better\n", "points\n", "+192.0  +150.0   -42.0", "  ratio\n",
		} {
			if !strings.Contains(text, want) {
				t.Errorf("%d boxes: %q isn't in\n%s", len(results), want, text)
			}
		}
		if strings.Contains(text, "  torque transmitted, N·m\n") {
			t.Errorf("%d boxes: what is the same has a table", len(results))
		}
	}
}
