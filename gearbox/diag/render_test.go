package diag

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite testdata/render.txt")

// A box file with everything that is hard to show: tabs, long lines, broken UTF-8, terminal codes, a mark that turns the direction of writing.
const source = "\uFEFFlayshaft: 1\r\n" +
	"name: \x1b[31mred\x07\u202e\xff end\r\n" +
	"\tat:\t6 N\n" +
	"about: a line that goes on and on, far beyond what any terminal shows, with the word in question, theeth, close to its middle, and then still more of it up to here\n" +
	"\n" +
	"last: ½ µm"

func TestRender(t *testing.T) {
	sources := map[string][]byte{"alder.yaml": []byte(source)}
	at := func(line, column, width int) Place { return Place{"alder.yaml", line, column, width} }
	middle := strings.Index(strings.Split(source, "\n")[3], "theeth") + 1
	long := "A detail that is longer than the screen is wide has to go on in the next line, and each of its lines stands in as far as the first."
	var got strings.Builder
	for _, c := range []struct {
		name string
		list List
		opt  Style
	}{
		{"one error", List{{Error, at(1, 1, 8), "layshaft", `unknown key "layshaft"`, "Known here: name."}}, Style{}},
		{"colour", List{{Error, at(1, 11, 1), "", "wrong", "Detail."}, {Warning, at(1, 1, 8), "", "odd", ""}}, Style{Colour: true}},
		{"control characters", List{{Error, at(2, 7, 3), "", "bad \x1b[0m name", "Found \x1b[31m."}}, Style{}},
		{"caret behind replaced runes", List{{Error, at(2, 18, 3), "", "here", ""}}, Style{}},
		{"tabs", List{{Error, at(3, 2, 2), "", "key", ""}, {Error, at(3, 6, 3), "", "value", ""}, {Error, at(3, 1, 1), "", "tab", ""}}, Style{}},
		{"long line", List{{Error, at(4, 1, 5), "", "start", ""}, {Error, at(4, middle, 6), "", "middle", ""}, {Error, at(4, 158, 4), "", "end", ""}, {Error, at(4, 8, 150), "", "nearly all", ""}}, Style{}},
		{"narrow", List{{Error, at(4, middle, 6), "", "a summary that does not fit into one line of the screen", long}}, Style{Width: 50}},
		{"narrower than allowed", List{{Error, at(4, middle, 6), "", "middle", long}}, Style{Width: 3}},
		{"empty line", List{{Error, at(5, 1, 1), "", "nothing", ""}}, Style{}},
		{"beyond the line", List{{Error, at(6, 40, 5), "", "far", ""}, {Error, at(6, 9, 40), "", "wide", ""}}, Style{}},
		{"beyond the file", List{{Error, at(60, 1, 1), "", "gone", "No line."}}, Style{}},
		{"line alone", List{{Error, Place{File: "alder.yaml", Line: 6}, "", "line", ""}}, Style{}},
		{"file alone", List{{Error, Place{File: "alder.yaml"}, "", "file", "Two lines\nof detail."}}, Style{}},
		{"no place", List{{Error, Place{}, "gears.a", "no place", "Detail."}}, Style{}},
		{"unknown file", List{{Error, Place{"birch.yaml", 3, 4, 5}, "", "elsewhere", "Detail."}}, Style{}},
	} {
		fmt.Fprintf(&got, "## %s\n\n", c.name)
		if err := c.list.Render(&got, sources, c.opt); err != nil {
			t.Fatal(err)
		}
		got.WriteString("\n")
	}
	file := filepath.Join("testdata", "render.txt")
	if *update {
		if err := os.WriteFile(file, []byte(got.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	gotParts, wantParts := strings.Split(got.String(), "## "), strings.Split(string(want), "## ")
	if len(gotParts) != len(wantParts) {
		t.Errorf("%d cases, %d in %s", len(gotParts)-1, len(wantParts)-1, file)
	}
	for i := range min(len(gotParts), len(wantParts)) {
		if gotParts[i] != wantParts[i] {
			t.Errorf("got  %s\nwant %s", gotParts[i], wantParts[i])
		}
	}
}

// Whatever a file holds, nothing of it may reach the terminal as a command.
func TestRenderIsHarmless(t *testing.T) {
	var evil strings.Builder
	for r := rune(0); r < 0x3000; r++ {
		evil.WriteRune(r)
	}
	text := evil.String()
	list := List{{Error, Place{text, 1, 1, 1}, text, text, text}}
	var out strings.Builder
	if err := list.Render(&out, map[string][]byte{text: []byte(text)}, Style{}); err != nil {
		t.Fatal(err)
	}
	for _, r := range out.String() {
		if r < ' ' && r != '\n' || r >= 0x7f && r < 0xa0 || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
			t.Errorf("U+%04X reaches the screen", r)
		}
	}
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, os.ErrClosed }

func TestRenderReportsAFailingWriter(t *testing.T) {
	if err := (List{{Summary: "x"}}).Render(failing{}, nil, Style{}); err == nil {
		t.Error("the error of the writer is lost")
	}
}
