package reports

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/reports/view"
)

// remark is something a result says beside its numbers: a thing to check, or an assumption.
type remark struct {
	text  string
	mesh  string // of which it is said, and which its text doesn't name; "" = of something else
	check bool   // to be looked at before the numbers are trusted
}

// remarks are what a mesh, or with "" something else, says beside its numbers.
func remarks(mesh string, checks, notes []string) (all []remark) {
	for i, list := range [][]string{checks, notes} {
		for _, text := range list {
			if text = strings.Join(strings.Fields(view.Clean(text)), " "); text != "" {
				all = append(all, remark{text, view.Clean(mesh), i == 0})
			}
		}
	}
	return all
}

// footnote is a remark with its number and the meshes that it is said of.
type footnote struct {
	remark
	number int
	meshes []string
}

// footnotes numbers remarks: what is to be checked before what was assumed, each in the order of its first appearance. The same words said of several meshes are one remark.
type footnotes struct {
	widest int // mark, in columns; marks are never shortened by a table, so a wider one ends in "…"
	all    []*footnote
	known  map[remark]*footnote
}

// annotated makes a report whose marks need all of its remarks beforehand: it is written once to find them and once more to keep. write gets the footnotes to mark
// with and where to put the text; the lists follow it.
func annotated(o Options, write func(b *bytes.Buffer, notes *footnotes, sources limitSources)) *bytes.Buffer {
	notes := &footnotes{widest: o.widestMark(), known: map[remark]*footnote{}}
	write(&bytes.Buffer{}, notes, limitSources{})
	slices.SortStableFunc(notes.all, func(a, b *footnote) int { return boolInt(b.check) - boolInt(a.check) })
	for i, n := range notes.all {
		n.number = i + 1
	}
	var b bytes.Buffer
	sources := limitSources{}
	write(&b, notes, sources)
	notes.write(&b, o.width())
	sources.write(&b, o.width())
	foot(&b, o)
	return &b
}

// widestMark is what a table of the wanted width has room for.
func (o Options) widestMark() int {
	if o.width() < mostWidth {
		return 7
	}
	return 11
}

// mark gives the mark for the place that remarks belong to: "¹", "¹,³", "¹⁻⁴"; "" when there are none.
func (f *footnotes) mark(lists ...[]remark) string {
	var numbers []int
	for _, r := range slices.Concat(lists...) {
		key := r
		if key.mesh != "" {
			key.mesh = "any"
		}
		n := f.known[key]
		if n == nil {
			n = &footnote{remark: r}
			f.known[key] = n
			f.all = append(f.all, n)
		}
		if r.mesh != "" && !slices.Contains(n.meshes, r.mesh) {
			n.meshes = append(n.meshes, r.mesh)
		}
		numbers = append(numbers, n.number)
	}
	slices.Sort(numbers)
	return superscript(slices.Compact(numbers), f.widest)
}

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
		if view.Width(text)+view.Width(part) > room {
			return text + "…"
		}
		text += view.Superscript(part)
		i = j + 1
	}
	return text
}

// write lists the remarks.
func (f *footnotes) write(b *bytes.Buffer, width int) {
	digits := len(strconv.Itoa(len(f.all)))
	for i, n := range f.all {
		switch {
		case i == 0 && n.check:
			b.WriteString("\nCheck these\n")
		case i == 0 || f.all[i-1].check && !n.check:
			b.WriteString("\nAssumptions\n")
		}
		text := n.text
		if len(n.meshes) > 0 {
			text = view.Capital(gearbox.MeshTitle(n.meshes)) + ": " + text
		}
		paragraph(b, width, fmt.Sprintf("%s%*d  ", indent, digits, n.number), text)
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
	if text = strings.Join(strings.Fields(view.Clean(text)), " "); text != "" {
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

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}
