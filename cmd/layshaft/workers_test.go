package main

import (
	"bytes"
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

// However many processors there are to work on it, an answer is the same to the byte: text, JSON and page. One speed has all that is shared out among them.
func TestAnswersDoNotDependOnTheProcessors(t *testing.T) {
	page := filepath.Join(t.TempDir(), "page.html")
	at := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(at)
	for _, args := range [][]string{
		{"check", alder, birch, "--speed", "1st"},
		{"compare", alder, birch, "--speed", "1st"},
		{"headroom", alder, "--speed", "1st", "--what-if", "gears.first wheel.face=26 mm", "--what-if", "gears.first pinion.face=27 mm"},
		{"sweep", alder, "--speed", "1st", "--over", "gears.first pinion.face=22 mm..26 mm", "--steps", "4"},
	} {
		var first [3][]byte
		for _, workers := range []int{1, 2, 8} {
			runtime.GOMAXPROCS(workers)
			text := demonstration(t, append(args, "--html", page)...)
			shown, err := os.ReadFile(page)
			if err != nil {
				t.Fatal(err)
			}
			got := [3][]byte{text, demonstration(t, append(args, "--format", "json")...), shown}
			for i, form := range []string{"text", "JSON", "page"} {
				switch {
				case workers == 1:
					first[i] = got[i]
				case !bytes.Equal(got[i], first[i]):
					t.Errorf("%s: the %s on %d processors isn't that on one", args[0], form, workers)
				}
			}
		}
	}
}
