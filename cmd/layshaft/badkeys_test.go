package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/quantity"
)

// foreign are words of the program that no finding may hold: they say nothing to who wrote the file.
var foreign = regexp.MustCompile(`\bNaN\b|[+-]?Inf\b|%!|<nil>|\bnil\b|strconv|yaml:|runtime|interface|panic|goroutine|float64|\d\.\d{9,}`)

// mayBeNegative are the numbers that may be less than zero: places along the box, what has two senses, and signed changes of form.
var mayBeNegative = []string{
	"shafts.NAME.axis.y", "shafts.NAME.axis.z", "shafts.NAME.start", "gears.NAME.shift", "gears.NAME.lead_error", "gears.NAME.seat.offset", "duty.steps[].torque", "limits.reserve",
	"shafts.NAME.bearings.NAME.elements.contact_angle", "shafts.NAME.bearings.NAME.elements.clearance",
}

// mayBeZero are the numbers of which next to nothing is as good as none of it.
var mayBeZero = regexp.MustCompile(`from (0|-[0-9.]+)( |$|,|°)|\b0°`)

// isText are the keys whose value is any text.
var isText = []string{"name", "about", "history[].note", "steels.NAME.source"}

// Every key of a box file, with a value of the wrong kind, a negative one, an absurd one and a word that nobody knows: each is refused with exit code 2, with its line and
// column, and in words of the trade.
func TestEveryKeyRefusesWhatCantBe(t *testing.T) {
	if testing.Short() {
		t.Skip("much of the same way again")
	}
	files, err := filepath.Glob("../../gearbox/boxfile/testdata/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	var texts []string
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, string(data))
	}
	for _, k := range boxfile.Schema() {
		text := slices.IndexFunc(texts, func(text string) bool { _, ok := spoilt(t, text, k.Path, "x"); return ok })
		if text < 0 {
			t.Errorf("no box of testdata has %s", k.Path)
			continue
		}
		for name, value := range badValues(k) {
			bad, _ := spoilt(t, texts[text], k.Path, value)
			var stdout, stderr bytes.Buffer
			code := run([]string{"check", "-"}, env{stdin: strings.NewReader(bad), stdout: &stdout, stderr: &stderr, variable: func(string) string { return "" }})
			says := stderr.String()
			if code != exitUsage || !strings.Contains(says, "error: ") || stdout.Len() > 0 {
				t.Errorf("%s, %s (%s): exit code %d, written as %s\n%s", k.Path, name, value, code, k.Written, says)
			}
			if word := foreign.FindString(says); word != "" {
				t.Errorf("%s, %s (%s): the finding says %q\n%s", k.Path, name, value, word, says)
			}
			for block := range strings.SplitSeq(says, "\n\n") {
				if strings.HasPrefix(block, "error: ") && !regexp.MustCompile(`standard input:\d+:\d+\n`).MatchString(block) {
					t.Errorf("%s, %s (%s): a finding without a place\n%s", k.Path, name, value, block)
				}
			}
		}
	}
}

// badValues are values that can't stand at a key, as YAML, by what is wrong with them.
func badValues(k boxfile.Key) map[string]string {
	bad := map[string]string{"a list of lists": "[[1], [2]]"}
	if slices.Contains(isText, k.Path) {
		bad["a text without an end"] = strings.Repeat("x", 5000)
		return bad
	}
	bad["an unknown word"] = "blorp"
	unit := ""
	if k.Number && !k.Whole {
		unit = " " + quantity.Units(k.Dimension)[0]
	}
	bad["an absurd value"] = "1e30" + unit
	if !k.Number || !slices.Contains(mayBeNegative, k.Path) {
		bad["a negative value"] = "-5" + unit
	}
	if k.Number {
		bad["a map"] = "{low: 1, high: 2}"
		bad["no number"] = ".nan" + unit
		if !mayBeZero.MatchString(k.Written) {
			bad["next to nothing"] = "1e-30" + unit
		}
	}
	return bad
}

// spoilt is a box file with another value at the first place of a key; not ok when the key isn't in it.
func spoilt(t *testing.T, text, pattern, value string) (bad string, ok bool) {
	t.Helper()
	var doc, with yaml.Node
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	if err := yaml.Unmarshal([]byte(value), &with); err != nil {
		t.Fatal(err)
	}
	at := find(doc.Content[0], strings.Split(strings.ReplaceAll(pattern, "[]", ".[]"), "."))
	if at == nil {
		return "", false
	}
	*at = *with.Content[0]
	out, err := yaml.Marshal(&doc)
	if err != nil {
		t.Fatal(err)
	}
	return string(out), true
}

// find is the first node at a key path in which NAME stands for any name and [] for any item of a list; nil when there is none.
func find(n *yaml.Node, steps []string) *yaml.Node {
	if n.Kind == yaml.AliasNode {
		n = n.Alias
	}
	if len(steps) == 0 {
		return n
	}
	for i, c := range n.Content {
		if n.Kind == yaml.MappingNode {
			if key := n.Content[i&^1].Value; i%2 == 0 || steps[0] != "NAME" && steps[0] != key {
				continue
			}
		}
		if n.Kind == yaml.SequenceNode && steps[0] != "[]" {
			continue
		}
		if found := find(c, steps[1:]); found != nil {
			return found
		}
	}
	return nil
}
