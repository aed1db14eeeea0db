package reports

import (
	"bytes"
	"cmp"
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// meshTable has one row per speed and loaded mesh: how far its gears lean and part, and how the load lies along the face.
func meshTable(b *bytes.Buffer, r *gearbox.Result, o Options, notes *footnotes) {
	var tilts, factors, counted, contacts, gaps, separations []float64
	for _, s := range r.Speeds {
		for _, m := range s.Meshes {
			tilts = append(tilts, m.Tilt)
			factors = append(factors, m.FaceFactor)
			counted = append(counted, m.Counted)
			contacts = append(contacts, 100*m.InContact)
			gaps = append(gaps, m.FaceGap)
			separations = append(separations, m.Separation)
		}
	}
	if len(tilts) == 0 {
		return
	}
	tilt := column(tilts, quantity.Slope, o.Units)
	factor, inStress := fixedColumn(factors), fixedColumn(counted)
	contact := fixedColumn(contacts)
	faceGap := column(gaps, quantity.Deflection, o.Units)
	separation := column(separations, quantity.Deflection, o.Units)
	var rows [][]cell
	for _, s := range r.Speeds {
		for i := range s.Meshes {
			m := &s.Meshes[i]
			n := len(rows)
			speed := ""
			if i == 0 {
				speed = harmless(s.Name)
			}
			rows = append(rows, []cell{
				{text: speed},
				{text: harmless(m.Name), mark: notes.mark(remarks(m.Name, m.Checks, m.Notes))},
				{text: tilt[n]}, {text: faceGap[n]}, {text: factor[n]}, {text: inStress[n]}, {text: m.CrowdedEnd()}, {text: contact[n]}, {text: separation[n]},
			})
		}
	}
	micro := quantity.Unit(quantity.Deflection, o.Units)
	b.WriteString("\n  Misalignment and separation of each loaded mesh, and how the load lies\n")
	table(b, o.width(), []head{
		{text: "speed", least: 5},
		{text: "mesh", least: 5 + o.widestMark()},
		{text: "mis-\nalign-\nment\n" + quantity.Unit(quantity.Slope, o.Units), right: true},
		{text: "F_βy\n" + micro, right: true},
		{text: "load\npeak\nK_Hβ", right: true},
		{text: "K_Hβ\nin the\nstress", right: true},
		{text: "more\nloaded\nend"},
		{text: "con-\ntact\n%", right: true},
		{text: "separa-\ntion\n" + micro, right: true},
	}, rows)
	paragraph(b, o.width(), indent, "The load peak (K_Hβ) is the largest load on the face over the mean one, with flanks true to their shafts; 1 is even. "+
		"By their accuracy grade flanks may be out of line from their making: the stress takes the worse side. A measured lead error or a checked pattern (lead_error, pattern_checked) narrows that. "+
		"Misalignment costs much: it moves the load to one end of the face, left or right along the shafts, and the teeth there bear the peak; F_βy is what it comes to over the face. "+
		"Separation costs little: the teeth touch further out, but along the same face. Below zero the gears come closer together.")
}

// causeTable tells what misaligns each loaded mesh of a speed, the largest cause first.
func causeTable(b *bytes.Buffer, s *gearbox.SpeedResult, o Options) {
	var rows [][]cell
	var tilts []float64
	for i := range s.Meshes {
		tilts = append(tilts, s.Meshes[i].TiltInAction)
		for _, c := range s.Meshes[i].Causes {
			tilts = append(tilts, c.Tilt)
		}
	}
	places := decimals(convertAll(tilts, quantity.Slope, o.Units))
	tilt := func(v float64) cell { return cell{text: fixed(quantity.Convert(v, quantity.Slope, o.Units), places)} }
	for i := range s.Meshes {
		m := &s.Meshes[i]
		if len(m.Causes) == 0 {
			continue
		}
		causes := slices.Clone(m.Causes)
		slices.SortStableFunc(causes, func(a, b gearbox.Cause) int { return cmp.Compare(math.Abs(b.Tilt), math.Abs(a.Tilt)) })
		sum := 0.0
		for _, c := range causes {
			sum += math.Abs(c.Tilt)
		}
		mesh := harmless(m.Name)
		for _, c := range causes {
			rows = append(rows, []cell{{text: mesh}, {text: harmless(c.Name)}, tilt(c.Tilt), {text: towards(c.Tilt)}, {text: fixed(100*math.Abs(c.Tilt)/sum, 0)}})
			mesh = ""
		}
		rows = append(rows, []cell{{}, {text: "together"}, tilt(m.TiltInAction), {text: towards(m.TiltInAction)}, {}})
	}
	if len(rows) == 0 {
		return
	}
	b.WriteByte('\n')
	paragraph(b, o.width(), indent, "What misaligns each mesh in "+shorten(harmless(s.Name), 40))
	table(b, o.width(), []head{
		{text: "mesh", least: 8},
		{text: "cause", least: 12},
		{text: "misalign-\nment\n" + quantity.Unit(quantity.Slope, o.Units), right: true},
		{text: "loads\nmore"},
		{text: "share\n%", right: true},
	}, rows)
	paragraph(b, o.width(), indent, "This is the misalignment in the plane of action, which moves the load along the face, with that of the gears in their own seats. "+
		"Below zero the left end is the more heavily loaded one, above the right one; "+
		"causes of different sign cancel. The share is by size, whichever way a cause goes. "+
		"Crowning, lead errors and the wind-up of the shafts come on top: with them it may be the other end.")
}

// towards is the end of the face that a misalignment in the plane of action loads more.
func towards(tilt float64) string {
	switch {
	case tilt > 0:
		return "right"
	case tilt < 0:
		return "left"
	}
	return none
}
