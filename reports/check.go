package reports

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// Check writes the text report of one or more boxes, each on its own.
func Check(w io.Writer, results []*gearbox.Result, o Options) error {
	if err := checkResults(results); err != nil {
		return err
	}
	names := boxNames(results)
	return write(w, annotated(o, func(b *bytes.Buffer, notes *footnotes, sources limitSources) {
		verdictParagraphs(b, results, names, o)
		for i, r := range results {
			b.WriteByte('\n')
			checkBox(b, names[i], r, o.effects(i), len(results) > 1, o, notes, sources)
		}
	}))
}

// verdictParagraphs are the verdict of a single box, a sentence a line, or the first two sentences of each of several.
func verdictParagraphs(b *bytes.Buffer, results []*gearbox.Result, names []string, o Options) {
	if len(results) > 1 {
		for _, text := range headlines(results, o) {
			paragraph(b, o.width(), "", text)
		}
		return
	}
	for _, s := range verdictOf(shorten(names[0], 40), results[0], o.effects(0), o) {
		paragraph(b, o.width(), "", s.Text)
	}
}

// verdictRest is what stands in the verdict of each of several boxes behind its headline.
func verdictRest(b *bytes.Buffer, name string, r *gearbox.Result, effects []study.Effect, o Options) {
	for _, s := range verdictOf(shorten(name, 40), r, effects, o) {
		if !inHeadline(s) {
			paragraph(b, o.width(), indent, s.Text)
		}
	}
}

// checkBox tells everything about a box; verdict = also what the headline leaves out.
func checkBox(b *bytes.Buffer, name string, r *gearbox.Result, effects []study.Effect, verdict bool, o Options, notes *footnotes, sources limitSources) {
	title(b, o.width(), name, notes.mark(remarks("", r.Checks, r.Notes)))
	paragraph(b, o.width(), indent, r.Box.About)
	sense := "in drive"
	if r.Torque < 0 {
		sense = "in coast: the engine brakes"
	}
	paragraph(b, o.width(), indent, fmt.Sprintf("Input torque %s, %s. Wanted reserve %.3g %%. Judged by %s.",
		with(math.Abs(r.Torque), quantity.Torque, o.Units), sense, 100*r.Box.Limits.Reserve, levelName(r.Box.Limits.Strength)))
	paragraph(b, o.width(), indent, service(r.Box, o))
	paragraph(b, o.width(), indent, madeOf(r.Box))
	paragraph(b, o.width(), indent, SenseWords(r))
	if len(r.Speeds) == 0 {
		paragraph(b, o.width(), indent, "No speed was calculated.")
		return
	}
	if verdict {
		verdictRest(b, name, r, effects, o)
	}
	worst := worstOfKind(r)
	verdictTables(b, r, worst, o, notes, sources)
	effectTable(b, effects, o)
	kindTable(b, r, worst, o, notes, sources)
	guideTable(b, r, o, sources)
	endlessTable(b, r, o, sources)
	reachTable(b, r, o, notes)
	lifeTable(b, r, o)
	lessonTables(b, []*gearbox.Result{r}, []string{name}, o)
	shaftTable(b, r, o, notes)
	senseTable(b, r, o)
	meshTable(b, r, o, notes)
	teethTable(b, r, o)
	for _, sp := range explained(r) {
		causeTable(b, sp, o)
	}
	if len(r.Speeds) <= fewSpeeds {
		for i := range r.Speeds {
			bearingTable(b, &r.Speeds[i], o)
		}
		for i := range r.Speeds {
			growthTable(b, &r.Speeds[i], o)
			scuffTable(b, &r.Speeds[i], o, notes)
		}
	}
	opinionTable(b, []*gearbox.Result{r}, []string{name}, o, notes, sources)
	if len(r.Speeds) <= fewSpeeds {
		for i := range r.Speeds {
			factorTables(b, r.Box, &r.Speeds[i], o)
		}
	}
}

// madeOf names the file and the steel of a box.
func madeOf(b *gearbox.Box) string {
	text := ""
	if origin := originWords(b.Origin, false); origin != "" {
		text = "Read from " + origin + ". "
	}
	if steel := steelWords(b, true); steel != "" {
		text += "Steel: " + steel + "."
	}
	return text
}

// service is what is given of the work of a box, in words.
func service(b *gearbox.Box, o Options) string {
	var given []string
	if b.Revs > 0 {
		given = append(given, "The input shaft turns at "+with(b.Revs, quantity.RotationalSpeed, o.Units)+".")
	}
	if b.Shock > 1 {
		given = append(given, "The peak is "+plain(b.Shock)+" times the input torque.")
	}
	if b.Oil.Viscosity > 0 {
		given = append(given, "Oil of "+with(b.Oil.Viscosity, quantity.Viscosity, o.Units)+" at 40"+noBreak+"°C.")
	}
	if d := b.Duty; d != nil {
		pass := "a pass of one step"
		if n := len(d.Steps); n != 1 {
			pass = fmt.Sprintf("a pass of %d steps", n)
		}
		given = append(given, fmt.Sprintf("Fatigue is judged for the duty: %.6g times %s.", d.Passes, pass))
	} else {
		given = append(given, "No duty is given, so wear isn't judged.")
	}
	return strings.Join(given, " ")
}

// fewSpeeds is up to how many speeds a report tells everything of each; of more it would be too long to read.
const fewSpeeds = 2

// explained are the speeds whose meshes are looked into: all when they are few, else the one that is limited first.
func explained(r *gearbox.Result) []*gearbox.SpeedResult {
	var all []*gearbox.SpeedResult
	var tightest *gearbox.SpeedResult
	for i := range r.Speeds {
		s := &r.Speeds[i]
		all = append(all, s)
		if len(s.Margins) > 0 && (tightest == nil || sooner(s.Governing(), tightest.Governing())) {
			tightest = s
		}
	}
	switch {
	case len(all) <= fewSpeeds:
		return all
	case tightest == nil:
		return nil
	}
	return []*gearbox.SpeedResult{tightest}
}

// sooner tells whether limit a is reached before limit b. One whose margin is not a number comes last.
func sooner(a, b *gearbox.Margin) bool {
	if math.IsNaN(a.Margin) || math.IsNaN(b.Margin) {
		return !math.IsNaN(a.Margin) && math.IsNaN(b.Margin)
	}
	return a.Margin < b.Margin
}

// placed is a limit together with the speed it belongs to.
type placed struct {
	speed  string
	margin *gearbox.Margin
}

// worstOfKind is, for each kind of limit that there is, the one that is reached first.
func worstOfKind(r *gearbox.Result) []placed {
	var worst []placed
	for _, kind := range gearbox.Kinds() {
		var p placed
		for i := range r.Speeds {
			s := &r.Speeds[i]
			for k := range s.Margins {
				if m := &s.Margins[k]; m.Kind == kind && (p.margin == nil || sooner(m, p.margin)) {
					p = placed{harmless(s.Name), m}
				}
			}
		}
		if p.margin != nil {
			worst = append(worst, p)
		}
	}
	return worst
}

// hiddenNotes are the notes of a speed's limits that stand at no other row of the report.
func hiddenNotes(s *gearbox.SpeedResult, worst []placed) []string {
	shown := map[string]bool{}
	show := func(notes []string) {
		for _, n := range notes {
			shown[n] = true
		}
	}
	show(s.Notes)
	for i := range s.Meshes {
		show(s.Meshes[i].Notes)
	}
	for i := range s.Shafts {
		show(s.Shafts[i].Notes)
	}
	for i := range s.Margins {
		m := &s.Margins[i]
		if i == 0 {
			show(m.Notes)
		}
		for _, p := range worst {
			if p.margin == m {
				show(m.Notes)
			}
		}
	}
	var hidden []string
	for i := range s.Margins {
		for _, n := range s.Margins[i].Notes {
			if !shown[n] {
				hidden = append(hidden, n)
			}
		}
	}
	return hidden
}

// kindTable has one row per kind of limit: the one of all speeds that is reached first.
func kindTable(b *bytes.Buffer, r *gearbox.Result, worst []placed, o Options, notes *footnotes, sources limitSources) {
	if len(worst) == 0 {
		return
	}
	var rows [][]cell
	for _, p := range worst {
		m := p.margin
		sources.add(m)
		// Demand and limit share their decimals, so that they can be compared at a glance.
		pair := column([]float64{m.Demand, m.Limit.At(m.Level)}, m.Kind.Dimension(), o.Units)
		rows = append(rows, []cell{
			{text: limitIn(m, p.speed), mark: notes.mark(remarks("", nil, m.Notes))},
			{text: p.speed},
			{text: pair[0]}, {text: pair[1]},
			{text: quantity.Unit(m.Kind.Dimension(), o.Units)},
			stateCell(m.State, o.Colour),
			{text: percent(m.Margin)},
		})
	}
	whole := ""
	if transmits(r) {
		whole = ", if all of the torque arrived"
	}
	b.WriteString("\n  Each kind of limit where it is reached first" + whole + "\n")
	table(b, o.width(), []head{
		{text: "limit", least: 5 + o.widestMark(), wrap: true},
		{text: "speed", least: 5},
		{text: "actual", right: true},
		{text: "allowable", right: true},
		{text: "unit"},
		{text: "state"},
		{text: "left\n%", right: true},
	}, rows)
	paragraph(b, o.width(), indent, "What is left is in input torque: so much more brings the part to its limit. "+
		"Stresses and angles need not grow in step with torque.")
	if lives := lifeWords(r); lives != "" {
		paragraph(b, o.width(), indent, lives)
	}
}

// shaftTable has one row per speed and loaded shaft: how far it bends and how steep it is in its bearings.
func shaftTable(b *bytes.Buffer, r *gearbox.Result, o Options, notes *footnotes) {
	var deflections, places, slopes []float64
	var steepest []*gearbox.BearingResult
	for _, s := range r.Speeds {
		for i := range s.Shafts {
			sh := &s.Shafts[i]
			deflections = append(deflections, sh.MaxDeflection)
			places = append(places, sh.MaxAt)
			worst := &gearbox.BearingResult{Name: none, Slope: math.NaN()}
			for k := range sh.Bearings {
				if bearing := &sh.Bearings[k]; math.IsNaN(worst.Slope) || bearing.Slope > worst.Slope {
					worst = bearing
				}
			}
			steepest = append(steepest, worst)
			slopes = append(slopes, worst.Slope)
		}
	}
	if len(deflections) == 0 {
		return
	}
	deflection := column(deflections, quantity.Deflection, o.Units)
	place := column(places, quantity.Length, o.Units)
	slope := column(slopes, quantity.Slope, o.Units)
	var rows [][]cell
	for _, s := range r.Speeds {
		for i := range s.Shafts {
			n := len(rows)
			speed := ""
			if i == 0 {
				speed = harmless(s.Name)
			}
			rows = append(rows, []cell{
				{text: speed},
				{text: harmless(s.Shafts[i].Name), mark: notes.mark(remarks("", nil, s.Shafts[i].Notes))},
				{text: deflection[n]}, {text: place[n]}, {text: slope[n]},
				{text: harmless(steepest[n].Name)},
			})
		}
	}
	b.WriteString("\n  How far each loaded shaft moves: it bends, and its bearings give way\n")
	table(b, o.width(), []head{
		{text: "speed", least: 8},
		{text: "shaft", least: 8 + o.widestMark()},
		{text: "largest\ndeflection\n" + quantity.Unit(quantity.Deflection, o.Units), right: true},
		{text: "from\nleft end\n" + quantity.Unit(quantity.Length, o.Units), right: true},
		{text: "steepest\nslope\n" + quantity.Unit(quantity.Slope, o.Units), right: true},
		{text: "in bearing", least: 10},
	}, rows)
}
