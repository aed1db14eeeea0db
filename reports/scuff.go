package reports

import (
	"bytes"
	"math"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/scuffing"
	"layshaft/reports/view"
)

// largestSliding is the largest sliding speed of a mesh, mm/s: sliding grows in a straight line from the pitch point, so it is at one of the ends of contact.
func largestSliding(r *scuffing.Result) float64 {
	return max(math.Abs(r.A.Sliding), math.Abs(r.E.Sliding))
}

// scuffNotes are the notes of a mesh's screen for scuffing.
func scuffNotes(m *gearbox.MeshResult) []string {
	return each(m.Scuffing.Notes, func(n string) string { return "scuffing: " + n + "." })
}

// scuffTable tells what the screen for scuffing finds at each mesh of a speed, a line for each of its two methods.
func scuffTable(b *bytes.Buffer, s *gearbox.SpeedResult, o Options, notes *footnotes) {
	type line struct {
		mesh           cell
		sliding        float64
		method         string
		contact, limit float64
		verdict        string
	}
	temperature := func(v float64) float64 { return quantity.Convert(v, quantity.Temperature, o.Units) }
	var lines []line
	add := func(mesh cell, sliding float64, method string, contact float64, m scuffing.Margin) {
		limit := math.NaN()
		if m.Limit != 0 {
			limit = temperature(m.Limit)
		}
		lines = append(lines, line{mesh, sliding, method, temperature(contact), limit, m.Verdict.String()})
	}
	for i := range s.Meshes {
		m := &s.Meshes[i]
		r := m.Scuffing
		if r == nil {
			continue
		}
		add(cell{text: view.Clean(m.Name), mark: notes.mark(remarks(m.Name, nil, scuffNotes(m)))}, largestSliding(r)*toMetres, "flash", r.Flash.Contact, r.Flash.Margin)
		if r.Integral != nil {
			add(cell{}, math.NaN(), "integral", r.Integral.Contact, r.Integral.Margin)
		}
	}
	if len(lines) == 0 {
		return
	}
	var slidings []float64
	for _, l := range lines {
		slidings = append(slidings, l.sliding)
	}
	places := view.Decimals(slidings)
	orNone := func(v float64, decimals int) string {
		if math.IsNaN(v) {
			return view.Absent
		}
		return view.Fixed(v, decimals)
	}
	var rows [][]cell
	for _, l := range lines {
		sliding := ""
		if l.mesh.text != "" {
			sliding = view.Fixed(l.sliding, places)
		}
		rows = append(rows, []cell{l.mesh, {text: sliding}, {text: l.method}, {text: view.Fixed(l.contact, 0)}, {text: orNone(l.limit, 0)}, {text: l.verdict}})
	}
	degree := quantity.Unit(quantity.Temperature, o.Units)
	b.WriteByte('\n')
	paragraph(b, o.width(), indent, "Scuffing in "+view.Shorten(view.Clean(s.Name), 40)+": a screen only")
	table(b, o.width(), []head{
		{text: "mesh", least: 5 + o.widestMark()},
		{text: "slides\nup to\nm/s", right: true},
		{text: "method"},
		{text: "contact\ngets\n" + degree, right: true},
		{text: "scuffed in\noil test at\n" + degree, right: true},
		{text: "verdict of the screen", least: 12},
	}, rows)
	paragraph(b, o.width(), indent, "This decides nothing: friction, additives and how the flanks are run in are known too poorly for a verdict. "+
		"It shows which mesh runs hottest. Where the two methods differ, believe neither.")
}

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
		Sliding: number(largestSliding(r) * toMetres), PitchSpeed: number(r.PitchSpeed * toMetres), LineLoad: number(r.LineLoad),
		Viscosity: number(r.OilViscosity), Relief: number(r.NeededRelief * toMicro), Power: number(r.FrictionPower * toNm), Share: number(r.FrictionShare),
		Flash: *heat(r.Flash.Friction, r.Flash.Bulk, r.Flash.Contact, r.Flash.Margin), Notes: each(r.Notes, unchanged),
	}
	for i, p := range []scuffing.Place{r.A, r.B, r.C, r.D, r.E} {
		j.Path = append(j.Path, placeJSON{"ABCDE"[i : i+1], number(p.Distance), number(p.Sliding * toMetres), number(p.Specific[0]), number(p.Specific[1])})
	}
	if n := r.Integral; n != nil {
		j.Integral = heat(n.Friction, n.Bulk, n.Contact, n.Margin)
	}
	return j
}
