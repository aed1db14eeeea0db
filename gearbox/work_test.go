package gearbox_test

import (
	"testing"

	"layshaft/gearbox"
)

// What the demonstration box takes, counted, not timed: contact sets worked out, loads along the faces found, and shafts bent as a whole: three
// in each speed to be shown, and on elements once for each way in which a seat may move; a shaft in a pair once more in each, under what its bearings push. The search for limits bends none.
func TestWorkOfTheDemonstration(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name     string
		elements bool
		brief    bool
		most     gearbox.Counts
	}{
		{"all limits", false, false, gearbox.Counts{Sets: 103, Spreads: 7050, Bent: 20}},
		{"first limits", false, true, gearbox.Counts{Sets: 52, Spreads: 400, Bent: 20}},
		{"all limits, on elements", true, false, gearbox.Counts{Sets: 380, Spreads: 22000, Bent: 231}},
		{"first limits, on elements", true, true, gearbox.Counts{Sets: 275, Spreads: 2430, Bent: 231}},
	} {
		box := alder(t)
		if c.elements {
			onElements(box)
		}
		var work gearbox.Work
		if _, err := gearbox.Solve(box, gearbox.Load{Brief: c.brief, Work: &work}); err != nil {
			t.Fatal(err)
		}
		w := work.Counts()
		t.Logf("%s: %+v", c.name, w)
		if w.Sets > c.most.Sets || w.Spreads > c.most.Spreads || w.Bent > c.most.Bent || w.Fallbacks > 0 {
			t.Errorf("%s: %+v, at most %+v", c.name, w, c.most)
		}
	}
}
