package study

import (
	"testing"

	"layshaft/gearbox"
)

func TestRecord(t *testing.T) {
	history := []gearbox.Evidence{
		{Torque: 200e3, Passes: 400}, {Torque: 290e3, Passes: 40}, {Torque: 290e3, Passes: 10}, {Torque: 400e3, Speed: "3rd"},
		{Torque: 420e3, Broke: true, Gear: "final pinion"}, {Torque: 350e3, Broke: true, Speed: "1st"}, {Torque: 380e3, Broke: true},
	}
	for _, c := range []struct {
		what     string
		torque   float64
		speeds   []string
		survived int // place in the history, −1 = none
		ratio    float64
		broke    int
	}{
		{"below all of it", 191.4e3, nil, 1, 0.66, -1},
		{"in a speed of its own", 200e3, []string{"3rd"}, 3, 0.5, -1},
		{"a speed among others", 200e3, []string{"3rd", "4th"}, 1, 200. / 290, -1},
		{"at what broke in one speed", 350e3, nil, 1, 350. / 290, 5},
		{"at what broke in another speed", 350e3, []string{"2nd"}, 1, 350. / 290, -1},
		{"the lowest of several, whichever speed", 500e3, []string{"2nd"}, 1, 500. / 290, 6},
		{"coast", -500e3, nil, -1, 0, -1},
	} {
		box := lived(t, "Alder", history...)
		got := RecordOf(box, c.torque, c.speeds...)
		at := func(i int) *gearbox.Evidence {
			if i < 0 {
				return nil
			}
			return &box.Evidence[i]
		}
		if got.Survived != at(c.survived) || got.BrokeAt != at(c.broke) || got.Ratio < c.ratio-1e-12 || got.Ratio > c.ratio+1e-12 {
			t.Errorf("%s: %+v, %+v, ratio %g; want %d, %d, %g", c.what, got.Survived, got.BrokeAt, got.Ratio, c.survived, c.broke, c.ratio)
		}
	}
	if got := RecordOf(lived(t, "Alder"), 1e9); got != (Record{}) {
		t.Errorf("without history: %+v", got)
	}
}
