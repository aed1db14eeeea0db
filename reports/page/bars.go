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

// worstOf is the limit of one kind that a speed reaches first, nil when it has none.
func worstOf(sp *gearbox.SpeedResult, k gearbox.Kind) *gearbox.Margin {
	if sp == nil {
		return nil
	}
	all := sp.Margins
	if k.Reference() {
		all = sp.References
	}
	var worst *gearbox.Margin
	for i := range all {
		m := &all[i]
		if m.Kind == k && (worst == nil || m.Margin < worst.Margin || math.IsNaN(worst.Margin)) {
			worst = m
		}
	}
	return worst
}

// kindsByUrgency is every kind of limit in the results, the one that leaves least torque over all boxes and speeds first and second
// opinions last, so that all charts of bars have their rows in the same order.
func (s *set) kindsByUrgency() []gearbox.Kind {
	least := map[gearbox.Kind]float64{}
	for _, r := range s.rows {
		for _, sp := range r.boxes {
			for _, k := range gearbox.Kinds() {
				if m := worstOf(sp, k); m != nil {
					v := m.Margin
					if math.IsNaN(v) {
						v = math.Inf(1)
					}
					if old, ok := least[k]; !ok || v < old {
						least[k] = v
					}
				}
			}
		}
	}
	var kinds []gearbox.Kind
	for _, k := range gearbox.Kinds() {
		if _, ok := least[k]; ok {
			kinds = append(kinds, k)
		}
	}
	slices.SortStableFunc(kinds, func(a, b gearbox.Kind) int {
		switch {
		case a.Reference() != b.Reference():
			if b.Reference() {
				return -1
			}
			return 1
		case least[a] < least[b]:
			return -1
		case least[a] > least[b]:
			return 1
		}
		return 0
	})
	return kinds
}

// reserves is the wanted reserves of the boxes in percent, each once.
func (s *set) reserves() []float64 {
	var out []float64
	for _, r := range s.results {
		if v := 100 * r.Box.Limits.Reserve; v > 0 && !math.IsInf(v, 1) && !slices.Contains(out, v) {
			out = append(out, v)
		}
	}
	return out
}

// barScale is the range of the bars, in percent: enough for every limit that governs and for the least second opinion, while limits far away are cut off.
func (s *set) barScale() scale {
	low, high := 0.0, 60.0
	for _, v := range s.reserves() {
		high = max(high, 2*v)
	}
	for _, r := range s.rows {
		for _, sp := range r.boxes {
			if m := governing(sp); m != nil {
				if v := 100 * m.Margin; v < 1e4 {
					low, high = min(low, v), max(high, 1.5*v)
				}
			}
			if sp != nil { // a second opinion may lie below the limit in front
				for i := range sp.References {
					if v := 100 * sp.References[i].Margin; !math.IsNaN(v) {
						low = min(low, v)
					}
				}
			}
		}
	}
	return roundScale(max(low, -100), min(high, 300), 7)
}

// barCharts is one chart of bars for each speed.
func (s *set) barCharts() (out []chart, figures []figureBox, note string) {
	kinds, span := s.kindsByUrgency(), s.barScale()
	marks := append([]float64{0}, s.reserves()...)
	for k, r := range s.rows {
		var shown []gearbox.Kind
		for _, kind := range kinds {
			if slices.ContainsFunc(r.boxes, func(sp *gearbox.SpeedResult) bool { return worstOf(sp, kind) != nil }) {
				shown = append(shown, kind)
			}
		}
		f := figureBox{ID: fmt.Sprintf("bars-%d", k), Title: r.name}
		if len(shown) == 0 {
			f.Note = "No limit could be judged in this speed."
			figures = append(figures, figureBox{Title: r.name, Note: f.Note})
			continue
		}
		names := make([]string, len(shown))
		for i, kind := range shown {
			names[i] = kind.String()
		}
		c := chart{ID: f.ID, Kind: "bars", Boxes: s.names}
		alt := "Torque margins in " + r.name + ". "
		for b, sp := range r.boxes {
			line := series{Box: b, Role: "bars"}
			first := governing(sp)
			var said []string
			for _, kind := range shown {
				m := worstOf(sp, kind)
				line.Bars = append(line.Bars, s.bar(b, kind, m, m != nil && m == first, span))
				if m != nil {
					said = append(said, kind.String()+" "+percent(m.Margin))
				}
			}
			if len(said) > 0 {
				alt += s.names[b] + ": " + strings.Join(said, ", ") + ". "
			}
			c.Series = append(c.Series, line)
		}
		c.Option = barOption(names, s.names, span, marks)
		f.Alt = strings.TrimSpace(alt)
		figures = append(figures, f)
		out = append(out, c)
	}
	note = fmt.Sprintf("Each bar is the worst part of its kind. ◆ marks the limit that is reached first, with its part. ▸ means the bar goes on beyond %s.", percent(span.High/100))
	if slices.ContainsFunc(kinds, gearbox.Kind.Reference) {
		note += " " + opinionNote
	}
	return out, figures, note
}

// opinionNote says why second opinions differ from the limits that decide.
const opinionNote = "○ AGMA, Lewis and Hertz are second opinions by other methods and decide nothing. AGMA is rated here for 10⁷ load cycles whatever the duty, " +
	"and Lewis holds against the yield strength, so they may say less or more than the limits above them."

func signOf(m *gearbox.Margin) string {
	if m.Kind.Reference() {
		return view.OpinionSign
	}
	return m.State.Sign()
}

func (s *set) bar(b int, kind gearbox.Kind, m *gearbox.Margin, first bool, span scale) bar {
	if m == nil {
		return bar{Text: "no such limit", None: true, Tip: []string{s.names[b] + ": has no limit of this kind here"}}
	}
	v := 100 * m.Margin
	out := bar{Value: rounded(min(max(v, span.Low), span.High)), Text: signOf(m) + " " + percent(m.Margin), First: first}
	said := m.State.String()
	if m.Kind.Reference() {
		said = "second opinion"
	}
	out.Tip = []string{
		fmt.Sprintf("%s: %s %s, %s", s.names[b], signOf(m), said, percent(m.Margin)),
		view.Clean(m.Item),
		"allowable torque " + s.text(m.Allowable[m.Level], quantity.Torque, 3),
	}
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		out.Value, out.None = 0, true
	case v > span.High:
		out.Text += " ▸"
	}
	if first {
		out.Text += " ◆ " + view.Clean(m.Item)
	}
	return out
}
