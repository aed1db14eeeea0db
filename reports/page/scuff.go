package page

import (
	"math"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/scuffing"
)

// scuffRows are the rows that the screen for scuffing adds to the table of meshes.
func (s *set) scuffRows(sp *gearbox.SpeedResult, words func(name string, f func(m *gearbox.MeshResult) string)) {
	screened := false
	for i := range sp.Meshes {
		screened = screened || sp.Meshes[i].Scuffing != nil
	}
	if !screened {
		words("scuffing, screen only", func(*gearbox.MeshResult) string {
			return "not looked at: it needs the speed of the input shaft and the oil"
		})
		return
	}
	// Both methods beside each other, the second left out where it doesn't apply.
	both := func(f func(contact float64, m scuffing.Margin) string) func(m *gearbox.MeshResult) string {
		return func(m *gearbox.MeshResult) string {
			r := m.Scuffing
			if r == nil {
				return notKnown
			}
			all := []string{f(r.Flash.Contact, r.Flash.Margin)}
			if r.Integral != nil {
				all = append(all, f(r.Integral.Contact, r.Integral.Margin))
			}
			return strings.Join(all, "; ")
		}
	}
	degrees := func(v float64) string {
		return figure(math.Round(quantity.Convert(v, quantity.Temperature, s.system)), 4)
	}
	const screen = "scuffing, screen only, decides nothing: "
	words(screen+"largest sliding speed, m/s", func(m *gearbox.MeshResult) string {
		if m.Scuffing == nil {
			return notKnown
		}
		// Sliding grows in a straight line from the pitch point, so it is largest at one of the ends of contact.
		return figure(max(math.Abs(m.Scuffing.A.Sliding), math.Abs(m.Scuffing.E.Sliding))/1000, 3)
	})
	unit := s.unit(quantity.Temperature)
	words("contact temperature by the flash method; by the integral method, "+unit, both(func(contact float64, _ scuffing.Margin) string { return degrees(contact) }))
	words("temperature at which the oil let go in its test, "+unit, both(func(_ float64, m scuffing.Margin) string {
		if m.Limit == 0 {
			return "not told"
		}
		return degrees(m.Limit)
	}))
	words("what the screen says", both(func(_ float64, m scuffing.Margin) string { return m.Verdict.String() }))
}

// scuffNotes are the notes of the screens for scuffing.
func scuffNotes(r *scuffing.Result) (notes []string) {
	if r == nil {
		return nil
	}
	for _, n := range r.Notes {
		notes = append(notes, "Scuffing: "+n+".")
	}
	return notes
}
