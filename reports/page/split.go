package page

import (
	"math"
	"slices"

	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// splitFigure is what makes the difference between the first box and another one in one speed.
type splitFigure struct {
	Row      int // of the speed
	From, To string
	Speed    string
	Falls    []waterfall
}

// splitNote is what there is to say of one shared difference, whatever the speed.
type splitNote struct {
	From, To string
	Words    []string
}

// waterfall leads from one box to the other over what each group of dimensions adds or takes off.
type waterfall struct {
	Title, Unit, Words string
	Open               bool
	Steps              []fallStep
}

// fallStep is one row of a waterfall. The drawing is 200 wide.
type fallStep struct {
	Name  string
	End   bool   // a box, not a group
	Value string // of a box, or what the group changes
	X, W  string // of the bar, or of the mark of a box
	Line  string // where the bar begins: the place of the row above
	Box   int    // the look of a box
	Side  string // "more" or "less": whether the group adds or takes off
}

// steps are where the rows of a waterfall begin and end: at the first box, after each cause, and so at the other box.
func steps(c *study.CauseSplit, it *study.ItemSplit) []float64 {
	all, at := []float64{it.From}, it.From
	for i, cause := range c.Causes {
		if cause.Same || it.Shares == nil {
			continue
		}
		at += it.Shares[i]
		all = append(all, at)
	}
	return all
}

// widest is by how much the values of a quantity differ in the drawing that needs most room: all drawings of one quantity,
// in whichever speed and against whichever box, have one scale.
func widest(c *study.Comparison, key string) (most float64) {
	for _, split := range c.Splits {
		if split.Causes == nil {
			continue
		}
		for _, speed := range split.Causes.Speeds {
			for k := range speed.Items {
				if it := &speed.Items[k]; it.Key == key && it.Shares != nil {
					all := steps(split.Causes, it)
					most = max(most, slices.Max(all)-slices.Min(all))
				}
			}
		}
	}
	return most
}

// falls are the waterfalls of all speeds that are shared out.
func (s *set) falls(c *study.Comparison) (notes []splitNote, out []splitFigure) {
	if c == nil {
		return nil, nil
	}
	for _, split := range c.Splits {
		note := splitNote{From: s.names[0], To: s.names[split.Box], Words: view.SplitWords(&split, s.Options)}
		notes = append(notes, note)
		if split.Causes == nil {
			continue
		}
		for i, speed := range split.Causes.Speeds {
			f := splitFigure{Row: s.rowOf(speed.Name), From: note.From, To: note.To, Speed: view.Clean(speed.Name)}
			for k := range speed.Items {
				if w, ok := s.waterfall(c, split, i, k); ok {
					f.Falls = append(f.Falls, w)
				}
			}
			out = append(out, f)
		}
	}
	return notes, out
}

// rowOf is the row of a speed.
func (s *set) rowOf(speed string) int {
	for k, r := range s.rows {
		if r.name == view.Clean(speed) {
			return k
		}
	}
	return -1
}

// waterfall draws one quantity of one speed; not ok when nothing changes it.
func (s *set) waterfall(of *study.Comparison, split study.Split, speed, item int) (w waterfall, ok bool) {
	c := split.Causes
	it := &c.Speeds[speed].Items[item]
	places := steps(c, it)
	low := slices.Min(places)
	if slices.Max(places) == low || it.Key == "bearing_span" || it.Key == "common_face" {
		return w, false
	}
	x := func(v float64) float64 { return 8 + 184*(v-low)/widest(of, it.Key) }
	w.Title, w.Unit = view.Clean(it.Name), s.unit(it.Dimension)
	if it.Part != "" {
		w.Title = view.Clean(it.Part) + ", " + w.Title
	}
	w.Open = it.Key == "allowable_torque" || it.Key == "largest_deflection"
	w.Words = view.SplitSentence(c, speed, item, s.Options)
	values := []float64{it.From}
	for i, cause := range c.Causes {
		if !cause.Same {
			values = append(values, it.Shares[i])
		}
	}
	texts := view.Each(view.Steps(view.Converted(append(values, it.To), it.Dimension, s.Units)), typeset)
	end := func(name string, box int, v float64, text string) {
		w.Steps = append(w.Steps, fallStep{Name: name, End: true, Box: look(box), Value: text, X: places1(x(v) - 2), W: "4", Line: places1(x(v))})
	}
	end(s.names[0], 0, it.From, texts[0])
	n := 0
	for i, cause := range c.Causes {
		if cause.Same {
			continue
		}
		from, to := x(places[n]), x(places[n+1])
		n++
		side := "more"
		if it.Shares[i] < 0 {
			side = "less"
		}
		w.Steps = append(w.Steps, fallStep{Name: view.CauseName(&cause), Value: texts[n], X: places1(min(from, to)), W: places1(math.Abs(to - from)), Line: places1(from), Side: side})
	}
	end(s.names[split.Box], split.Box, it.To, texts[len(texts)-1])
	return w, true
}

func places1(v float64) string { return places(v, 1) }
