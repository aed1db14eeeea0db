package view

import (
	"math"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/scuffing"
)

// LargestSliding is the largest sliding speed of a mesh, mm/s: sliding grows in a straight line from the pitch point, so it is at one of the ends of contact.
func LargestSliding(r *scuffing.Result) float64 {
	return max(math.Abs(r.A.Sliding), math.Abs(r.E.Sliding))
}

// scuffRemarks are the notes of a mesh's screen for scuffing.
func scuffRemarks(m *gearbox.MeshResult) []Remark {
	if m.Scuffing == nil {
		return nil
	}
	return remarks(m.Name, nil, Each(m.Scuffing.Notes, func(n string) string { return "scuffing: " + n + "." }))
}

// ScuffTable tells what the screen for scuffing finds at each mesh of a speed, a line for each of its two methods.
func ScuffTable(s *gearbox.SpeedResult, o Options) *Table {
	contact := numbers("contact\ngets", quantity.Temperature).rounded(0)
	t := o.table("Scuffing in "+Shorten(Clean(s.Name), 40)+": a screen only", once("mesh", 5), numbers("slides\nup to", quantity.Number), words("method", 0),
		contact, numbers("scuffed in\noil test at", quantity.Temperature).rounded(0), words("verdict of the screen", 12))
	t.Columns[1].Unit = "m/s"
	limit := func(m scuffing.Margin) Cell {
		if m.Limit == 0 {
			return absent()
		}
		return known(m.Limit)
	}
	for i := range s.Meshes {
		m := &s.Meshes[i]
		r := m.Scuffing
		if r == nil {
			continue
		}
		t.add(word(m.Name).noting(scuffRemarks(m)), number(LargestSliding(r)/1000), word("flash"), number(r.Flash.Contact), limit(r.Flash.Margin), word(r.Flash.Margin.Verdict.String()))
		if n := r.Integral; n != nil {
			t.add(word(m.Name), word(""), word("integral"), number(n.Contact), limit(n.Margin), word(n.Margin.Verdict.String()))
		}
	}
	t.say("This decides nothing: friction, additives and how the flanks are run in are known too poorly for a verdict. " +
		"It shows which mesh runs hottest. Where the two methods differ, believe neither.")
	return t.done()
}
