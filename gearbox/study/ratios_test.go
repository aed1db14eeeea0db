package study

import (
	"math"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
)

func buggy(t *testing.T, car string) *gearbox.Box {
	t.Helper()
	box, _, found := boxfile.ReadFile("../../testdata/alder.yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	box.Car, box.Clutch = nil, nil
	switch car {
	case "tyres":
		box.Car = &gearbox.Car{TyreRadius: 290}
	case "whole":
		box.Car = &gearbox.Car{TyreRadius: 290, Mass: 620, Drive: gearbox.RearDrive, DrivenShare: 0.55, Wheelbase: 2300, Height: 420, Grip: 1.2}
	}
	return box
}

const (
	rpm = math.Pi / 30
	kmh = 1e6 / 3600 // mm/s
)

// By hand: the final drive is 62/16 = 3.875. 1st 41/13 · 3.875 = 12.22115, 2nd 36/18 · 3.875 = 7.75, 3rd 35/25 · 3.875 = 5.425, 4th 31/29 · 3.875 = 4.142241, 5th 27/33 · 3.875 = 3.170455.
// A tyre of 0.29 m rolls 1.822124 m in a turn; at 6500 a minute 11 843.81 m in a minute through 1 : 1, which is 710.628 km/h.
func TestRatiosByHand(t *testing.T) {
	table, err := TableOfRatios(buggy(t, "whole"), 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	const all = 710.6283 // km/h
	want := []struct {
		total, ground, after, drop float64 // km/h, turns a minute, %
		wheels, pull               float64 // N·m, N: 190 N·m · total · 0.99², over 0.29 m
	}{
		{12.22115, all / 12.22115, 6500 * 7.75 / 12.22115, 36.5854, 2275.81, 7847.6},
		{7.75, all / 7.75, 6500 * 5.425 / 7.75, 30, 1443.20, 4976.5},
		{5.425, all / 5.425, 6500 * 4.142241 / 5.425, 23.6453, 1010.24, 3483.6},
		{4.142241, all / 4.142241, 6500 * 3.170455 / 4.142241, 23.4604, 771.36, 2659.9},
		{3.170455, all / 3.170455, math.NaN(), math.NaN(), 590.40, 2035.9},
	}
	near := func(a, b, within float64) bool { return math.IsNaN(a) && math.IsNaN(b) || math.Abs(a-b) <= within }
	for i, w := range want {
		s := table.Speeds[i]
		if !near(s.Total, w.total, 1e-5) || !near(s.Ground/kmh, w.ground, 1e-3) || !near(s.Thousand/kmh, w.ground/6.5, 1e-3) || !near(s.After/rpm, w.after, 0.01) ||
			!near(100*s.Lost(), w.drop, 1e-3) || !near(s.Drop/rpm, 6500-w.after, 0.01) {
			t.Errorf("%s: total %.6f, %.4f km/h, %.3f after the shift, %.4f %% lost; want %.6f, %.4f, %.3f, %.4f", s.Name, s.Total, s.Ground/kmh, s.After/rpm, 100*s.Lost(), w.total, w.ground, w.after, w.drop)
		}
		if !near(s.Wheels/1e3, w.wheels, 0.02) || !near(s.Pull, w.pull, 0.1) || !near(s.Holds, 5138.99, 0.01) || !near(s.Used, w.pull/5138.99, 1e-4) {
			t.Errorf("%s: %.2f N·m at the wheels, %.1f N of %.2f; want %.2f, %.1f", s.Name, s.Wheels/1e3, s.Pull, s.Holds, w.wheels, w.pull)
		}
	}
	if !table.Tyres || !table.Grip || table.Revs != table.Box.Revs || table.Speeds[0].Next != "2nd" || table.Speeds[4].Next != "" {
		t.Errorf("%+v", table)
	}
}

// A shift changes the speed of the engine, not that of the car; the speeds over ground stand to each other as the ratios, whatever the revs.
func TestShiftsKeepTheSpeedOfTheCar(t *testing.T) {
	box := buggy(t, "tyres")
	table, err := TableOfRatios(box, 5200*rpm, 0)
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range table.Speeds[:len(table.Speeds)-1] {
		next := table.Speeds[i+1]
		if again := box.Car.Ground(s.After, next.Total); math.Abs(again-s.Ground) > 1e-9*s.Ground {
			t.Errorf("%s to %s: %g mm/s before, %g after", s.Name, next.Name, s.Ground, again)
		}
		if !(next.Ground > s.Ground) || math.Abs(s.Ground/s.Thousand-5.2) > 1e-12 || math.Abs(s.Drop+s.After-table.Revs) > 1e-9 {
			t.Errorf("%+v", s)
		}
	}
	if table.Grip || !math.IsNaN(table.Speeds[0].Holds) || !(table.Speeds[0].Pull > 0) {
		t.Error("something is held by tyres of which only the radius is told")
	}
}

// An axle behind the box multiplies the ratio, and its losses the torque.
func TestAxleBehindTheBox(t *testing.T) {
	plain, err := TableOfRatios(buggy(t, "tyres"), 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	box := buggy(t, "tyres")
	box.Car.AxleRatio, box.Car.AxleEfficiency = 2, 0.95
	geared, err := TableOfRatios(box, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range geared.Speeds {
		p := plain.Speeds[i]
		if s.Box != p.Box || s.Total != 2*p.Total || math.Abs(s.Ground-p.Ground/2) > 1e-12*p.Ground || math.Abs(s.Wheels-p.Wheels*1.9) > 1e-9*s.Wheels || math.Abs(s.Step-p.Step) > 1e-12 {
			t.Errorf("%+v, without the axle %+v", s, p)
		}
	}
}

// Without a car there are ratios and drops, without revs ratios alone.
func TestWhatIsNotToldIsNotKnown(t *testing.T) {
	box := buggy(t, "")
	table, err := TableOfRatios(box, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	if s := table.Speeds[0]; table.Tyres || !math.IsNaN(s.Ground) || !math.IsNaN(s.Thousand) || !math.IsNaN(s.Pull) || s.Total != s.Box || !(s.Drop > 0) {
		t.Errorf("%+v", s)
	}
	box.Revs = 0
	if table, err = TableOfRatios(box, 0, 0); err != nil {
		t.Fatal(err)
	}
	if s := table.Speeds[0]; !math.IsNaN(s.After) || !math.IsNaN(s.Drop) || !(s.Step > 1) {
		t.Errorf("%+v", s)
	}
	if _, err := TableOfRatios(box, 0, -1); err == nil {
		t.Error("an engine that brakes has a ratio table")
	}
}

// Speeds stand from the shortest to the longest, reverse last, in whatever order the file has them; nobody shifts up into reverse or out of it.
func TestOrderOfRatios(t *testing.T) {
	box, _, found := boxfile.ReadFile("../boxfile/testdata/reverse.yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	for _, g := range []struct {
		name  string
		at    float64
		teeth [2]int
	}{{"2nd", 62, [2]int{32, 32}}, {"1st", 20, [2]int{20, 44}}} {
		box.Gears = append(box.Gears, gearbox.Gear{Name: g.name + " pinion", Shaft: "a", At: g.at, Teeth: g.teeth[0], Face: 10}, gearbox.Gear{Name: g.name + " wheel", Shaft: "c", At: g.at, Teeth: g.teeth[1], Face: 10})
		mesh := box.Meshes[0]
		mesh.Name, mesh.Driver, mesh.Driven = g.name, g.name+" pinion", g.name+" wheel"
		box.Meshes = append(box.Meshes, mesh)
		box.Speeds = append(box.Speeds, gearbox.Speed{Name: g.name, Path: []string{g.name}})
	}
	box.Revs = 6000 * rpm
	table, err := TableOfRatios(box, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, s := range table.Speeds {
		names = append(names, s.Name)
		if s.Reverse != (s.Name == "reverse") || (s.Next == "2nd") != (s.Name == "1st") || math.IsNaN(s.Drop) != (s.Name != "1st") {
			t.Errorf("%+v", s)
		}
	}
	if got := strings.Join(names, " "); got != "1st 2nd reverse" {
		t.Errorf("the speeds stand as %s", got)
	}
	if r := table.Speeds[2]; math.Abs(r.Box-30./16) > 1e-12 {
		t.Errorf("reverse has the ratio %g", r.Box)
	}
}

// A direct speed turns the wheels as fast as the engine but for the axle: what the tyres hold comes straight back.
func TestDirectSpeed(t *testing.T) {
	box, _, found := boxfile.ReadFile("../boxfile/testdata/inline.yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	box.Car = buggy(t, "whole").Car
	table, err := TableOfRatios(box, 6000*rpm, 0)
	if err != nil {
		t.Fatal(err)
	}
	// 1st: 32/24 · 40/16 = 3.333; 6000 turns a minute of 1.822124 m are 655.965 km/h through 1 : 1.
	first, top := table.Speeds[0], table.Speeds[1]
	if top.Name != "top" || top.Total != 1 || math.Abs(first.Total-10./3) > 1e-12 || math.Abs(top.Ground/kmh-655.965) > 1e-3 || math.Abs(first.Ground/kmh-655.965*0.3) > 1e-3 || top.Reverse || first.Reverse {
		t.Errorf("%+v\n%+v", first, top)
	}
	gearings, err := gearbox.Gearings(box, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range gearings {
		if want := 5138.99 * 290 / (g.Total * g.ToWheels); math.Abs(g.Reach.Tyres-want) > 2e-6*want {
			t.Errorf("%s: the tyres hold %g N·mm at the input, want %g", g.Name, g.Reach.Tyres, want)
		}
	}
	solved, err := gearbox.Solve(box, gearbox.Load{Speeds: []string{"top"}})
	if err != nil {
		t.Fatal(err)
	}
	if r := solved.Speeds[0].Reach; r == nil || math.Abs(r.Tyres-5138.99*290) > 3 {
		t.Errorf("solved: %+v", r)
	}
}
