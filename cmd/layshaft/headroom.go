package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"math"
	"strings"

	"github.com/spf13/pflag"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/study"
	"layshaft/reports/data"
	"layshaft/reports/page"
	"layshaft/reports/text"
	"layshaft/reports/view"
)

func headroomCommand() command {
	return command{
		name: "headroom", args: "FILE… [flags]", files: true,
		short: "say whether more torque is within margin, and what a change buys",
		long: `Answers yes or no: does each box bear the torque asked? For every speed it tells what limits first, second and third and at which torque, what is left,
and to which torque a controller has to hold the engine so that the wanted reserve stays.

--add puts a torque on top of the file's, or of --torque. --what-if changes a value of the box file by its key path, for this answer only; several are applied together,
and each alone as well. Lists are counted from 1. "layshaft new --keys" lists the keys.`,
		example: `  layshaft headroom testdata/alder.yaml --add "40 N·m" \
    --what-if "gears.first wheel.face=26 mm" --what-if "shafts.output.sections.3.outer=52 mm"`,
		flags: func(set *pflag.FlagSet) action {
			var q question
			var added torqueFlag
			var changes []string
			var o output
			set.Var(&added, "add", "add a `TORQUE` to the file's, or to --torque, such as \"80 N·m\"")
			set.StringArrayVar(&changes, "what-if", nil, "change a value of the box file, `KEY=VALUE`, such as \"gears.first pinion.face=24 mm\"; may be repeated")
			q.declareAsked(set)
			q.declareSamples(set)
			o.declare(set, true)
			return func(args []string, e env) (int, error) {
				if len(args) == 0 {
					return exitUsage, usageError{message: "which box? Name at least one box file", hint: `"layshaft new my-box.yaml" writes one to start from.`}
				}
				var all []*study.Headroom
				err := patiently(e, "boxes", func(ctx context.Context, progress func(done, all int)) (err error) {
					all, err = q.headrooms(ctx, args, changes, added.value, e, o.coloured(e), progress)
					return err
				})
				if err != nil {
					return exitUsage, err
				}
				sampled := map[*gearbox.Box]view.Sampled{}
				for i, h := range all {
					of := q
					of.torque.value = h.Total()
					one, err := of.sampled(args[i:i+1], []*gearbox.Box{h.Result.Box}, false, e, o.coloured(e))
					if err != nil {
						return exitUsage, err
					}
					maps.Copy(sampled, one)
				}
				o.heed(all[0].Result.Box)
				opt := o.options(e)
				opt.Sampled = sampled
				err = o.write(e, writers{
					text: func(w io.Writer) error { return text.Headroom(w, all, opt) },
					json: func(w io.Writer) error { return data.HeadroomJSON(w, all, opt.Options) },
					csv:  func(w io.Writer) error { return data.HeadroomCSV(w, all, opt.Options) },
					page: func(w io.Writer) error { return page.Headroom(w, all, opt.Options) },
				})
				switch {
				case err != nil:
					return exitUsage, err
				case view.Worst(view.ResultsOf(all)) == gearbox.Over:
					return exitExceeded, nil
				}
				return exitHolds, nil
			}
		},
	}
}

// whatIf is what findings call the changes that were typed.
const whatIf = "--what-if"

// headrooms reads the files, changes them and works out what is left. What is wrong with any of them is shown all at once.
func (q *question) headrooms(ctx context.Context, files, changes []string, added float64, e env, colour bool, progress func(done, all int)) ([]*study.Headroom, error) {
	method := q.method()
	for _, c := range changes {
		if key, _, _ := strings.Cut(c, "="); strings.TrimSpace(key) == "input.torque" {
			return nil, usageError{message: "--what-if " + c + ": the torque asked about is what --add or --torque say"}
		}
	}
	found := findings{sources: map[string][]byte{whatIf: []byte(strings.Join(changes, "\n"))}}
	var boxes []*gearbox.Box
	var changed [][]study.Changed
	for _, name := range files {
		file, box := found.open(name, e)
		if file == nil {
			continue
		}
		boxes = append(boxes, box)
		changed = append(changed, found.vary(file, changes))
	}
	if err := found.show(e, colour); err != nil {
		return nil, err
	}
	var err error
	if boxes, err = q.learn(boxes, method, &found.list); err != nil {
		return nil, err
	}
	if err := found.show(e, colour); err != nil {
		return nil, err
	}
	if err := q.checkSpeeds(boxes); err != nil {
		return nil, err
	}
	for i := range changed {
		for k := range changed[i] {
			changed[i][k].Box = study.Learned(boxes[i], changed[i][k].Box)
		}
	}
	var all []*study.Headroom
	for i, box := range boxes {
		before, total, err := q.added(box, added)
		if err != nil {
			return nil, err
		}
		h, err := study.FindHeadroom(ctx, box, changed[i], before, gearbox.Load{Torque: total, Speeds: q.known(box), Method: method, Kinds: q.kinds()}, progress)
		if list, ok := errors.AsType[diag.List](err); ok {
			found.list = append(found.list, list...)
			continue
		}
		if err != nil {
			return nil, err
		}
		found.list = append(found.list, h.Result.Warnings...)
		all = append(all, h)
	}
	return all, found.show(e, colour)
}

// added is the torque before and after the addition, N·mm. Without --add, a --torque in drive is what the file's torque grows to; one in coast stands alone.
func (q *question) added(box *gearbox.Box, added float64) (before, total float64, err error) {
	before, total = box.Torque, box.Torque
	switch asked := q.torque.value; {
	case asked != 0 && added != 0, asked < 0:
		before = asked
		total = math.Copysign(math.Abs(asked)+added, asked)
	case asked > 0:
		total = asked
	default:
		total += added
	}
	if total == 0 || math.Signbit(total) != math.Signbit(before) {
		return 0, 0, usageError{message: "--add takes off all of the torque there is; nothing is left to ask about"}
	}
	return before, total, nil
}

// findings collects what is wrong with several files and with what was typed.
type findings struct {
	list    diag.List
	sources map[string][]byte
}

// open reads a box file and keeps it for variations; nil when there are errors.
func (f *findings) open(name string, e env) (*boxfile.File, *gearbox.Box) {
	data, list := contents(name, e)
	f.sources[sourceName(name)] = data
	if list != nil {
		f.list = append(f.list, list...)
		return nil, nil
	}
	file, box, list := boxfile.Open(sourceName(name), data)
	f.list = append(f.list, list...)
	if box != nil {
		others := box.Origin.Others
		box.Origin = origin(name, data)
		box.Origin.Others = others
	}
	return file, box
}

// vary makes the changed boxes of a file: all changes together, then each alone where there are several.
func (f *findings) vary(file *boxfile.File, texts []string) (all []study.Changed) {
	if len(texts) == 0 {
		return nil
	}
	var changes []boxfile.Change
	for i, text := range texts {
		c, list := file.Change(whatIf, i+1, text)
		if f.list = append(f.list, list...); list == nil {
			changes = append(changes, c)
		}
	}
	if len(changes) < len(texts) {
		return nil
	}
	add := func(texts []string, changes ...boxfile.Change) bool {
		box, list := file.With(changes...)
		if box == nil {
			f.list = append(f.list, list...)
			return false
		}
		all = append(all, study.Changed{Changes: texts, Box: box})
		return true
	}
	if !add(texts, changes...) || len(texts) == 1 {
		return all
	}
	for i, c := range changes {
		if !add(texts[i:i+1], c) {
			f.list = append(f.list, diag.Diagnostic{Place: diag.Place{File: whatIf, Line: i + 1, Column: 1, Width: 1}, Summary: "a change that can't stand alone",
				Detail: fmt.Sprintf("All changes together make a box, but %q alone doesn't. Ask for them without each other, or write them into a file.", texts[i])})
		}
	}
	return all
}

// show writes the findings, if there are any. The error says that some of them are errors, which are on the screen then.
func (f *findings) show(e env, colour bool) error {
	if len(f.list) == 0 {
		return nil
	}
	list := f.list
	f.list = nil
	list.Sort()
	if err := list.Render(e.stderr, withOthers(f.sources, list), diag.Style{Colour: colour, Width: 100}); err != nil {
		return err
	}
	if list.HasErrors() {
		return errShown
	}
	return nil
}
