package view

import (
	"slices"
	"strings"

	"layshaft/gearbox"
)

// Remark is something a result says beside its numbers: a thing to check, or an assumption.
type Remark struct {
	Text  string
	Mesh  string // of which it is said, and which its text doesn't name; "" = of something else
	Check bool   // to be looked at before the numbers are trusted
}

// remarks are what a mesh, or with "" something else, says beside its numbers.
func remarks(mesh string, checks, notes []string) (all []Remark) {
	for i, list := range [][]string{checks, notes} {
		for _, text := range list {
			if text = Line(text); text != "" {
				all = append(all, Remark{text, Clean(mesh), i == 0})
			}
		}
	}
	return all
}

// BoxRemarks are what is said of a box as a whole.
func BoxRemarks(r *gearbox.Result) []Remark { return remarks("", r.Checks, r.Notes) }

// speedRemarks are those of a speed and of all that it loads.
func speedRemarks(s *gearbox.SpeedResult) []Remark {
	all := remarks("", s.Checks, s.Notes)
	for i := range s.Meshes {
		m := &s.Meshes[i]
		all = append(all, remarks(m.Name, m.Checks, m.Notes)...)
	}
	for i := range s.Shafts {
		all = append(all, remarks("", nil, s.Shafts[i].Notes)...)
	}
	for i := range s.Margins {
		all = append(all, remarks("", nil, s.Margins[i].Notes)...)
	}
	return all
}

// screenRemarks are those of what decides nothing in a speed: the screens for scuffing and the second opinions.
func screenRemarks(s *gearbox.SpeedResult) (all []Remark) {
	for i := range s.Meshes {
		all = append(all, scuffRemarks(&s.Meshes[i])...)
	}
	for i := range s.References {
		all = append(all, remarks("", nil, s.References[i].Notes)...)
	}
	return all
}

// Place is where a remark is said: in a speed of a box, or with "" of the box as a whole. The zero value is nowhere in particular.
type Place struct {
	Box, Speed string
	Speeds     int // how many the box has
}

// Note is a remark with its number and all that it is said of.
type Note struct {
	Remark
	Number int
	Meshes []string
	places []Place
}

// String is the remark behind the meshes it is said of.
func (n *Note) String() string {
	if len(n.Meshes) == 0 {
		return n.Text
	}
	return Capital(gearbox.MeshTitle(n.Meshes)) + ": " + n.Text
}

// Where names the boxes and speeds in which it is said.
func (n *Note) Where() string {
	var boxes []string
	for i := 0; i < len(n.places); {
		box, whole, speeds := n.places[i], false, []string(nil)
		for ; i < len(n.places) && n.places[i].Box == box.Box; i++ {
			whole = whole || n.places[i].Speed == ""
			speeds = append(speeds, n.places[i].Speed)
		}
		if whole || len(speeds) > 1 && len(speeds) == box.Speeds {
			boxes = append(boxes, box.Box)
		} else {
			boxes = append(boxes, box.Box+" "+List(speeds))
		}
	}
	return strings.Join(boxes, "; ")
}

// Notes are remarks, each once: the same words said of several meshes are one.
type Notes struct {
	all   []*Note
	known map[Remark]*Note
}

// NotesOf are all that results say beside their numbers.
func NotesOf(results []*gearbox.Result) *Notes {
	var n Notes
	for i, name := range BoxNames(results) {
		r := results[i]
		n.Add(Place{Box: name}, BoxRemarks(r)...)
		for k := range r.Speeds {
			s := &r.Speeds[k]
			n.Add(Place{name, Clean(s.Name), len(r.Speeds)}, append(speedRemarks(s), screenRemarks(s)...)...)
		}
	}
	return &n
}

// Add adds remarks that are said at a place.
func (n *Notes) Add(place Place, all ...Remark) {
	for _, r := range all {
		note := n.of(r)
		if note == nil {
			note = &Note{Remark: r}
			n.known[key(r)] = note
			n.all = append(n.all, note)
		}
		if r.Mesh != "" && !slices.Contains(note.Meshes, r.Mesh) {
			note.Meshes = append(note.Meshes, r.Mesh)
		}
		if place.Box != "" && !slices.Contains(note.places, place) {
			note.places = append(note.places, place)
		}
	}
}

// key is a remark without the name of its mesh.
func key(r Remark) Remark {
	if r.Mesh != "" {
		r.Mesh = "any"
	}
	return r
}

func (n *Notes) of(r Remark) *Note {
	if n.known == nil {
		n.known = map[Remark]*Note{}
	}
	return n.known[key(r)]
}

// List numbers the notes: what is to be checked before what was assumed, each in the order in which it was added.
func (n *Notes) List() (checks, assumed []*Note) {
	for _, note := range n.all {
		if note.Check {
			checks = append(checks, note)
		} else {
			assumed = append(assumed, note)
		}
	}
	for i, note := range slices.Concat(checks, assumed) {
		note.Number = i + 1
	}
	return checks, assumed
}

// Numbers are the numbers of remarks, sorted, once List has been called.
func (n *Notes) Numbers(all []Remark) []int {
	numbers := Each(all, func(r Remark) int { return n.of(r).Number })
	slices.Sort(numbers)
	return slices.Compact(numbers)
}

// Sources lists where limits come from, each source once.
type Sources struct {
	all   []string
	kinds map[string][]gearbox.Kind
}

// Add adds the source of a limit and gives its number, from 1.
func (s *Sources) Add(m *gearbox.Margin) int {
	source := SourceOf(m.Limit.Source)
	if s.kinds == nil {
		s.kinds = map[string][]gearbox.Kind{}
	}
	if !slices.Contains(s.kinds[source], m.Kind) {
		s.kinds[source] = append(s.kinds[source], m.Kind)
	}
	if n := slices.Index(s.all, source); n >= 0 {
		return n + 1
	}
	s.all = append(s.all, source)
	return len(s.all)
}

// List are the sources, each behind the kinds of limit that come from it.
func (s *Sources) List() []string {
	return Each(s.all, func(source string) string {
		kinds := s.kinds[source]
		slices.Sort(kinds)
		return strings.Join(Each(kinds, gearbox.Kind.String), "; ") + ": " + source
	})
}

// SourceOf is a source in one line; that there is none is said.
func SourceOf(text string) string {
	if text = Line(text); text != "" {
		return text
	}
	return "no source was given"
}
