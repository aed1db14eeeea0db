package boxfile

import (
	"slices"
	"unicode"
	"unicode/utf8"

	"layshaft/gearbox/diag"

	"gopkg.in/yaml.v3"
)

// extent is the place of a node: where its text begins, without anchor or tag, and how long it is on its first line. The YAML
// reader tells only where a node starts.
func (r *reader) extent(n *yaml.Node) diag.Place {
	if t, ok := r.typed[n]; ok {
		if t.original == nil {
			return t.place
		}
		n = t.original
	}
	if place, ok := r.placed[n]; ok {
		return place
	}
	place := diag.Place{File: r.file, Line: n.Line, Column: n.Column, Width: 1}
	if n.Line < 1 || n.Line > len(r.lines) {
		return place
	}
	line := r.lines[n.Line-1]
	start := min(max(n.Column-1, 0), len(line))
	start = skipProperties(line, start)
	place.Column = start + 1
	rest := line[start:]
	switch {
	case n.Kind == yaml.AliasNode:
		place.Width = 1 + utf8.RuneCountInString(n.Value)
	case n.Kind == yaml.MappingNode && n.Style&yaml.FlowStyle == 0 && len(n.Content) > 0:
		if key := r.extent(n.Content[0]); key.Line == n.Line {
			place.Width = key.Width
		}
	case n.Kind != yaml.ScalarNode:
	case n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0:
		place.Width = quotedWidth(rest)
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
	default:
		place.Width = max(plainWidth(rest, n.Value), 1)
	}
	return place
}

// plainWidth is the width of plain text at the start of rest; to the end of the line when it goes on in the next.
func plainWidth(rest []rune, value string) int {
	n := 0
	for _, c := range value {
		if n == len(rest) || rest[n] != c {
			n = len(rest)
			break
		}
		n++
	}
	for n > 0 && unicode.IsSpace(rest[n-1]) {
		n--
	}
	return n
}

// skipProperties steps over an anchor (&name) and a tag (!!int) that stand before a value.
func skipProperties(line []rune, start int) int {
	for start < len(line) && (line[start] == '&' || line[start] == '!') {
		next := start
		for next < len(line) && !unicode.IsSpace(line[next]) {
			next++
		}
		for next < len(line) && unicode.IsSpace(line[next]) {
			next++
		}
		if next == len(line) {
			return start // the value begins in the next line
		}
		start = next
	}
	return start
}

// quotedWidth is the width of the quoted text at the start of rest, with its quotation marks; to the end of the line when it goes on.
func quotedWidth(rest []rune) int {
	if len(rest) == 0 {
		return 1
	}
	mark := rest[0]
	for i := 1; i < len(rest); i++ {
		switch {
		case mark == '"' && rest[i] == '\\':
			i++
		case rest[i] == mark && mark == '\'' && i+1 < len(rest) && rest[i+1] == mark:
			i++
		case rest[i] == mark:
			return i + 1
		}
	}
	return len(rest)
}

// part is the place of some runes within the text of a value; of the whole value when the text in the file is not the text of the value
// letter for letter.
func (r *reader) part(at spot, offset, width int) diag.Place {
	place := at.place
	if t, ok := r.typed[at.node]; ok && t.place.Width >= offset+width && t.place.Width == len([]rune(at.node.Value)) {
		place.Column += offset
		place.Width = max(width, 1)
		return place
	}
	if at.alias || at.node.Kind != yaml.ScalarNode || place.Line < 1 || place.Line > len(r.lines) || place.File != r.file {
		return place
	}
	value := []rune(at.node.Value)
	start := place.Column - 1
	if at.node.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 {
		start++
	}
	line := r.lines[place.Line-1]
	if end := start + len(value); end > len(line) || !slices.Equal(line[start:end], value) || offset > len(value) {
		return place
	}
	place.Column = start + offset + 1
	place.Width = max(width, 1)
	return place
}
