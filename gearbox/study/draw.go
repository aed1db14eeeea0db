package study

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/chance"
	"layshaft/material"
)

// Drawn is a box of which not all is known exactly.
type Drawn struct {
	Box      *gearbox.Box                                 // as described, its steels narrowed by its history
	Readings []Reading                                    // its numbers that have a ±
	Read     func(values []float64) (*gearbox.Box, error) // the box with other values for them, before its history spoke
}

// Reading is a number of a box that is known within a ±.
type Reading struct {
	Path        string
	Value, Plus float64
	Words       string // "shafts.output.sections.3.outer, 50 mm ± 0.03 mm"
	Bounds      string // its ± in words: "0.03 mm"
}

// Unknown is one thing that is drawn.
type Unknown struct {
	Group string // what is measured or found out together: "output shaft", "steel case-carburised"
	Words string // what it is, with its ends: "gears.first wheel.face, 22 mm ± 0.1 mm"
	Law   string // how it spreads, in words
	Plus  string // the ± of a measure, in words; "" of all else
	Boxes []int  // of which boxes it is a part: what both share is drawn once

	key string
}

// lot is everything that is drawn, of one or two boxes.
type lot struct {
	boxes    []Drawn
	uses     []use
	unknowns []Unknown
	stated   bool
}

// use is what of the draws one box takes, by their places.
type use struct {
	law          gearbox.Uncertainty
	readings     []int // as Drawn.Readings
	alternatives []*gearbox.Box
	outOfLine    [][]float64 // as far as that, to either side, by alternative and mesh
	open         int         // which alternative; −1 = there is one
	steels       map[string]int
	flanks       []int // by mesh; −1 = none
}

// drawnOnce are the parts of a box file that belong to the car and the question, not to the box: drawn once for both boxes.
var drawnOnce = []string{"input", "clutch", "car", "oil", "duty"}

func newLot(boxes []Drawn) (*lot, error) {
	l := &lot{boxes: boxes, stated: true}
	for b := range boxes {
		u, err := l.use(b)
		if err != nil {
			return nil, err
		}
		l.uses = append(l.uses, u)
	}
	if n := len(l.unknowns); n > chance.MostUnknowns {
		return nil, fmt.Errorf("%d numbers have a ±; at most %d can be drawn", n, chance.MostUnknowns)
	}
	return l, nil
}

// unknown is the place of something that is drawn; of the same key it is the same for both boxes.
func (l *lot) unknown(b int, u Unknown) int {
	i := slices.IndexFunc(l.unknowns, func(have Unknown) bool { return have.key == u.key })
	if i < 0 {
		i, l.unknowns = len(l.unknowns), append(l.unknowns, u)
	}
	if !slices.Contains(l.unknowns[i].Boxes, b) {
		l.unknowns[i].Boxes = append(l.unknowns[i].Boxes, b)
	}
	return i
}

func (l *lot) use(b int) (use, error) {
	d := &l.boxes[b]
	u := use{open: -1, steels: map[string]int{}}
	if d.Box.Uncertainty != nil {
		u.law = *d.Box.Uncertainty
	} else {
		l.stated = false
		u.law = gearbox.Uncertainty{Readings: chance.Even, Steel: chance.Even, Flanks: chance.Even} // the bounds are all that is known
	}
	own := fmt.Sprintf("%d ", b)
	for _, r := range d.Readings {
		owner, key := owner(r.Path), own+r.Path
		if whole, _, _ := strings.Cut(r.Path, "."); slices.Contains(drawnOnce, whole) {
			key = r.Words
		}
		group := "measures of " + owner
		if by := u.law.Instrument; by != "" && r.Plus == by.Tolerance(0) { // the finer they are, the less each of them matters
			group = "lengths read by " + string(by)
		}
		u.readings = append(u.readings, l.unknown(b, Unknown{Group: group, Words: r.Words, Law: string(u.law.Readings), Plus: r.Bounds, key: "reading " + key}))
	}
	var err error
	if u.alternatives, _, err = gearbox.Alternatives(d.Box); err != nil {
		return u, err
	}
	if n := len(u.alternatives); n > 1 {
		var variants []string
		for _, a := range u.alternatives {
			variants = append(variants, a.Variant)
		}
		words := "one of: " + strings.Join(variants, "; ")
		u.open = l.unknown(b, Unknown{Group: "what the file calls unknown", Words: words, Law: fmt.Sprintf("one of %d, each as likely as another", n), key: words})
	}
	for _, name := range d.Box.SteelNames() {
		s, ok := d.Box.Steel(name)
		if !ok || s.Fixed(middle) == s {
			continue
		}
		key := fmt.Sprintln("steel", name, bare(s)) // the same name and the same bands: what made the one good made the other
		if s.Batch != "" {
			key = "batch " + s.Batch
		}
		u.steels[name] = l.unknown(b, Unknown{Group: "steel " + name, Words: "strength of the steel " + name + ", all its bands together", Law: string(u.law.Steel), key: key})
	}
	for _, a := range u.alternatives {
		far, err := gearbox.Deviations(a)
		if err != nil {
			return u, err
		}
		u.outOfLine = append(u.outOfLine, far)
	}
	for i, m := range d.Box.Meshes {
		most := 0.0
		for _, far := range u.outOfLine {
			most = max(most, far[i])
		}
		at := -1
		if most > 0 {
			words := fmt.Sprintf("flanks of %s out of line from their making, up to %.3g µm to either side", m.Name, 1e3*most)
			at = l.unknown(b, Unknown{Group: "lead of the teeth of " + m.Name, Words: words, Law: string(u.law.Flanks), key: own + "flanks " + m.Name})
		}
		u.flanks = append(u.flanks, at)
	}
	return u, nil
}

func middle(b material.Band) float64 { return b.Typical }

// owner is the part that a path belongs to: "output shaft", "gear first wheel", "centre distances".
func owner(path string) string {
	parts := strings.Split(path, ".")
	switch {
	case parts[0] == "centres":
		return "centre distances"
	case len(parts) > 3 && parts[0] == "shafts" && parts[2] == "bearings":
		return "bearing " + parts[3] + " of the " + gearbox.ShaftTitle(parts[1])
	case len(parts) > 1 && parts[0] == "shafts":
		return gearbox.ShaftTitle(parts[1])
	case len(parts) > 1 && parts[0] == "gears":
		return "gear " + parts[1]
	case len(parts) > 1 && parts[0] == "meshes":
		return "mesh " + parts[1]
	}
	return parts[0]
}

// groups are the places of the unknowns that belong together, and what they are called.
func (l *lot) groups() (places [][]int, names []string) {
	for i, u := range l.unknowns {
		name := u.Group
		if len(l.boxes) > 1 && len(u.Boxes) == 1 {
			name += ", " + l.boxes[u.Boxes[0]].Box.Name
		}
		at := slices.Index(names, name)
		if at < 0 {
			at, names, places = len(names), append(names, name), append(places, nil)
		}
		places[at] = append(places[at], i)
	}
	return places, names
}

// box is one box as a point draws it.
func (l *lot) box(b int, point []float64) (*gearbox.Box, error) {
	d, u := &l.boxes[b], &l.uses[b]
	which := 0
	if u.open >= 0 {
		which = min(int(point[u.open]*float64(len(u.alternatives))), len(u.alternatives)-1)
	}
	box := u.alternatives[which]
	if len(u.readings) > 0 {
		values := make([]float64, len(u.readings))
		for i, r := range d.Readings {
			values[i] = u.law.Readings.At(point[u.readings[i]], r.Value-r.Plus, r.Value, r.Value+r.Plus)
		}
		made, err := d.Read(values)
		if err != nil {
			return nil, err
		}
		if u.open >= 0 {
			all, _, err := gearbox.Alternatives(made)
			if err != nil {
				return nil, err
			}
			i := slices.IndexFunc(all, func(a *gearbox.Box) bool { return a.Variant == box.Variant })
			if i < 0 {
				return nil, fmt.Errorf("it can't be %s", box.Variant)
			}
			made = all[i]
		}
		box = Learned(box, made)
	}
	steels := map[string]float64{}
	for name, at := range u.steels {
		steels[name] = point[at]
	}
	outOfLine := make([]float64, len(box.Meshes))
	for i, at := range u.flanks {
		if far := u.outOfLine[which][i]; at >= 0 {
			outOfLine[i] = u.law.Flanks.At(point[at], -far, 0, far)
		}
	}
	return gearbox.OneOf(box, u.law.Steel, steels, outOfLine), nil
}

// solve is what a point makes of one box.
func (l *lot) solve(b int, point []float64, q SpreadQuestion) (s sample) {
	box, err := l.box(b, point)
	if err == nil {
		load := q.Load(box)
		load.Brief, load.Second = q.Brief, nil
		var r *gearbox.Result
		if r, err = gearbox.Solve(box, load); err == nil {
			s.take(r)
			return s
		}
	}
	s.gap = reason(err)
	return s
}

// least is the allowable torque of what a point makes of one box, the least of all speeds, N·mm; NaN where that can't be built.
func (l *lot) least(b int, point []float64, q SpreadQuestion) float64 {
	box, err := l.box(b, point)
	if err != nil {
		return math.NaN()
	}
	load := q.Load(box)
	load.Brief, load.Least, load.Second = true, true, nil
	first, err := firstOf(box, load)
	if err != nil {
		return math.NaN()
	}
	return first.Torque
}

// asked is the torque asked of a box as described, N·mm.
func (l *lot) asked(b int, q SpreadQuestion) float64 {
	if t := q.Load(l.boxes[b].Box).Torque; t != 0 {
		return t
	}
	return math.Abs(l.boxes[b].Box.Torque)
}
