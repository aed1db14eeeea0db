package gearbox

import (
	"fmt"

	"layshaft/gearstress/scuffing"
)

// usualOil is the temperature of the sump when it isn't told, °C; common practice for a car on a short hard run, no source.
const usualOil = 90

// scuff screens a mesh for scuffing at the asked torque; nil when the speed or the oil isn't known. It judges nothing: limits of oils scatter too far.
func (v *solver) scuff(r *MeshResult, n int) *scuffing.Result {
	b := v.p.box
	if b.Revs == 0 || b.Oil.Viscosity == 0 || r.Rating == nil {
		return nil
	}
	q := &v.p.pairs[v.p.mesh[r.Name]]
	in := scuffing.Input{
		Pair: q.geometry, KA: 1, KV: r.Rating.K.V, KHb: max(1, r.Counted), KHa: r.Rating.K.HAlpha, RunIn: true,
		OilTemperature: b.Oil.Temperature, Viscosity: b.Oil.Viscosity, OilScuffing: b.Oil.Stage,
	}
	if in.OilTemperature == 0 {
		in.OilTemperature = usualOil
	}
	in.Torque, in.Speed = v.driver(n, v.asked, b.Revs)
	for k, gi := range q.gears {
		// Ra is about a sixth of Rz (ISO 6336-2, rule of thumb, from memory).
		rz := b.Gears[gi].Roughness[0]
		if rz == 0 {
			rz = usualFlank
		}
		in.Roughness[k] = rz / 6
	}
	screen, err := scuffing.Screen(in)
	if err != nil {
		r.Notes = append(r.Notes, fmt.Sprintf("no screen for scuffing: %s.", err))
		return nil
	}
	return screen
}
