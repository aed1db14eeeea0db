package reports

import (
	"bytes"
	"math"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/reports/view"
)

// growthTable tells how the load lies along the faces of a speed's meshes at other input torques, two meshes side by side. All
// meshes of a speed are looked at at the same torques.
func growthTable(b *bytes.Buffer, s *gearbox.SpeedResult, o Options) {
	var meshes []*gearbox.MeshResult
	for i := range s.Meshes {
		if m := &s.Meshes[i]; len(m.Growth) > 0 {
			meshes = append(meshes, m)
		}
	}
	if len(meshes) == 0 {
		return
	}
	b.WriteByte('\n')
	paragraph(b, o.width(), indent, "How the load moves as the torque grows, in "+view.Shorten(view.Clean(s.Name), 40))
	for from := 0; from < len(meshes); from += meshesBeside {
		if from > 0 {
			b.WriteByte('\n')
		}
		heads := []head{{text: "input\ntorque\n" + quantity.Unit(quantity.Torque, o.Units), right: true}}
		var rows [][]cell
		for i, m := range meshes[from:min(from+meshesBeside, len(meshes))] {
			heads = append(heads, head{text: view.Shorten(view.Clean(m.Name), 9) + "\npeak\nK_Hβ", right: true}, head{text: "face in\ncontact\n%", right: true},
				head{text: "acts off\nmiddle\n" + quantity.Unit(quantity.Length, o.Units), right: true}, head{text: "to the"})
			var torques, factors, contacts, places []float64
			for _, g := range m.Growth {
				torques = append(torques, g.Torque)
				factors = append(factors, g.FaceFactor)
				contacts = append(contacts, 100*g.InContact)
				places = append(places, math.Abs(g.Middle))
			}
			torque, factor, contact := view.AlikeIn(torques, quantity.Torque, o.Units), view.Alike(factors), view.Alike(contacts)
			place := roughly(view.Converted(places, quantity.Length, o.Units))
			for k, g := range m.Growth {
				if i == 0 {
					rows = append(rows, texts(torque[k]))
				}
				if k < len(rows) {
					rows[k] = append(rows[k], texts(factor[k], contact[k], place[k], sideOf(g.Middle))...)
				}
			}
			for k := range rows {
				for len(rows[k]) < len(heads) {
					rows[k] = append(rows[k], cell{text: view.Absent})
				}
			}
		}
		table(b, o.width(), heads, rows)
	}
	paragraph(b, o.width(), indent, "The load as a whole acts so far off the middle of the face, to the left or to the right. A print of marking compound "+
		"is taken at little torque: hold it beside the first lines, and see from the others where the load goes when the engine pulls.")
}

// roughly sets a column of numbers that two digits of the largest are enough for.
func roughly(values []float64) []string {
	largest := 0.0
	for _, v := range values {
		if view.Finite(v) {
			largest = max(largest, math.Abs(v))
		}
	}
	return each(values, func(v float64) string { return view.Fixed(v, view.DecimalsFor(largest, 2)) })
}

// sideOf is the side of the middle of the face on which the load acts.
func sideOf(middle float64) string {
	const nothing = 0.005 // mm; what the table would show as 0.00
	switch {
	case math.IsNaN(middle):
		return view.Absent
	case middle > nothing:
		return "right"
	case middle < -nothing:
		return "left"
	}
	return "neither"
}

type spotJSON struct {
	Torque     number `json:"input_torque_nm"`
	FaceFactor number `json:"face_load_factor"`
	InContact  number `json:"in_contact_fraction"`
	Middle     number `json:"load_acts_at_mm"`
}

func newSpot(s gearbox.Spot) spotJSON {
	return spotJSON{number(s.Torque * toNm), number(s.FaceFactor), number(s.InContact), number(s.Middle)}
}
