package gearbox

import (
	"math"
	"strings"
	"testing"

	"layshaft/gearbox/diag"
)

// Bearings of known elements without a word on their play are taken without any, and rings and seats as rigid; the other values go into the box as the file would write
// them, the case under a bearing being in series with its rings.
func TestWhatIsAssumedOfRollers(t *testing.T) {
	b := onRollers(0)
	b.Housing.Radial = 5e5
	b.Places = map[string]diag.Place{"name": {Line: 1}, "shafts.in.bearings.left.elements.clearance": {Line: 9}}
	found := map[string]Assumption{}
	for _, a := range Assumptions(b) {
		found[a.Words] = a
	}
	play, rings := found["play of bearings"], found["rings and seats of bearings of known elements"]
	if len(play.Parts) != 5 || strings.Contains(strings.Join(play.Parts, " "), "in shaft, bearing left") || len(rings.Parts) != 6 || len(play.Others) != 1 || len(rings.Others) != 1 {
		t.Fatalf("play of %q, rings of %q", play.Parts, rings.Parts)
	}
	loose, soft := play.Others[0].In(b), rings.Others[0].In(b)
	if got := loose.Shafts[0].Bearings[1].Elements.Clearance; got != 0.02 || b.Shafts[0].Bearings[1].Elements.Clearance != 0 || loose.Shafts[0].Bearings[0].Elements.Clearance != 0 {
		t.Errorf("play %g mm, and the box itself has %g mm", got, b.Shafts[0].Bearings[1].Elements.Clearance)
	}
	if got := soft.Shafts[2].Bearings[0].Housing; math.Abs(got-1/(1/5e5+1/1e6)) > 1e-6 {
		t.Errorf("under a bearing %g N/mm", got)
	}
	pair := onTapered(0)
	pair.Places = b.Places
	for _, a := range Assumptions(pair) {
		if a.Words == "play of bearings" {
			t.Errorf("the pair is set, yet its play is asked for: %q", a.Parts)
		}
	}
}
