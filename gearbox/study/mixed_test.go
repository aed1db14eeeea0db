package study

import (
	"math"
	"testing"

	"layshaft/gearbox"
)

// Whatever groups are mixed, each bearing stands where it stands in the box that the span is taken from, counted from the
// box's own origin, and a pilot sits at that place of the shaft that carries it; what it is comes with the bearings, its
// case with the case, its limit with how the box is judged.
func TestBearingsOfAMixedBoxStandWhereTheirSpanSays(t *testing.T) {
	alder, birch := demoBoxes(t)
	// A pilot in each, at different places of a carrier that begins elsewhere in the two boxes.
	pilot := func(start, inAt, housing, slope, radial float64) func(*gearbox.Box) {
		return func(b *gearbox.Box) {
			br := &b.Shafts[1].Bearings[0]
			br.In, br.InAt, br.Housing, br.SlopeLimit, br.Radial = b.Shafts[0].Name, inAt, housing, slope, radial
			b.Shafts[0].Start = start
		}
	}
	alder, birch = altered(alder, pilot(3, 40, 2e5, 0.001, 1e5)), altered(birch, pilot(-6, 52, 3e5, 0.002, 2e5))
	mixes := 0
	groups := []Group{Span, Sections, Positions, Seats, Case, Judging}
	for m := range 1 << len(groups) {
		var taken mask
		for k, g := range groups {
			if m>>k&1 == 1 {
				taken |= maskOf(g)
			}
		}
		w := swap{boxes: [2]*gearbox.Box{alder, birch}, taken: taken}
		mixed, err := w.mixed()
		if err != nil {
			continue
		}
		mixes++
		for _, s := range mixed.Shafts {
			for _, br := range s.Bearings {
				span := shaftOf(w.of(Span), s.Name)
				want := bearingOf(span, br.Name)
				if x := span.Start + want.At; math.Abs(s.Start+br.At-x) > 1e-6 {
					t.Errorf("mix %b: %s of %s at %g mm, want %g", taken, br.Name, s.Name, s.Start+br.At, x)
				}
				if br.In != want.In {
					t.Errorf("mix %b: %s of %s sits in %q, want %q", taken, br.Name, s.Name, br.In, want.In)
				} else if br.In != "" {
					x := shaftOf(w.of(Span), br.In).Start + want.InAt
					if got := shaftOf(mixed, br.In).Start + br.InAt; math.Abs(got-x) > 1e-6 {
						t.Errorf("mix %b: the pilot %s at %g mm, want %g", taken, br.Name, got, x)
					}
				}
				kind := bearingOf(shaftOf(w.of(Seats), s.Name), br.Name)
				housing, judged := bearingOf(shaftOf(w.of(Case), s.Name), br.Name), bearingOf(shaftOf(w.of(Judging), s.Name), br.Name)
				if br.Type != kind.Type || br.Radial != kind.Radial || br.Housing != housing.Housing || br.SlopeLimit != judged.SlopeLimit {
					t.Errorf("mix %b: %s of %s is %+v", taken, br.Name, s.Name, br)
				}
			}
		}
	}
	if mixes < 32 {
		t.Errorf("only %d mixes of %d could be made", mixes, 1<<len(groups))
	}
}
