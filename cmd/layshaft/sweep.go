package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/data"
	"layshaft/reports/page"
	"layshaft/reports/text"
)

func sweepCommand() command {
	return command{
		name: "sweep", args: "FILE --over KEY=FROM..TO [flags]", files: true,
		short: "vary one or two numbers of a box and see what limits it",
		long: `Solves the box again and again with one number of the box file, or two, varied over a range, and tells how much torque it then allows, in which speed and by which limit.
The number is named by its key path; lists are counted from 1. "layshaft new --keys" lists the keys. With --target it says where an allowable torque, or a margin, is
just met. A value that makes no box (a gear off its shaft) is a gap, with its reason.`,
		example: `  layshaft sweep testdata/alder.yaml --over "shafts.output.bearings.right.at=215 mm..245 mm" \
    --target "220 N·m" --html sweep.html`,
		flags: func(set *pflag.FlagSet) action {
			var q question
			var over []string
			var steps int
			var target string
			var o output
			set.StringArrayVar(&over, "over", nil, "vary a number of the box file, `KEY=FROM..TO`, such as \"gears.first pinion.face=20 mm..30 mm\"; twice for a map of two")
			set.IntVar(&steps, "steps", 0, "in so many `STEPS` (default: 20 for one number, 10 each for two)")
			set.StringVar(&target, "target", "", "say where this is met: an allowable `TORQUE`, such as \"250 N·m\", or a margin, such as \"15 %\"")
			q.declareAsked(set)
			o.declare(set, true)
			return func(args []string, e env) (int, error) {
				switch {
				case len(args) != 1:
					return exitUsage, usageError{message: "sweep takes one box file"}
				case set.Changed("steps") && (steps < 1 || steps > mostSteps):
					return exitUsage, usageError{message: fmt.Sprintf("--steps %d: it must be from 1 to %d", steps, mostSteps)}
				}
				var s *study.Sweep
				err := patiently(e, "boxes", func(ctx context.Context, progress func(done, all int)) (err error) {
					s, err = q.sweep(ctx, args[0], over, steps, target, e, o.coloured(e), progress)
					return err
				})
				if err != nil {
					return exitUsage, err
				}
				o.heed(s.Box)
				opt := o.options(e)
				err = o.write(e, writers{
					text: func(w io.Writer) error { return text.Sweep(w, s, opt) },
					json: func(w io.Writer) error { return data.SweepJSON(w, s, opt.Options) },
					csv:  func(w io.Writer) error { return data.SweepCSV(w, s, opt.Options) },
					page: func(w io.Writer) error { return page.Sweep(w, s, opt.Options) },
				})
				if err != nil {
					return exitUsage, err
				}
				return exitHolds, nil
			}
		},
	}
}

// overFlag is what findings call the ranges that were typed.
const overFlag = "--over"

// sweep reads the file and the ranges, and solves every point.
func (q *question) sweep(ctx context.Context, name string, over []string, steps int, target string, e env, colour bool, progress func(done, all int)) (*study.Sweep, error) {
	method := q.method()
	wanted, err := readTarget(target)
	if err != nil {
		return nil, err
	}
	switch {
	case len(over) == 0:
		return nil, usageError{message: "over what? Name a number of the box file and its range", hint: `Such as --over "gears.first pinion.face=20 mm..30 mm".`}
	case len(over) > 2:
		return nil, usageError{message: "one or two numbers can be varied at once; take one --over away"}
	case steps == 0:
		steps = 20 / len(over)
	}
	found := findings{sources: map[string][]byte{overFlag: []byte(strings.Join(over, "\n"))}}
	file, box := found.open(name, e)
	if file == nil {
		return nil, found.show(e, colour)
	}
	var axes []study.Axis
	var changes []boxfile.Change
	for i, text := range over {
		c, list := file.Change(overFlag, i+1, text)
		if list == nil {
			var a study.Axis
			if a, list = axis(file, c, steps); list == nil {
				axes, changes = append(axes, a), append(changes, c)
			}
		}
		found.list = append(found.list, list...)
	}
	if len(changes) == 2 && changes[0].Path == changes[1].Path {
		return nil, usageError{message: "both --over vary " + changes[0].Path + "; take two numbers"}
	}
	if err := found.show(e, colour); err != nil {
		return nil, err
	}
	boxes, err := q.learn([]*gearbox.Box{box}, method, &found.list)
	if err != nil {
		return nil, err
	}
	if err := found.show(e, colour); err != nil {
		return nil, err
	}
	box = boxes[0]
	if err := q.checkSpeeds(boxes); err != nil {
		return nil, err
	}
	for _, c := range changes {
		if c.Path == "input.torque" && q.torque.value != 0 {
			return nil, usageError{message: "the torque is varied by --over, and given by --torque; take one of them"}
		}
	}
	load := gearbox.Load{Torque: q.torque.value, Speeds: q.known(box), Method: method, Kinds: q.kinds()}
	return study.SweepOver(ctx, box, axes, load, wanted, func(values []float64) (*gearbox.Box, error) {
		now := make([]boxfile.Change, len(changes))
		for i, c := range changes {
			now[i] = c.WithValue(written(&axes[i], values[i]))
		}
		made, list := file.With(now...)
		if made == nil {
			return nil, list
		}
		return study.Learned(box, made), nil
	}, progress)
}

// mostSteps is up to how many steps a range may have: more are no longer read by anybody.
const mostSteps = 500

// axis reads a range, "180 mm..240 mm".
func axis(file *boxfile.File, c boxfile.Change, steps int) (study.Axis, diag.List) {
	a := study.Axis{Key: c.Path, Dimension: c.Key.Dimension, Whole: c.Key.Whole, Now: math.NaN()}
	fault := func(summary, detail string) (study.Axis, diag.List) {
		return a, diag.List{{Place: c.Place(), Path: c.Path, Summary: summary, Detail: detail}}
	}
	if !c.Key.Number || a.Dimension == quantity.Hardness {
		return fault("not a number to vary", fmt.Sprintf("%s is written as: %s. Only numbers can be varied.", c.Path, orNothing(c.Key.Written)))
	}
	from, to, ok := strings.Cut(c.Value, "..")
	if !ok {
		return fault("no range", fmt.Sprintf("Found %q. Expected: from..to, such as %s..%s.", c.Value, a.Dimension.Example(), a.Dimension.Example()))
	}
	var ends [2]float64
	for i, end := range []string{from, to} {
		q, err := quantity.Parse(strings.TrimSpace(end), a.Dimension)
		if err != nil {
			return fault("an end of the range can't be read", err.Error()+".")
		}
		if a.Whole && q.Value != math.Trunc(q.Value) {
			return fault("an end that is no whole number", fmt.Sprintf("Found %q. %s counts whole things: both ends are whole numbers.", c.Value, c.Path))
		}
		ends[i], a.Unit = q.Value, quantity.UnitOf(end, a.Dimension)
	}
	if !(ends[0] < ends[1]) {
		return fault("a range that doesn't rise", fmt.Sprintf("Found %q. The first end must be the smaller one.", c.Value))
	}
	if a.Whole {
		if a.Values = wholeValues(ends, steps); len(a.Values) < 2 {
			return fault("a range too narrow", fmt.Sprintf("Found %q, with fewer than two whole numbers in it.", c.Value))
		}
	} else {
		for i := range steps + 1 {
			a.Values = append(a.Values, ends[0]+(ends[1]-ends[0])*float64(i)/float64(steps))
		}
	}
	if text, ok := file.Value(c); ok {
		if q, err := quantity.Parse(text, a.Dimension); err == nil {
			a.Now, a.Unit = q.Value, quantity.UnitOf(text, a.Dimension)
		}
	}
	return a, nil
}

// wholeValues are whole numbers over a range, at most so many steps.
func wholeValues(ends [2]float64, steps int) (values []float64) {
	from, to := math.Ceil(ends[0]), math.Floor(ends[1])
	step := max(1, math.Ceil((to-from)/float64(steps)))
	for v := from; v <= to; v += step {
		values = append(values, v)
	}
	return values
}

func orNothing(s string) string {
	if s == "" {
		return "text of your own"
	}
	return s
}

// written is a value of an axis as it stands in a box file.
func written(a *study.Axis, v float64) string {
	if a.Whole {
		return strconv.FormatFloat(v, 'f', 0, 64)
	}
	number := strconv.FormatFloat(quantity.Convert(v, a.Dimension, quantity.Metric), 'f', -1, 64)
	return strings.TrimSpace(number + " " + quantity.Unit(a.Dimension, quantity.Metric))
}

// readTarget reads what is wanted: a torque or a margin in per cent.
func readTarget(text string) (*study.Target, error) {
	if text == "" {
		return nil, nil
	}
	dimension := quantity.Torque
	if strings.Contains(text, "%") {
		dimension = quantity.Number
	}
	q, err := quantity.Parse(text, dimension)
	switch {
	case err != nil:
		return nil, usageError{message: fmt.Sprintf("--target %q: %v", text, err), hint: "Give an allowable torque, such as \"250 N·m\", or a margin, such as \"15 %\"."}
	case dimension == quantity.Number && !(q.Value > -1):
		return nil, usageError{message: fmt.Sprintf("--target %q: a margin is more than -100 %%", text)}
	case dimension == quantity.Number:
		return &study.Target{Margin: q.Value}, nil
	case !(q.Value > 0):
		return nil, usageError{message: fmt.Sprintf("--target %q: an allowable torque is more than zero, in coast too", text)}
	}
	return &study.Target{Torque: q.Value}, nil
}
