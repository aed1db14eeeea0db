package gearbox

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"
)

// One mesh, driver at the origin, driven gear at +y, a torque of 1 N·mm per mm of pitch radius, so F_t = 1 N. Each row can be pictured:
// a driver turned about +x moves its side at +y towards +z, so it pushes the driven gear towards +z and is itself pushed towards −z; the gears
// push each other apart; a right-hand driver turned about +x is thrust towards +x (ISO 21771 for the hand of a helix).
func TestDirectionsOfMeshForces(t *testing.T) {
	tan20 := math.Tan(20 * math.Pi / 180)
	for _, c := range []struct {
		name     string
		torque   float64 // sign only
		hand     Hand
		driven   [2]float64 // axis of the driven gear, in centre distances
		wantY    float64    // on the driven gear, in F_t
		wantZ    float64
		wantPush float64 // sign of the thrust on the driver along +x
	}{
		{"drive about +x, right hand", 1, Right, [2]float64{1, 0}, tan20, 1, 1},
		{"drive about −x, right hand", -1, Right, [2]float64{1, 0}, tan20, -1, -1},
		{"drive about +x, left hand", 1, Left, [2]float64{1, 0}, tan20, 1, -1},
		{"driven gear at +z", 1, Right, [2]float64{0, 1}, -1, tan20, 1},
		{"driven gear at −y", 1, Right, [2]float64{-1, 0}, -tan20, -1, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			const helix = 0.3
			a := 2.0 * 60 / 2 / math.Cos(helix)
			b := &Box{
				Torque: 1, Turns: 1, Input: Port{"in", 0}, Output: Port{"out", 0},
				Shafts: shaftsOf(parallel{"in", 0, 0, 100}, parallel{"out", c.driven[0] * a, c.driven[1] * a, 100}),
				Gears:  []Gear{{Name: "p", Shaft: "in", At: 50, Teeth: 20, Face: 20}, {Name: "w", Shaft: "out", At: 50, Teeth: 40, Face: 20}},
				Meshes: []Mesh{{Name: "m", Driver: "p", Driven: "w", Module: 2, Helix: helix, Hand: c.hand, Rack: involute.StandardRack, Efficiency: 1}},
				Speeds: []Speed{{Name: "only", Path: []string{"m"}}},
			}
			p := prepare(b, Method{})
			if p.found.HasErrors() {
				t.Fatal(p.found)
			}
			g := p.pairs[0].geometry
			f := p.force(0, c.torque*g.Working[0]/2, p.layouts[0][0])
			radial := math.Tan(g.WorkingPressureAngle) / tan20
			wantY, wantZ := c.wantY, c.wantZ
			if c.driven[0] != 0 { // the radial force lies along y
				wantY *= radial
			} else {
				wantZ *= radial
			}
			if math.Abs(f.onDriven[0]-wantY) > 1e-12 || math.Abs(f.onDriven[1]-wantZ) > 1e-12 {
				t.Errorf("force on the driven gear %.4f, %.4f; want %.4f, %.4f", f.onDriven[0], f.onDriven[1], wantY, wantZ)
			}
			if want := c.wantPush * math.Tan(g.WorkingHelix); math.Abs(f.axial-want) > 1e-12 {
				t.Errorf("thrust on the driver %.4f, want %.4f", f.axial, want)
			}
		})
	}
}

// Two equal uniform shafts with the mesh in the middle of rigid bearings bend as F L³/48 E I, without shear and without any tilt: the separation is
// that of both under F_r, and a spur mesh in mid-span stays parallel however far the shafts bend.
func TestMeshAtMidSpan(t *testing.T) {
	const d, span = 30.0, 176.0
	b := &Box{
		Torque: 100e3, Turns: 1, Input: Port{"in", 0}, Output: Port{"out", 0},
		Shafts: shaftsOf(parallel{"in", 0, 0, 200}, parallel{"out", 60, 0, 200}),
		Gears:  []Gear{{Name: "p", Shaft: "in", At: 100, Teeth: 30, Face: 1e-3}, {Name: "w", Shaft: "out", At: 100, Teeth: 30, Face: 1e-3}},
		Meshes: []Mesh{{Name: "m", Driver: "p", Driven: "w", Module: 2, Rack: involute.StandardRack, Efficiency: 1}},
		Speeds: []Speed{{Name: "only", Path: []string{"m"}}},
	}
	for i := range b.Shafts {
		b.Shafts[i].Sections = []Section{{Length: 200, Outer: d}}
		for j := range b.Shafts[i].Bearings {
			b.Shafts[i].Bearings[j].Radial = rigid
		}
	}
	m := mustSolve(t, b, Load{Method: Method{NoShear: true}}).Speeds[0].Meshes[0]
	steel, _ := prepare(b, Method{}).steelNamed("")
	inertia := math.Pi * math.Pow(d, 4) / 64
	ft := 100e3 / 30
	want := 2 * ft * math.Tan(20*math.Pi/180) * math.Pow(span, 3) / (48 * steel.Young * inertia)
	if math.Abs(m.Separation-want) > 1e-6*want {
		t.Errorf("separation %g mm, want %g", m.Separation, want)
	}
	if m.Tilt > 1e-9 {
		t.Errorf("tilt %g rad at mid-span, want none", m.Tilt)
	}
}
