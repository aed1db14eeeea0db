package main

import (
	"bytes"
	"os"
	"regexp"
	"strings"
	"testing"
)

// Every layshaft command that the README shows runs, from a folder with the demonstration boxes, and finds its limits held unless the text says otherwise.
func TestReadmeCommandsRun(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	boxes := t.TempDir()
	if err := os.CopyFS(boxes+"/testdata", os.DirFS("../../testdata")); err != nil {
		t.Fatal(err)
	}
	t.Chdir(boxes)
	ran := 0
	for _, block := range regexp.MustCompile("(?s)```sh\n(.*?)```").FindAllSubmatch(readme, -1) {
		for line := range strings.Lines(string(block[1])) {
			line = strings.TrimSpace(line)
			rest, ok := strings.CutPrefix(line, "layshaft ")
			if !ok {
				if rest, ok = strings.CutPrefix(line, "go run ./cmd/layshaft "); !ok {
					continue
				}
			}
			ran++
			var stdout, stderr bytes.Buffer
			code := run(words(rest), env{stdin: strings.NewReader(""), stdout: &stdout, stderr: &stderr, variable: func(string) string { return "" }})
			said := ""
			if _, name, ok := strings.Cut(rest, " --html "); ok {
				said = "Wrote " + words(name)[0] + "\n"
			}
			asked := strings.HasPrefix(stderr.String(), "warning: look at the bench") // of parts that come together nothing else is wrong
			if code != exitHolds || stdout.Len() == 0 || stderr.String() != said && !asked {
				t.Errorf("%s: exit code %d, want %d; stderr:\n%s", line, code, exitHolds, stderr.String())
			}
		}
	}
	if ran < 8 {
		t.Errorf("only %d commands found in the README; is its form still what this test reads?", ran)
	}
}

// words splits a command line at blanks outside of double quotes.
func words(line string) (all []string) {
	for _, m := range regexp.MustCompile(`"([^"]*)"|(\S+)`).FindAllStringSubmatch(line, -1) {
		all = append(all, m[1]+m[2])
	}
	return all
}
