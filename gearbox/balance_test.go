package gearbox

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"

	"layshaft/gearstress/involute"
)

// randomBox is a chain of two to four parallel shafts anywhere in the transverse plane, each mesh of any hand. Most of them couldn't be built, which forces don't ask: they are solved with Load.Loose.
func randomBox(t *rapid.T) *Box {
	n := rapid.IntRange(2, 4).Draw(t, "shafts")
	b := &Box{Name: "random", Torque: rapid.Float64Range(1e3, 1e6).Draw(t, "torque"), Turns: rapid.SampledFrom([]int{1, -1}).Draw(t, "turns")}
	speed := Speed{Name: "only"}
	y, z := 0.0, 0.0
	for i := range n {
		name := fmt.Sprint("s", i)
		s := shaftsOf(parallel{name, y, z, rapid.Float64Range(120, 300).Draw(t, "length")})[0]
		s.Start = rapid.Float64Range(-20, 20).Draw(t, "start")
		b.Shafts = append(b.Shafts, s)
		if i == n-1 {
			break
		}
		teeth := [2]int{rapid.IntRange(14, 40).Draw(t, "z1"), rapid.IntRange(14, 70).Draw(t, "z2")}
		helix := rapid.SampledFrom([]float64{0, 0.2, 0.45}).Draw(t, "helix")
		a := 2.5 * float64(teeth[0]+teeth[1]) / 2 / math.Cos(helix)
		angle := rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle")
		y, z = y+a*math.Cos(angle), z+a*math.Sin(angle)
		at := rapid.Float64Range(50, 90).Draw(t, "x in the box")
		p, w, m := fmt.Sprint("p", i), fmt.Sprint("w", i), fmt.Sprint("m", i)
		b.Gears = append(b.Gears, Gear{Name: p, Shaft: name, Teeth: teeth[0], Face: 20, At: at - s.Start}, Gear{Name: w, Shaft: fmt.Sprint("s", i+1), Teeth: teeth[1], Face: 16, At: at})
		mesh := Mesh{Name: m, Driver: p, Driven: w, Module: 2.5, Helix: helix, Rack: involute.StandardRack, Efficiency: 1}
		if helix > 0 {
			mesh.Hand = rapid.SampledFrom([]Hand{Right, Left}).Draw(t, "hand")
		}
		b.Meshes = append(b.Meshes, mesh)
		speed.Path = append(speed.Path, m)
	}
	for i := range b.Gears { // the driven gears stand across their drivers
		if b.Gears[i].Name[0] == 'w' {
			for _, s := range b.Shafts {
				if s.Name == b.Gears[i].Shaft {
					b.Gears[i].At -= s.Start
				}
			}
		}
	}
	b.Speeds = []Speed{speed}
	b.Input, b.Output = Port{"s0", 2}, Port{fmt.Sprint("s", n-1), 100}
	return b
}

// The case of a box stands still: what its bearings give to the shafts, the torque that comes in and the torque that goes out
// must balance as forces and as moments about a point outside. Mesh forces are inside and must drop out.
func TestTheCaseBalances(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		b := randomBox(t)
		torque := b.Torque * rapid.SampledFrom([]float64{1, -1}).Draw(t, "drive or coast")
		r, err := Solve(b, Load{Torque: torque, Loose: true})
		if err != nil {
			t.Fatal(err)
		}
		s := r.Speeds[0]
		moment := [3]float64{torque*float64(b.Turns) - s.OutputTorque, 0, 0}
		var force [3]float64
		largest := 0.0
		for _, sh := range s.Shafts {
			axis := b.Shafts[0].Axis
			for _, candidate := range b.Shafts {
				if candidate.Name == sh.Name {
					axis = candidate.Axis
				}
			}
			for _, br := range sh.Bearings {
				at := [3]float64{sh.Start + br.At, axis[0], axis[1]}
				f := br.Force
				for k := range 3 {
					force[k] += f[k]
					moment[k] += at[(k+1)%3]*f[(k+2)%3] - at[(k+2)%3]*f[(k+1)%3]
				}
				largest = max(largest, math.Abs(f[0]), br.Radial)
			}
		}
		for k := range 3 {
			if math.Abs(force[k]) > 1e-8*largest {
				t.Errorf("force %d left over: %g of %g N", k, force[k], largest)
			}
			if math.Abs(moment[k]) > 1e-8*largest*300 {
				t.Errorf("moment %d left over: %g N·mm", k, moment[k])
			}
		}
	})
}

// Power in times efficiency is power out, whichever way it runs.
func TestPowerIsKept(t *testing.T) {
	for _, c := range []struct {
		torque, want float64 // N·mm in, N·mm out
	}{
		{200e3, 200e3 * 39 / 21. * 71 / 17 * 0.98 * 0.97},
		{-200e3, -200e3 * 39 / 21. * 71 / 17 / (0.98 * 0.97)},
	} {
		b := threeShafts()
		b.Meshes[0].Efficiency, b.Meshes[1].Efficiency = 0.98, 0.97
		s := mustSolve(t, b, Load{Torque: c.torque}).Speeds[0]
		if math.Abs(s.OutputTorque-c.want) > 1e-6*math.Abs(c.want) {
			t.Errorf("%g in: %g out, want %g", c.torque, s.OutputTorque, c.want)
		}
		if want := 39 / 21. * 71 / 17; math.Abs(s.Ratio-want) > 1e-12 || math.Abs(s.Efficiency-0.98*0.97) > 1e-12 {
			t.Errorf("ratio %g, efficiency %g", s.Ratio, s.Efficiency)
		}
	}
}

// In a mirrored box (z turned round, so hands and senses too) everything is the same size.
func TestMirroredBoxBehavesAlike(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		b := randomBox(t)
		one, err := Solve(b, Load{Loose: true})
		if err != nil {
			t.Fatal(err)
		}
		for i := range b.Shafts {
			b.Shafts[i].Axis = &[2]float64{b.Shafts[i].Axis[0], -b.Shafts[i].Axis[1]}
		}
		for i, m := range b.Meshes {
			switch m.Hand {
			case Right:
				b.Meshes[i].Hand = Left
			case Left:
				b.Meshes[i].Hand = Right
			}
		}
		b.Turns = -b.Turns
		other, err := Solve(b, Load{Loose: true})
		if err != nil {
			t.Fatal(err)
		}
		for i, m := range one.Speeds[0].Margins {
			n := other.Speeds[0].Margins[i]
			if math.Abs(m.Allowable[0]-n.Allowable[0]) > 1e-7*m.Allowable[0] {
				t.Errorf("%s %s: %g here, %g there", m.Kind, m.Item, m.Allowable[0], n.Allowable[0])
			}
		}
		for i, m := range one.Speeds[0].Meshes {
			if n := other.Speeds[0].Meshes[i]; math.Abs(m.TiltInAction-n.TiltInAction) > 1e-9*m.Tilt || math.Abs(m.Axial-n.Axial) > 1e-9*m.Tangential {
				t.Errorf("mesh %s: tilt %g and %g, thrust %g and %g", m.Name, m.TiltInAction, n.TiltInAction, m.Axial, n.Axial)
			}
		}
	})
}
