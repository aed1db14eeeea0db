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
		{"all limits", false, false, gearbox.Counts{Sets: 105, Spreads: 7100, Bent: 20}},
		{"first limits", false, true, gearbox.Counts{Sets: 54, Spreads: 410, Bent: 20}},
		{"all limits, on elements", true, false, gearbox.Counts{Sets: 590, Spreads: 31000, Bent: 231}},
		{"first limits, on elements", true, true, gearbox.Counts{Sets: 280, Spreads: 2550, Bent: 231}},
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
