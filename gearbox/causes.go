package gearbox

import (
	"fmt"
	"math"
	"slices"

	"layshaft/beam"
)

// causes splits the tilt of a mesh in its plane of action: what each shaft's bending, its bearings, the case and the gears' own seats add.
//
// Bearings and case act as moved seats: the shaft on rigid bearings whose seats stand where the real ones have gone is the same shaft. So the shares add up exactly.
func (p *prepared) causes(st *state, n int) ([]Cause, error) {
	q := &p.pairs[st.flow.steps[n].mesh]
	action := st.coupling.forces[n].action
	var all []Cause
	add := func(name string, tilt point, role int) {
		v := tilt.dot(action) * float64(1-2*role)
		if math.Abs(v) > 1e-12 {
			all = append(all, Cause{name, v})
		}
	}
	var house point
	for k, s := range q.shafts {
		whole := slopeAt(st.solved[s], q.at[k])
		bearings, housing, carrier, err := p.seatShares(st, s, q.at[k])
		if err != nil {
			return nil, fmt.Errorf("what tilts the %s: %w", ShaftTitle(p.box.Shafts[s].Name), err)
		}
		title := ShaftTitle(p.box.Shafts[s].Name)
		add(title+" bends", whole.minus(bearings).minus(housing).minus(carrier), k)
		add("bearings of the "+title, bearings, k)
		if in := p.lines[s].in; p.lines[s].pilot >= 0 {
			add(ShaftTitle(p.box.Shafts[in].Name)+" moves the pilot", carrier, k)
		}
		house = house.plus(housing.scaled(float64(1 - 2*k)))
		add(p.box.Gears[q.gears[k]].Name+" in its seat", st.carried.leans[q.gears[k]], k)
	}
	add("case", house, 0)
	return all, nil
}

// seatShares is the slope at x that comes from the give of a shaft's bearings, from that of the case under them, and from the movement of the shaft that carries its pilot.
func (p *prepared) seatShares(st *state, s int, x float64) (bearings, housing, carrier point, err error) {
	reactions := st.solved[s].Reactions()
	stiff := st.models[s].Shaft()
	stiff.Supports = slices.Clone(stiff.Supports)
	n := len(reactions)
	inBearing, inCase, inCarrier := make([]beam.Seat, n), make([]beam.Seat, n), make([]beam.Seat, n)
	soft := false
	for j, r := range reactions {
		br := p.box.Shafts[s].Bearings[j]
		k := stiff.Supports[j].Radial
		if math.IsInf(k, 1) {
			continue
		}
		soft = true
		stiff.Supports[j].Radial = math.Inf(1)
		give := point{-r.Fy, -r.Fz}.scaled(1 / k)
		if line := &p.lines[s]; j == line.pilot && st.solved[line.in] != nil {
			// The spring holds the carrier's flexibility too, and the carrier's own loads move the seat besides.
			at, seat := st.solved[s].At(br.At, beam.Left), st.solved[line.in].At(br.InAt, beam.Left)
			moved := point{seat.Y.Deflection, seat.Z.Deflection}
			inCarrier[j].Move, inBearing[j].Move = moved, point{at.Y.Deflection, at.Z.Deflection}.minus(moved)
			continue
		}
		share := k / p.caseUnder(br) // of the case in the give; 0 when it is rigid
		inCase[j].Move, inBearing[j].Move = give.scaled(share), give.scaled(1-share)
		if br.Elements != nil {
			// The spring stands in for them on a moved seat: what counts is where the shaft stands in them. Their couple is a load on the shaft.
			at := st.solved[s].At(br.At, beam.Left)
			inBearing[j].Move = point{at.Y.Deflection, at.Z.Deflection}.minus(inCase[j].Move)
			stiff.Supports[j].Tilt = 0
		}
	}
	if !soft {
		return
	}
	model, err := beam.New(stiff)
	if err != nil {
		return
	}
	slope := func(seats []beam.Seat) (tilt point) {
		moved, e := model.Solve(beam.Case{Seats: seats})
		if e != nil {
			err = e
			return
		}
		return slopeAt(moved, x)
	}
	bearings, housing, carrier = slope(inBearing), slope(inCase), slope(inCarrier)
	return
}
