package study

import (
	"context"
	"testing"

	"layshaft/gearbox"
)

// What the questions of the commands take on the demonstration boxes, counted, not timed: how many boxes are solved, and in them contact sets, loads along the faces
// and shafts bent. That a solution takes no more than it must is held by gearbox.
func TestWorkOfTheQuestions(t *testing.T) {
	t.Parallel()
	alder, birch := demo(t)
	for _, q := range []struct {
		name string
		ask  func(load gearbox.Load) error
		most gearbox.Counts
	}{
		{"check: effects", func(load gearbox.Load) error {
			_, err := Effects(context.Background(), alder.Box, load, nil)
			return err
		}, gearbox.Counts{Boxes: 11, Sets: 650, Spreads: 3400, Bent: 220}},
		{"headroom", func(load gearbox.Load) error {
			load.Torque = alder.Torque
			_, err := FindHeadroom(context.Background(), alder.Box, nil, alder.Torque, load, nil)
			return err
		}, gearbox.Counts{Boxes: 1, Sets: 103, Spreads: 7050, Bent: 20}},
		{"compare: difference", func(load gearbox.Load) error {
			_, err := SplitCauses(context.Background(), alder, birch, load, nil)
			return err
		}, gearbox.Counts{Boxes: 34, Sets: 2050, Spreads: 15200, Bent: 680}},
	} {
		var work gearbox.Work
		if err := q.ask(gearbox.Load{Work: &work}); err != nil {
			t.Fatal(err)
		}
		w := work.Counts()
		t.Logf("%s: %+v", q.name, w)
		if w.Boxes != q.most.Boxes || w.Sets > q.most.Sets || w.Spreads > q.most.Spreads || w.Bent > q.most.Bent || w.Fallbacks > 0 {
			t.Errorf("%s: %+v, want as many boxes and at most as much else as %+v", q.name, w, q.most)
		}
	}
}
