package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"

	"layshaft/gearbox/diag"
	"layshaft/material"
	"layshaft/reports/data"
	"layshaft/reports/text"
)

func materialsCommand() command {
	return command{
		name: "materials", args: "[NAME…] [flags]", words: material.Names(),
		short: "list the steels it knows, with the source of each number",
		long: `Lists the steels by the names that box files use. Strengths are bands, low, typical and high, since the steel of a gear
on the bench is rarely known; each says where it comes from.`,
		example: "  layshaft materials case-carburised",
		flags: func(set *pflag.FlagSet) action {
			var o output
			o.declare(set, false)
			return func(args []string, e env) (int, error) {
				steels, err := wanted(args)
				if err != nil {
					return exitUsage, err
				}
				opt := o.options(e)
				err = o.write(e, writers{
					text: func(w io.Writer) error { return text.Materials(w, steels, opt) },
					json: func(w io.Writer) error { return data.MaterialsJSON(w, steels, opt.Options) },
					csv:  func(w io.Writer) error { return data.MaterialsCSV(w, steels, opt.Options) },
				})
				return exitHolds, err
			}
		},
	}
}

func wanted(names []string) ([]material.Steel, error) {
	if len(names) == 0 {
		return material.Steels(), nil
	}
	var steels []material.Steel
	for _, n := range names {
		s, ok := material.Find(n)
		if !ok {
			return nil, unknownSteel(n)
		}
		steels = append(steels, s)
	}
	return steels, nil
}

func unknownSteel(name string) error {
	u := usageError{message: fmt.Sprintf("there is no steel %q", name)}
	u.hint = "It knows " + strings.Join(material.Names(), ", ") + "."
	if near, ok := diag.Nearest(name, material.Names()); ok {
		u.hint = fmt.Sprintf("Did you mean %q?", near)
	}
	return u
}
