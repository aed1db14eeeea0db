package gearbox

import (
	"math"
	"testing"

	"layshaft/beam"
	"layshaft/gearstress/involute"
)

// inline is a layshaft box: constant-mesh pair, layshaft, one speed pair back to a mainshaft piloted in the input shaft, and a direct speed.
func inline() *Box {
	return &Box{
		Name: "inline", Torque: 300e3, Turns: 1, Input: Port{"input", 5}, Output: Port{"main", 210},
		Shafts: []Shaft{
			{Name: "input", Axis: &[2]float64{0, 0}, Sections: []Section{{60, 30, 0}, {40, 50, 24}}, Bearings: []Bearing{
				{Name: "nose", Type: NeedleRoller, At: 8, Radial: 1e5}, {Name: "case", Type: DeepGrooveBall, At: 70, Radial: 2.5e5, Axial: rigid}}},
			{Name: "main", Start: 85, Sections: []Section{{20, 24, 0}, {120, 40, 0}, {80, 35, 0}}, Bearings: []Bearing{
				{Name: "pilot", Type: NeedleRoller, At: 6, Radial: 2e5, In: "input", InAt: 92}, {Name: "rear", Type: DeepGrooveBall, At: 160, Radial: 3e5, Axial: rigid}}},
			{Name: "lay", Start: 60, Axis: &[2]float64{0, -75}, Sections: []Section{{180, 38, 0}}, Bearings: []Bearing{
				{Name: "front", Type: CylindricalRoller, At: 8, Radial: 3e5, Axial: rigid}, {Name: "rear", Type: CylindricalRoller, At: 172, Radial: 3e5}}},
		},
		Gears: []Gear{
			{Name: "drive", Shaft: "input", At: 88, Teeth: 24, Face: 20}, {Name: "lay drive", Shaft: "lay", At: 28, Teeth: 34, Face: 20},
			{Name: "lay third", Shaft: "lay", At: 100, Teeth: 26, Face: 18}, {Name: "third", Shaft: "main", At: 75, Teeth: 32, Face: 18},
		},
		Meshes: []Mesh{
			{Name: "constant", Driver: "drive", Driven: "lay drive", Module: 2.4, Helix: 0.38, Hand: Left, Rack: involute.StandardRack, Efficiency: 1},
			{Name: "third", Driver: "lay third", Driven: "third", Module: 2.4, Helix: 0.38, Hand: Right, Rack: involute.StandardRack, Efficiency: 1},
		},
		Speeds: []Speed{{Name: "3rd", Path: []string{"constant", "third"}}, {Name: "4th", Direct: true}},
	}
}

// What ties two shafts together at a pilot is one equation: the bearing's force is its stiffness times how far the piloted shaft has moved against its
// carrier. Each shaft's own equilibrium is the business of package beam.
func TestPilotTiesShaftsTogether(t *testing.T) {
	b := inline()
	s := mustSolve(t, b, Load{}).Speeds[0]
	input, main := s.Shafts[0].Solution, s.Shafts[1].Solution
	pilot := b.Shafts[1].Bearings[0]
	piloted, seat := main.At(pilot.At, beam.Left), input.At(pilot.InAt, beam.Left)
	force := s.Shafts[1].Bearings[0].Force
	for k, gap := range []float64{piloted.Y.Deflection - seat.Y.Deflection, piloted.Z.Deflection - seat.Z.Deflection} {
		if got := -pilot.Radial * gap; math.Abs(got-force[k+1]) > 1e-6*s.Shafts[1].Bearings[0].Radial {
			t.Errorf("plane %d: stiffness times movement gives %g N, the bearing %g N", k, got, force[k+1])
		}
	}
	if s.Shafts[1].Bearings[0].Radial < 100 {
		t.Error("the pilot carries next to nothing; this test would pass without it")
	}
	// The input shaft alone, under its own loads and the pilot's push: what its case bearings give must balance both.
	var sum [2]float64
	for _, br := range s.Shafts[0].Bearings {
		sum[0] += br.Force[1]
		sum[1] += br.Force[2]
	}
	m := s.Meshes[0] // driver at y = z = 0, driven at −z: e_r = −e_z, e_x × e_r = +e_y
	wantY := m.Tangential - -force[1]
	wantZ := -m.Radial - -force[2]
	if math.Abs(sum[0]-wantY) > 1e-6*m.Tangential || math.Abs(sum[1]-wantZ) > 1e-6*m.Tangential {
		t.Errorf("case bearings of the input shaft give %v, want %v, %v", sum, wantY, wantZ)
	}
}

func TestDirectSpeedOnlyTwists(t *testing.T) {
	b := inline()
	s := mustSolve(t, b, Load{}).Speeds[1]
	if s.Ratio != 1 || math.Abs(s.OutputTorque-b.Torque) > 1e-9*b.Torque || len(s.Meshes) != 0 {
		t.Errorf("ratio %g, output torque %g, %d meshes", s.Ratio, s.OutputTorque, len(s.Meshes))
	}
	for _, sh := range s.Shafts {
		if sh.MaxDeflection > 1e-12 {
			t.Errorf("%s bends %g mm", sh.Name, sh.MaxDeflection)
		}
	}
	// τ = 16 T / π d³ in the thinnest section that carries the torque, von Mises √3 τ: that of the input shaft, not the spigot of 24 mm.
	g := s.Governing()
	want := math.Sqrt(3) * 16 * b.Torque / (math.Pi * 30 * 30 * 30)
	if g.Kind != ShaftYield || math.Abs(g.Demand-want) > 1e-9*want {
		t.Errorf("governed by %s, %s with %g MPa; want shaft yield with %g MPa", g.Kind, g.Item, g.Demand, want)
	}
}

// An idler turns reverse round: same ratio as without it, other sense; it feels both meshes and no torque of its own.
func TestIdlerReverses(t *testing.T) {
	b := threeShafts()
	b.Gears[2].At, b.Gears[2].Face, b.Gears[2].Name = 120, 20, "unused"
	b.Shafts[2].Start, b.Gears[3].At, b.Gears[3].Face, b.Gears[3].Teeth = 0, 75, 20, 30
	b.Meshes[1] = b.Meshes[0]
	b.Meshes[1].Name, b.Meshes[1].Driver, b.Meshes[1].Driven, b.Meshes[1].Hand = "b", "w1", "w2", Left
	b.Shafts[2].Axis = &[2]float64{66 + 2*69./2/math.Cos(24*math.Pi/180), 0}
	b.Output.At = 60
	s := mustSolve(t, b, Load{}).Speeds[0]
	if want := 39. / 21 * 30 / 39; math.Abs(s.Ratio-want) > 1e-12 {
		t.Errorf("ratio %g, want +%g: input and output turn alike over an idler", s.Ratio, want)
	}
	idler := s.Shafts[1].Solution
	if before, after := idler.At(20, beam.Left).Torque, idler.At(150, beam.Left).Torque; math.Abs(before) > 1e-6 || math.Abs(after) > 1e-6 {
		t.Errorf("the idler's shaft carries torque %g and %g outside the gear", before, after)
	}
}
