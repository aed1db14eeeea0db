package gearbox

import (
	"slices"

	"layshaft/gearbox/diag"
)

// Arrangement is how the parts of a box stand and turn, for a drawing. Of what isn't known of it the first that would
// be tried is taken.
type Arrangement struct {
	Box      *Box
	Chosen   string // what was taken of that, in words; "" = all is known
	Shafts   []ShaftPlace
	Gears    []GearPlace // in the order of the box
	Moves    []Moves     // one of each speed
	Direct   bool        // some speed is direct
	DirectAt [2]float64  // where it joins input and output shaft, x in the box, mm
	Findings diag.List   // what is hard to believe, or can't stand so
}

// ShaftPlace is where a shaft stands.
type ShaftPlace struct {
	Name     string
	Y, Z     float64 // of its axis, mm; y to the left and z up for who looks along +x
	From, To float64 // x of its ends in the box, mm
	Axis     int     // place of the first shaft on this axis in Arrangement.Shafts
	Known    bool    // the place of its axis is known
	Bearings []BearingPlace
}

// BearingPlace is where a bearing sits.
type BearingPlace struct {
	Name  string
	Type  BearingType
	X     float64 // in the box, mm
	Pilot bool    // it sits in another shaft
}

// GearPlace is where a gear sits.
type GearPlace struct {
	Name     string
	Shaft    int // place in Arrangement.Shafts
	Teeth    int
	From, To float64 // x of its face in the box, mm
	Pitch    float64 // reference diameter, mm; 0 = it is in no mesh
	Hand     Hand
	Free     bool    // it turns freely on its shaft until it is engaged
	Hub      float64 // of a free gear: x in the box of the hub through which it gives its torque, mm
}

// Moves is what turns in one speed, in drive.
type Moves struct {
	Name   string
	Ratio  float64 // turns of the input shaft per turn of the output shaft; negative when they turn opposite ways
	Direct bool
	Steps  []MeshMove
	Sense  map[int]float64 // about +x, ±1, of each shaft that carries power, by its place
}

// MeshMove is one loaded mesh on the way of the power.
type MeshMove struct {
	Name   string
	Gears  [2]int     // driver and driven gear: places in Arrangement.Gears
	Sense  [2]float64 // about +x, ±1
	Thrust [2]float64 // along x on the shaft of each: > 0 to the right; 0 of spur gears
}

// Arrange works out how a box stands and turns. The error is a diag.List when the box itself is at fault so that it
// can't be placed.
func Arrange(b *Box) (*Arrangement, error) {
	boxes, _, err := Alternatives(b)
	if err != nil {
		return nil, err
	}
	p := prepare(boxes[0], Method{})
	if p.found.HasErrors() {
		p.found.Sort()
		return nil, p.found
	}
	p.checkSolids()
	p.found.Sort()
	a := &Arrangement{Box: b, Findings: p.found}
	if len(boxes) > 1 {
		a.Chosen = boxes[0].Variant
	}
	where := p.everyAxis()
	for i, s := range p.box.Shafts {
		at, known := where[p.places.group[i]]
		place := ShaftPlace{Name: s.Name, Y: at[0], Z: at[1], From: s.Start, To: s.Start + s.length(),
			Axis: p.places.group[i], Known: known}
		for _, br := range s.Bearings {
			place.Bearings = append(place.Bearings, BearingPlace{br.Name, br.Type, s.Start + br.At, br.In != ""})
		}
		a.Shafts = append(a.Shafts, place)
	}
	for _, g := range p.box.Gears {
		a.Gears = append(a.Gears, p.placeOf(&g))
	}
	for _, s := range p.box.Speeds {
		a.Moves = append(a.Moves, p.moves(s, where))
		a.Direct = a.Direct || s.Direct
	}
	if a.Direct {
		in, out := p.box.directHubs()
		a.DirectAt = [2]float64{p.box.shaftNamed(p.box.Input.Shaft).Start + in, p.box.shaftNamed(p.box.Output.Shaft).Start + out}
	}
	return a, nil
}

// everyAxis is where the axes lie, of every shaft that can be placed.
func (p *prepared) everyAxis() layout {
	var all, used []int
	for i := range p.box.Shafts {
		all = append(all, i)
	}
	for _, s := range p.box.Speeds {
		used = append(used, p.involved(s)...)
	}
	slices.Sort(used)
	for _, shafts := range [][]int{all, slices.Compact(used)} {
		if placings, _, err := p.places.placings(p, shafts); err == nil && len(placings) > 0 {
			return placings[0].layout
		}
	}
	return nil // cannot be: every speed was placed
}

// placeOf is where a gear sits, with what its first mesh says of it.
func (p *prepared) placeOf(g *Gear) GearPlace {
	shaft := p.shaft[g.Shaft]
	start := p.box.Shafts[shaft].Start
	place := GearPlace{Name: g.Name, Shaft: shaft, Teeth: g.Teeth, From: start + g.At - g.Face/2,
		To: start + g.At + g.Face/2, Free: g.Seat != nil}
	if place.Free {
		place.Hub = start + p.box.HubAt(g)
	}
	for i, m := range p.box.Meshes {
		if k := slices.Index([]string{m.Driver, m.Driven}, g.Name); k >= 0 && place.Pitch == 0 {
			place.Pitch = p.pairs[i].geometry.Reference[k]
			if place.Hand = m.Hand; k == 1 && m.Hand != Spur {
				place.Hand = m.Hand.Opposite()
			}
		}
	}
	return place
}

// moves is what turns in a speed, in drive.
func (p *prepared) moves(s Speed, where layout) Moves {
	turns := float64(p.box.Turns)
	f := p.follow(s, turns)
	m := Moves{Name: s.Name, Ratio: f.ratio, Direct: s.Direct, Sense: map[int]float64{p.shaft[p.box.Input.Shaft]: turns}}
	if s.Direct {
		m.Sense[p.shaft[p.box.Output.Shaft]] = turns
	}
	sense := turns
	for _, st := range f.steps {
		q := &p.pairs[st.mesh]
		force := p.force(st.mesh, st.torque[0], where)
		m.Steps = append(m.Steps, MeshMove{p.box.Meshes[st.mesh].Name, q.gears, [2]float64{sense, -sense},
			[2]float64{force.axial, -force.axial}})
		m.Sense[q.shafts[0]], m.Sense[q.shafts[1]] = sense, -sense
		sense = -sense
	}
	return m
}
