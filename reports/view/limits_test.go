package view

import (
	"strings"
	"testing"

	"layshaft/gearbox"
)

// The margins list only the worst section of each shaft; all other limits stay.
func TestWorstSections(t *testing.T) {
	m := func(k gearbox.Kind, item string) gearbox.Margin { return gearbox.Margin{Kind: k, Item: item} }
	kept := worstSections([]gearbox.Margin{
		m(gearbox.ShaftYield, "a shaft, section 3"), m(gearbox.BearingSlope, "a shaft, bearing left"), m(gearbox.ShaftYield, "a shaft, section 1"),
		m(gearbox.ShaftYield, "b, c shaft, section 1"), m(gearbox.BearingSlope, "a shaft, bearing right"), m(gearbox.ShaftYield, "nameless"), m(gearbox.ShaftYield, "b, c shaft, section 2"),
	})
	var items []string
	for _, k := range kept {
		items = append(items, k.Item)
	}
	if got, want := strings.Join(items, "|"), "a shaft, section 3|a shaft, bearing left|b, c shaft, section 1|a shaft, bearing right|nameless"; got != want {
		t.Errorf("kept are %q, want %q", got, want)
	}
}
