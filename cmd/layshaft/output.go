package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"

	"github.com/spf13/pflag"
	"golang.org/x/term"

	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
	"layshaft/reports"
)

// choice is a flag that takes one of a few words.
type choice struct {
	value string
	words []string
}

func (c *choice) String() string { return c.value }
func (c *choice) Type() string   { return "word" }
func (c *choice) Set(s string) error {
	for _, w := range c.words {
		if s == w {
			c.value = s
			return nil
		}
	}
	if near, ok := diag.Nearest(s, c.words); ok {
		return fmt.Errorf("it must be one of %v; did you mean %q?", c.words, near)
	}
	return fmt.Errorf("it must be one of %v", c.words)
}

// output holds the flags that say how results are written.
type output struct {
	format, units, colour choice
	html                  string
}

func (o *output) declare(set *pflag.FlagSet, page bool) {
	o.format = choice{"text", []string{"text", "json", "csv"}}
	set.Var(&o.format, "format", "write the summary as `text`, json or csv")
	if page {
		set.StringVar(&o.html, "html", "", "also write a page with charts to `FILE`; it opens without a network")
	}
	o.units = choice{"metric", []string{"metric", "us"}}
	set.Var(&o.units, "units", "show `metric` or us units (json and csv are always metric)")
	o.colour = choice{"auto", []string{"auto", "always", "never"}}
	set.Var(&o.colour, "color", "colour the text: `auto`, always or never; NO_COLOR is heeded")
}

func (o *output) options(e env) reports.Options {
	opt := reports.Options{Colour: o.coloured(e), Version: version()}
	if o.units.value == "us" {
		opt.Units = quantity.US
	}
	return opt
}

func (o *output) coloured(e env) bool {
	switch o.colour.value {
	case "always":
		return true
	case "never":
		return false
	}
	return terminal(e.stdout) && e.variable("NO_COLOR") == "" && e.variable("TERM") != "dumb"
}

func terminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// writeFile puts a whole file in place at once: a run that fails leaves what was there before.
func writeFile(name string, content []byte) error {
	temp, err := os.CreateTemp(filepath.Dir(name), ".layshaft-*")
	if err != nil {
		return fmt.Errorf("can't write %s: %w", name, err)
	}
	defer os.Remove(temp.Name())
	_, err = io.Copy(temp, bytes.NewReader(content))
	if err == nil {
		err = temp.Chmod(0o644)
	}
	if cerr := temp.Close(); err == nil {
		err = cerr
	}
	if err == nil {
		err = os.Rename(temp.Name(), name)
	}
	if err != nil {
		return fmt.Errorf("can't write %s: %w", name, err)
	}
	return nil
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
