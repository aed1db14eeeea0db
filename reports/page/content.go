package page

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/view"
)

// set is the results of a page, lined up by speed.
type set struct {
	units
	results []*gearbox.Result
	names   []string // of the boxes, safe to show, told apart by a number where two are alike
	rows    []row
	sources sources
}

// row is one speed of every box; nil where a box has no such speed.
type row struct {
	name  string
	boxes []*gearbox.SpeedResult
}

func newSet(results []*gearbox.Result, system quantity.System) *set {
	s := &set{units: newUnits(system), results: results}
	seen := map[string]int{}
	for _, r := range results {
		name := view.Clean(r.Box.Name)
		if seen[name]++; seen[name] > 1 {
			name = fmt.Sprintf("%s (%d)", name, seen[name])
		}
		s.names = append(s.names, name)
	}
	at := map[string]int{}
	for b, r := range results {
		for i := range r.Speeds {
			sp := &r.Speeds[i]
			k, ok := at[sp.Name]
			if !ok {
				k = len(s.rows)
				at[sp.Name] = k
				s.rows = append(s.rows, row{view.Clean(sp.Name), make([]*gearbox.SpeedResult, len(results))})
			}
			s.rows[k].boxes[b] = sp
		}
	}
	return s
}

// look is the number of the colour and dash of a box; the fifth box looks like the first again.
func look(b int) int { return b % 4 }

// governing is the limit that a speed reaches first, nil when the result holds none.
func governing(sp *gearbox.SpeedResult) *gearbox.Margin {
	if sp == nil || len(sp.Margins) == 0 {
		return nil
	}
	return sp.Governing()
}

// deciding is the limit of a speed with the least left by what counts, nil when the result holds none.
func deciding(sp *gearbox.SpeedResult) *gearbox.Margin {
	if sp == nil {
		return nil
	}
	return sp.Deciding()
}

// worst is the speed of box b with the least left by what counts, and its limit.
func (s *set) worst(b int) (k int, m *gearbox.Margin) {
	k = -1
	for i, r := range s.rows {
		if g := deciding(r.boxes[b]); g != nil && (m == nil || g.Left() < m.Left()) {
			k, m = i, g
		}
	}
	return k, m
}

// tightest is the speed with the least left over all boxes: the one the shaft drawings show when the page opens.
func (s *set) tightest() int {
	best, least := 0, math.Inf(1)
	for b := range s.results {
		if k, m := s.worst(b); m != nil && m.Left() < least {
			best, least = k, m.Left()
		}
	}
	return best
}

// content is what the page template shows.
type content struct {
	Policy        string
	Style         template.CSS
	Title, Kicker string
	Headline      string
	Warning       string
	Asked         []string
	Told          []told
	Keys          []key
	Cards         []card
	Answers       []sentences
	Warned        []warned
	Arrives       bool   // it is known what clutch or tyres let through
	LifeWords     string // why a life and a margin may name different parts; "" where no life is shown
	Verdicts      []verdictRow
	Equal         []card
	SameAtEqual   bool
	Lessons       []lessons
	LessonNote    string
	EffectsTitle  string
	Effects       []effectsPart
	SumWords      string
	TorqueUnit    string
	TiltUnit      string
	Many          bool
	Bars          []figureBox
	BarNote       string
	MarginFigure  figureBox
	Reaches       []reachFigure
	Lives         []livesFigure
	Choices       []choice
	Shafts        []figureBox
	AlignNote     string
	Faces         []figureBox
	Growths       []figureBox
	Causes        []causeFigure
	Lighter       *lighterPart
	SplitNotes    []splitNote
	Splits        []splitFigure
	Teeth         []toothFigure
	Details       []detail
	Checks, Notes []note
	Sources       []string
	About         []about
	Caution       []string
	Version       string
	Licences      []licence
	Charts        []chart
}

type (
	// key is one entry of the legend: the box and the number of its colour and dash.
	key struct {
		Box  int
		Name string
	}
	// card is one box's answer.
	card struct {
		Box                    int
		Name                   string
		State, Word, Margin    string
		First, Allowable, Ends string
		Doubt                  bool // at the low end of all ranges less is allowed than was asked, though the state isn't over
		Life                   string
	}
	// sentences are the verdict about one box.
	sentences struct {
		Box  int
		Name string
		Text []string
	}
	verdictRow struct {
		Speed                string
		Box                  int
		Name                 string
		Span                 int    // rows the speed name covers; 0 when an earlier row covers this one
		First                string // what it is limited by
		State, Word          string
		Doubt                bool // as of a card
		Margin, Allowable    string
		Range, Ratio, Absent string
		Comes, By            string // input torque that arrives, and what bounds it
		All                  string // what limits the speed at the input, if all of the torque arrived
	}
	figureBox struct {
		ID, Title, Alt, Note string
		Empty                bool // nothing to show in the speed the page opens with
	}
	choice struct {
		Index   int
		Name    string
		Checked bool
	}
	about struct{ Name, Text string }
	// told is what was given of one box.
	told struct {
		Box   int
		Name  string
		Facts [][2]string
	}
	licence struct{ Title, Text string }
)

func (s *set) content(c *study.Comparison, o Options) *content {
	p := &content{
		Title:      view.List(s.names),
		Kicker:     "Gearbox check",
		Headline:   view.Clean(o.Headline),
		Warning:    view.Clean(o.Warning),
		Many:       len(s.results) > 1,
		TorqueUnit: s.unit(quantity.Torque),
		TiltUnit:   s.unit(quantity.Slope),
		Version:    view.Clean(o.Version),
	}
	if c != nil {
		p.Kicker = "Gearboxes side by side"
	}
	p.Caution = cautions(o.Caution)
	for b, r := range s.results {
		p.Keys = append(p.Keys, key{look(b), s.names[b]})
		answer := s.card(b, o)
		p.Cards = append(p.Cards, answer)
		if answer.Life != "" {
			p.LifeWords = view.Clean(o.LifeOrMargin)
		}
		asked := s.asked(b)
		if o.Sense != nil {
			asked = strings.TrimSpace(asked + " " + view.Clean(o.Sense(r)))
		}
		p.Asked = append(p.Asked, asked)
		if o.Verdict != nil {
			a := sentences{Box: look(b), Name: s.names[b]}
			for _, text := range o.Verdict(r, o.effectsOf(b)) {
				a.Text = append(a.Text, view.Clean(text))
			}
			p.Answers = append(p.Answers, a)
		}
		if o.SumWords != nil && p.SumWords == "" {
			p.SumWords = o.SumWords(r)
		}
		if o.Told != nil {
			t := told{Box: look(b), Name: s.names[b]}
			for _, fact := range o.Told(r) {
				t.Facts = append(t.Facts, [2]string{view.Clean(fact[0]), view.Clean(fact[1])})
			}
			p.Told = append(p.Told, t)
		}
		if r.Box.About != "" {
			p.About = append(p.About, about{s.names[b], view.Clean(strings.Join(strings.Fields(r.Box.About), " "))})
		}
	}
	if first := p.Asked[0]; !slices.ContainsFunc(p.Asked, func(a string) bool { return a != first }) {
		p.Asked = p.Asked[:1]
	} else {
		for b := range p.Asked {
			p.Asked[b] = s.names[b] + ": " + p.Asked[b]
		}
	}
	p.EffectsTitle, p.Effects = view.Clean(o.EffectsTitle), s.effects(o)
	p.Verdicts, p.Arrives = s.verdicts()
	p.Warned = s.warnings(o)
	p.Equal, p.SameAtEqual = s.equal(c, o)
	if p.Lessons = s.lessons(); len(p.Lessons) > 0 {
		p.LessonNote = study.EvidenceCaveat()
	}

	bars, barFigures, barNote := s.barCharts()
	p.Bars, p.BarNote = barFigures, barNote
	lines, lineFigure := s.torqueChart()
	p.MarginFigure = lineFigure
	p.Reaches, p.Lives = s.reachFigures(), s.livesFigures()
	shafts, shaftFigures := s.shaftCharts()
	p.Shafts, p.AlignNote = shaftFigures, s.alignNote()
	faces, faceFigures := s.faceCharts()
	p.Faces = faceFigures
	p.Causes, p.Teeth = s.causeFigures(), s.toothFigures()
	p.Lighter = s.lighter(c, o)
	p.SplitNotes, p.Splits = s.falls(c, o)
	growths, growthFigures := s.growthCharts()
	p.Growths = growthFigures
	p.Charts = slices.Concat(bars, lines, shafts, faces, growths)
	open := s.tightest()
	for k, r := range s.rows {
		p.Choices = append(p.Choices, choice{k, r.name, k == open})
	}

	p.Details = s.details(c)
	p.Checks, p.Notes = s.notes()
	p.Sources = s.sources.list
	return p
}

// cautions are the paragraphs of a caution.
func cautions(text string) (all []string) {
	for _, part := range strings.Split(text, "\n\n") {
		if part = strings.Join(strings.Fields(part), " "); part != "" {
			all = append(all, view.Clean(part))
		}
	}
	return all
}

// asked says what torque was asked for and how the limits are judged.
func (s *set) asked(b int) string {
	r := s.results[b]
	way := "driving"
	if r.Torque < 0 {
		way = "coasting (the engine brakes)"
	}
	t := fmt.Sprintf("Asked: %s at the input shaft, %s. ", short(s.value(math.Abs(r.Torque), quantity.Torque))+" "+s.unit(quantity.Torque), way)
	t += fmt.Sprintf("Judged by the %s of each strength that is a range. Wanted reserve: %s.", levelWords(r.Box.Limits.Strength), short(100*r.Box.Limits.Reserve)+" %")
	return t
}

func levelWords(l material.Level) string {
	switch l {
	case material.Low:
		return "low end"
	case material.High:
		return "high end"
	}
	return "typical value"
}

// stateWords is the sign and the word of a state, which are always shown together.
func stateWords(m *gearbox.Margin) (class, words string) {
	return m.Judged().String(), m.Judged().Sign() + " " + m.Judged().String()
}

func (s *set) card(b int, o Options) card {
	c := card{Box: look(b), Name: s.names[b]}
	k, m := s.worst(b)
	if m == nil {
		c.Word, c.First = view.NotKnown, "No limit could be judged: the result holds no speed with a limit."
		return c
	}
	c.State, c.Word = stateWords(m)
	c.Margin = percent(m.Left())
	if study.Judge(s.results[b]).Record.BrokeAt != nil { // whatever its limits say
		c.State, c.Word, c.Margin = gearbox.Over.String(), gearbox.Over.Sign()+" "+gearbox.Over.String(), "it broke"
	}
	if math.IsInf(m.Left(), 1) {
		c.First = "No limit is reached at any torque."
		return c
	}
	c.First = fmt.Sprintf("Least left in %s: %s", s.rows[k].name, limitText(m.First(), s.rows[k].boxes[b].Name))
	c.Allowable = s.text(s.results[b].Allowable(m.Level), quantity.Torque, 3)
	c.Ends, c.Doubt = s.endWords(b, m)
	c.Life = lifeWords(s.results[b], o)
	return c
}

// doubtful tells whether a limit holds only because not everything that is a range sits at its low end; low is what would be allowed then, asked the torque asked about.
func doubtful(m *gearbox.Margin, low, asked float64) bool {
	return m.State != gearbox.Over && low < math.Abs(asked)
}

// endWords says what a box allows when every range of limits and strengths sits at one end, the bad one first.
func (s *set) endWords(b int, m *gearbox.Margin) (words string, doubt bool) {
	r := s.results[b]
	low, high := r.Allowable(material.Low), r.Allowable(material.High)
	doubt = m.Comes == 0 && doubtful(m, low, r.Torque)
	if low == high {
		return "", doubt
	}
	words = s.text(low, quantity.Torque, 3) + " with the poorest steel that the file allows"
	if low < math.Abs(r.Torque) {
		words += ", below what was asked"
	}
	return words + "; " + s.text(high, quantity.Torque, 3) + " with the best steel.", doubt
}

// limitText names a limit beside its speed, in the words of the text report: with the mesh of a gear that runs in several, and the step of the duty that uses most of it where that is
// one of another speed.
func limitText(l gearbox.FirstLimit, speed string) string {
	if l.Step == speed {
		l.Step = ""
	}
	return view.Clean(l.Phrase())
}

// bandRange is the allowable torque from the low to the high end of one limit's range.
func (s *set) bandRange(m *gearbox.Margin) string {
	return s.span(m.Allowable[material.Low], m.Allowable[material.High], quantity.Torque, 3)
}

func (s *set) verdicts() (rows []verdictRow, arrives bool) {
	for _, r := range s.rows {
		for b, sp := range r.boxes {
			v := verdictRow{Speed: r.name, Box: look(b), Name: s.names[b]}
			if b == 0 {
				v.Span = len(r.boxes)
			}
			m := governing(sp)
			switch {
			case sp == nil:
				v.Absent = "has no such speed, or it was not asked for"
			case m == nil:
				v.Absent = "no limit could be judged"
			default:
				v.Ratio = figure(math.Abs(sp.Ratio), 4)
				left := deciding(sp)
				v.First = limitText(left.First(), sp.Name)
				v.All = limitText(m.First(), sp.Name)
				v.State, v.Word = stateWords(left)
				v.Margin = percent(left.Left())
				v.Allowable = s.number(m.Allowable[m.Level], quantity.Torque, 3)
				v.Range = s.span(sp.Allowable(material.Low), sp.Allowable(material.High), quantity.Torque, 3)
				v.Comes = view.Absent
				if sp.Reach != nil {
					v.Comes, v.By, arrives = s.number(left.Comes, quantity.Torque, 3), string(sp.Reach.Bounding(left.Kind)), true
					if left.Kind.Static() {
						v.By = "peak, " + v.By
					}
				} else {
					v.Doubt = doubtful(m, sp.Allowable(material.Low), s.results[b].Torque)
				}
			}
			rows = append(rows, v)
		}
	}
	return rows, arrives
}
