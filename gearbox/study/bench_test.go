package study

import (
	"context"
	"fmt"
	"runtime/metrics"
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

// What makes the difference between two boxes that differ in all ten groups that can be swapped: 1024 mixed boxes. Beside the time it tells the most memory in use on the way.
func BenchmarkSplit(b *testing.B) {
	alder, birch := demoBoxes(b)
	results := [2]*gearbox.Result{}
	for i, box := range []*gearbox.Box{alder, altered(birch, differEverywhere)} {
		r, err := gearbox.Solve(box, gearbox.Load{})
		if err != nil {
			b.Fatal(err)
		}
		results[i] = r
	}
	memory := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	most := uint64(0)
	for b.Loop() {
		c, err := SplitCauses(context.Background(), results[0], results[1], gearbox.Load{}, func(int, int) {
			metrics.Read(memory)
			most = max(most, memory[0].Value.Uint64())
		})
		if err != nil {
			b.Fatal(err)
		}
		if c.Mixed != 1<<mostPlayers {
			b.Fatalf("%d mixed boxes, want 2¹⁰", c.Mixed)
		}
	}
	b.ReportMetric(float64(most)/1e6, "MB")
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N<<mostPlayers), "µs/box")
}

// differEverywhere makes Birch differ from Alder in ten groups.
func differEverywhere(b *gearbox.Box) {
	gearOf(b, "first pinion").Crowning = 0.008
	gearOf(b, "first wheel").Teeth = 42
	gearOf(b, "first pinion").Shift = nil
	gearOf(b, "first pinion").Steel = "nitrided"
	b.Housing.Radial = 4e5
	b.Oil.Viscosity = 80
}

// The first limits of boxes that differ in one value of the file, which is read again for each: what a spread over thousands of samples takes for one.
func BenchmarkChangedBoxes(b *testing.B) {
	const boxes = 200
	data, list := boxfile.Load("../../testdata/alder.yaml")
	file, box, found := boxfile.Open("alder.yaml", data)
	if list != nil || file == nil {
		b.Fatal(list, found)
	}
	change, found := file.Change("bench", 1, "gears.first pinion.face=22 mm")
	if found != nil {
		b.Fatal(found)
	}
	axis := Axis{Key: "gears.first pinion.face", Now: 22}
	for i := range boxes {
		axis.Values = append(axis.Values, 20+6*float64(i)/boxes)
	}
	for b.Loop() {
		s, err := SweepOver(context.Background(), box, []Axis{axis}, gearbox.Load{Torque: box.Torque}, nil, func(values []float64) (*gearbox.Box, error) {
			changed, found := file.With(change.WithValue(fmt.Sprintf("%g mm", values[0])))
			if changed == nil {
				return nil, found
			}
			return changed, nil
		}, nil)
		if err != nil {
			b.Fatal(err)
		}
		if last := &s.Points[boxes-1]; last.Gap != "" {
			b.Fatal(last.Gap)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*boxes), "µs/box")
}
