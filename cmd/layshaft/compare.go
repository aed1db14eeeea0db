package main

import (
	"cmp"
	"context"
	"io"
	"sync"

	"github.com/spf13/pflag"

	"layshaft/gearbox"
	"layshaft/gearbox/study"
	"layshaft/reports/data"
	"layshaft/reports/page"
	"layshaft/reports/text"
)

func compareCommand() command {
	return command{
		name: "compare", args: "FILE FILE… [flags]", files: true,
		short: "set two or more boxes side by side",
		long: `Works out every box at the same input torque (or each at its own, when the files differ and --torque isn't given) and
sets them side by side: what limits each and where, and how spans, deflections, misalignment and stresses differ.
Speeds, shafts and meshes of the same name belong together; parts under another name are known by their place and teeth.
The first file is the one the others are measured against.

What makes the difference is shared out over groups of dimensions: bearing span, shafts, gear positions, faces, teeth,
ratios, bearings and seats, housing, steel and more. Every mix of both boxes is solved, so no order of changes is
preferred and the parts add up to the whole; what is the same in both files has no part in it.`,
		example: `  layshaft compare testdata/alder.yaml testdata/birch.yaml --html compare.html`,
		flags: func(set *pflag.FlagSet) action {
			var q question
			var o output
			var unexplained bool
			q.declare(set)
			q.declareSamples(set)
			set.BoolVar(&unexplained, "no-causes", false, "don't share the difference out over dimensions, which solves up to 1024 mixed boxes")
			o.declare(set, true)
			return func(args []string, e env) (int, error) {
				if len(args) < 2 {
					return exitUsage, usageError{message: "compare what? Name at least two box files"}
				}
				results, err := q.solve(args, e, o.coloured(e), nil)
				if err != nil {
					return exitUsage, err
				}
				c := study.Compare(results)
				var equal, explained error
				var beside sync.WaitGroup
				beside.Go(func() { equal = q.equalSteel(c) })
				if !unexplained {
					load := gearbox.Load{Torque: q.torque.value, Method: q.chosen, Kinds: q.kinds()}
					explained = patiently(e, "mixed boxes", func(ctx context.Context, progress func(done, all int)) error {
						return c.Explain(ctx, load, progress)
					})
				}
				beside.Wait()
				if err := cmp.Or(equal, explained); err != nil {
					return exitUsage, err
				}
				sampled, err := q.sampled(args, boxesOf(results), true, e, o.coloured(e))
				if err != nil {
					return exitUsage, err
				}
				o.heed(results[0].Box)
				opt := o.options(e)
				opt.Sampled = sampled
				return o.deliver(results, e, writers{
					text: func(w io.Writer) error { return text.Compare(w, c, opt) },
					json: func(w io.Writer) error { return data.CompareJSON(w, c, opt.Options) },
					csv:  func(w io.Writer) error { return data.CompareCSV(w, c, opt.Options) },
					page: func(w io.Writer) error { return page.Compare(w, c, opt.Options) },
				})
			}
		},
	}
}
