package main

import (
	"encoding/json"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// A table as somebody reads it: its caption, its heads, and the words of its cells row by row, without marks of notes and numbers of
// sources.
type readTable struct {
	caption string
	heads   []string
	rows    [][]string
}

var (
	pageTable   = regexp.MustCompile(`(?s)<table class="grid[^"]*"><caption>(.*?)</caption>\s*<thead>(.*?)</thead>\s*<tbody>(.*?)</tbody>`)
	pageCells   = regexp.MustCompile(`<t[hd][^>]*>`)
	sourceMark  = regexp.MustCompile(`\[\d+\]`)
	raisedMarks = regexp.MustCompile(`[⁰¹²³⁴⁵⁶⁷⁸⁹⁻]+(,[⁰¹²³⁴⁵⁶⁷⁸⁹⁻]+)*…?`)
)

// tablesOfPage are the tables of a page.
func tablesOfPage(page string) (all []readTable) {
	for _, m := range pageTable.FindAllStringSubmatch(page, -1) {
		t := readTable{caption: plainly(m[1]), heads: cellsOf(m[2])}
		for _, row := range strings.Split(m[3], "<tr>")[1:] {
			t.rows = append(t.rows, cellsOf(row))
		}
		all = append(all, t)
	}
	return all
}

// cellsOf are the cells of a row of a page.
func cellsOf(row string) (cells []string) {
	for _, cell := range pageCells.Split(row, -1)[1:] {
		cells = append(cells, plainly(cell))
	}
	return cells
}

// headed reports whether a text has a column of that head: the page alone has room for some.
func headed(head, heads string) bool {
	first, _, _ := strings.Cut(strings.Trim(strings.ToLower(head), ", "), " ")
	first = strings.Trim(first, ",")
	return first == "" || slices.ContainsFunc(strings.Fields(strings.ToLower(heads)), func(word string) bool {
		return word == first || strings.HasSuffix(word, "-") && strings.HasPrefix(first, strings.TrimSuffix(word, "-"))
	})
}

// plainly is a text of a page or a report as it is read aloud.
func plainly(text string) string {
	text = html.UnescapeString(tags.ReplaceAllString(text, " "))
	return aloud(strings.NewReplacer("−", "-", "⋯", "…").Replace(sourceMark.ReplaceAllString(text, "")))
}

// sectionOfText is the part of a text report below a caption, down to the next empty line, as the words in it.
func sectionOfText(report, caption string) (words string, found bool) {
	_, rest, found := strings.Cut(report, "\n  "+caption+"\n")
	part, _, _ := strings.Cut(rest, "\n\n")
	return part, found
}

// What a report and its page have in common says the same: every number, sign and word of a table stands in the table of the same
// caption in the other, row for row. The margins and the torques of the limits are those of the JSON, rounded.
func TestTextPageAndJSONAreAlike(t *testing.T) {
	if testing.Short() {
		t.Skip("much of the same way again")
	}
	compared := 0
	for _, s := range situations() {
		t.Run(s.name, func(t *testing.T) {
			file := s.written(t)
			name := filepath.Join(t.TempDir(), "page.html")
			_, report := ask(t, append([]string{"check", file, "--html", name}, s.args...)...)
			raw, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			compared += alike(t, report, string(raw))
			_, data := ask(t, append([]string{"check", file, "--format", "json"}, s.args...)...)
			limitsAreThoseOf(t, data, tablesOfPage(string(raw)))
		})
	}
	for _, args := range [][]string{
		{"headroom", "../../testdata/alder.yaml", "--add", "30 N·m", "--what-if", "gears.first pinion.face=28 mm"}, {"ratios", "../../testdata/alder.yaml", "../../testdata/birch.yaml"},
		{"compare", "../../testdata/alder.yaml", "../../testdata/birch.yaml"},
	} {
		t.Run(args[0], func(t *testing.T) {
			name := filepath.Join(t.TempDir(), "page.html")
			_, report := ask(t, append(args, "--html", name)...)
			raw, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			compared += alike(t, report, string(raw))
		})
	}
	if compared < 150 {
		t.Errorf("only %d tables were held against each other", compared)
	}
}

// A cell of a number, a range, a state, or one of the words that stand for a number: none of them is shortened or wrapped.
var whole = regexp.MustCompile(`^(?:[-+≥≤(> ]*\d[-\d+ .,…e)]*|[✓!✗] \w+(?: ▾)?|endless|at once|not reached|n/a|(?:not )?passed|in its range)$`)

// alike holds the tables of a page against those of the same caption in a text, and says how many there were.
func alike(t *testing.T, report, page string) (compared int) {
	t.Helper()
	for _, table := range tablesOfPage(page) {
		part, found := sectionOfText(report, table.caption)
		if !found {
			continue
		}
		compared++
		heads, _, _ := strings.Cut(part, "─")
		lines := strings.Split(raisedMarks.ReplaceAllString(part, ""), "\n")
		for i := range lines {
			lines[i] = plainly(lines[i])
		}
		for i, row := range table.rows {
			var cells []string
			for k, cell := range row {
				once := k == 0 && i > 0 && cell == table.rows[i-1][0] // the text says it once
				if whole.MatchString(cell) && headed(table.heads[k], heads) && !once {
					cells = append(cells, cell)
				}
			}
			if !slices.ContainsFunc(lines, func(line string) bool { return inOrder(line, cells) }) {
				t.Errorf("%s: the page has %q in the row %q, no line of the text has:\n%s", table.caption, cells, row, part)
			}
		}
	}
	return compared
}

// inOrder reports whether words stand whole in a line, one behind the other.
func inOrder(line string, all []string) bool {
	line = " " + line + " "
	for _, words := range all {
		i := strings.Index(line, " "+words+" ")
		if i < 0 {
			return false
		}
		line = line[i+len(words)+1:]
	}
	return true
}

// limitsAreThoseOf holds the limits of the JSON against those that the page lists: the margin with its sign, and the torque.
func limitsAreThoseOf(t *testing.T, data string, tables []readTable) {
	t.Helper()
	var j judged
	if err := json.Unmarshal([]byte(data), &j); err != nil {
		t.Fatal(err)
	}
	speed := -1
	for _, table := range tables {
		if !strings.HasPrefix(table.caption, "Every limit that decides") {
			continue
		}
		speed++
		margins := j.Boxes[0].Speeds[speed].Margins
		for _, row := range table.rows {
			item, shown, torque := row[1], row[3], row[4]
			if !isOneOf(margins, item, shown, torque, j.Boxes[0].Level) {
				t.Errorf("speed %d: no limit of %s in JSON has the margin %s and the torque %s", speed, item, shown, torque)
			}
		}
	}
	if speed+1 != len(j.Boxes[0].Speeds) {
		t.Errorf("the page lists the limits of %d speeds, JSON those of %d", speed+1, len(j.Boxes[0].Speeds))
	}
}

// isOneOf reports whether a limit of a part has a margin and a torque as they are shown.
func isOneOf(margins []judgedLimit, item, margin, torque, level string) bool {
	near := func(shown string, v *float64, factor float64) bool {
		if v == nil {
			return shown == "not reached"
		}
		if shown == "> 1000" {
			return *v >= 10
		}
		number, err := strconv.ParseFloat(strings.TrimPrefix(shown, "+"), 64)
		if err != nil || strings.HasPrefix(shown, "+") && *v <= 0 || strings.HasPrefix(shown, "-") && *v >= 0 {
			return false
		}
		_, after, _ := strings.Cut(shown, ".")
		return math.Abs(number-factor**v) <= 0.5000001*math.Pow(10, -float64(len(after)))
	}
	for i := range margins {
		m := &margins[i]
		allowable := map[string]*float64{"low": m.Low, "typical": m.Typical, "high": m.High}[level]
		if m.Item == item && near(margin, m.Margin, 100) && near(torque, allowable, 1) {
			return true
		}
	}
	return false
}
