package gearbox

import (
	"math"

	"layshaft/beam"
)

// causes splits the tilt of a mesh in its plane of action: what each shaft's bending, its bearings, the case and the gears' own seats add.
//
// Bearings and case act as moved seats: the shaft on rigid bearings whose seats stand where the real ones have gone is the same shaft. So the shares add up exactly.
func (p *prepared) causes(st *state, n int) []Cause {
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
		at := st.solved[s].At(q.at[k], beam.Left)
		whole := point{at.Y.Slope, at.Z.Slope}
		bearings, housing := p.seatShares(st, s, q.at[k])
		title := ShaftTitle(p.box.Shafts[s].Name)
		add(title+" bends", whole.minus(bearings).minus(housing), k)
		add("bearings of the "+title, bearings, k)
		house = house.plus(housing.scaled(float64(1 - 2*k)))
		add(p.box.Gears[q.gears[k]].Name+" in its seat", st.carried.leans[q.gears[k]], k)
	}
	add("case", house, 0)
	return all
}

// seatShares is the slope at x that comes from the give of a shaft's bearings, and from that of the case under them.
func (p *prepared) seatShares(st *state, s int, x float64) (bearings, housing point) {
	reactions := st.solved[s].Reactions()
	stiff := st.models[s].Shaft()
	stiff.Supports = append([]beam.Support(nil), stiff.Supports...)
	var inBearing, inCase [][2]float64
	soft := false
	for j, r := range reactions {
		k := stiff.Supports[j].Radial
		if math.IsInf(k, 1) {
			inCase, inBearing = append(inCase, [2]float64{}), append(inBearing, [2]float64{})
			continue
		}
		give := point{-r.Fy, -r.Fz}.scaled(1 / k)
		share := k / p.caseUnder(p.box.Shafts[s].Bearings[j]) // of the case in the give; 0 when it is rigid
		inCase = append(inCase, give.scaled(share))
		inBearing = append(inBearing, give.scaled(1-share))
		soft = true
		stiff.Supports[j].Radial = math.Inf(1)
	}
	if !soft {
		return
	}
	model, err := beam.New(stiff)
	if err != nil {
		return // two bearings in one place: nothing to tell apart
	}
	slope := func(seats [][2]float64) point {
		moved, err := model.Solve(beam.Case{Seat: seats})
		if err != nil {
			return point{}
		}
		at := moved.At(x, beam.Left)
		return point{at.Y.Slope, at.Z.Slope}
	}
	return slope(inBearing), slope(inCase)
}
