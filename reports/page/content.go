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
	view.Options
	results []*gearbox.Result
	names   []string // of the boxes, safe to show, told apart by a number where two are alike
	rows    []row
	sources view.Sources
}

// row is one speed of every box; nil where a box has no such speed.
type row struct {
	name  string
	boxes []*gearbox.SpeedResult
}

func newSet(results []*gearbox.Result, o view.Options) *set {
	s := &set{units: newUnits(o.Units), Options: o, results: results, names: view.BoxNames(results)}
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
	Given         []given
	Keys          []key
	Cards         []card
	Answers       []sentences
	Warned        []boxTables // what only warns: guides, and wear where no duty is given
	Arrives       bool        // it is known what clutch or tyres let through
	LifeWords     string      // why a life and a margin may name different parts; "" where no life is shown
	Verdicts      []verdictRow
	Equal         []card
	SameAtEqual   bool
	Lessons       []lessons
	LessonNote    string
	Effects       []boxTables
	SumWords      string
	TorqueUnit    string
	SlopeUnit     string
	Many          bool
	Bars          []figureBox
	BarNote       string
	MarginFigure  figureBox
	Reaches       []reachFigure
	Lives         []boxTables
	Measured      []boxTables
	Drawings      []drawing
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
	Checks, Notes []*view.Note
	Sources       []string
	About         []about
	Caution       string
	Version       string
	Licences      []Licence
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
	// given is what the file says of one box, as headings and words.
	given struct {
		Box   int
		Name  string
		Facts [][2]string
	}
	// boxTables are some tables about one box.
	boxTables struct {
		Box    int
		Name   string
		Tables []template.HTML
	}
	// lessons are what service history says of the steels of one box.
	lessons struct {
		Box    int
		Name   string
		Words  []string
		Tables []template.HTML
	}
	// Licence is a licence or a notice of what a page carries.
	Licence struct{ Title, Text string }
)

func (s *set) content(c *study.Comparison) *content {
	p := &content{
		Title:      view.List(s.names),
		Kicker:     "Gearbox check",
		Headline:   view.Answers(s.results, s.Options),
		Warning:    view.Warning(),
		Many:       len(s.results) > 1,
		TorqueUnit: s.unit(quantity.Torque),
		SlopeUnit:  s.unit(quantity.Slope),
		Caution:    view.Caution(),
		Version:    s.Version,
	}
	if c != nil {
		p.Kicker, p.Headline = "Gearboxes side by side", view.CompareAnswers(c, s.Options)
	}
	for b, r := range s.results {
		p.Keys = append(p.Keys, key{look(b), s.names[b]})
		answer := s.card(b)
		p.Cards = append(p.Cards, answer)
		if answer.Life != "" {
			p.LifeWords = view.LifeOrMargin()
		}
		p.Asked = append(p.Asked, strings.TrimSpace(view.Asked(r, s.Options)+" "+view.SenseWords(r)))
		a := sentences{Box: look(b), Name: s.names[b]}
		for _, said := range view.Verdict(r, s.EffectsOf(b), s.Options) {
			if said.About != "answer" { // that is the headline
				a.Text = append(a.Text, said.Text)
			}
		}
		p.Answers = append(p.Answers, a)
		if p.SumWords == "" {
			p.SumWords = view.SumWords(r)
		}
		p.Given = append(p.Given, given{look(b), s.names[b], view.Given(r, s.Options)})
		if r.Box.About != "" {
			p.About = append(p.About, about{s.names[b], view.Line(r.Box.About)})
		}
		p.Effects = s.boxTables(p.Effects, b, view.EffectTable(s.EffectsOf(b), s.Options))
		p.Warned = s.boxTables(p.Warned, b, view.GuideTable(r, s.Options), view.EndlessTable(r, s.Options))
		p.Lives = s.boxTables(p.Lives, b, view.LifeTable(r, s.Options))
		p.Measured = s.boxTables(p.Measured, b, view.MeasuredTable(r, s.Options))
		p.Drawings = s.draw(p.Drawings, b)
		if h := view.HistoryOf(r.Box, s.Options); h != nil {
			p.Lessons, p.LessonNote = append(p.Lessons, lessons{look(b), s.names[b], h.Words, s.tables(h.Tables...)}), study.EvidenceCaveat()
		}
	}
	if first := p.Asked[0]; !slices.ContainsFunc(p.Asked, func(a string) bool { return a != first }) {
		p.Asked = p.Asked[:1]
	} else {
		for b := range p.Asked {
			p.Asked[b] = s.names[b] + ": " + p.Asked[b]
		}
	}
	p.Verdicts, p.Arrives = s.verdicts()
	p.Equal, p.SameAtEqual = s.equal(c)

	bars, barFigures, barNote := s.barCharts()
	p.Bars, p.BarNote = barFigures, barNote
	lines, lineFigure := s.torqueChart()
	p.MarginFigure = lineFigure
	p.Reaches = s.reachFigures()
	shafts, shaftFigures := s.shaftCharts()
	p.Shafts, p.AlignNote = shaftFigures, s.alignNote()
	faces, faceFigures := s.faceCharts()
	p.Faces = faceFigures
	p.Causes, p.Teeth = s.causeFigures(), s.toothFigures()
	p.Lighter = s.lighter(c)
	p.SplitNotes, p.Splits = s.falls(c)
	growths, growthFigures := s.growthCharts()
	p.Growths = growthFigures
	p.Charts = slices.Concat(bars, lines, shafts, faces, growths)
	open := s.tightest()
	for k, r := range s.rows {
		p.Choices = append(p.Choices, choice{k, r.name, k == open})
	}

	p.Details = s.details(c)
	p.Checks, p.Notes = view.NotesOf(s.results).List()
	p.Sources = s.sources.List()
	return p
}

// boxTables adds the tables of a box, where it has any.
func (s *set) boxTables(all []boxTables, b int, tables ...*view.Table) []boxTables {
	if drawn := s.tables(tables...); len(drawn) > 0 {
		all = append(all, boxTables{look(b), s.names[b], drawn})
	}
	return all
}

// drawing is a box in characters, as its file has it.
type drawing struct {
	Box       int
	Name      string
	End, Side string // seen from the left end, and from the side
	Chosen    string // what was taken of what isn't known of it; "" = all is known
	Words     []string
	Tables    []template.HTML
}

// draw adds the drawing of a box, if it can be drawn.
func (s *set) draw(all []drawing, b int) []drawing {
	a, err := gearbox.Arrange(s.results[b].Box)
	if err != nil {
		return all
	}
	d, err := view.Draw(a, s.Options)
	if err != nil {
		return all
	}
	return append(all, drawing{look(b), s.names[b], strings.Join(d.End, "\n"), strings.Join(d.Side, "\n"), d.Chosen, append(slices.Clone(d.Axes), d.Signs), s.tables(d.Gears, d.Paths)})
}

// stateWords is the sign and the word of a state, which are always shown together.
func stateWords(m *gearbox.Margin) (class, words string) {
	return m.Judged().String(), m.Judged().Sign() + " " + m.Judged().String()
}

func (s *set) card(b int) card {
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
	c.First = fmt.Sprintf("Least left in %s: %s", s.rows[k].name, view.FirstName(m, m.Left(), s.rows[k].boxes[b].Name))
	c.Allowable = s.text(s.results[b].Allowable(m.Level), quantity.Torque, 3)
	c.Ends, c.Doubt = s.endWords(b, m)
	c.Life = view.ShortestLife(s.results[b])
	return c
}

// endWords says what a box allows when every range of limits and strengths sits at one end, the bad one first.
func (s *set) endWords(b int, m *gearbox.Margin) (words string, doubt bool) {
	r := s.results[b]
	low, high := r.Allowable(material.Low), r.Allowable(material.High)
	doubt = m.Comes == 0 && view.Doubtful(m.State, low, r.Torque)
	if low == high {
		return "", doubt
	}
	words = s.text(low, quantity.Torque, 3) + " with the poorest steel that the file allows"
	if low < math.Abs(r.Torque) {
		words += ", below what was asked"
	}
	return words + "; " + s.text(high, quantity.Torque, 3) + " with the best steel.", doubt
}

// equal is the answer of each box at the steel of the first one, and whether it is the same as with its own; empty when their steels are alike.
func (s *set) equal(c *study.Comparison) (all []card, same bool) {
	if c == nil || c.Equal == nil {
		return nil, false
	}
	at := newSet(c.Equal, s.Options)
	same = true
	for b := range c.Equal {
		all = append(all, at.card(b))
		same = same && all[b] == s.card(b)
	}
	return all, same
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
				v.Absent = "no limit could be checked"
			default:
				v.Ratio = figure(math.Abs(sp.Ratio), 4)
				left := deciding(sp)
				v.First = view.FirstName(left, left.Left(), sp.Name)
				v.All = view.FirstName(m, m.Margin, sp.Name)
				v.State, v.Word = stateWords(left)
				v.Margin = percent(left.Left())
				v.Allowable = s.number(m.Allowable[m.Level], quantity.Torque, 3)
				v.Range = s.span(sp.Allowable(material.Low), sp.Allowable(material.High), quantity.Torque, 3)
				v.Comes = view.Absent
				if sp.Reach != nil {
					v.Comes, v.By, arrives = s.number(left.Comes, quantity.Torque, 3), view.Bounded(sp, left), true
				} else {
					v.Doubt = view.Doubtful(m.State, sp.Allowable(material.Low), s.results[b].Torque)
				}
			}
			rows = append(rows, v)
		}
	}
	return rows, arrives
}
