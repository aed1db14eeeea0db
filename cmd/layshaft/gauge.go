package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/gauge"
	"layshaft/reports/data"
	"layshaft/reports/text"
	"layshaft/reports/view"
)

func gaugeCommand() command {
	return command{
		name: "gauge", args: "[SHEET] [flags]", files: true,
		short: "find module, pressure angle, helix and profile shift of gears from readings",
		long: `Finds what gears are from what was read of them on the bench. SHEET is a bench sheet, a file with the readings of one gear or of a whole box ("layshaft
new --bench" writes one that explains each reading); or a single gear is given by flags. Every reading may say how good it is: "43.35 ± 0.02 mm" or "43.35 mm by caliper".

The answer is the flank with its ±, which is what readings fix; the tools of the standard series that fit it, best first, with what every reading is off; the
further reading that would tell those that fit apart; and whether all pairs close on their centre distance. With --write a sheet that describes the rest of its box becomes a box file.`,
		example: `  layshaft gauge --teeth 17 --tip "51.83 mm by caliper" --span "3: 19.52 mm" --span "4: 26.90 mm" \
    --balls "4.5 mm: 52.98 mm by micrometer" --tip-helix "24.8° ± 1°"
  layshaft gauge testdata/birch-bench.yaml --write my-birch.yaml`,
		flags: func(set *pflag.FlagSet) action {
			var g gearFlags
			var o output
			g.declare(set)
			box := set.String("write", "", "make a box file of the sheet and write it to `FILE`, which must not exist")
			o.declare(set, false)
			return func(args []string, e env) (int, error) {
				bench, err := g.bench(args, *box, e, &o)
				if err != nil {
					return exitUsage, err
				}
				opt := o.options(e)
				err = o.write(e, writers{
					text: func(w io.Writer) error { return text.Gauge(w, bench, opt) },
					json: func(w io.Writer) error { return data.GaugeJSON(w, bench, opt.Options) },
					csv:  func(w io.Writer) error { return data.GaugeCSV(w, bench, opt.Options) },
				})
				if err != nil {
					return exitUnsaid, err
				}
				return exitHolds, nil
			}
		},
	}
}

// gearFlags are the readings of a single gear.
type gearFlags struct {
	gear  gauge.Gear
	teeth teethFlag
	face  lengthFlag
	read  choice
}

func (g *gearFlags) declare(set *pflag.FlagSet) {
	one := func(name string, k gauge.Kind, usage string) {
		set.Var(&readingFlag{&g.gear, func(s string) (gauge.Reading, error) { return boxfile.ParseReading(k, s) }, false, ""}, name, usage)
	}
	set.Var(&g.teeth, "teeth", "`NUMBER` of teeth of a single gear")
	set.BoolVar(&g.gear.Spur, "spur", false, "its teeth are straight; otherwise the helix is looked for")
	set.Var(&g.face, "face", "its face `WIDTH`, to tell which spans are possible")
	one("tip", gauge.Tip, "`READING` of the diameter over the tips, such as \"51.83 mm by caliper\"")
	g.read = choice{"two tips", []string{"two tips", "flat jaws", "round"}}
	set.Var(&g.read, "tip-read", "how the tip of an odd count was read: `two tips`, flat jaws or round")
	one("root", gauge.Root, "`READING` of the diameter in the roots")
	one("tip-to-root", gauge.TipToRoot, "`READING` from a tip to the root opposite, for odd counts")
	one("depth", gauge.Depth, "`READING` of the depth of the teeth")
	many := func(name string, parse func(string) (gauge.Reading, error), usage string) {
		set.Var(&readingFlag{&g.gear, parse, true, ""}, name, usage)
	}
	many("span", boxfile.ParseSpan, "base tangent length, teeth and `READING`: \"3: 19.52 mm by micrometer\"; may be repeated")
	many("balls", sized(gauge.OverBalls), "size over two balls, ball and `READING`: \"4.5 mm: 52.98 mm\"; may be repeated")
	many("chord", sized(gauge.Chord), "thickness by tooth caliper, height below the tip and `READING`: \"2.5 mm: 4.20 mm\"; may be repeated")
	one("tip-helix", gauge.TipHelix, "`READING` of the helix at the tips, by ink roll")
	one("lead", gauge.Lead, "`READING` of the lead, the advance of a tooth in one turn")
}

func sized(k gauge.Kind) func(string) (gauge.Reading, error) {
	return func(s string) (gauge.Reading, error) { return boxfile.ParseSized(k, s) }
}

// bench is what the sheet or the flags say, gauged.
func (g *gearFlags) bench(args []string, box string, e env, o *output) (view.Bench, error) {
	switch given := g.teeth > 0 || len(g.gear.Readings) > 0; {
	case len(args) > 1:
		return view.Bench{}, usageError{message: "name one bench sheet"}
	case len(args) == 1 && given:
		return view.Bench{}, usageError{message: "give a bench sheet or the readings of a single gear, not both"}
	case len(args) == 1:
		return sheetBench(args[0], box, e, o)
	case box != "":
		return view.Bench{}, usageError{message: "--write needs a bench sheet: a single gear makes no box", hint: `"layshaft new --bench my-sheet.yaml" writes one to start from.`}
	case !given:
		return view.Bench{}, usageError{message: "what was read? Name a bench sheet, or give --teeth and the readings of a gear", hint: `"layshaft new --bench my-sheet.yaml" writes a sheet that explains each reading.`}
	case g.teeth == 0:
		return view.Bench{}, usageError{message: "how many teeth? Give --teeth"}
	}
	g.gear.Name, g.gear.Teeth, g.gear.Face = "gear", int(g.teeth), float64(g.face)
	g.gear.Across = map[string]gauge.Across{"two tips": gauge.TwoTips, "flat jaws": gauge.FlatJaws, "round": gauge.Round}[g.read.value]
	result, err := gauge.Solve(gauge.Set{Gears: []gauge.Gear{g.gear}})
	return view.Bench{Name: "One gear", Result: result}, err
}

// sheetBench reads a sheet, gauges it and, if asked, writes the box file that is made of it.
func sheetBench(name, box string, e env, o *output) (bench view.Bench, err error) {
	source, found := contents(name, e)
	if found != nil {
		return bench, show(found, name, source, e, o)
	}
	sheet, found := boxfile.ReadSheet(sourceName(name), source)
	if sheet == nil {
		return bench, show(found, name, source, e, o)
	}
	result, err := gauge.Solve(sheet.Set)
	if err != nil {
		return bench, err
	}
	if sheet.MakesBox() || box != "" {
		text, list := sheet.Box(result)
		found = append(found, list...)
		if list.HasErrors() {
			return bench, show(found, name, source, e, o)
		}
		if box != "" {
			if _, err := os.Lstat(box); err == nil {
				return bench, fmt.Errorf("%s is there already; name another file, or move that one away", box)
			}
			if err := writeFile(box, text); err != nil {
				return bench, err
			}
			fmt.Fprintf(e.stderr, "Wrote %s\n", box)
		}
	}
	if len(found) > 0 {
		if err := show(found, name, source, e, o); err != nil && !errors.Is(err, errShown) {
			return bench, err
		}
	}
	return view.Bench{Name: sheet.Name, Result: result, Box: box}, nil
}

// show shows findings about a file; the error says that it did.
func show(found diag.List, name string, source []byte, e env, o *output) error {
	found.Sort()
	if err := found.Render(e.stderr, map[string][]byte{sourceName(name): source}, diag.Style{Colour: o.coloured(e), Width: 100}); err != nil {
		return err
	}
	return errShown
}

// readingFlag adds a reading to a gear.
type readingFlag struct {
	gear  *gauge.Gear
	parse func(string) (gauge.Reading, error)
	many  bool
	text  string
}

func (r *readingFlag) String() string { return r.text }
func (r *readingFlag) Type() string   { return "reading" }
func (r *readingFlag) Set(s string) error {
	if r.text != "" && !r.many {
		return errors.New("it is given twice: give one reading, the mean of several")
	}
	reading, err := r.parse(s)
	if err != nil {
		return err
	}
	r.text = s
	r.gear.Readings = append(r.gear.Readings, reading)
	return nil
}

// teethFlag is a number of teeth.
type teethFlag int

func (t *teethFlag) String() string {
	if *t == 0 {
		return ""
	}
	return strconv.Itoa(int(*t))
}
func (t *teethFlag) Type() string { return "number" }
func (t *teethFlag) Set(s string) error {
	n, err := strconv.Atoi(strings.TrimSpace(s))
	if err != nil || n < 5 || n > 500 {
		return errors.New("a whole number from 5 to 500 is expected")
	}
	*t = teethFlag(n)
	return nil
}

// lengthFlag is a length, mm.
type lengthFlag float64

func (l *lengthFlag) String() string {
	if *l == 0 {
		return ""
	}
	return fmt.Sprintf("%g mm", float64(*l))
}
func (l *lengthFlag) Type() string { return "length" }
func (l *lengthFlag) Set(s string) error {
	q, err := quantity.Parse(s, quantity.Length)
	if err != nil {
		return err
	}
	if !(q.Value > 0) {
		return errors.New("it must be greater than 0")
	}
	*l = lengthFlag(q.Value)
	return nil
}
