package main

import (
	"errors"
	"io"

	"github.com/spf13/pflag"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/data"
	"layshaft/reports/page"
	"layshaft/reports/text"
)

// revsFlag is a speed of the engine with its unit.
type revsFlag struct {
	text  string
	value float64 // rad/s; 0 = not given
}

func (r *revsFlag) String() string { return r.text }
func (r *revsFlag) Type() string   { return "revs" }
func (r *revsFlag) Set(s string) error {
	q, err := quantity.Parse(s, quantity.RotationalSpeed)
	switch {
	case err != nil:
		return err
	case !(q.Value > 0):
		return errors.New("an engine that stands has no ratio table; give a speed above zero")
	case q.Tolerance != 0:
		return errors.New("give one speed, without a tolerance")
	}
	r.text, r.value = s, q.Value
	return nil
}

func ratiosCommand() command {
	return command{
		name: "ratios", args: "FILE… [flags]", files: true,
		short: "tell how fast the car is in each speed, what each shift costs and how hard it pulls",
		long: `Reads each box file and sets up its ratio table: the speed over ground in every speed, the engine's drop at each shift up, the torque at the wheels and, where the
file tells enough of the car, the pull against what the tyres hold. Needs the car's tyre_radius for all but ratios and drops. Nothing is bent, so it takes no time.`,
		example: `  layshaft ratios testdata/alder.yaml testdata/birch.yaml --revs "7000 rpm" --html ratios.html`,
		flags: func(set *pflag.FlagSet) action {
			var revs revsFlag
			var torque torqueFlag
			var o output
			set.Var(&revs, "revs", "shift up at this `SPEED` of the engine in place of the file's, such as \"7000 rpm\"")
			set.Var(&torque, "torque", "engine `TORQUE` in place of the file's, such as \"210 N·m\" or \"155 lb-ft\"")
			o.declare(set, true)
			return func(args []string, e env) (int, error) {
				if len(args) == 0 {
					return exitUsage, usageError{message: "which box? Name at least one box file", hint: `"layshaft new my-box.yaml" writes one to start from.`}
				}
				if torque.value < 0 {
					return exitUsage, usageError{message: "a ratio table is for an engine that drives: give a torque above zero"}
				}
				tables, err := ratioTables(args, revs.value, torque.value, e, o.coloured(e))
				if err != nil {
					return exitUsage, err
				}
				o.heed(tables[0].Box)
				opt := o.options(e)
				err = o.write(e, writers{
					text: func(w io.Writer) error { return text.Ratios(w, tables, opt) },
					json: func(w io.Writer) error { return data.RatiosJSON(w, tables, opt.Options) },
					csv:  func(w io.Writer) error { return data.RatiosCSV(w, tables, opt.Options) },
					page: func(w io.Writer) error { return page.Ratios(w, tables, opt.Options) },
				})
				if err != nil {
					return exitUsage, err
				}
				return exitHolds, nil
			}
		},
	}
}

// ratioTables reads the files and sets up the table of every box. What is wrong with any of them is shown all at once.
func ratioTables(files []string, revs, torque float64, e env, colour bool) ([]*study.RatioTable, error) {
	var boxes []*gearbox.Box
	var found diag.List
	sources := map[string][]byte{}
	for _, name := range files {
		box, source, list := read(name, e)
		sources[sourceName(name)] = source
		found = append(found, list...)
		if !list.HasErrors() {
			boxes = append(boxes, box)
		}
	}
	var tables []*study.RatioTable
	for _, box := range boxes {
		t, err := study.TableOfRatios(box, revs, torque)
		if list, ok := errors.AsType[diag.List](err); ok {
			found = append(found, list...)
			continue
		}
		if err != nil {
			return nil, err
		}
		tables = append(tables, t)
	}
	if len(found) > 0 {
		found.Sort()
		if err := found.Render(e.stderr, sources, diag.Style{Colour: colour, Width: 100}); err != nil {
			return nil, err
		}
	}
	if found.HasErrors() {
		return nil, errShown
	}
	return tables, nil
}
