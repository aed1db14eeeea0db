package data

import (
	"layshaft/gearstress/scuffing"
	"layshaft/reports/view"
)

// scuffJSON is the screen for scuffing of a mesh.
type scuffJSON struct {
	Sliding    number      `json:"largest_sliding_m_per_s"`
	PitchSpeed number      `json:"pitch_line_speed_m_per_s"`
	LineLoad   number      `json:"line_load_n_per_mm"`
	Viscosity  number      `json:"oil_viscosity_mpa_s"`
	Relief     number      `json:"needed_tip_relief_um"`
	Power      number      `json:"friction_power_w"`
	Share      number      `json:"friction_power_fraction"`
	Path       []placeJSON `json:"path"`
	Flash      heatJSON    `json:"flash"`
	Integral   *heatJSON   `json:"integral"`
	Notes      []string    `json:"notes"`
}

type placeJSON struct {
	Name     string `json:"name"`
	Distance number `json:"distance_mm"`
	Sliding  number `json:"sliding_m_per_s"`
	Driver   number `json:"specific_sliding_driver_ratio"`
	Driven   number `json:"specific_sliding_driven_ratio"`
}

type heatJSON struct {
	Friction number `json:"friction_coefficient"`
	Bulk     number `json:"bulk_temperature_deg_c"`
	Contact  number `json:"contact_temperature_deg_c"`
	Limit    number `json:"scuffing_temperature_deg_c"`
	Safety   number `json:"safety_ratio"`
	Verdict  string `json:"verdict"`
}

// newScuff is nil when there was no screen.
func newScuff(r *scuffing.Result) *scuffJSON {
	if r == nil {
		return nil
	}
	heat := func(friction, bulk, contact float64, m scuffing.Margin) *heatJSON {
		return &heatJSON{number(friction), number(bulk), number(contact), told(m.Limit), told(m.Safety), m.Verdict.String()}
	}
	j := &scuffJSON{
		Sliding: number(view.LargestSliding(r) * toMetres), PitchSpeed: number(r.PitchSpeed * toMetres), LineLoad: number(r.LineLoad),
		Viscosity: number(r.OilViscosity), Relief: number(r.NeededRelief * toMicro), Power: number(r.FrictionPower * toNm), Share: number(r.FrictionShare),
		Flash: *heat(r.Flash.Friction, r.Flash.Bulk, r.Flash.Contact, r.Flash.Margin), Notes: view.Each(r.Notes, unchanged),
	}
	for i, p := range []scuffing.Place{r.A, r.B, r.C, r.D, r.E} {
		j.Path = append(j.Path, placeJSON{"ABCDE"[i : i+1], number(p.Distance), number(p.Sliding * toMetres), number(p.Specific[0]), number(p.Specific[1])})
	}
	if n := r.Integral; n != nil {
		j.Integral = heat(n.Friction, n.Bulk, n.Contact, n.Margin)
	}
	return j
}
