package boxfile

import (
	"math"
	"reflect"
	"strings"
	"testing"

	rolling "layshaft/beam/bearing"
	"layshaft/gearbox"
	"layshaft/material"
)

func TestWhatTheBoxWorksInAndFor(t *testing.T) {
	box := read(t, "rated.yaml")
	if box.Shock != 1.5 || math.Abs(box.Revs-6500*math.Pi/30) > 1e-10 || box.Oil != (gearbox.Oil{Viscosity: 100, Temperature: 95, Cleanliness: 0.4, Stage: 11}) || !box.Limits.Pitting || box.Limits.StaticSafety != 1.5 || box.Limits.BearingReliability != 0.95 {
		t.Errorf("%v %v %+v %+v", box.Shock, box.Revs, box.Oil, box.Limits)
	}
	duty := &gearbox.Duty{Passes: 200, Launches: 2, Steps: []gearbox.DutyStep{
		{Speed: "1st", Turns: 40, Share: 0.8}, {Speed: "2nd", Time: 12, Revs: 6000 * math.Pi / 30, Share: 1}, {Speed: "2nd", Turns: 300, Share: -0.25},
	}}
	if !reflect.DeepEqual(box.Duty, duty) {
		t.Errorf("%+v", box.Duty)
	}
	if want := (&gearbox.Clutch{Torque: 420000, Faces: 2}); !reflect.DeepEqual(box.Clutch, want) {
		t.Errorf("%+v", box.Clutch)
	}
	car := &gearbox.Car{TyreRadius: 290, AxleRatio: 3.9, AxleEfficiency: 0.97, Mass: 620, Drive: gearbox.RearDrive, DrivenShare: 0.55, Wheelbase: 2300, Height: 420, Grip: 1.2}
	if !reflect.DeepEqual(box.Car, car) {
		t.Errorf("%+v", box.Car)
	}
	inline := read(t, "inline.yaml")
	if want := (&gearbox.Clutch{Clamp: 9400, Faces: 2, Friction: 0.32, Radius: 110}); !reflect.DeepEqual(inline.Clutch, want) {
		t.Errorf("%+v", inline.Clutch)
	}
	if want := (&gearbox.Car{TyreRadius: 310, AxleRatio: 1, AxleEfficiency: 1}); !reflect.DeepEqual(inline.Car, want) {
		t.Errorf("%+v", inline.Car)
	}
	housing := gearbox.Housing{Test: &gearbox.HousingTest{Speed: "1st", Torque: 100000, Shaft: "output", Bearing: "left", Movement: 0.05}}
	if !reflect.DeepEqual(box.Housing, housing) {
		t.Errorf("%+v", box.Housing)
	}
	if got := read(t, "five-speed.yaml").Housing; got != (gearbox.Housing{Radial: 300000}) {
		t.Errorf("%+v", got)
	}
}

func TestWhatWeighs(t *testing.T) {
	box := read(t, "rated.yaml")
	parts := []gearbox.Part{{Name: "case", Mass: 9.4}, {Name: "clutch disc", Mass: 1.1, Inertia: 4200, TurnsWith: "input"}, {Name: "synchroniser hub", Inertia: 900, TurnsWith: "lay"}}
	if !reflect.DeepEqual(box.Parts, parts) {
		t.Errorf("%+v", box.Parts)
	}
	weighed := gearbox.Weighed{Box: 24.6, Pieces: []gearbox.Weighing{
		{Shaft: "input", Gears: []string{"pinion", "small pinion"}, Mass: 2.02}, {Gears: []string{"wheel"}, Mass: 0.68},
	}}
	if !reflect.DeepEqual(box.Weighed, weighed) {
		t.Errorf("%+v", box.Weighed)
	}
	if tolerance := box.Tolerances["weighed.pieces.0.mass"]; tolerance != 0.01 {
		t.Errorf("tolerance %g", tolerance)
	}
	if wheel := box.Gears[1]; wheel.Bore != 38 || *wheel.Hub != (gearbox.Hub{Length: 27, Outer: 52}) {
		t.Errorf("%g %+v", wheel.Bore, wheel.Hub)
	}
}

func TestBearingsWithTheirRollers(t *testing.T) {
	box := read(t, "rated.yaml")
	inf := math.Inf(1)
	tapered := &rolling.Elements{Kind: rolling.Tapered, Count: 15, Diameter: 8, Length: 10, Pitch: 54, ContactAngle: 15 * math.Pi / 180}
	rating := &rolling.Rating{Kind: rolling.Tapered, Dynamic: 62000, Static: 68000, E: 0.37, Y: 1.6, Y0: 0.9}
	want := [][]gearbox.Bearing{
		{
			{Name: "left", Type: gearbox.DeepGrooveBall, At: 10, Radial: inf, Axial: inf, Housing: 400000,
				Elements: &rolling.Elements{Kind: rolling.Ball, Count: 9, Diameter: 11, Pitch: 46, Clearance: 0.01},
				Rating:   &rolling.Rating{Kind: rolling.Ball, Dynamic: 22000, Static: 12000, Fatigue: 500, Mean: 48}},
			{Name: "right", Type: gearbox.CylindricalRoller, At: 170, Radial: inf,
				Elements: &rolling.Elements{Kind: rolling.Cylindrical, Count: 14, Diameter: 7.5, Length: 9, Pitch: 52, Clearance: 0.01}},
		},
		{
			{Name: "left", Type: gearbox.TaperedRoller, At: 10, Radial: inf, Elements: tapered, Rating: rating},
			{Name: "right", Type: gearbox.TaperedRoller, At: 170, Radial: inf, Elements: tapered, Rating: rating},
		},
		{
			{Name: "left", Type: gearbox.TaperedRoller, At: 10, Radial: inf, Elements: tapered},
			{Name: "middle", Type: gearbox.NeedleRoller, At: 90, Radial: inf,
				Elements: &rolling.Elements{Kind: rolling.Needle, Count: 24, Diameter: 3, Length: 16, Pitch: 38, Clearance: -0.002}},
			{Name: "right", Type: gearbox.TaperedRoller, At: 170, Radial: inf, Elements: tapered},
		},
	}
	for i, bearings := range want {
		for j, b := range bearings {
			got := box.Shafts[i].Bearings[j]
			if angle := b.Elements.ContactAngle; math.Abs(got.Elements.ContactAngle-angle) < 1e-15 {
				got.Elements.ContactAngle = angle
			}
			if !reflect.DeepEqual(got, b) {
				t.Errorf("shaft %d: got %+v %+v %+v, want %+v %+v %+v", i, got, got.Elements, got.Rating, b, b.Elements, b.Rating)
			}
		}
	}
	pairs := []*gearbox.BearingPair{nil, {Arrangement: rolling.FaceToFace, EndPlay: -0.03}, {Arrangement: rolling.BackToBack, EndPlay: 0.02}}
	for i, want := range pairs {
		if got := box.Shafts[i].Pair; !reflect.DeepEqual(got, want) {
			t.Errorf("shaft %d: %+v, want %+v", i, got, want)
		}
	}
	// The end play stands where the preload stands that it was made of.
	if p := box.Places["shafts.lay.pair.end_play"]; p.Line == 0 || p != box.Places["shafts.lay.pair.preload"] || box.Tolerances["shafts.lay.pair.end_play"] != 0.005 {
		t.Errorf("%+v ± %v", p, box.Tolerances["shafts.lay.pair.end_play"])
	}
}

func TestFlanksAndSeats(t *testing.T) {
	box := read(t, "rated.yaml")
	hub := 72.0
	want := gearbox.Gear{
		Name: "wheel", Shaft: "lay", At: 60, Teeth: 40, Face: 22, Steel: "soft steel",
		Crowning: 0.005, LeadError: -0.008, LeadKnown: true,
		Relief:    [2]gearbox.Relief{{Length: 2, Amount: 0.006}, {Length: 3, Amount: 0.007}},
		Seat:      &gearbox.Seat{Length: 26, Clearance: 0.03, Offset: -2, Stiffness: 200000, ThrustFace: 25},
		EngagesAt: &hub,
		Grade:     7,
		Roughness: [2]float64{0.003, 0.016},
		Peened:    true,
		Rim:       9,
		Web:       8,
		TipRelief: 0.015,
		Thinning:  0.05,
		Bore:      38, Hub: &gearbox.Hub{Length: 27, Outer: 52},
		Dogs:  &gearbox.Dogs{Teeth: 6, Diameter: 60, Height: 5, Length: 4, Thick: 9, Share: 0.5, Back: 4 * math.Pi / 180},
		Bolts: &gearbox.Bolts{Count: 8, Thread: "M10", Class: "10.9", Circle: 80, Friction: 0.12, Scatter: 1.6, Embedding: 2000},
	}
	if got := box.Gears[1]; !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v %+v\nwant %+v %+v", got, got.Seat, want, want.Seat)
	}
	if g := box.Gears[3]; !reflect.DeepEqual(g.Seat, &gearbox.Seat{Length: 20, Clearance: 0.0254}) || g.Peened {
		t.Errorf("%+v %+v", g, g.Seat)
	}
	if m := box.Meshes[0]; m.Stiffness != 16000 {
		t.Errorf("%+v", m)
	}
	if m := box.Meshes[1]; m.Stiffness != 0 {
		t.Errorf("%+v", m)
	}
}

func TestSteelsThatCanBeRated(t *testing.T) {
	const own = "the box file"
	box := read(t, "rated.yaml")
	hv := func(hrc float64) float64 {
		v, err := material.VickersOfRockwell(hrc)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	got := box.Steels[0]
	got.ElasticSource = ""
	if want := (material.Steel{
		Name: "tested steel", Title: "tested steel", Young: 206000, Poisson: 0.3, Density: 7.85e-6,
		Yield:           material.Band{Low: 800, Typical: 800, High: 800, Source: own},
		Tensile:         material.Band{Low: 1000, Typical: 1000, High: 1000, Source: own},
		Contact:         material.Band{Low: 1500, Typical: 1500, High: 1500, Source: own},
		Group:           material.GroupCaseHardened,
		SurfaceHardness: material.Band{Low: 640, Typical: hv(60), High: hv(62), Source: own},
		RootLimit:       material.Band{Low: 425, Typical: 461, High: 500, Source: own},
		FlankLimit:      material.Band{Low: 1300, Typical: 1500, High: 1650, Source: own},
		AGMARoot:        material.Band{Low: 379, Typical: 448, High: 517, Source: own},
		AGMAFlank:       material.Band{Low: 1240, Typical: 1550, High: 1900, Source: own},
	}); got != want {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
	// 285 HBW is 300 HV and 295 HBW is 310 HV: ISO 18265:2013, table A.1 (from memory).
	soft := box.Steels[1]
	if soft.Group != material.GroupAlloyHardened || soft.SurfaceHardness != (material.Band{Low: 300, Typical: 300, High: 300, Source: own}) {
		t.Errorf("%+v", soft)
	}
	if d := box.Tolerances["steels.soft steel.surface_hardness"]; math.Abs(d-10) > 1e-9 {
		t.Errorf("± %v HV", d)
	}
	if soft.RootLimit.Known() || soft.AGMAFlank != (material.Band{}) {
		t.Errorf("limits that nobody gave: %+v", soft)
	}
}

// Every group of ISO 6336-5 has a word of its own, and every word a group.
func TestEveryGroupOfSteelsCanBeWritten(t *testing.T) {
	seen := map[material.Group]bool{}
	for _, w := range groupWords() {
		text := strings.Replace(plain, "shafts:\n", "steels: {mine: {yield: 1 GPa, tensile: 1 GPa, contact: 1 GPa, group: "+w+"}}\nshafts:\n", 1)
		box, list := Read("x.yaml", []byte(text))
		if list != nil {
			t.Fatal(list.Error())
		}
		seen[box.Steels[0].Group] = true
	}
	for g := material.GroupNormalised; g <= material.GroupNitrocarburised; g++ {
		if !seen[g] {
			t.Errorf("%v can't be written", g)
		}
	}
	if seen[material.GroupUnknown] || len(seen) != len(groupWords()) {
		t.Errorf("%v", seen)
	}
}

// A bearing whose name holds the path of another's key is not taken for that key.
func TestPointsInNamesOfBearings(t *testing.T) {
	text := strings.Replace(plain, "      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}\n  output",
		"      a: {at: 12 mm, type: tapered roller}\n      a.elements: {at: 40 mm, type: plain}\n      b: {at: 70 mm, type: tapered roller}\n    pair: {arrangement: face to face, preload: 0 mm}\n  output", 1)
	_, list := Read("x.yaml", []byte(text))
	if len(list) != 2 || list[0].Summary != "a pair without its rollers" || list[1].Summary != "a pair without its rollers" {
		t.Errorf("%v", list)
	}
}
