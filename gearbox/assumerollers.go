package gearbox

import (
	"fmt"
	"math"
)

// What bearings of known elements are tried with, where the file doesn't say; common practice, no source.
const (
	usualClearance = 0.02 // play of a rolling bearing of a car gearbox as it runs, across the diameter, mm
	softRings      = 1e6  // rings and their seats in shaft and case, in series with the elements, N/mm
)

// rollers asks what bearings of known elements are like beside their elements: their play, and how rings and seats give way.
func (q *asker) rollers() {
	var tight, rigid []part
	var at [][2]int // number of a bearing → shaft, bearing
	for i, s := range q.b.Shafts {
		for j, br := range s.Bearings {
			if br.Elements == nil {
				continue
			}
			where := path("shafts", s.Name, "bearings", br.Name, "elements", "clearance")
			p := part{ShaftTitle(s.Name) + ", bearing " + br.Name, []string{where}, len(at)}
			at = append(at, [2]int{i, j})
			if last := len(s.Bearings) - 1; s.Pair == nil || j != 0 && j != last { // the pair says how its two are set
				tight = append(tight, p)
			}
			if br.In == "" {
				rigid = append(rigid, p)
			}
		}
	}
	bearingAt := func(b *Box, k int) *Bearing { return &b.Shafts[at[k][0]].Bearings[at[k][1]] }
	q.ask("play of bearings", tight, as("none"), option{fmt.Sprintf("%g µm", 1e3*usualClearance), func(b *Box, k int) {
		br := bearingAt(b, k)
		loose := *br.Elements
		loose.Clearance = usualClearance
		br.Elements = &loose
	}})
	if len(rigid) == 0 || len(q.b.Places) == 0 {
		return
	}
	a := Assumption{Words: "rings and seats of bearings of known elements", Value: "rigid"}
	for _, p := range rigid {
		a.Parts = append(a.Parts, p.name)
	}
	a.Others = []Alternative{{fmt.Sprintf("%g N/µm in series with the elements", softRings/1e3), func(b *Box) {
		for _, p := range rigid {
			br := bearingAt(b, p.at)
			under := math.Inf(1)
			switch {
			case br.Housing > 0:
				under = br.Housing
			case b.Housing.Radial > 0:
				under = b.Housing.Radial
			}
			br.Housing = 1 / (1/under + 1/softRings)
		}
	}}}
	q.all = append(q.all, a)
}
