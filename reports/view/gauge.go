package view

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"layshaft/gearbox/quantity"
	"layshaft/gearstress/gauge"
)

// ErrNothingGauged is said when there is no gear to report.
var ErrNothingGauged = errors.New("there is no gear to report: give readings first")

// Bench is what lay on the bench, for a report.
type Bench struct {
	Name   string
	Result *gauge.Result
	Box    string // the box file that was written; "" = none
}

// degrees takes rad to °.
const degrees = 180 / math.Pi

// mostLabels is how many labels of a group are listed.
const mostLabels = 8

// GaugeMeaning is what the ± of gauged gears mean.
const GaugeMeaning = "The truth lies within in 95 of 100 cases, if the readings are as good as they say. Where a reading gave no ±, that of its instrument counts (common practice, no source)."

// ReportableBench refuses a bench of which no report can be made.
func ReportableBench(bench Bench) error {
	if bench.Result == nil || len(bench.Result.Groups) == 0 {
		return ErrNothingGauged
	}
	return nil
}

// GaugedGroup is what is said of gears that were cut by one tool.
type GaugedGroup struct {
	Headline string
	Flank    string // what no name changes; "" = the readings don't fix it
	Flanks   *Table // one row per gear; nil likewise
	Open     []string
	Tools    *Table   // one row per label, best first; nil when none fits
	Twins    []string // which others can't be told from the first, and what would
	Names    string   // that the best label is one name of many; "" = nothing is to be said of it
	Readings *Table   // every reading beside what the best label makes
}

// GaugedGroups is what readings say of gears: the flank that they fix, the labels that fit it, and what every reading is worth.
func GaugedGroups(r *gauge.Result, o Options) []GaugedGroup {
	return Each(r.Groups, func(g gauge.Group) GaugedGroup {
		said := GaugedGroup{Headline: GaugeHeadline(r, g, o), Open: Each(g.Missing, func(n gauge.Note) string { return "Still open: " + NoteText(n, o) })}
		if g.Fixed {
			said.Flank, said.Flanks = flankWords(g, o), flankTable(r, g, o)
		}
		if len(g.Labels) == 0 {
			return said
		}
		said.Tools, said.Readings = toolTable(g, o), residualTable(r, g, o)
		if g.Fixed { // otherwise what is open says what to read
			said.Twins, said.Names = twinWords(r, g, o), otherNames(g)
		}
		return said
	})
}

// GaugeNotes are the remarks on all readings.
func GaugeNotes(r *gauge.Result, o Options) []string {
	return Each(r.Notes, func(n gauge.Note) string { return noteWords(n, o) })
}

// gaugedNames are the names of the gears of a group.
func gaugedNames(r *gauge.Result, g gauge.Group) []string {
	return Each(g.Gears, func(i int) string { return Clean(r.Set.Gears[i].Name) })
}

// GaugeHeadline is the answer about a group in one or two sentences.
func GaugeHeadline(r *gauge.Result, g gauge.Group, o Options) string {
	names := List(gaugedNames(r, g))
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
		text += ", profile shift (x) " + List(shifts)
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
	text := "module " + strconv.FormatFloat(t.Module, 'f', -1, 64) + NoBreak + "mm"
	if o.Units == quantity.US {
		text += fmt.Sprintf(" (%.4g DP)", 1/quantity.Convert(t.Module, quantity.Length, quantity.US))
	}
	return text
}

// angleText is an angle with as many digits as it needs: 20°, 17.5°.
func angleText(rad float64) string {
	return strconv.FormatFloat(math.Round(rad*degrees*1e4)/1e4, 'f', -1, 64) + "°"
}

// plusMinus is a value with its ±, to two digits of the ±.
func plusMinus(v gauge.Value, d quantity.Dimension, o Options) string {
	inUnit := func(x float64) float64 { return quantity.Convert(x, d, o.Units) }
	unit := quantity.Unit(d, o.Units)
	if unit != "" && unit != "°" {
		unit = NoBreak + unit
	}
	value, room := inUnit(v.Value), inUnit(v.Tolerance)
	if !(room > 0) {
		return Fixed(value, DecimalsFor(value, 5)) + unit
	}
	n := min(max(0, 1-int(math.Floor(math.Log10(room)))), 6)
	return Fixed(value, n) + NoBreak + "±" + NoBreak + Fixed(room, n) + unit
}

// flankWords are what no name changes.
func flankWords(g gauge.Group, o Options) string {
	text := "The flank, whatever it is called: base pitch (p_bn) " + plusMinus(g.BasePitch, quantity.Length, o)
	if !g.Spur {
		text += ", base helix (β_b) " + plusMinus(g.BaseHelix, quantity.Angle, o)
	}
	return text + "."
}

// flankTable has one row per gear.
func flankTable(r *gauge.Result, g gauge.Group, o Options) *Table {
	unit := quantity.Unit(quantity.Length, o.Units)
	shown := func(v gauge.Value) string {
		if v.Value == 0 {
			return Absent
		}
		return bare(v, o)
	}
	t := o.table("", words("gear", 10), right("teeth", ""), right("base circle", unit), right("base thickness", unit), right("tip", unit), right("root", unit))
	for i, f := range g.Flanks {
		gear := r.Set.Gears[g.Gears[i]]
		t.add(wordsOf(gear.Name, strconv.Itoa(gear.Teeth), shown(f.Base), shown(f.Thickness), shown(f.Tip), shown(f.Root))...)
	}
	return t.done()
}

// bare is a length with its ±, without the unit.
func bare(v gauge.Value, o Options) string {
	return strings.TrimSuffix(plusMinus(v, quantity.Length, o), NoBreak+quantity.Unit(quantity.Length, o.Units))
}

// toolTable has one row per label, best first.
func toolTable(g gauge.Group, o Options) *Table {
	tips := false
	for _, l := range g.Labels {
		for _, k := range l.Gears {
			tips = tips || k.Addendum.Value != 0
		}
	}
	t := o.table("Tools of the standard series that fit, best first", Column{Head: "tool"}, right("pressure\nangle", ""), right("helix", ""), Column{Head: "profile shift\n(x) of each\ngear", Right: true, Least: 14})
	if tips {
		t.columns(Column{Head: "addendum\nby the tip,\nmodules", Right: true, Least: 12})
	}
	t.columns(right("worst reading\nin its ±", ""))
	for i, l := range g.Labels {
		if i == mostLabels {
			t.say(fmt.Sprintf("and %d more that fit less well.", len(g.Labels)-mostLabels))
			break
		}
		row := []string{toolSize(l.Tool, Options{}), angleText(l.PressureAngle), "spur", listed(l, func(k gauge.Labelled) gauge.Value { return k.Shift })}
		if l.Helix.Value > 0 {
			row[2] = toHelix(l, o)
		}
		if tips {
			row = append(row, listed(l, func(k gauge.Labelled) gauge.Value { return k.Addendum }))
		}
		worst := 0.0
		for _, res := range l.Residual {
			if math.Abs(res.Share()) > math.Abs(worst) {
				worst = res.Share()
			}
		}
		t.add(wordsOf(append(row, Fixed(worst, 1))...)...)
	}
	return t.done()
}

func toHelix(l gauge.Label, o Options) string {
	if l.Snapped {
		return angleText(l.Helix.Value)
	}
	return plusMinus(l.Helix, quantity.Angle, o)
}

// listed are the values of the gears of a label; with many gears the range.
func listed(l gauge.Label, of func(gauge.Labelled) gauge.Value) string {
	var all []string
	for _, k := range l.Gears {
		if v := of(k); !k.Bare && v.Value != 0 {
			all = append(all, Fixed(v.Value, 3))
		}
	}
	if len(all) == 0 {
		return Absent
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
			text += fmt.Sprintf(" (base pitch %s off)", With(math.Abs(t.Pitch), quantity.Deflection, o.Units))
		}
		d := quantity.Length
		if t.Next.Kind.Angle() {
			d = quantity.Angle
		}
		read := func(v float64) string { return WithDigits(v, d, o.Units, 6) }
		what := fmt.Sprintf("%s of %s (%s against %s)", t.Next.Name(), Clean(r.Set.Gears[t.Gear].Name), read(t.Next.Value), read(t.Other))
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
		if n.PressureAngle*degrees < 14 || n.PressureAngle*degrees > 23 {
			continue
		}
		text := fmt.Sprintf("module %.5g at %s", n.Module, angleText(n.PressureAngle))
		if n.Helix > 0 {
			text += fmt.Sprintf(" and %.4g°", n.Helix*degrees)
		}
		names = append(names, text)
	}
	return "The same gear, to the last digit, may also be called " + strings.Join(names, "; ") + ". No reading of flanks tells such names apart, and none needs to: strength and mesh follow from the flank."
}

// residualTable has every reading beside what the best label makes.
func residualTable(r *gauge.Result, g gauge.Group, o Options) *Table {
	t := o.table("Every reading against "+toolWords(g.Labels[0], o), words("of", 10), words("reading", 14), right("read", ""), right("±", ""), right("made", ""), right("off", ""), Column{Head: "unit"})
	for _, res := range g.Labels[0].Residual {
		d, digits := quantity.Length, 3
		if o.Units == quantity.US {
			digits = 4
		}
		if res.Reading.Kind.Angle() {
			d, digits = quantity.Angle, 2
		}
		in := func(v float64) string { return Fixed(quantity.Convert(v, d, o.Units), digits) }
		t.add(wordsOf(ReadingOf(r, res), res.Reading.Name(), in(res.Reading.Value), in(res.Reading.Width()), in(res.Made), Signed(in(res.Off())), quantity.Unit(d, o.Units))...)
	}
	return t.done()
}

// ReadingOf is what a reading is of.
func ReadingOf(r *gauge.Result, res gauge.Residual) string {
	switch {
	case res.Gear >= 0:
		return r.Set.Gears[res.Gear].Name
	case res.Pair >= 0:
		return r.Set.Pairs[res.Pair].Name
	default:
		return r.Set.Centres[res.Centre].Name
	}
}

// ClosingTable has one row per pair on a measured centre distance; nil when there is none.
func ClosingTable(r *gauge.Result, o Options) *Table {
	unit := quantity.Unit(quantity.Length, o.Units)
	t := o.table("Do all pairs close on their centre distance?", wrapped("pair", 10), wrapped("shafts", 12), right("measured", unit), right("by its teeth", unit), right("backlash by\nits teeth", unit),
		Column{Head: "backlash\nread", Unit: unit, Right: true, Wrap: true, Least: 12})
	for _, c := range r.Closes {
		pair := r.Set.Pairs[c.Pair]
		at := r.Set.Centres[pair.Centre]
		read := "not read, 0.02 to 0.22 mm assumed"
		if !c.Assumed {
			read = bare(gauge.Value{Value: pair.Backlash.Value, Tolerance: pair.Backlash.Width()}, o)
		}
		t.add(wordsOf(pair.Name, at.Name, bare(gauge.Value{Value: at.Reading.Value, Tolerance: at.Reading.Width()}, o), bare(c.Own, o), bare(c.Backlash, o), read)...)
	}
	return t.done()
}

// tenth is the length below which one is shown in µm or thou, mm.
const tenth = 0.1

// noteWords is a note with what it is about, in the units of the report.
func noteWords(n gauge.Note, o Options) string {
	if n.About == "" {
		return NoteText(n, o)
	}
	return Clean(n.About) + ": " + NoteText(n, o)
}

func NoteText(n gauge.Note, o Options) string {
	var args []any
	for _, a := range n.Args {
		switch v := a.(type) {
		case gauge.Length:
			d := quantity.Length
			if math.Abs(float64(v)) < tenth {
				d = quantity.Deflection
			}
			a = WithDigits(float64(v), d, o.Units, 4)
		case gauge.Angle:
			a = Fixed(float64(v)*degrees, 1) + "°"
		}
		args = append(args, a)
	}
	return fmt.Sprintf(n.Format, args...)
}
