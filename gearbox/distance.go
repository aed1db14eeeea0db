package gearbox

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox/diag"
)

// A doubt is what meshes say against the distance of two axes. A wrong distance is one mistake, however many pairs of gears it spoils.
type doubt struct {
	axes     [2]int // as places.key has them
	severity diag.Severity
	summary  string
	detail   string // what the first of the meshes says of the worst
	meshes   []int
}

// doubtDistance lets a mesh speak against the distance of its axes. An error goes before a warning, and what the first said of each before the rest.
func (p *prepared) doubtDistance(axes [2]int, mesh int, severity diag.Severity, summary, detail string) {
	i := slices.IndexFunc(p.places.doubts, func(d doubt) bool { return d.axes == axes })
	if i < 0 {
		p.places.doubts = append(p.places.doubts, doubt{axes, severity, summary, detail, []int{mesh}})
		return
	}
	d := &p.places.doubts[i]
	if worse := severity == diag.Error && d.severity != diag.Error; worse {
		*d = doubt{axes, severity, summary, detail, append([]int{mesh}, d.meshes...)}
		return
	}
	d.meshes = append(d.meshes, mesh)
}

// tellDistances reports each doubt once: of one mesh at that mesh, of several where the file gives the distance.
func (p *prepared) tellDistances() {
	for _, d := range p.places.doubts {
		where, detail := path("meshes", p.box.Meshes[d.meshes[0]].Name), d.detail
		if len(d.meshes) > 1 {
			var others []string
			for _, i := range d.meshes[1:] {
				others = append(others, p.box.Meshes[i].Name)
			}
			detail += fmt.Sprintf(" This distance doesn't suit %s either.", strings.Join(others, ", "))
			if i := slices.IndexFunc(p.box.Centres, func(c Centre) bool {
				return p.places.key(p.shaft[c.Between[0]], p.shaft[c.Between[1]]) == d.axes
			}); i >= 0 {
				where = path("centres", strconv.Itoa(i), "distance")
			}
		}
		p.report(d.severity, where, d.summary, "%s", detail)
	}
}

// wrongDistance reports whether two shafts stand at a distance at which gears on them can't run. What else is wrong there follows from it.
func (p *prepared) wrongDistance(a, b int) bool {
	return slices.ContainsFunc(p.places.doubts, func(d doubt) bool {
		return d.severity == diag.Error && d.axes == p.places.key(a, b)
	})
}
