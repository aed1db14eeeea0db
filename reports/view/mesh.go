package view

import (
	"cmp"
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// MeshTable has one row per speed and loaded mesh: how far its gears are out of line and apart, and how the load lies along the face.
func MeshTable(speeds []gearbox.SpeedResult, o Options) *Table {
	t := o.table("Misalignment and separation of each loaded mesh, and how the load lies", once("speed", 5), words("mesh", 4),
		numbers("misalign-\nment", quantity.Slope), numbers("F_βy", quantity.Deflection), numbers("load\npeak\nK_Hβ", quantity.Number),
		numbers("K_Hβ\nin the\nstress", quantity.Number), words("more\nloaded\nend", 0), numbers("con-\ntact\n%", quantity.Number), numbers("separa-\ntion", quantity.Deflection))
	t.Lead = 2
	for _, s := range speeds {
		for i := range s.Meshes {
			m := &s.Meshes[i]
			t.add(word(s.Name), word(m.Name).noting(remarks(m.Name, m.Checks, m.Notes)), number(m.Tilt), number(m.FaceGap), number(m.FaceFactor),
				number(m.Counted), word(m.CrowdedEnd()), number(100*m.InContact), number(m.Separation))
		}
	}
	t.say("The load peak (K_Hβ) is the largest load on the face over the mean one, with flanks true to their shafts; 1 is even. " +
		"By their accuracy grade flanks may be out of line from their making: the stress takes the worse side. A measured lead error or a checked pattern (lead_error, pattern_checked) narrows that. " +
		"Misalignment costs much: it moves the load to one end of the face, left or right along the shafts, and the teeth there bear the peak; F_βy is what it comes to over the face. " +
		"Separation costs little: the teeth touch further out, but along the same face. Below zero the gears come closer together.")
	return t.done()
}

// CauseTable tells what misaligns each loaded mesh of a speed, the largest cause first.
func CauseTable(s *gearbox.SpeedResult, o Options) *Table {
	t := o.table("What misaligns each mesh in "+Shorten(Clean(s.Name), 40), once("mesh", 8), words("cause", 12), numbers("misalign-\nment", quantity.Slope),
		words("loads\nmore", 0), right("share", "%"))
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
		for _, c := range causes {
			t.add(word(m.Name), word(c.Name), number(c.Tilt), word(towards(c.Tilt)), word(Fixed(100*math.Abs(c.Tilt)/sum, 0)))
		}
		t.add(word(m.Name), word("together"), number(m.TiltInAction), word(towards(m.TiltInAction)), word(""))
	}
	t.say("This is the misalignment in the plane of action, which moves the load along the face, with that of the gears in their own seats. " +
		"Below zero the left end is the more heavily loaded one, above the right one; " +
		"causes of different sign cancel. The share is by size, whichever way a cause goes. " +
		"Crowning, lead errors and the wind-up of the shafts come on top: with them it may be the other end.")
	return t.done()
}

// towards is the end of the face that a misalignment in the plane of action loads more.
func towards(tilt float64) string {
	switch {
	case tilt > 0:
		return "right"
	case tilt < 0:
		return "left"
	}
	return Absent
}
