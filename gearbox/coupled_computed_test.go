package gearbox

import (
	"math"
	"slices"
	"testing"

	"layshaft/gearstress/involute"
	"layshaft/material"
)

// Three systems of coupled shafts and meshes, computed independently: a dense Timoshenko frame (Cowper shear, no softness of shoulders, no wind-up)
// with the meshes in 81 unilateral strips and its own active set. Strips of the reference are counted at their middles, here at stations with the ends of the face among
// them: K_Hβ and the line loads at the ends are therefore read 0.3 % higher or lower here. Tolerance 0.5 % of the largest of its kind, as the reference states.
func coupledBox(b *Box) *Box {
	b.Steels = []material.Steel{{Name: "of the reference", Young: 206000, Poisson: 0.3, Yield: material.Band{Low: 600, Typical: 700, High: 800}, Contact: material.Band{Low: 1500, Typical: 1500, High: 1500}}}
	b.Turns = 1
	in := Shaft{Name: "in", Axis: &[2]float64{}, Sections: []Section{{30, 30, 0}, {30, 34, 0}, {60, 38, 10}, {35, 36, 10}, {25, 28, 0}}}
	out := Shaft{Name: "out", Sections: []Section{{22, 35, 0}, {45, 42, 14}, {50, 46, 14}, {45, 44, 0}, {40, 38, 0}}}
	b.Shafts = append([]Shaft{in, out}, b.Shafts...)
	for i := range b.Shafts {
		b.Shafts[i].Steel = "of the reference"
	}
	for i := range b.Gears {
		b.Gears[i].Steel = "of the reference"
	}
	b.Input = Port{"in", 0}
	return b
}

func carriers(s *Shaft, x1, r1, t1, x2, r2, t2 float64) {
	s.Bearings = []Bearing{{Name: "left", Type: DeepGrooveBall, At: x1, Radial: r1, Tilt: t1, Axial: rigid}, {Name: "right", Type: DeepGrooveBall, At: x2, Radial: r2, Tilt: t2}}
}

func TestCoupledSystems(t *testing.T) {
	const deg = math.Pi / 180
	x := func(v float64) *float64 { return &v }

	spur := coupledBox(&Box{
		Torque: 250e3, Output: Port{"out", 202},
		Gears:  []Gear{{Name: "p", Shaft: "in", At: 48, Teeth: 14, Face: 18, Shift: x(0)}, {Name: "w", Shaft: "out", At: 48, Teeth: 43, Face: 18, Shift: x(0)}},
		Meshes: []Mesh{{Name: "m", Driver: "p", Driven: "w", Module: 2.25, Stiffness: 15000, Rack: involute.StandardRack, Efficiency: 1}},
		Speeds: []Speed{{Name: "only", Path: []string{"m"}}},
	})
	carriers(&spur.Shafts[0], 12, 1e9, 0, 168, 1e9, 0)
	carriers(&spur.Shafts[1], 10, 1e9, 0, 192, 1e9, 0)
	spur.Shafts[1].Axis = &[2]float64{64.125, 0}

	helical := coupledBox(&Box{
		Torque: 320e3, Output: Port{"out", 202},
		Gears:  []Gear{{Name: "p", Shaft: "in", At: 75, Teeth: 21, Face: 20}, {Name: "w", Shaft: "out", At: 75, Teeth: 39, Face: 20}},
		Meshes: []Mesh{{Name: "m", Driver: "p", Driven: "w", Module: 2, Stiffness: 16000, Helix: 24 * deg, Hand: Right, Rack: involute.StandardRack, Efficiency: 1}},
		Speeds: []Speed{{Name: "only", Path: []string{"m"}}},
	})
	carriers(&helical.Shafts[0], 12, 250e3, 15e6, 168, 200e3, 10e6)
	carriers(&helical.Shafts[1], 10, 300e3, 20e6, 192, 400e3, 0)
	helical.Shafts[1].Axis = &[2]float64{66, 0}

	three := coupledBox(&Box{
		Torque: 320e3, Output: Port{"diff", 125},
		Shafts: []Shaft{{Name: "diff", Start: 107, Sections: []Section{{35, 50, 30}, {60, 64, 30}, {35, 50, 30}}}},
		Gears: []Gear{
			{Name: "p", Shaft: "in", At: 75, Teeth: 21, Face: 20, Crowning: 0.004}, {Name: "w", Shaft: "out", At: 75, Teeth: 39, Face: 20},
			{Name: "fp", Shaft: "out", At: 172, Teeth: 17, Face: 28, Crowning: 0.006}, {Name: "fw", Shaft: "diff", At: 65, Teeth: 71, Face: 28},
		},
		Meshes: []Mesh{
			{Name: "m", Driver: "p", Driven: "w", Module: 2, Stiffness: 16000, Helix: 24 * deg, Hand: Right, Rack: involute.StandardRack, Efficiency: 1},
			{Name: "f", Driver: "fp", Driven: "fw", Module: 2.5, Stiffness: 17000, Helix: 22 * deg, Hand: Left, Rack: involute.StandardRack, Efficiency: 1},
		},
		Speeds: []Speed{{Name: "only", Path: []string{"m", "f"}}},
	})
	carriers(&three.Shafts[0], 12, 250e3, 0, 168, 200e3, 0)
	carriers(&three.Shafts[1], 10, 300e3, 0, 192, 400e3, 0)
	carriers(&three.Shafts[2], 15, 500e3, 0, 115, 500e3, 0)
	three.Shafts[1].Axis = &[2]float64{66, 0}
	three.Shafts[2].Axis = &[2]float64{66 + 119*math.Cos(-70*deg), 119 * math.Sin(-70*deg)}

	type station struct {
		shaft, at                          int
		yUM, zUM, rotationYUR, rotationZUR float64
	}
	for _, c := range []struct {
		name      string
		box       *Box
		reactions [][4]float64 // by shaft: left y, z, right y, z, N
		stations  []station
		faces     [][4]float64 // by mesh: K_Hβ, largest line load, line load at the left and at the right end, N/mm
	}{
		{"spur, rigid bearings", spur,
			[][4]float64{{4464.04, 12264.9, 1313.26, 3608.16}, {-4588.17, -12605.9, -1189.14, -3267.13}},
			[]station{{0, 48, -16.458, -45.218, 638.11, -232.25}, {1, 48, 10.886, 29.908, -421.25, 153.32}},
			[][4]float64{{1.2083, 1133.89, 1133.9, 800.59}}},
		{"helical, elastic bearings", helical,
			[][4]float64{{2519.0, 8324.98, 3194.64, 5527.83}, {-5160.8, -8994.11, -552.838, -4858.71}},
			[]station{{0, 75, -39.454, -91.301, 165.74, -228.21}, {1, 75, 25.741, 67.35, -101.27, -130.77}},
			[][4]float64{{1.1112, 832.526, 832.53, 733.91}}},
		{"two meshes, three shafts", three,
			[][4]float64{{2510.06, 8310.81, 3203.58, 5542.0}, {-7738.18, -9618.8, -18718.5, -22827.0}, {6664.9, 18509.6, 14078.2, 83.3821}},
			[]station{{0, 75, -40.62, -93.675, 169.45, -230.57}, {1, 75, 70.673, 92.958, -416.04, 283.6}, {1, 172, 64.625, 75.971, 610.47, -595.41}, {2, 65, -29.061, -26.272, -513.04, -203.7}},
			[][4]float64{{1.1698, 876.467, 876.47, 611.25}, {1.2584, 1251.94, 711.17, 1251.9}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := mustSolve(t, c.box, Load{Method: Method{NoShoulder: true, NoTwist: true}})
			s := r.Speeds[0]
			for i, want := range c.reactions {
				largest := 0.0
				for _, v := range want {
					largest = max(largest, math.Abs(v))
				}
				left, right := s.Shafts[i].Bearings[0].Force, s.Shafts[i].Bearings[1].Force
				for k, got := range []float64{left[1], left[2], right[1], right[2]} {
					if math.Abs(got-want[k]) > 0.005*largest {
						t.Errorf("%s, reaction %d: %.1f N, want %.1f", s.Shafts[i].Name, k, got, want[k])
					}
				}
			}
			for i, want := range c.faces {
				m := s.Meshes[i]
				for k, got := range []float64{m.FaceFactor, slices.Max(m.LineLoad), m.LineLoad[0], m.LineLoad[len(m.LineLoad)-1]} {
					if scale := want[min(k, 1)]; math.Abs(got-want[k]) > 0.005*scale {
						t.Errorf("mesh %s, number %d: %.4f, want %.4f", m.Name, k, got, want[k])
					}
				}
			}
			for _, w := range c.stations {
				at := s.Shafts[w.shaft].Solution.At(float64(w.at), 0)
				move, turn := math.Hypot(w.yUM, w.zUM), math.Hypot(w.rotationYUR, w.rotationZUR)
				for _, v := range []struct {
					what               string
					got, want, largest float64
				}{
					{"y", at.Y.Deflection * 1e3, w.yUM, move}, {"z", at.Z.Deflection * 1e3, w.zUM, move},
					{"rotation y", -at.Z.Slope * 1e6, w.rotationYUR, turn}, {"rotation z", at.Y.Slope * 1e6, w.rotationZUR, turn},
				} {
					if math.Abs(v.got-v.want) > 0.005*v.largest {
						t.Errorf("%s at %d: %s %.2f, want %.2f", s.Shafts[w.shaft].Name, w.at, v.what, v.got, v.want)
					}
				}
			}
		})
	}
}
