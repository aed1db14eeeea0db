package gearbox

import (
	"testing"

	"layshaft/material"
)

// A pair is as strong as the weaker of its two steels at each place of their bands, also where the bands cross; the source
// is that of the typical value.
func TestAPairIsAsStrongAsItsWeakerSteel(t *testing.T) {
	a, b := material.Band{Low: 1000, Typical: 1500, High: 1900, Source: "a"}, material.Band{Low: 1200, Typical: 1400, High: 1600, Source: "b"}
	for _, order := range [][2]material.Band{{a, b}, {b, a}} {
		if got, want := weaker(order[0], order[1]), (material.Band{Low: 1000, Typical: 1400, High: 1600, Source: "b"}); got != want {
			t.Errorf("%+v, want %+v", got, want)
		}
	}
	strong := material.Band{Low: 1300, Typical: 1600, High: 2000, Source: "strong"}
	if got := weaker(strong, a); got != a {
		t.Errorf("%+v, want all of %+v", got, a)
	}
	if got := weaker(a, a); got != a {
		t.Errorf("a steel against itself: %+v", got)
	}
}
