package reports

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
)

// footnotes numbers notes in the order of their first appearance; the same words get the same number.
type footnotes struct {
	widest int // mark, in columns; marks are never shortened by a table, so a wider one ends in "…"
	texts  []string
	number map[string]int
}

func newFootnotes(o Options) *footnotes {
	return &footnotes{widest: o.widestMark(), number: map[string]int{}}
}

// widestMark is what a table of the wanted width has room for.
func (o Options) widestMark() int {
	if o.width() < mostWidth {
		return 7
	}
	return 11
}

// mark numbers notes and gives the mark for the place they belong to: "¹", "¹,³", "¹⁻⁴"; "" when there are none.
func (f *footnotes) mark(notes ...[]string) string {
	var numbers []int
	for _, text := range slices.Concat(notes...) {
		text = strings.Join(strings.Fields(harmless(text)), " ")
		if text == "" {
			continue
		}
		n, ok := f.number[text]
		if !ok {
			f.texts = append(f.texts, text)
			n = len(f.texts)
			f.number[text] = n
		}
		numbers = append(numbers, n)
	}
	slices.Sort(numbers)
	return superscript(slices.Compact(numbers), f.widest)
}

var raised = strings.NewReplacer("0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹", "-", "⁻")

// superscript writes sorted numbers small and high in at most so many columns, three or more in a row as from–to.
func superscript(numbers []int, widest int) string {
	text := ""
	for i := 0; i < len(numbers); {
		j := i
		for j+1 < len(numbers) && numbers[j+1] == numbers[j]+1 {
			j++
		}
		if j == i+1 {
			j = i // two in a row are two numbers, not a range
		}
		part := strconv.Itoa(numbers[i])
		if j > i {
			part += "-" + strconv.Itoa(numbers[j])
		}
		if text != "" {
			part = "," + part
		}
		room := widest
		if j+1 < len(numbers) {
			room-- // for the "…"
		}
		if count(text)+count(part) > room {
			return text + "…"
		}
		text += raised.Replace(part)
		i = j + 1
	}
	return text
}

// write lists the notes.
func (f *footnotes) write(b *bytes.Buffer, width int) {
	if len(f.texts) == 0 {
		return
	}
	b.WriteString("\nAssumptions and warnings\n")
	digits := len(strconv.Itoa(len(f.texts)))
	for i, text := range f.texts {
		paragraph(b, width, fmt.Sprintf("%s%*d  ", indent, digits, i+1), text)
	}
}

// limitSources lists where the limits that a report shows come from, by kind, each source once.
type limitSources map[gearbox.Kind][]string

func (l limitSources) add(m *gearbox.Margin) {
	source := sourceOf(m.Limit.Source)
	if !slices.Contains(l[m.Kind], source) {
		l[m.Kind] = append(l[m.Kind], source)
	}
}

// sourceOf is a source in one line; that there is none is said.
func sourceOf(text string) string {
	if text = strings.Join(strings.Fields(harmless(text)), " "); text != "" {
		return text
	}
	return "no source was given"
}

// write lists the sources; kinds that share one stand together.
func (l limitSources) write(b *bytes.Buffer, width int) {
	var order []string
	kinds := map[string][]string{}
	for _, k := range gearbox.Kinds() {
		for _, source := range l[k] {
			if kinds[source] == nil {
				order = append(order, source)
			}
			kinds[source] = append(kinds[source], k.String())
		}
	}
	if len(order) == 0 {
		return
	}
	b.WriteString("\nLimits come from\n")
	for _, source := range order {
		paragraph(b, width, indent, strings.Join(kinds[source], "; ")+": "+source)
	}
}

// foot ends a text report.
func foot(b *bytes.Buffer, o Options) {
	b.WriteString("\nCaution\n")
	paragraph(b, o.width(), indent, Caution())
	if o.Version != "" {
		paragraph(b, o.width(), "", "Written by layshaft "+o.Version+".")
	}
}
