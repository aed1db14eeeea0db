package view

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox/quantity"
	"layshaft/gearstress/gauge"
)

// Bench is what lay on the bench, for a report.
type Bench struct {
	Name   string
	Result *gauge.Result
	Box    string // the box file that was written; "" = none
}

// ReportableBench refuses a bench without gears.
func ReportableBench(b Bench) error {
	if b.Result == nil || len(b.Result.Groups) == 0 {
		return errors.New("there is no gear to report: give readings first")
	}
	return nil
}

// mostLabels is how many labels of a group are listed.
const mostLabels = 8

// GaugedGroup is what readings say of gears of one flank.
type GaugedGroup struct {
	Headline string
	Flank    []string // what no name changes
	Flanks   *Table
	Open     []string // what is missing to fix it
	Labels   *Table
	Twins    []string // other labels that can't be excluded, and what would exclude them
	Others   string   // that the best label is one name of many
	Readings *Table
}

// GaugedGroups are those of a bench.
func GaugedGroups(r *gauge.Result, o Options) []GaugedGroup {
	return Each(r.Groups, func(g gauge.Group) GaugedGroup {
		s := GaugedGroup{Headline: GaugeHeadline(r, g, o), Open: Each(g.Missing, func(n gauge.Note) string { return "Still open: " + NoteText(n, o) })}
		if g.Fixed {
			s.Flank, s.Flanks = []string{flankWords(g, o)}, flankTable(r, g, o)
		}
		if len(g.Labels) == 0 {
			return s
		}
		s.Labels, s.Readings = labelTable(g, o), residualTable(r, g, o)
		if g.Fixed { // otherwise what is open says what to read
			s.Twins, s.Others = twinWords(r, g, o), otherNames(g)
		}
		return s
	})
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
	return strconv.FormatFloat(math.Round(degrees(rad)*1e4)/1e4, 'f', -1, 64) + "°"
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

// flankWords are the base pitch and helix, whatever they are called.
func flankWords(g gauge.Group, o Options) string {
	text := "The flank, whatever it is called: base pitch (p_bn) " + plusMinus(g.BasePitch, quantity.Length, o)
	if !g.Spur {
		text += ", base helix (β_b) " + plusMinus(g.BaseHelix, quantity.Angle, o)
	}
	return text + "."
}

// bareLength is a length with its ±, without the unit.
func bareLength(v gauge.Value, o Options) string {
	return strings.TrimSuffix(plusMinus(v, quantity.Length, o), NoBreak+quantity.Unit(quantity.Length, o.Units))
}

// flankTable has one row per gear: what no name changes.
func flankTable(r *gauge.Result, g gauge.Group, o Options) *Table {
	unit := quantity.Unit(quantity.Length, o.Units)
	t := o.table("", words("gear", 10), right("teeth", ""), right("base circle", unit), right("base thickness", unit), right("tip", unit), right("root", unit))
	for i, f := range g.Flanks {
		gear := r.Set.Gears[g.Gears[i]]
		row := wordsOf(gear.Name, strconv.Itoa(gear.Teeth))
		for _, v := range []gauge.Value{f.Base, f.Thickness, f.Tip, f.Root} {
			if v.Value == 0 {
				row = append(row, absent())
			} else {
				row = append(row, word(bareLength(v, o)))
			}
		}
		t.add(row...)
	}
	return t.done()
}

// labelTable has one row per label, best first.
func labelTable(g gauge.Group, o Options) *Table {
	tips := slices.ContainsFunc(g.Labels, func(l gauge.Label) bool {
		return slices.ContainsFunc(l.Gears, func(k gauge.Labelled) bool { return k.Addendum.Value != 0 })
	})
	shift, addendum := right("profile shift\n(x) of each\ngear", ""), right("addendum\nby the tip,\nmodules", "")
	shift.Least, addendum.Least = 14, 12
	t := o.table("Tools of the standard series that fit, best first", words("tool", 0), right("pressure\nangle", ""), right("helix", ""), shift)
	if tips {
		t.columns(addendum)
	}
	t.columns(right("worst reading\nin its ±", ""))
	for _, l := range g.Labels[:min(mostLabels, len(g.Labels))] {
		helix := "spur"
		if l.Helix.Value > 0 {
			helix = helixText(l, o)
		}
		row := wordsOf(toolSize(l.Tool, Options{}), angleText(l.PressureAngle), helix, listed(l, func(k gauge.Labelled) gauge.Value { return k.Shift }))
		if tips {
			row = append(row, word(listed(l, func(k gauge.Labelled) gauge.Value { return k.Addendum })))
		}
		worst := 0.0
		for _, res := range l.Residual {
			if math.Abs(res.Share()) > math.Abs(worst) {
				worst = res.Share()
			}
		}
		t.add(append(row, word(Fixed(worst, 1)))...)
	}
	if n := len(g.Labels) - mostLabels; n > 0 {
		t.say(fmt.Sprintf("and %d more that fit less well.", n))
	}
	return t.done()
}

// helixText is the helix of a label, with its ± where it isn't a half degree.
func helixText(l gauge.Label, o Options) string {
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
		if degrees(n.PressureAngle) < 14 || degrees(n.PressureAngle) > 23 {
			continue
		}
		text := fmt.Sprintf("module %.5g at %s", n.Module, angleText(n.PressureAngle))
		if n.Helix > 0 {
			text += fmt.Sprintf(" and %.4g°", degrees(n.Helix))
		}
		names = append(names, text)
	}
	return "The same gear, to the last digit, may also be called " + strings.Join(names, "; ") + ". No reading of flanks tells such names apart, and none needs to: strength and mesh follow from the flank."
}

func degrees(rad float64) float64 { return rad * 180 / math.Pi }

// residualTable has every reading beside what the best label makes.
func residualTable(r *gauge.Result, g gauge.Group, o Options) *Table {
	t := o.table("Every reading against "+toolWords(g.Labels[0], o), words("of", 10), words("reading", 14), right("read", ""), right("±", ""), right("made", ""), right("off", ""), words("unit", 0))
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

// ClosingTable has one row per pair on a measured centre distance.
func ClosingTable(r *gauge.Result, o Options) *Table {
	unit := quantity.Unit(quantity.Length, o.Units)
	read := right("backlash\nread", unit)
	read.Wrap, read.Least = true, 12
	t := o.table("Do all pairs close on their centre distance?", wrapped("pair", 10), wrapped("shafts", 12), right("measured", unit), right("by its teeth", unit), right("backlash by\nits teeth", unit), read)
	for _, c := range r.Closes {
		pair := r.Set.Pairs[c.Pair]
		at := r.Set.Centres[pair.Centre]
		play := "not read, 0.02 to 0.22 mm assumed"
		if !c.Assumed {
			play = bareLength(gauge.Value{Value: pair.Backlash.Value, Tolerance: pair.Backlash.Width()}, o)
		}
		t.add(wordsOf(pair.Name, at.Name, bareLength(gauge.Value{Value: at.Reading.Value, Tolerance: at.Reading.Width()}, o), bareLength(c.Own, o), bareLength(c.Backlash, o), play)...)
	}
	return t.done()
}

// tenth is the length below which one is shown in µm or thou, mm.
const tenth = 0.1

// NoteWords is a note with what it is about, in the units of the report.
func NoteWords(n gauge.Note, o Options) string {
	if n.About == "" {
		return NoteText(n, o)
	}
	return Clean(n.About) + ": " + NoteText(n, o)
}

// NoteText is a note in the units of the report.
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
			a = Fixed(degrees(float64(v)), 1) + "°"
		}
		args = append(args, a)
	}
	return fmt.Sprintf(n.Format, args...)
}
