package main

import (
	"fmt"
	"os"
	"strings"

	"github.com/spf13/pflag"

	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/diag"
)

func newCommand() command {
	return command{
		name: "new", args: "[FILE] [flags]", files: true,
		short: "write a commented box file or bench sheet to start from",
		long: `Writes a small box file that runs as it is, with a comment on every line that matters; --kind chooses what kind of box. --bench writes a bench sheet
instead, for gears whose data nobody knows. Without FILE it goes to standard output. An existing file is left alone. --keys lists everything that such a file can say
instead, or what of it has to do with a word.`,
		example: "  layshaft new my-box.yaml --kind transaxle\n  layshaft new --keys gears\n  layshaft new my-sheet.yaml --bench",
		flags: func(set *pflag.FlagSet) action {
			kind := choice{boxfile.Kinds()[0], boxfile.Kinds()}
			set.Var(&kind, "kind",
				"what box to write: `pair` (two gears on two shafts), transaxle (two shafts and a differential) or inline (layshaft and reverse idler)")
			bench := set.Bool("bench", false, "write a bench sheet, which layshaft gauge reads")
			keys := set.Bool("keys", false,
				"list every key with its meaning, unit and default; with a word such as gears, those that have to do with it")
			return func(args []string, e env) (int, error) {
				if *keys {
					list, err := keyList(*bench, strings.Join(args, " "))
					if err != nil {
						return exitUsage, err
					}
					return exitHolds, write(e.stdout, list)
				}
				text, next := boxfile.StarterOf(kind.value), "check"
				if *bench {
					if set.Changed("kind") {
						return exitUsage, usageError{message: "a bench sheet is of no kind: give --bench or --kind"}
					}
					text, next = boxfile.Bench(), "gauge"
				}
				switch {
				case len(args) == 0:
					return exitHolds, write(e.stdout, string(text))
				case len(args) > 1:
					return exitUsage, usageError{message: "name one file"}
				case args[0] == "-":
					return exitUsage, usageError{message: "- is no name of a file; without FILE it goes to standard output"}
				}
				if _, err := os.Lstat(args[0]); err == nil {
					return exitUsage, fmt.Errorf("%s is there already; name another file, or move that one away", args[0])
				}
				if err := writeFile(args[0], text); err != nil {
					return exitUsage, err
				}
				return exitHolds, write(e.stdout, fmt.Sprintf("Wrote %s. Try: layshaft %s %s\n", diag.Harmless(args[0]), next, shown(args[0])))
			}
		},
	}
}
