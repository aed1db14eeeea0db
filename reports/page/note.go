package page

import (
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/reports/view"
)

// note is one thing to check or one assumption, and everything it belongs to.
type note struct{ Text, Where string }

// said is a note as a part of the results says it: mesh is of which it is said, "" = of something else.
type said struct {
	mesh, text string
	check      bool
}

// notes collects what every part of the results says about itself: each text once, in order of first appearance, with the meshes in front of it
// and the boxes and speeds it belongs to behind. What is to be checked stands apart from what was assumed.
func (s *set) notes() (checks, assumed []note) {
	type found struct {
		said
		meshes []string
		whole  []bool     // by box: said of the whole box
		rows   [][]string // by box: speeds it is said of
	}
	var all []*found
	known := map[said]*found{}
	add := func(b int, speed string, list ...said) {
		for _, n := range list {
			if n.text = view.Clean(strings.TrimSpace(n.text)); n.text == "" {
				continue
			}
			key := n
			if n.mesh != "" {
				key.mesh = "any"
			}
			f := known[key]
			if f == nil {
				f = &found{n, nil, make([]bool, len(s.results)), make([][]string, len(s.results))}
				known[key] = f
				all = append(all, f)
			}
			if mesh := view.Clean(n.mesh); mesh != "" && !slices.Contains(f.meshes, mesh) {
				f.meshes = append(f.meshes, mesh)
			}
			if speed == "" {
				f.whole[b] = true
			} else if !slices.Contains(f.rows[b], speed) {
				f.rows[b] = append(f.rows[b], speed)
			}
		}
	}
	for b, r := range s.results {
		add(b, "", sayings("", r.Checks, r.Notes)...)
	}
	for _, r := range s.rows {
		for b, sp := range r.boxes {
			if sp != nil {
				add(b, r.name, speedNotes(sp)...)
			}
		}
	}
	for _, f := range all {
		var where []string
		for b, name := range s.names {
			switch {
			case f.whole[b] || len(f.rows[b]) > 1 && len(f.rows[b]) == len(s.results[b].Speeds):
				where = append(where, name)
			case len(f.rows[b]) > 0:
				where = append(where, name+" "+view.List(f.rows[b]))
			}
		}
		n := note{f.text, strings.Join(where, "; ")}
		if len(f.meshes) > 0 {
			n.Text = "M" + gearbox.MeshTitle(f.meshes)[1:] + ": " + f.text
		}
		if f.check {
			checks = append(checks, n)
		} else {
			assumed = append(assumed, n)
		}
	}
	return checks, assumed
}

func sayings(mesh string, checks, notes []string) (all []said) {
	for _, t := range checks {
		all = append(all, said{mesh, t, true})
	}
	for _, t := range notes {
		all = append(all, said{mesh, t, false})
	}
	return all
}

// speedNotes is all that is said inside the result of one speed.
func speedNotes(sp *gearbox.SpeedResult) []said {
	all := sayings("", sp.Checks, sp.Notes)
	for i := range sp.Meshes {
		m := &sp.Meshes[i]
		all = append(all, sayings(m.Name, m.Checks, m.Notes)...)
	}
	shared, _ := scuffNotes(sp)
	all = append(all, sayings("", nil, shared)...)
	for i := range sp.Shafts {
		all = append(all, sayings("", nil, sp.Shafts[i].Notes)...)
	}
	for i := range sp.Margins {
		all = append(all, sayings("", nil, sp.Margins[i].Notes)...)
	}
	for i := range sp.References {
		all = append(all, sayings("", nil, sp.References[i].Notes)...)
	}
	return all
}

// sources numbers where limits come from, in order of first use.
type sources struct {
	list   []string
	number map[string]int
}

// index is the number of a source, from 1; 0 when none is given.
func (s *sources) index(text string) int {
	text = view.Clean(strings.TrimSpace(text))
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
