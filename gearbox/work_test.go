package gearbox_test

import (
	"testing"

	"layshaft/gearbox"
)

// What the demonstration box takes, counted, not timed: contact sets, each of which is factorised once, loads along the faces found, and shafts bent as a whole: three
// in each speed to be shown, and on elements once for each way in which a seat may move. The search for limits bends none.
func TestWorkOfTheDemonstration(t *testing.T) {
	for _, c := range []struct {
		name     string
		elements bool
		brief    bool
		most     gearbox.Work
	}{
		{"all limits", false, false, gearbox.Work{Sets: 120, Spreads: 11200, Bent: 15}},
		{"first limits", false, true, gearbox.Work{Sets: 60, Spreads: 950, Bent: 15}},
		{"all limits, on elements", true, false, gearbox.Work{Sets: 460, Spreads: 31500, Bent: 231}},
		{"first limits, on elements", true, true, gearbox.Work{Sets: 370, Spreads: 3800, Bent: 231}},
	} {
		box := alder(t)
		if c.elements {
			onElements(box)
		}
		w, err := gearbox.WorkOf(box, c.brief)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: %+v", c.name, w)
		if w.Sets > c.most.Sets || w.Spreads > c.most.Spreads || w.Bent > c.most.Bent || w.Fallbacks > 0 {
			t.Errorf("%s: %+v, at most %+v", c.name, w, c.most)
		}
	}
}
