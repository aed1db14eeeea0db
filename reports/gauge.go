package reports

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"layshaft/gearbox/quantity"
	"layshaft/gearstress/gauge"
	"layshaft/reports/view"
)

// errNothingGauged is said when there is no gear to report.
var errNothingGauged = errors.New("there is no gear to report: give readings first")

// Bench is what lay on the bench, for a report.
type Bench struct {
	Name   string
	Result *gauge.Result
	Box    string // the box file that was written; "" = none
}

// mostLabels is how many labels of a group are listed.
const mostLabels = 8

// Gauge writes what readings say of gears: the flank that they fix, the labels that fit it, and what every reading is worth.
func Gauge(w io.Writer, bench Bench, o Options) error {
	if bench.Result == nil || len(bench.Result.Groups) == 0 {
		return errNothingGauged
	}
	var b bytes.Buffer
	title(&b, o.width(), view.Clean(bench.Name)+", from the bench", "")
	for i, g := range bench.Result.Groups {
		if i > 0 {
			b.WriteByte('\n')
		}
		gaugedGroup(&b, bench.Result, g, o)
	}
	closingTable(&b, bench.Result, o)
	if len(bench.Result.Notes) > 0 {
		b.WriteString("\nNotes\n")
		for _, n := range bench.Result.Notes {
			paragraph(&b, o.width(), "  - ", noteWords(n, o))
		}
	}
	b.WriteString("\nWhat a ± means\n")
	paragraph(&b, o.width(), indent,
		"The truth lies within in 95 of 100 cases, if the readings are as good as they say. Where a reading gave no ±, that of its instrument counts (common practice, no source).")
	foot(&b, o)
	return write(w, &b)
}

// gaugedNames are the names of the gears of a group.
func gaugedNames(r *gauge.Result, g gauge.Group) []string {
	return each(g.Gears, func(i int) string { return view.Clean(r.Set.Gears[i].Name) })
}

func gaugedGroup(b *bytes.Buffer, r *gauge.Result, g gauge.Group, o Options) {
	paragraph(b, o.width(), "", gaugeHeadline(r, g, o))
	if g.Fixed {
		flankTable(b, r, g, o)
	}
	for _, n := range g.Missing {
		paragraph(b, o.width(), indent, "Still open: "+noteText(n, o))
	}
	if len(g.Labels) == 0 {
		return
	}
	labelTable(b, r, g, o)
	if g.Fixed { // otherwise what is open says what to read
		if twins := twinWords(r, g, o); len(twins) > 0 {
			paragraph(b, o.width(), indent, "These readings can't tell the first from the following. What would:")
			for _, s := range twins {
				paragraph(b, o.width(), "  - ", s)
			}
		}
		paragraph(b, o.width(), indent, otherNames(g))
	}
	residualTable(b, r, g, o)
}

// gaugeHeadline is the answer about a group in one or two sentences.
func gaugeHeadline(r *gauge.Result, g gauge.Group, o Options) string {
	names := view.List(gaugedNames(r, g))
	if len(g.Labels) == 0 {
		return names + ": no tool of the series fits."
	}
	best := g.Labels[0]
	text := fmt.Sprintf("%s: %s", names, toolWords(best, o))
	var shifts []string
	for _, l := range best.Gears {
		if !l.Bare {
			shifts = append(shifts, plusMinus(l.Shift, quantity.Number, o))
		}
	}
	if len(shifts) > 0 {
		text += ", profile shift (x) " + view.List(shifts)
	}
	switch others := len(g.Twins); {
	case !g.Fixed:
		text += ". The readings do not fix it: it is the likeliest of " + strconv.Itoa(len(g.Labels)) + " that would fit."
	case others == 0:
		text += ". No other tool of the series fits."
	case others == 1:
		text += ". One other fits as well: see below."
	default:
		text += fmt.Sprintf(". %d others fit as well: see below.", others)
	}
	return text
}

// toolWords are the data of a label in words.
func toolWords(l gauge.Label, o Options) string {
	text := toolSize(l.Tool, o) + " at " + angleText(l.PressureAngle)
	switch {
	case l.Helix.Value == 0:
		text += ", spur"
	case l.Snapped:
		text += ", helix " + angleText(l.Helix.Value)
	default:
		text += ", helix " + plusMinus(l.Helix, quantity.Angle, o)
	}
	return text
}

// toolSize is a module, or a diametral pitch with the module that it is.
func toolSize(t gauge.Tool, o Options) string {
	if t.Pitch > 0 {
		return fmt.Sprintf("%g DP", t.Pitch)
	}
	text := "module " + strconv.FormatFloat(t.Module, 'f', -1, 64) + view.NoBreak + "mm"
	if o.Units == quantity.US {
		text += fmt.Sprintf(" (%.4g DP)", 1/quantity.Convert(t.Module, quantity.Length, quantity.US))
	}
	return text
}

// angleText is an angle with as many digits as it needs: 20°, 17.5°.
func angleText(rad float64) string {
	return strconv.FormatFloat(math.Round(rad*toDegrees*1e4)/1e4, 'f', -1, 64) + "°"
}

// plusMinus is a value with its ±, to two digits of the ±.
func plusMinus(v gauge.Value, d quantity.Dimension, o Options) string {
	inUnit := func(x float64) float64 { return quantity.Convert(x, d, o.Units) }
	unit := quantity.Unit(d, o.Units)
	if unit != "" && unit != "°" {
		unit = view.NoBreak + unit
	}
	value, room := inUnit(v.Value), inUnit(v.Tolerance)
	if !(room > 0) {
		return view.Fixed(value, view.DecimalsFor(value, 5)) + unit
	}
	n := min(max(0, 1-int(math.Floor(math.Log10(room)))), 6)
	return view.Fixed(value, n) + view.NoBreak + "±" + view.NoBreak + view.Fixed(room, n) + unit
}

// flankTable has one row per gear: what no name changes.
func flankTable(b *bytes.Buffer, r *gauge.Result, g gauge.Group, o Options) {
	text := "The flank, whatever it is called: base pitch (p_bn) " + plusMinus(g.BasePitch, quantity.Length, o)
	if !g.Spur {
		text += ", base helix (β_b) " + plusMinus(g.BaseHelix, quantity.Angle, o)
	}
	paragraph(b, o.width(), indent, text+".")
	shown := func(v gauge.Value) string {
		if v.Value == 0 {
			return view.Absent
		}
		return strings.TrimSuffix(plusMinus(v, quantity.Length, o), view.NoBreak+quantity.Unit(quantity.Length, o.Units))
	}
	var rows [][]cell
	for i, f := range g.Flanks {
		gear := r.Set.Gears[g.Gears[i]]
		rows = append(rows, texts(view.Clean(gear.Name), strconv.Itoa(gear.Teeth), shown(f.Base), shown(f.Thickness),
			shown(f.Tip), shown(f.Root)))
	}
	unit := quantity.Unit(quantity.Length, o.Units)
	table(b, o.width(), []head{{text: "gear", least: 10}, {text: "teeth", right: true}, {text: "base circle\n" + unit,
		right: true}, {text: "base thickness\n" + unit, right: true},
		{text: "tip\n" + unit, right: true}, {text: "root\n" + unit, right: true}}, noBreaks(rows))
	b.WriteByte('\n')
}

// noBreaks makes ordinary blanks of those at which no line ends.
func noBreaks(rows [][]cell) [][]cell {
	for _, row := range rows {
		for i := range row {
			row[i].text = view.SameBlank(row[i].text)
		}
	}
	return rows
}

// labelTable has one row per label, best first.
func labelTable(b *bytes.Buffer, r *gauge.Result, g gauge.Group, o Options) {
	paragraph(b, o.width(), indent, "Tools of the standard series that fit, best first:")
	var rows [][]cell
	tips := false
	for _, l := range g.Labels {
		for _, k := range l.Gears {
			tips = tips || k.Addendum.Value != 0
		}
	}
	for i, l := range g.Labels {
		if i == mostLabels {
			break
		}
		row := []string{toolSize(l.Tool, Options{}), angleText(l.PressureAngle), "spur", listed(l,
			func(k gauge.Labelled) gauge.Value { return k.Shift }, o)}
		if l.Helix.Value > 0 {
			row[2] = toHelix(l, o)
		}
		if tips {
			row = append(row, listed(l, func(k gauge.Labelled) gauge.Value { return k.Addendum }, o))
		}
		worst := 0.0
		for _, res := range l.Residual {
			if math.Abs(res.Share()) > math.Abs(worst) {
				worst = res.Share()
			}
		}
		rows = append(rows, texts(append(row, view.Fixed(worst, 1))...))
	}
	heads := []head{{text: "tool"}, {text: "pressure\nangle", right: true}, {text: "helix", right: true},
		{text: "profile shift\n(x) of each\ngear", right: true, least: 14}}
	if tips {
		heads = append(heads, head{text: "addendum\nby the tip,\nmodules", right: true, least: 12})
	}
	table(b, o.width(), append(heads, head{text: "worst reading\nin its ±", right: true}), noBreaks(rows))
	if n := len(g.Labels) - mostLabels; n > 0 {
		paragraph(b, o.width(), indent, fmt.Sprintf("and %d more that fit less well.", n))
	}
	b.WriteByte('\n')
}

func toHelix(l gauge.Label, o Options) string {
	if l.Snapped {
		return angleText(l.Helix.Value)
	}
	return plusMinus(l.Helix, quantity.Angle, o)
}

// listed are the values of the gears of a label; with many gears the range.
func listed(l gauge.Label, of func(gauge.Labelled) gauge.Value, o Options) string {
	var all []string
	for _, k := range l.Gears {
		if v := of(k); !k.Bare && v.Value != 0 {
			all = append(all, view.Fixed(v.Value, 3))
		}
	}
	if len(all) == 0 {
		return view.Absent
	}
	return strings.Join(all, ", ")
}

// twinWords say which other labels can't be excluded, and what would.
func twinWords(r *gauge.Result, g gauge.Group, o Options) (all []string) {
	best := g.Labels[0]
	for _, t := range g.Twins {
		l := g.Labels[t.Label]
		text := toolWords(l, o)
		if l.Tool != best.Tool {
			text += fmt.Sprintf(" (base pitch %s off)", view.With(math.Abs(t.Pitch), quantity.Deflection, o.Units))
		}
		d := quantity.Length
		if t.Next.Kind.Angle() {
			d = quantity.Angle
		}
		read := func(v float64) string { return view.WithDigits(v, d, o.Units, 6) }
		what := fmt.Sprintf("%s of %s (%s against %s)", t.Next.Name(), view.Clean(r.Set.Gears[t.Gear].Name),
			read(t.Next.Value), read(t.Other))
		if t.Next.By != "" {
			what += " by " + string(t.Next.By)
		}
		switch {
		case t.Next.Value == 0:
			text += ": no further reading."
		case t.Tells && t.Assume:
			text += ": " + what + ", if the tool makes full teeth."
		case t.Tells:
			text += ": " + what + "."
		default:
			text += ": no single further reading does so surely; nearest to it comes " + what + ". Its mate or the centre distance may."
		}
		all = append(all, text)
	}
	return all
}

// otherNames says that the best label is one name of many.
func otherNames(g gauge.Group) string {
	var names []string
	for _, n := range g.Others {
		if n.PressureAngle*toDegrees < 14 || n.PressureAngle*toDegrees > 23 {
			continue
		}
		text := fmt.Sprintf("module %.5g at %s", n.Module, angleText(n.PressureAngle))
		if n.Helix > 0 {
			text += fmt.Sprintf(" and %.4g°", n.Helix*toDegrees)
		}
		names = append(names, text)
	}
	return "The same gear, to the last digit, may also be called " + strings.Join(names,
		"; ") + ". No reading of flanks tells such names apart, and none needs to: strength and mesh follow from the flank."
}

// residualTable has every reading beside what the best label makes.
func residualTable(b *bytes.Buffer, r *gauge.Result, g gauge.Group, o Options) {
	paragraph(b, o.width(), indent, "Every reading against "+toolWords(g.Labels[0], o)+":")
	var rows [][]cell
	for _, res := range g.Labels[0].Residual {
		d, digits := quantity.Length, 3
		if o.Units == quantity.US {
			digits = 4
		}
		if res.Reading.Kind.Angle() {
			d, digits = quantity.Angle, 2
		}
		in := func(v float64) string { return view.Fixed(quantity.Convert(v, d, o.Units), digits) }
		unit := quantity.Unit(d, o.Units)
		rows = append(rows, texts(view.Clean(residualOf(r, res)), res.Reading.Name(), in(res.Reading.Value),
			in(res.Reading.Width()), in(res.Made), view.Signed(in(res.Off())), unit))
	}
	table(b, o.width(), []head{{text: "of", least: 10}, {text: "reading", least: 14}, {text: "read", right: true},
		{text: "±", right: true}, {text: "made", right: true}, {text: "off", right: true}, {text: "unit"}}, rows)
}

// closingTable has one row per pair on a measured centre distance.
func closingTable(b *bytes.Buffer, r *gauge.Result, o Options) {
	if len(r.Closes) == 0 {
		return
	}
	b.WriteString("\nDo all pairs close on their centre distance?\n")
	unit := quantity.Unit(quantity.Length, o.Units)
	bare := func(v gauge.Value) string {
		return strings.TrimSuffix(plusMinus(v, quantity.Length, o), view.NoBreak+unit)
	}
	var rows [][]cell
	for _, c := range r.Closes {
		pair := r.Set.Pairs[c.Pair]
		at := r.Set.Centres[pair.Centre]
		read := "not read, 0.02 to 0.22 mm assumed"
		if !c.Assumed {
			read = bare(gauge.Value{Value: pair.Backlash.Value, Tolerance: pair.Backlash.Width()})
		}
		rows = append(rows, texts(view.Clean(pair.Name), view.Clean(at.Name), bare(gauge.Value{Value: at.Reading.Value,
			Tolerance: at.Reading.Width()}), bare(c.Own), bare(c.Backlash), read))
	}
	table(b, o.width(), []head{{text: "pair", least: 10, wrap: true}, {text: "shafts", least: 12, wrap: true},
		{text: "measured\n" + unit, right: true}, {text: "by its teeth\n" + unit, right: true},
		{text: "backlash by\nits teeth, " + unit, right: true}, {text: "backlash\nread, " + unit, right: true,
			wrap: true, least: 12}}, noBreaks(rows))
}

// tenth is the length below which one is shown in µm or thou, mm.
const tenth = 0.1

// noteWords is a note with what it is about, in the units of the report.
func noteWords(n gauge.Note, o Options) string {
	if n.About == "" {
		return noteText(n, o)
	}
	return view.Clean(n.About) + ": " + noteText(n, o)
}

func noteText(n gauge.Note, o Options) string {
	var args []any
	for _, a := range n.Args {
		switch v := a.(type) {
		case gauge.Length:
			d := quantity.Length
			if math.Abs(float64(v)) < tenth {
				d = quantity.Deflection
			}
			a = view.WithDigits(float64(v), d, o.Units, 4)
		case gauge.Angle:
			a = view.Fixed(float64(v)*toDegrees, 1) + "°"
		}
		args = append(args, a)
	}
	return fmt.Sprintf(n.Format, args...)
}
