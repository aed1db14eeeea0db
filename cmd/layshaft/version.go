package main

import (
	"embed"
	"fmt"
	"path"
	"runtime/debug"
	"strings"

	"github.com/spf13/pflag"

	"layshaft/reports/page"
)

func versionCommand() command {
	return command{
		name: "version", args: "[flags]",
		short: "say which version this is, and whose work is in it",
		long: `Prints the version. --licences prints the licences and notices of everything that is linked into the program or
carried by its pages: they belong with every copy of it.`,
		example: "  layshaft version --licences",
		flags: func(set *pflag.FlagSet) action {
			all := set.Bool("licences", false, "print the licences of what is linked into the program")
			return func(args []string, e env) (int, error) {
				switch {
				case len(args) > 0:
					return exitUsage, usageError{message: "version takes no arguments"}
				case *all:
					return exitHolds, write(e.stdout, licences())
				}
				return exitHolds, write(e.stdout, "layshaft "+version()+"\n")
			}
		},
	}
}

// The licences of the modules that are linked into the program, by their path with _ for /, and that of the language's own library. They are the files of the modules
// themselves, one after the other.
//
//go:embed licences/*.txt
var linked embed.FS

// licenceFile is where the licence of a module stands.
func licenceFile(module string) string {
	return path.Join("licences", strings.ReplaceAll(module, "/", "_")+".txt")
}

// licences are the texts of all that is in the program.
func licences() string {
	var b strings.Builder
	files, err := linked.ReadDir("licences")
	if err != nil {
		panic(err) // it is embedded
	}
	part := func(title, text string) {
		fmt.Fprintf(&b, "== %s ==\n\n%s\n\n", title, strings.TrimSpace(text))
	}
	for _, f := range files {
		text, err := linked.ReadFile(path.Join("licences", f.Name()))
		if err != nil {
			panic(err)
		}
		part(strings.ReplaceAll(strings.TrimSuffix(f.Name(), ".txt"), "_", "/"), string(text))
	}
	for _, l := range page.Licences() {
		part(l.Title, l.Text)
	}
	return b.String()
}

// version is that of the build: a tag when the program was installed from one, else the revision.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	return "development"
}
