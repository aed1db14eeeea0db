package gearbox

import (
	"fmt"
	"math"
	"slices"
)

// Torque passes between a shaft and what is engaged on it at a hub, which sits on the shaft beside the free gear. The gear itself turns on a bearing and
// leads no torque into the shaft under it. In a direct speed it passes from teeth at the end of the input shaft to a hub on the output shaft, past the
// spigot, which only centres the two. Where the file doesn't say, a usual place is assumed: common practice, no source.

// hubRoom is the least room along a shaft that a hub is put into, mm; common practice, no source.
const hubRoom = 8

// DirectAt is where a direct speed joins input and output shaft, mm from the left end of each; nil = the usual place.
type DirectAt struct {
	Input, Output *float64 // engagement teeth of the input shaft; hub on the output shaft
}

// along is what of a gear fills its shaft: its face and its seat, mm from the left end of the shaft.
func (g *Gear) along() span {
	s := span{g.At - g.Face/2, g.At + g.Face/2}
	if g.Seat != nil {
		middle := g.At + g.Seat.Offset
		s = span{min(s.from, middle-g.Seat.Length/2), max(s.to, middle+g.Seat.Length/2)}
	}
	return s
}

// HubAt is where a gear hands its torque to its shaft, mm from the shaft's left end: where the file says, else at the end of a free gear beside which the hub
// usually sits, and for a gear fast on its shaft at its middle. The usual end is the one towards the next part if that shares the hub (another free gear, or the
// pilot's end where there is a direct speed) and there is room for it, of two such ends the one with less room; else the end with more room to the next gear,
// bearing or end of the shaft.
func (b *Box) HubAt(g *Gear) float64 {
	switch {
	case g.Seat == nil:
		return g.At
	case g.EngagesAt != nil:
		return *g.EngagesAt
	}
	shaft := b.shaftNamed(g.Shaft)
	left, leftShares := b.room(g, shaft, -1)
	right, rightShares := b.room(g, shaft, 1)
	leftShares, rightShares = leftShares && left >= hubRoom, rightShares && right >= hubRoom
	toLeft := left > right
	switch {
	case leftShares && rightShares:
		toLeft = left < right
	case leftShares != rightShares:
		toLeft = leftShares
	}
	side := 1.0
	if toLeft {
		side = -1
	}
	return g.along().common(span{0, shaft.length()}).end(side)
}

// end is the end of a stretch to the left (−1) or the right (+1).
func (s span) end(side float64) float64 {
	if side < 0 {
		return s.from
	}
	return s.to
}

// room is how much of its shaft is free beside a gear, to the left (−1) or the right (+1), and whether what ends it would share a hub with the gear.
func (b *Box) room(g *Gear, s *Shaft, side float64) (free float64, shares bool) {
	own := g.along().end(side)
	free = side * (span{0, s.length()}.end(side) - own)
	stop := func(at float64, shared bool) {
		if d := side * (at - own); d > -closing && d < free {
			free, shares = d, shared
		}
	}
	for _, br := range s.Bearings {
		stop(br.At, b.joins(s, br))
	}
	for i := range b.Gears {
		if o := &b.Gears[i]; o.Shaft == s.Name && o.Name != g.Name {
			stop(o.along().end(-side), o.Seat != nil)
		}
	}
	return free, shares
}

// joins reports whether a bearing is the pilot at which a direct speed joins two shafts.
func (b *Box) joins(s *Shaft, br Bearing) bool {
	return s.Name == b.Output.Shaft && br.In == b.Input.Shaft && slices.ContainsFunc(b.Speeds, func(s Speed) bool { return s.Direct })
}

// directHubs is where a direct speed joins input and output shaft: where the file says, else at the end of the input shaft at which the output shaft sits in
// it, and on the output shaft at the end of its first gear that looks to the spigot; without a gear, where the section of the spigot ends.
func (b *Box) directHubs() (in, out float64) {
	input, output := b.shaftNamed(b.Input.Shaft), b.shaftNamed(b.Output.Shaft)
	pilot := output.Bearings[slices.IndexFunc(output.Bearings, func(br Bearing) bool { return br.In == input.Name })]
	if pilot.InAt > input.length()/2 {
		in = input.length()
	}
	side := 1.0
	if pilot.At > output.length()/2 {
		side = -1
	}
	out = math.Inf(int(side))
	for i := range b.Gears {
		g := &b.Gears[i]
		if at := g.along().end(-side); g.Shaft == output.Name && side*(at-pilot.At) > 0 {
			out = side * min(side*at, side*out)
		}
	}
	if math.IsInf(out, 0) {
		x := 0.0
		for _, sec := range output.Sections {
			if nose := (span{x, x + sec.Length}); nose.from <= pilot.At && pilot.At <= nose.to {
				out = nose.end(side)
				break
			}
			x += sec.Length
		}
	}
	if at := b.DirectAt.Input; at != nil {
		in = *at
	}
	if at := b.DirectAt.Output; at != nil {
		out = *at
	}
	return in, out
}

func (b *Box) shaftNamed(name string) *Shaft {
	return &b.Shafts[slices.IndexFunc(b.Shafts, func(s Shaft) bool { return s.Name == name })]
}

func (s *Shaft) length() (sum float64) {
	for _, sec := range s.Sections {
		sum += sec.Length
	}
	return sum
}

// hubNote tells the hubs whose place is assumed; nil when there are none.
func (p *prepared) hubNote() []string {
	var hubs []string
	for i := range p.box.Gears {
		if g := &p.box.Gears[i]; g.Seat != nil && g.EngagesAt == nil && p.takesTorque(g.Name) {
			hubs = append(hubs, fmt.Sprintf("%s at %.4g mm", g.Name, p.box.HubAt(g)))
		}
	}
	if slices.ContainsFunc(p.box.Speeds, func(s Speed) bool { return s.Direct }) && p.box.DirectAt.Output == nil {
		_, out := p.box.directHubs()
		hubs = append(hubs, fmt.Sprintf("that of the direct speed at %.4g mm", out))
	}
	if len(hubs) == 0 {
		return nil
	}
	return []string{"Torque passes between a shaft and its free gears at hubs. Their places are not given and assumed as usual (common practice, no source; engages_at, direct): " + joined(hubs) + "."}
}

// takesTorque reports whether a gear gives its shaft torque in some speed, or takes some from it.
func (p *prepared) takesTorque(gear string) bool {
	return slices.ContainsFunc(p.box.Speeds, func(s Speed) bool { return slices.Contains(p.freeOn(s), p.gear[gear]) })
}

// handsOn reports whether a gear of a path takes its torque in one mesh and gives it to the next, so that its shaft gets none of it: an idler, however it sits.
func (f flow) handsOn(p *prepared, step, role int) bool {
	other := step - 1 + 2*role
	if other < 0 || other >= len(f.steps) {
		return false
	}
	return p.pairs[f.steps[other].mesh].gears[1-role] == p.pairs[f.steps[step].mesh].gears[role]
}

// torqueAt is where the torque of a mesh enters one of its two shafts, mm from the shaft's left end.
func (p *prepared) torqueAt(f flow, step, role int) float64 {
	q := &p.pairs[f.steps[step].mesh]
	if g := &p.box.Gears[q.gears[role]]; g.Seat != nil && !f.handsOn(p, step, role) {
		return p.box.HubAt(g)
	}
	return q.at[role]
}
