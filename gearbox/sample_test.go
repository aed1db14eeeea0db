package gearbox

import (
	"math"
	"testing"

	"layshaft/beam/strength"
	"layshaft/gearstress/involute"
)

var rigid = math.Inf(1)

// parallel is a box of shafts in the plane (y, z) with rigid bearings 12 mm from their ends, for tests to put gears on.
type parallel struct {
	name   string
	y, z   float64
	length float64
}

func shaftsOf(list ...parallel) (shafts []Shaft) {
	for _, s := range list {
		shafts = append(shafts, Shaft{
			Name: s.name, Axis: &[2]float64{s.y, s.z},
			Sections: []Section{{Length: s.length / 2, Outer: 36}, {Length: s.length / 2, Outer: 40, Bore: 10}},
			Bearings: []Bearing{
				{Name: "left", Type: DeepGrooveBall, At: 12, Radial: 3e5, Axial: rigid},
				{Name: "right", Type: CylindricalRoller, At: s.length - 12, Radial: 2e5},
			},
		})
	}
	return shafts
}

// notched is threeShafts with a notch of each shape on "out".
func notched() *Box {
	b := threeShafts()
	b.Shafts[1].Notches = []Notch{
		{Name: "step", Shape: strength.Shoulder, At: 102, Radius: 1.5},
		{Name: "circlip", Shape: strength.CirclipGroove, At: 150, Depth: 1.25, Radius: 0.15, Width: 1.85},
		{Name: "undercut", Shape: strength.RoundGroove, At: 60, Depth: 1, Radius: 1.2},
		{Name: "oil hole", Shape: strength.CrossHole, At: 120, Hole: 3},
		{Name: "key", Shape: strength.Keyway, At: 75, Length: 18, Depth: 4},
		{Name: "fit", Shape: strength.PressFit, At: 75, Length: 20},
		{Name: "spline", Shape: strength.SplineRoot, At: 40, Length: 20, Root: 33},
		{Name: "pinion", Shape: strength.PinionRoot, At: 172, Length: 28, Root: 36},
	}
	return b
}

// threeShafts has a mesh from "in" to "out" and one from "out" to "diff".
func threeShafts() *Box {
	b := &Box{
		Name: "three", Torque: 200e3, Turns: 1,
		Input: Port{"in", 3}, Output: Port{"diff", 60},
		Shafts: shaftsOf(parallel{"in", 0, 0, 180}, parallel{"out", 66, 0, 204}, parallel{"diff", 66 + 119*math.Cos(-70*math.Pi/180), 119 * math.Sin(-70*math.Pi/180), 120}),
		Gears: []Gear{
			{Name: "p1", Shaft: "in", At: 75, Teeth: 21, Face: 20},
			{Name: "w1", Shaft: "out", At: 75, Teeth: 39, Face: 20},
			{Name: "p2", Shaft: "out", At: 172, Teeth: 17, Face: 28},
			{Name: "w2", Shaft: "diff", At: 65, Teeth: 71, Face: 28},
		},
		Meshes: []Mesh{
			{Name: "a", Driver: "p1", Driven: "w1", Module: 2, Helix: 24 * math.Pi / 180, Hand: Right, Rack: involute.StandardRack, Efficiency: 1},
			{Name: "b", Driver: "p2", Driven: "w2", Module: 2.5, Helix: 22 * math.Pi / 180, Hand: Left, Rack: involute.StandardRack, Efficiency: 1},
		},
		Speeds: []Speed{{Name: "only", Path: []string{"a", "b"}}},
	}
	b.Shafts[2].Start = 172 - 65 // the wheel stands across its pinion
	return b
}

func mustSolve(t testing.TB, b *Box, load Load) *Result {
	t.Helper()
	r, err := Solve(b, load)
	if err != nil {
		t.Fatal(err)
	}
	return r
}
