package page

import (
	"slices"
	"strings"

	"layshaft/gearbox"
)

// note is one assumption or warning and everything it belongs to.
type note struct{ Text, Where string }

// notes collects what every part of the results says about itself: each text once, in order of first appearance, with the boxes and
// speeds it belongs to.
func (s *set) notes() []note {
	type found struct {
		text  string
		whole []bool     // by box: said of the whole box
		rows  [][]string // by box: speeds it is said of
	}
	var all []*found
	byText := map[string]*found{}
	add := func(b int, speed string, texts ...string) {
		for _, t := range texts {
			t = clean(strings.TrimSpace(t))
			if t == "" {
				continue
			}
			f := byText[t]
			if f == nil {
				f = &found{t, make([]bool, len(s.results)), make([][]string, len(s.results))}
				byText[t] = f
				all = append(all, f)
			}
			if speed == "" {
				f.whole[b] = true
			} else if !slices.Contains(f.rows[b], speed) {
				f.rows[b] = append(f.rows[b], speed)
			}
		}
	}
	for b, r := range s.results {
		add(b, "", r.Notes...)
	}
	for _, r := range s.rows {
		for b, sp := range r.boxes {
			if sp == nil {
				continue
			}
			for _, texts := range speedNotes(sp) {
				add(b, r.name, texts...)
			}
		}
	}
	out := make([]note, len(all))
	for i, f := range all {
		var where []string
		for b, name := range s.names {
			switch {
			case f.whole[b] || len(f.rows[b]) > 1 && len(f.rows[b]) == len(s.results[b].Speeds):
				where = append(where, name)
			case len(f.rows[b]) > 0:
				where = append(where, name+" "+list(f.rows[b]))
			}
		}
		out[i] = note{f.text, strings.Join(where, "; ")}
	}
	return out
}

// speedNotes is every note inside the result of one speed.
func speedNotes(sp *gearbox.SpeedResult) [][]string {
	texts := [][]string{sp.Notes}
	for i := range sp.Meshes {
		texts = append(texts, sp.Meshes[i].Notes)
	}
	shared, _ := scuffNotes(sp)
	texts = append(texts, shared)
	for i := range sp.Shafts {
		texts = append(texts, sp.Shafts[i].Notes)
	}
	for i := range sp.Margins {
		texts = append(texts, sp.Margins[i].Notes)
	}
	for i := range sp.References {
		texts = append(texts, sp.References[i].Notes)
	}
	return texts
}

// sources numbers where limits come from, in order of first use.
type sources struct {
	list   []string
	number map[string]int
}

// index is the number of a source, from 1; 0 when none is given.
func (s *sources) index(text string) int {
	text = clean(strings.TrimSpace(text))
	if text == "" {
		return 0
	}
	if n, ok := s.number[text]; ok {
		return n
	}
	if s.number == nil {
		s.number = map[string]int{}
	}
	s.list = append(s.list, text)
	s.number[text] = len(s.list)
	return len(s.list)
}
