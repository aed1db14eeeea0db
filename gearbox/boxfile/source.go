package boxfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"layshaft/gearbox/diag"

	"gopkg.in/yaml.v3"
)

// parse turns the bytes of a file into the root node of its one document; nil when that can't be done, which is then among the findings.
func (r *reader) parse(data []byte) *yaml.Node {
	top := diag.Place{File: r.file, Line: 1, Column: 1, Width: 1}
	if len(data) > largest {
		r.fault(diag.Place{File: r.file}, "", "file too large", "A box file has at most 1 MB; this one is larger. Is it a box file?")
		return nil
	}
	data = bytes.TrimPrefix(data, []byte("\uFEFF"))
	for _, line := range diag.Lines(data) {
		r.lines = append(r.lines, []rune(line))
	}
	if !r.readable(data) {
		return nil
	}
	decoder := yaml.NewDecoder(bytes.NewReader(data))
	var first, second yaml.Node
	switch err := decoder.Decode(&first); {
	case errors.Is(err, io.EOF):
		r.fault(top, "", "empty file", r.begins)
		return nil
	case err != nil:
		r.notYAML(err, data)
		return nil
	}
	switch err := decoder.Decode(&second); {
	case errors.Is(err, io.EOF):
	case err != nil:
		r.notYAML(err, data)
		return nil
	default:
		r.fault(r.extent(&second), "", "a second document", "A line with --- begins a second document; a box file is one. Write the other box into a file of its own.")
	}
	root := first.Content[0]
	if root.Kind == yaml.ScalarNode && root.ShortTag() == "!!null" {
		r.fault(top, "", "empty file", r.begins)
		return nil
	}
	return root
}

// readable refuses what is no text at all, with the place of the first offence.
func (r *reader) readable(data []byte) bool {
	for i, line := range bytes.Split(data, []byte("\n")) {
		if !utf8.Valid(line) {
			column := 1
			for rest := line; ; column++ {
				c, size := utf8.DecodeRune(rest)
				if c == utf8.RuneError && size <= 1 {
					break
				}
				rest = rest[size:]
			}
			r.fault(diag.Place{File: r.file, Line: i + 1, Column: column, Width: 1}, "", "not UTF-8", "The file holds bytes that are not UTF-8 text: save it as UTF-8.")
			return false
		}
	}
	for i, line := range r.lines {
		for j, c := range line {
			if c < ' ' && c != '\t' || c >= 0x7F && c < 0xA0 {
				r.fault(diag.Place{File: r.file, Line: i + 1, Column: j + 1, Width: 1}, "", "a control character",
					fmt.Sprintf("The file holds the control character U+%04X: delete it.", c))
				return false
			}
		}
	}
	return true
}

var (
	yamlError  = regexp.MustCompile(`^(?s:yaml: (?:line (\d+): )?(.*))$`)
	anchorName = regexp.MustCompile(`unknown anchor '([^']*)'`)
)

// What the YAML reader says, and what that most likely means to the person who wrote the file.
var yamlAdvice = []struct{ says, advice string }{
	{"cannot start any token", "A sign stands where a key or a value should begin. Put text that begins with such a sign in quotation marks."},
	{"mapping values are not allowed", "There is a colon too many here, or the line stands too far to the right. Text that holds \": \" goes in quotation marks."},
	{"could not find expected ':'", "A key without its colon: write \"key: value\", with a space behind the colon."},
	{"did not find expected key", "The line doesn't stand under its neighbours, or a quotation mark or bracket before it was left open."},
	{"did not find expected '-' indicator", "The line doesn't stand under the other items of its list; each begins with \"- \" in the same column."},
	{"did not find expected ',' or '}'", "A comma or the closing } is missing."},
	{"did not find expected ',' or ']'", "A comma or the closing ] is missing."},
	{"unexpected end of stream", "The file ends inside quotation marks or brackets that were left open."},
	{"unknown anchor", "There is no anchor of that name before the alias."},
}

// notYAML reports the error with which the YAML reader stopped.
func (r *reader) notYAML(err error, data []byte) {
	parts := yamlError.FindStringSubmatch(err.Error())
	if parts == nil {
		parts = []string{"", "", err.Error()}
	}
	said := parts[2]
	line, ok := firstBadLine(data)
	if !ok {
		line, _ = strconv.Atoi(parts[1])
	}
	line = min(max(line, 1), len(r.lines))
	if column, ok := indentTab(r.lines[line-1]); ok {
		r.fault(diag.Place{File: r.file, Line: line, Column: column, Width: 1}, "", "a tab", "YAML doesn't allow tabs before a key: indent with spaces.")
		return
	}
	place := r.wholeLine(line)
	if m := anchorName.FindStringSubmatch(said); m != nil {
		place = r.find("*" + m[1])
	}
	detail := sentence(said)
	for _, a := range yamlAdvice {
		if strings.Contains(said, a.says) {
			detail = a.advice
			break
		}
	}
	r.fault(place, "", "not readable as YAML", detail)
}

// firstBadLine is the line from which on the file can't be read: with the lines before it, it is sound, with it and any number of the lines that
// follow it isn't. The YAML reader itself names the line where the map or list around the mistake begins, or none. Not ok when the
// file is too large to be read some dozens of times.
func firstBadLine(data []byte) (line int, ok bool) {
	const (
		large = 100_000 // bytes
		trust = 25      // following lines that are tried
		most  = 300     // readings of a part of the file
	)
	if len(data) > large {
		return 0, false
	}
	lines := bytes.SplitAfter(data, []byte("\n"))
	readings := 0
	sound := func(n int) bool {
		readings++
		decoder := yaml.NewDecoder(bytes.NewReader(bytes.Join(lines[:n], nil)))
		for {
			var node yaml.Node
			if err := decoder.Decode(&node); err != nil {
				return errors.Is(err, io.EOF)
			}
		}
	}
	good, bad := 0, len(lines)
	for bad-good > 1 && readings < most {
		if middle := (good + bad) / 2; sound(middle) {
			good = middle
		} else {
			bad = middle
		}
		if bad-good > 1 {
			continue
		}
		// A bracket that is closed some lines later makes the lines in between unreadable, but isn't the mistake.
		for n := bad + 1; n < min(bad+trust, len(lines)); n++ {
			if sound(n) {
				good, bad = n, len(lines)
				break
			}
		}
	}
	return bad, readings < most
}

// indentTab is the column of the first tab among the spaces before the text of a line.
func indentTab(line []rune) (column int, ok bool) {
	for i, c := range line {
		switch {
		case c == '\t' && strings.TrimSpace(string(line[i:])) != "":
			return i + 1, true
		case c != ' ':
			return 0, false
		}
	}
	return 0, false
}

func (r *reader) wholeLine(line int) diag.Place {
	text := string(r.lines[line-1])
	trimmed := strings.TrimLeft(text, " ")
	return diag.Place{File: r.file, Line: line, Column: len(text) - len(trimmed) + 1, Width: utf8.RuneCountInString(strings.TrimRight(trimmed, " "))}
}

func (r *reader) find(word string) diag.Place {
	for i, line := range r.lines {
		before, _, found := strings.Cut(string(line), word)
		if found {
			return diag.Place{File: r.file, Line: i + 1, Column: utf8.RuneCountInString(before) + 1, Width: utf8.RuneCountInString(word)}
		}
	}
	return diag.Place{File: r.file}
}

// sentence is text with a capital first letter and a full stop.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(text)
	return strings.ToUpper(string(first)) + text[size:] + "."
}
