package gearbox_test

import (
	"fmt"
	"math"
	"testing"

	"layshaft/beam/bearing"
	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
)

// K_Hβ of one torque after the other, over two powers of ten: two meshes, a gear on a bearing of its own.
func BenchmarkFaceFactor(b *testing.B) {
	f, err := gearbox.FacesOf(alder(b))
	if err != nil {
		b.Fatal(err)
	}
	k := 0.0
	b.ReportAllocs()
	for b.Loop() {
		k = math.Mod(k+0.6180339887498949, 1)
		if _, _, err := f.Factor(2e4 * math.Pow(100, k)); err != nil {
			b.Fatal(err)
		}
	}
}

// alder is the demonstration box.
func alder(t testing.TB) *gearbox.Box {
	box, _, found := boxfile.ReadFile("../testdata/alder.yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	return box
}

// A five-speed box with its final drive: all speeds, all margins, from the box as read.
func BenchmarkSolve(b *testing.B) {
	box := alder(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := gearbox.Solve(box, gearbox.Load{}); err != nil {
			b.Fatal(err)
		}
	}
}

// The same with the first limit of each speed alone, as studies over many boxes ask for.
func BenchmarkSolveBrief(b *testing.B) {
	box := alder(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := gearbox.Solve(box, gearbox.Load{Brief: true}); err != nil {
			b.Fatal(err)
		}
	}
}

// The same over the number of speeds: those of the box over and over, under names of their own.
func BenchmarkGrowthOverSpeeds(b *testing.B) {
	for _, n := range []int{1, 5, 10, 20, 40} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			box := alder(b)
			speeds := box.Speeds
			box.Speeds, box.Duty, box.Evidence = nil, nil, nil
			for i := range n {
				s := speeds[i%len(speeds)]
				s.Name = fmt.Sprint(s.Name, " again ", i)
				box.Speeds = append(box.Speeds, s)
			}
			for b.Loop() {
				if _, err := gearbox.Solve(box, gearbox.Load{Brief: true}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// What is worked out of a box before any torque, with the look for parts that would stand in one another.
func BenchmarkValidate(b *testing.B) {
	box, _, found := boxfile.ReadFile("../testdata/alder.yaml")
	if found.HasErrors() {
		b.Fatal(found)
	}
	b.ReportAllocs()
	for b.Loop() {
		gearbox.Validate(box)
	}
}

func BenchmarkWeigh(b *testing.B) {
	box := alder(b)
	for b.Loop() {
		if _, err := gearbox.Weigh(box); err != nil {
			b.Fatal(err)
		}
	}
}

// The same box with all its bearings told by their balls and rollers, so that every torque has its own balance of shafts and bearings.
func BenchmarkSolveOnElements(b *testing.B) {
	box := alder(b)
	onElements(box)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := gearbox.Solve(box, gearbox.Load{}); err != nil {
			b.Fatal(err)
		}
	}
}

// The same with the first limits alone.
func BenchmarkSolveBriefOnElements(b *testing.B) {
	box := alder(b)
	onElements(box)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := gearbox.Solve(box, gearbox.Load{Brief: true}); err != nil {
			b.Fatal(err)
		}
	}
}

// onElements gives all bearings elements of a size that their seats have room for: balls where they are deep groove, rollers elsewhere. All invented.
func onElements(b *gearbox.Box) {
	for i := range b.Shafts {
		paired := b.Shafts[i].Pair != nil
		b.Shafts[i].Pair = nil
		for j := range b.Shafts[i].Bearings {
			br := &b.Shafts[i].Bearings[j]
			br.Rating = nil // those of the file belong to other bearings
			if paired && j == 0 {
				br.Axial = math.Inf(1)
			}
			if br.Axial > 0 {
				br.Type = gearbox.DeepGrooveBall
				br.Elements = &bearing.Elements{Kind: bearing.Ball, Count: 9, Diameter: 14, Pitch: 60, Clearance: 0.02}
			} else {
				br.Type = gearbox.CylindricalRoller
				br.Elements = &bearing.Elements{Kind: bearing.Cylindrical, Count: 14, Diameter: 9, Length: 10, Pitch: 52, Clearance: 0.02}
			}
			br.Tilt = 0
		}
	}
}
