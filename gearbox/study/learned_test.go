package study

import (
	"testing"

	"layshaft/gearbox"
	"layshaft/material"
)

// A changed box keeps what its steel has been seen to bear, whatever the change does to the dimensions; a steel that is described anew does not.
func TestAChangedBoxKeepsWhatItsSteelHasLived(t *testing.T) {
	alder, _ := demoBoxes(t)
	alder.Evidence, alder.Clutch, alder.Car = []gearbox.Evidence{survived(300, 40)}, nil, nil
	narrowed, found, err := Narrow([]*gearbox.Box{alder}, gearbox.Method{})
	if err != nil || found.HasErrors() {
		t.Fatal(found, err)
	}
	if len(narrowed[0].Narrowed) == 0 {
		t.Fatal("the history narrows nothing")
	}
	flank := func(b *gearbox.Box) material.Band {
		s, ok := b.Steel(gearbox.DefaultSteel)
		if !ok {
			t.Fatal("the box has no default steel")
		}
		return s.StaticFlank()
	}
	if flank(narrowed[0]) == flank(alder) {
		t.Fatal("the history leaves the flanks alone")
	}
	wider := altered(alder, func(b *gearbox.Box) { b.Gears[0].Face *= 1.2; b.Gears[1].Face *= 1.2 })
	if got := Learned(narrowed[0], wider); flank(got) != flank(narrowed[0]) || len(got.Narrowed) != len(narrowed[0].Narrowed) {
		t.Errorf("flanks of the changed box: %+v, of the box itself %+v", flank(got), flank(narrowed[0]))
	}
	other := altered(alder, func(b *gearbox.Box) {
		s, _ := b.Steel(gearbox.DefaultSteel)
		s.FlankLimit = material.Band{Low: 1, Typical: 2, High: 3, Source: "told anew"}
		b.Steels = []material.Steel{s}
	})
	if got := flank(Learned(narrowed[0], other)); got.High != 3 {
		t.Errorf("a steel told anew has flanks of %+v", got)
	}
	roots := altered(alder, func(b *gearbox.Box) {
		s, _ := b.Steel(gearbox.DefaultSteel)
		s.RootLimit = material.Band{Low: 1, Typical: 2, High: 3, Source: "given anew"}
		b.Steels = []material.Steel{s}
	})
	if got, _ := Learned(narrowed[0], roots).Steel(gearbox.DefaultSteel); got.RootLimit.High != 3 || got.StaticFlank() != flank(narrowed[0]) {
		t.Errorf("with roots given anew: roots of %+v, flanks of %+v", got.RootLimit, got.StaticFlank())
	}
	if Learned(alder, wider) != wider {
		t.Error("without history the changed box isn't itself")
	}
}
