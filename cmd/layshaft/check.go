package main

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"io"

	"github.com/spf13/pflag"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/study"
	"layshaft/reports/data"
	"layshaft/reports/page"
	"layshaft/reports/text"
	"layshaft/reports/view"
)

func checkCommand() command {
	return command{
		name: "check", args: "FILE… [flags]", files: true,
		short: "say what limits a box, speed by speed",
		long: `Reads each box file, works out every speed at the input torque and says what it is limited by, at which torque, and
how much is left.
A file named - is read from standard input.`,
		example: `  layshaft check testdata/alder.yaml --speed 1st --torque "250 N·m"`,
		flags: func(set *pflag.FlagSet) action {
			var q question
			var o output
			q.declare(set)
			q.declareSamples(set)
			o.declare(set, true)
			return func(args []string, e env) (int, error) {
				if len(args) == 0 {
					return exitUsage, usageError{message: "which box? Name at least one box file", hint: `"layshaft new my-box.yaml" writes one to start from.`}
				}
				var effects [][]study.Effect
				var untried error
				results, err := q.solve(args, e, o.coloured(e), func(boxes []*gearbox.Box) { effects, untried = q.effects(boxes, e) })
				if err := cmp.Or(err, untried); err != nil {
					return exitUsage, err
				}
				sampled, err := q.sampled(args, boxesOf(results), false, e, o.coloured(e))
				if err != nil {
					return exitUsage, err
				}
				o.heed(results[0].Box)
				opt := o.options(e)
				opt.Sampled = sampled
				opt.Effects = effects
				return o.deliver(results, e, writers{
					text: func(w io.Writer) error { return text.Check(w, results, opt) },
					json: func(w io.Writer) error { return data.CheckJSON(w, results, opt.Options) },
					csv:  func(w io.Writer) error { return data.CheckCSV(w, results, opt.Options) },
					page: func(w io.Writer) error { return page.Check(w, results, opt.Options) },
				})
			}
		},
	}
}

// effects tries what was assumed of each box.
func (q *question) effects(boxes []*gearbox.Box, e env) (all [][]study.Effect, err error) {
	err = patiently(e, "assumptions", func(ctx context.Context, progress func(done, all int)) error {
		for _, b := range boxes {
			effects, err := study.Effects(ctx, b, q.load(b, q.chosen, nil), progress)
			if err != nil {
				return err
			}
			all = append(all, effects)
		}
		return nil
	})
	return all, err
}

// writers are the forms in which one answer can be given.
type writers struct {
	text, json, csv, page func(io.Writer) error
}

// deliver writes an answer about solved boxes, and says by its exit code whether their limits hold.
func (o *output) deliver(results []*gearbox.Result, e env, w writers) (int, error) {
	if err := o.write(e, w); err != nil {
		return exitUnsaid, err
	}
	if view.Worst(results) == gearbox.Over {
		return exitExceeded, nil
	}
	return exitHolds, nil
}

// write writes an answer in the form asked for, and its page. All of it is made before any of it is written.
func (o *output) write(e env, w writers) error {
	form := map[string]func(io.Writer) error{"text": w.text, "json": w.json, "csv": w.csv}[o.format.value]
	var summary bytes.Buffer
	if err := form(&summary); err != nil {
		return err
	}
	if o.html != "" {
		var html bytes.Buffer
		if err := w.page(&html); err != nil {
			return err
		}
		if err := writeFile(string(o.html), html.Bytes()); err != nil {
			return err
		}
		fmt.Fprintf(e.stderr, "Wrote %s\n", diag.Harmless(string(o.html)))
	}
	return write(e.stdout, summary.String())
}
