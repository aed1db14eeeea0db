package study

import (
	"context"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
)

// What every other value of what isn't given does to the first limit: about twenty boxes.
func BenchmarkEffects(b *testing.B) {
	box, _, found := boxfile.ReadFile("../../testdata/alder.yaml")
	if found.HasErrors() {
		b.Fatal(found)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Effects(context.Background(), box, gearbox.Load{}, nil); err != nil {
			b.Fatal(err)
		}
	}
}
