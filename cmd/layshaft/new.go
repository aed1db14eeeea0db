package main

import (
	"fmt"
	"os"

	"github.com/spf13/pflag"

	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/diag"
)

func newCommand() command {
	return command{
		name: "new", args: "[FILE] [flags]", files: true,
		short: "write a commented box file to start from",
		long: `Writes a small box file that runs as it is, with a comment on every line that matters. Without FILE it goes to
standard output. An existing file is left alone. --keys lists everything a box file can say instead.`,
		example: "  layshaft new my-box.yaml\n  layshaft check my-box.yaml",
		flags: func(set *pflag.FlagSet) action {
			keys := set.Bool("keys", false, "list every key of a box file with its meaning, unit and default")
			return func(args []string, e env) (int, error) {
				switch {
				case *keys && len(args) > 0:
					return exitUsage, usageError{message: "--keys goes to standard output; leave FILE out"}
				case *keys:
					return exitHolds, write(e.stdout, keyList())
				case len(args) == 0:
					return exitHolds, write(e.stdout, string(boxfile.Starter()))
				case len(args) > 1:
					return exitUsage, usageError{message: "name one file"}
				case args[0] == "-":
					return exitUsage, usageError{message: "- is no name of a file; without FILE it goes to standard output"}
				}
				if _, err := os.Lstat(args[0]); err == nil {
					return exitUsage, fmt.Errorf("%s is there already; name another file, or move that one away", args[0])
				}
				if err := writeFile(args[0], boxfile.Starter()); err != nil {
					return exitUsage, err
				}
				return exitHolds, write(e.stdout, fmt.Sprintf("Wrote %s. Try: layshaft check %s\n", diag.Harmless(args[0]), shown(args[0])))
			}
		},
	}
}
