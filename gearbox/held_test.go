package gearbox

import (
	"math"
	"testing"
)

// A free shaft is found where its gears push it, and only there: spur gears don't, an idler's two meshes take each other's thrust, and one bearing that holds is enough.
func TestShaftsThatNothingHolds(t *testing.T) {
	loose := func(b *Box) (found []string) {
		for _, d := range Validate(b) {
			if d.Summary == "a shaft that nothing holds along its axis" {
				found = append(found, d.Path)
			}
		}
		return found
	}
	free := func(b *Box) *Box {
		for i := range b.Shafts {
			for j := range b.Shafts[i].Bearings {
				b.Shafts[i].Bearings[j].Axial = 0
			}
		}
		return b
	}
	helical := func(b *Box) bool { return b.Meshes[0].Helix > 0 }
	b := free(threeShafts())
	if !helical(b) {
		t.Skip("the box has spur gears")
	}
	if got := loose(b); len(got) == 0 {
		t.Error("nothing is found though nothing holds any shaft")
	}
	for i := range b.Shafts {
		b.Shafts[i].Bearings[0].Axial = math.Inf(1)
	}
	if got := loose(b); got != nil {
		t.Errorf("%v are found though each is held", got)
	}
	spur := free(threeShafts())
	for i := range spur.Meshes {
		spur.Meshes[i].Helix, spur.Meshes[i].Hand = 0, Spur
	}
	if got := loose(spur); got != nil {
		t.Errorf("%v are found though spur gears push nothing", got)
	}
}
