package page

import (
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/scuffing"
	"layshaft/reports/view"
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
				return view.NotKnown
			}
			all := []string{f(r.Flash.Contact, r.Flash.Margin)}
			if r.Integral != nil {
				all = append(all, f(r.Integral.Contact, r.Integral.Margin))
			}
			return strings.Join(all, "; ")
		}
	}
	degrees := func(v float64) string {
		return short(math.Round(quantity.Convert(v, quantity.Temperature, s.system)))
	}
	const screen = "scuffing, screen only, decides nothing: "
	words(screen+"largest sliding speed, m/s", func(m *gearbox.MeshResult) string {
		if m.Scuffing == nil {
			return view.NotKnown
		}
		// Sliding grows in a straight line from the pitch point, so it is largest at one of the ends of contact.
		return figure(max(math.Abs(m.Scuffing.A.Sliding), math.Abs(m.Scuffing.E.Sliding))/1000, 3)
	})
	unit := s.unit(quantity.Temperature)
	words("contact temperature by the flash method; by the integral method, "+unit, both(func(contact float64, _ scuffing.Margin) string { return degrees(contact) }))
	words("temperature at which the oil let go in its test, "+unit, both(func(_ float64, m scuffing.Margin) string {
		if m.Limit == 0 {
			return "not given"
		}
		return degrees(m.Limit)
	}))
	words("what the screen says", both(func(_ float64, m scuffing.Margin) string { return m.Verdict.String() }))
	if _, own := scuffNotes(sp); len(own) > 0 {
		words("noted by the screen", func(m *gearbox.MeshResult) string {
			if len(own[m]) == 0 {
				return view.Absent
			}
			return strings.Join(own[m], "; ")
		})
	}
}

// scuffNotes are the notes of the screens for scuffing: those that all meshes of a speed share, and the others by mesh.
func scuffNotes(sp *gearbox.SpeedResult) (shared []string, own map[*gearbox.MeshResult][]string) {
	screens, times := 0, map[string]int{}
	for i := range sp.Meshes {
		if r := sp.Meshes[i].Scuffing; r != nil {
			screens++
			for _, n := range r.Notes {
				times[n]++
			}
		}
	}
	own = map[*gearbox.MeshResult][]string{}
	for i := range sp.Meshes {
		m := &sp.Meshes[i]
		if m.Scuffing == nil {
			continue
		}
		for _, n := range m.Scuffing.Notes {
			switch text := "Scuffing: " + n + "."; {
			case times[n] < screens:
				own[m] = append(own[m], view.Clean(n))
			case !slices.Contains(shared, text):
				shared = append(shared, text)
			}
		}
	}
	return shared, own
}
