package gearbox_test

import (
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
)

// A five-speed box with its final drive: all speeds, all margins, from the box as read.
func BenchmarkSolve(b *testing.B) {
	box, _, found := boxfile.ReadFile("../testdata/alder.yaml")
	if found.HasErrors() {
		b.Fatal(found)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := gearbox.Solve(box, gearbox.Load{}); err != nil {
			b.Fatal(err)
		}
	}
}

// The same with the first limit of each speed alone, as studies over many boxes ask for.
func BenchmarkSolveBrief(b *testing.B) {
	box, _, found := boxfile.ReadFile("../testdata/alder.yaml")
	if found.HasErrors() {
		b.Fatal(found)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := gearbox.Solve(box, gearbox.Load{Brief: true}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWeigh(b *testing.B) {
	box, _, found := boxfile.ReadFile("../testdata/alder.yaml")
	if found.HasErrors() {
		b.Fatal(found)
	}
	for b.Loop() {
		if _, err := gearbox.Weigh(box); err != nil {
			b.Fatal(err)
		}
	}
}
