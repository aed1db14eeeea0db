package beam

import (
	"strings"
	"testing"
)

func TestDoubts(t *testing.T) {
	long := []Section{{60, 30, 0}, {80, 50, 0}, {60, 30, 0}}
	for _, c := range []struct {
		name     string
		sections []Section
		at       float64 // of the first support, mm
		want     string  // "" for none
	}{
		{"all well", long, 10, ""},
		{"short", []Section{{20, 30, 0}, {40, 50, 0}, {30, 30, 0}}, 5, "90 mm long, less than twice its largest diameter of 50 mm"},
		{"seat beside a flange", []Section{{60, 30, 0}, {80, 65, 0}, {60, 30, 0}}, 40, "seat of 30 mm at x = 40 mm"},
		{"seat far from a flange", []Section{{60, 30, 0}, {80, 65, 0}, {60, 30, 0}}, 10, ""},
		{"seat beside a flange on its left", []Section{{60, 30, 0}, {80, 65, 0}, {60, 30, 0}}, 150, "seat of 30 mm at x = 150 mm"},
		{"seat far from a flange on its left", []Section{{60, 30, 0}, {80, 65, 0}, {60, 30, 0}}, 190, ""},
		{"thin", []Section{{200, 40, 30}}, 10, "bore is 0.75 of the outer diameter"},
		{"bore widens with the outside", []Section{{100, 40, 10}, {100, 60, 25}}, 10, "a bore widens under a shoulder at x = 100 mm"},
		{"bore narrows", []Section{{100, 40, 25}, {100, 60, 10}}, 10, ""},
		{"bore widens elsewhere", []Section{{60, 40, 10}, {40, 60, 10}, {100, 60, 25}}, 10, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			shaft := Shaft{Sections: c.sections, Young: 206000, Poisson: 0.3, Supports: []Support{{X: c.at, Radial: rigid}, {X: 85, Radial: rigid}}}
			m, err := New(shaft)
			if err != nil {
				t.Fatal(err)
			}
			got := m.Doubts()
			if c.want == "" && len(got) > 0 || c.want != "" && (len(got) != 1 || !strings.Contains(got[0], c.want)) {
				t.Errorf("%q: want %q", got, c.want)
			}
			shaft.NoShoulder = true
			if m, err = New(shaft); err != nil || len(m.Doubts()) > 0 {
				t.Errorf("without the rule: %v, %q", err, m.Doubts())
			}
		})
	}
}
