package main

import (
	"bytes"
	"errors"
	"io"

	"github.com/spf13/pflag"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/reports/text"
)

func showCommand() command {
	return command{
		name: "show", args: "FILE… [flags]", files: true,
		short: "draw a box in characters, to see what was typed",
		long: `Draws each box as its file has it: where the shafts stand and how they turn, seen from the left end; all shafts with bearings, gears and hubs from the
side; and the way of the power in every speed, with hands and thrust. Swapped ends, a wrong hand, a forgotten seat and a place counted from the other end are seen at a
glance. What can't stand so is said too. Nothing is bent.`,
		example: "  layshaft show testdata/birch.yaml",
		flags: func(set *pflag.FlagSet) action {
			o := output{colour: choice{"auto", []string{"auto", "always", "never"}}, units: choice{"metric", []string{"metric", "us"}}}
			set.Var(&o.units, "units", "show `metric` or us units")
			set.Var(&o.colour, "color", "colour the findings: `auto`, always or never; NO_COLOR is heeded")
			return func(args []string, e env) (int, error) {
				if len(args) == 0 {
					return exitUsage, usageError{message: "which box? Name at least one box file",
						hint: `"layshaft new my-box.yaml" writes one to start from.`}
				}
				var drawings bytes.Buffer
				failed := false
				for _, name := range args {
					err := draw(&drawings, name, e, &o)
					if err != nil && !errors.Is(err, errShown) {
						return exitUsage, err
					}
					failed = failed || err != nil
				}
				if failed {
					return exitUsage, errShown
				}
				return exitHolds, write(e.stdout, drawings.String())
			}
		},
	}
}

// draw draws one box; what is wrong with it is shown, and stops the drawing only if nothing can be placed.
func draw(w io.Writer, name string, e env, o *output) error {
	box, source, found := read(name, e)
	if box == nil {
		return show(found, name, source, e, o)
	}
	a, err := gearbox.Arrange(box)
	if list, ok := errors.AsType[diag.List](err); ok {
		return show(append(found, list...), name, source, e, o)
	}
	if err != nil {
		return err
	}
	if found = append(found, a.Findings...); len(found) > 0 {
		if err := show(found, name, source, e, o); err != nil && !errors.Is(err, errShown) {
			return err
		}
	}
	o.heed(box)
	return text.Drawing(w, a, o.options(e))
}
