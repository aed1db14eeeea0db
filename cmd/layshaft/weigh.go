package main

import (
	"io"

	"github.com/spf13/pflag"

	"layshaft/gearbox/study"
	"layshaft/reports/data"
	"layshaft/reports/text"
)

func weighCommand() command {
	return command{
		name: "weigh", args: "FILE… [flags]", files: true,
		short: "say what a box weighs, part by part, and what its synchronisers have to match",
		long: `Works out mass and moment of inertia of every shaft and gear from its dimensions, or takes what the scales showed; then the inertia that each
synchroniser has to bring to speed with the clutch open, the torque × time for that in a shift from the speed below or above, and the torque that the
box bears for its mass. What was weighed is shown beside what the dimensions say, which checks both.`,
		example: `  layshaft weigh testdata/alder.yaml testdata/birch.yaml`,
		flags: func(set *pflag.FlagSet) action {
			var q question
			var o output
			q.declare(set)
			o.declare(set, false)
			return func(args []string, e env) (int, error) {
				if len(args) == 0 {
					return exitUsage, usageError{message: "which box? Name at least one box file", hint: `"layshaft new my-box.yaml" writes one to start from.`}
				}
				results, err := q.solve(args, e, o.coloured(e), nil)
				if err != nil {
					return exitUsage, err
				}
				boxes := study.Weigh(results)
				o.heed(results[0].Box)
				opt := o.options(e)
				return o.deliver(results, e, writers{
					text: func(w io.Writer) error { return text.Weigh(w, boxes, opt) },
					json: func(w io.Writer) error { return data.WeighJSON(w, boxes, opt.Options) },
					csv:  func(w io.Writer) error { return data.WeighCSV(w, boxes, opt.Options) },
				})
			}
		},
	}
}
