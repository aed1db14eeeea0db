package main

import (
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strings"

	"github.com/spf13/pflag"
	"golang.org/x/term"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
	"layshaft/reports/text"
	"layshaft/reports/view"
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
		return fmt.Errorf("it must be %s; did you mean %q?", either(c.words), near)
	}
	return fmt.Errorf("it must be %s", either(c.words))
}

// several is a flag that takes some of a few words and may be repeated.
type several struct {
	values, words []string
	once          map[string]string // what words were called before, which is taken too
	also          string            // what is to be said beside the words when another one is given
}

func (s *several) String() string { return strings.Join(s.values, ",") }
func (s *several) Type() string   { return "word" }
func (s *several) Set(text string) error {
	one := choice{words: s.words}
	text = strings.ToLower(text)
	if now, ok := s.once[text]; ok {
		text = now
	}
	if err := one.Set(text); err != nil {
		return fmt.Errorf("%w%s", err, s.also)
	}
	s.values = append(s.values, one.value)
	return nil
}

// either joins words: "text, json or csv".
func either(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " or " + words[n-1]
	}
	return strings.Join(words, "")
}

// output holds the flags that say how results are written.
type output struct {
	format, units, colour choice
	html                  pageFile
	file                  quantity.System // what the box file wants shown
}

func (o *output) declare(set *pflag.FlagSet, page bool) {
	o.format = choice{"text", []string{"text", "json", "csv"}}
	set.Var(&o.format, "format", "write the summary as `text`, json or csv")
	if page {
		set.Var(&o.html, "html", "also write a page with charts to `FILE` (.html); it opens without a network")
	}
	o.units = choice{"", []string{"metric", "us"}}
	set.Var(&o.units, "units", "show `metric` or us units in place of the file's (json and csv are always metric)")
	o.colour = choice{"auto", []string{"auto", "always", "never"}}
	set.Var(&o.colour, "color", "colour the text: `auto`, always or never; NO_COLOR is heeded")
}

func (o *output) options(e env) text.Options {
	opt := text.Options{Options: view.Options{Version: version()}, Colour: o.coloured(e), Width: columns(e.stdout)}
	if o.units.value == "us" || o.units.value == "" && o.file == quantity.US {
		opt.Units = quantity.US
	}
	return opt
}

// heed lets the first box say in which units its answer is shown, where the command line leaves it open.
func (o *output) heed(b *gearbox.Box) { o.file = b.Units }

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

// columns is how wide the text may be: as wide as the terminal within what tables and eyes bear, and the most where there is none.
func columns(w io.Writer) int {
	const least, most = 80, 100
	if f, ok := w.(*os.File); ok {
		if width, _, err := term.GetSize(int(f.Fd())); err == nil && width > 0 {
			return min(max(width, least), most)
		}
	}
	return most
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
