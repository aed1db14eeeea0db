package main

import (
	"bytes"
	"context"
	"fmt"
	"io"

	"github.com/spf13/pflag"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/study"
	"layshaft/reports"
	"layshaft/reports/page"
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
			o.declare(set, true)
			return func(args []string, e env) (int, error) {
				if len(args) == 0 {
					return exitUsage, usageError{message: "which box? Name at least one box file", hint: `"layshaft new my-box.yaml" writes one to start from.`}
				}
				results, err := q.solve(args, e, o.coloured(e))
				if err != nil {
					return exitUsage, err
				}
				effects, err := q.effects(results, e)
				if err != nil {
					return exitUsage, err
				}
				with := func(write func(io.Writer, []*gearbox.Result, reports.Options) error) func(io.Writer, reports.Options) error {
					return func(w io.Writer, opt reports.Options) error {
						opt.Effects = effects
						return write(w, results, opt)
					}
				}
				return o.deliver(results, e, writers{
					text: with(reports.Check), json: with(reports.CheckJSON), csv: with(reports.CheckCSV),
					page: func(w io.Writer, opt page.Options) error {
						opt.Effects = effects
						return page.Check(w, results, opt)
					},
				})
			}
		},
	}
}

// effects tries what was assumed of each box.
func (q *question) effects(results []*gearbox.Result, e env) (all [][]study.Effect, err error) {
	err = patiently(e, "assumptions", func(ctx context.Context, progress func(done, all int)) error {
		for _, r := range results {
			effects, err := study.Effects(ctx, r.Box, q.load(r.Box, q.chosen, nil), progress)
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
	text, json, csv func(io.Writer, reports.Options) error
	page            func(io.Writer, page.Options) error
}

// deliver writes an answer about solved boxes, and says by its exit code whether their limits hold.
func (o *output) deliver(results []*gearbox.Result, e env, w writers) (int, error) {
	o.heed(results[0].Box)
	opt := o.options(e)
	err := o.write(page.Options{
		Headline: reports.Answers(results, opt), SplitWords: func(c *study.CauseSplit) []string { return reports.SplitWords(c, opt) },
		CaseWords: func(c *study.Comparison, k *study.LighterCase) page.CaseWords {
			return page.CaseWords(reports.WordCase(c, k, opt))
		},
		Verdict: func(r *gearbox.Result, effects []study.Effect) []string {
			var all []string
			for _, s := range reports.Verdict(r, effects, opt) {
				if s.About != "answer" { // that is the headline
					all = append(all, s.Text)
				}
			}
			return all
		},
		Guides: reports.ShownGuides, GuideState: reports.GuideState,
		SumWords: reports.SumWords, LifeTerms: reports.LifeTerms, LifeOrMargin: reports.LifeOrMargin(),
		Told:        func(r *gearbox.Result) [][2]string { return reports.Told(r, opt) },
		Sense:       reports.SenseWords,
		EffectWords: reports.EffectRest, BadRange: func(bad [2]float64) string { return reports.BadRange(bad, opt) },
		EffectMoves: reports.Moves, EffectLimit: reports.EffectLimit, EffectsTitle: reports.EffectsTitle,
		SplitSentence: func(c *study.CauseSplit, speed, item int) string { return reports.SplitSentence(c, speed, item, opt) },
	}, e, w)
	if err != nil {
		return exitUnsaid, err
	}
	if reports.ExitWorst(results) == gearbox.Over {
		return exitExceeded, nil
	}
	return exitHolds, nil
}

// write writes an answer in the form asked for, and its page, of which p says what it alone needs. All of it is made before any of it is written.
func (o *output) write(p page.Options, e env, w writers) error {
	opt := o.options(e)
	form := map[string]func(io.Writer, reports.Options) error{"text": w.text, "json": w.json, "csv": w.csv}[o.format.value]
	var summary bytes.Buffer
	if err := form(&summary, opt); err != nil {
		return err
	}
	if o.html != "" {
		var html bytes.Buffer
		p.Units, p.Warning, p.Caution, p.Version = opt.Units, reports.Warning(), reports.Caution(), opt.Version
		if err := w.page(&html, p); err != nil {
			return err
		}
		if err := writeFile(string(o.html), html.Bytes()); err != nil {
			return err
		}
		fmt.Fprintf(e.stderr, "Wrote %s\n", diag.Harmless(string(o.html)))
	}
	return write(e.stdout, summary.String())
}
