package main

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"
)

// Help is read in terminals, which break longer lines in the middle of words.
func TestHelpFits(t *testing.T) {
	const most = 120
	pages := [][]string{{"--help"}}
	for _, c := range commands() {
		pages = append(pages, []string{c.name, "--help"})
	}
	for _, args := range pages {
		var out bytes.Buffer
		if code := run(args, env{stdout: &out, stderr: &out, variable: func(string) string { return "" }}); code != exitHolds {
			t.Errorf("%v: exit code %d", args, code)
		}
		for line := range strings.Lines(out.String()) {
			if n := utf8.RuneCountInString(strings.TrimRight(line, "\n")); n > most {
				t.Errorf("%v: a line of %d columns: %s", args, n, line)
			}
		}
	}
}
