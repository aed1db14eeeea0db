package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"

	"github.com/spf13/pflag"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/study"
	"layshaft/reports/data"
	"layshaft/reports/text"
	"layshaft/reports/view"
)

func spreadCommand() command {
	return command{
		name: "spread", args: "FILE [FILE] [flags]", files: true,
		short: "say how sure an answer is, and what to measure next",
		long: `Draws everything of a box that isn't known exactly again and again: numbers within their ±, what the file calls unknown, the strength of
each steel between its poorest and its best, flanks out of line from their making. It solves the box for each sample, and says between which torques the answer lies,
how likely a limit is exceeded, which limit is first how often, and which unknown moves the answer most: measure that next.
Of two boxes it gives the ratio of what they bear. What both share (a steel of one name, the engine, the clutch, the car) is drawn once for both.

How numbers spread stands in the box file under uncertainty; without it there are ranges and no chances. A number may name its instrument: "34 mm by caliper".
The exit code is 1 where in more than 5 of 100 samples a limit is exceeded: by what arrives and by the duty, with --first by the torque at the input.
The same seed gives the same answer. ctrl-C ends it with what there is so far.`,
		example: `  layshaft spread testdata/birch.yaml --samples 200`,
		flags: func(set *pflag.FlagSet) action {
			var q question
			var o output
			s := study.SpreadQuestion{}
			set.IntVar(&s.Samples, "samples", 500, "draw so many `SAMPLES`, rounded up to a multiple of 16")
			set.Uint64Var(&s.Seed, "seed", 1, "draw other samples with another `SEED`")
			set.BoolVar(&s.Brief, "first", false, "only the limit that is first at the input: no margins, nothing by what arrives, much quicker")
			ranking := set.Bool("no-ranking", false, "leave out what to measure next, which takes as long again")
			q.declareAsked(set)
			o.declare(set, false)
			return func(args []string, e env) (int, error) {
				switch {
				case len(args) < 1 || len(args) > 2:
					return exitUsage, usageError{message: "spread takes one box file, or two to compare"}
				case s.Samples < 1 || s.Samples > study.MostSamples:
					return exitUsage, usageError{message: fmt.Sprintf("--samples %d: it must be from 1 to %d", s.Samples, study.MostSamples)}
				case o.format.value == "csv":
					return exitUsage, usageError{message: "spread has no csv; take text or json"}
				}
				s.Rank = !*ranking
				var found *study.Spread
				err := patiently(e, "samples", func(ctx context.Context, progress func(done, all int)) (err error) {
					found, err = q.spread(ctx, args, s, e, o.coloured(e), progress)
					return err
				})
				if err != nil {
					return exitUsage, err
				}
				o.heed(found.Boxes[0].Box)
				opt := o.options(e)
				err = o.write(e, writers{
					text: func(w io.Writer) error { return text.Spread(w, found, opt) },
					json: func(w io.Writer) error { return data.SpreadJSON(w, found, opt.Options) },
				})
				if err != nil {
					return exitUnsaid, err
				}
				if found.Exceeded() {
					return exitExceeded, nil
				}
				return exitHolds, nil
			}
		},
	}
}

// spread reads the files and draws the samples.
func (q *question) spread(ctx context.Context, names []string, s study.SpreadQuestion, e env, colour bool, progress func(done, all int)) (*study.Spread, error) {
	method := q.method()
	found := findings{sources: map[string][]byte{}}
	var files []*boxfile.File
	var boxes []*gearbox.Box
	for _, name := range names {
		file, box := found.open(name, e)
		files, boxes = append(files, file), append(boxes, box)
	}
	if err := found.show(e, colour); err != nil {
		return nil, err
	}
	for _, f := range files {
		if f == nil {
			return nil, errors.New("a file could not be read")
		}
	}
	boxes, err := q.learn(boxes, method, &found.list)
	if err != nil {
		return nil, err
	}
	if err := found.show(e, colour); err != nil {
		return nil, err
	}
	if err := q.checkSpeeds(boxes); err != nil {
		return nil, err
	}
	s.Load = func(b *gearbox.Box) gearbox.Load { return q.load(b, method, nil) }
	drawn := make([]study.Drawn, len(boxes))
	for i, f := range files {
		drawn[i] = study.Drawn{Box: boxes[i], Read: func(values []float64) (*gearbox.Box, error) {
			made, list := f.WithReadings(values)
			if made == nil {
				return nil, list
			}
			return made, nil
		}}
		for _, r := range f.Readings() {
			drawn[i].Readings = append(drawn[i].Readings, study.Reading{Path: r.Path, Value: r.Value, Plus: r.Plus, Words: r.String(), Bounds: r.Bounds()})
		}
	}
	return study.FindSpread(ctx, drawn, s, progress)
}

// declareSamples declares how many samples an answer rests on beside itself.
func (q *question) declareSamples(set *pflag.FlagSet) {
	set.IntVar(&q.samples, "samples", 0, "say how sure the answer is, by so many `SAMPLES` of everything that isn't known exactly, as layshaft spread draws them; 32 or more tell something")
}

// sampled draws the samples that were asked for: of two boxes together, so that what both share is drawn once, else of each by itself. Nil when none were.
func (q *question) sampled(names []string, boxes []*gearbox.Box, together bool, e env, colour bool) (map[*gearbox.Box]view.Sampled, error) {
	if q.samples == 0 {
		return nil, nil
	}
	if q.samples < 0 || q.samples > study.MostSamples {
		return nil, usageError{message: fmt.Sprintf("--samples %d: it must be from 1 to %d", q.samples, study.MostSamples)}
	}
	if slices.Contains(names, "-") {
		return nil, usageError{message: "--samples reads each file again, and standard input can be read once only; name a file"}
	}
	step := 1
	if together && len(names) == 2 {
		step = 2
	}
	all := map[*gearbox.Box]view.Sampled{}
	for i := 0; i < len(names); i += step {
		var s *study.Spread
		err := patiently(e, "samples", func(ctx context.Context, progress func(done, all int)) (err error) {
			s, err = q.spread(ctx, names[i:i+step], study.SpreadQuestion{Samples: q.samples, Seed: 1}, e, colour, progress)
			return err
		})
		if err != nil {
			return nil, err
		}
		for k := range step {
			all[boxes[i+k]] = view.Sampled{Spread: s, Box: k}
		}
	}
	return all, nil
}

// boxesOf are the boxes of solved ones.
func boxesOf(results []*gearbox.Result) (boxes []*gearbox.Box) {
	for _, r := range results {
		boxes = append(boxes, r.Box)
	}
	return boxes
}
