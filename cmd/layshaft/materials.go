package main

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"

	"layshaft/gearbox/diag"
	"layshaft/material"
	"layshaft/reports"
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
				form := map[string]func(io.Writer, []material.Steel, reports.Options) error{
					"text": reports.Materials, "json": reports.MaterialsJSON, "csv": reports.MaterialsCSV,
				}[o.format.value]
				var b bytes.Buffer
				if err := form(&b, steels, o.options(e)); err != nil {
					return exitUsage, err
				}
				return exitHolds, write(e.stdout, b.String())
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
