package gearbox

import (
	"strings"
	"testing"

	"layshaft/beam/bearing"
	"layshaft/gearbox/diag"
)

func all(found diag.List) string {
	var b strings.Builder
	for _, d := range found {
		b.WriteString(d.Path + ": " + d.Summary + ". " + d.Detail + "\n")
	}
	return b.String()
}

// Each row breaks a sound box in one place; the finding must name that place and say what is wrong.
func TestValidateNamesThePlace(t *testing.T) {
	for _, c := range []struct {
		name        string
		spoil       func(*Box)
		path, words string
	}{
		{"gear off its shaft", func(b *Box) { b.Gears[0].At = 400 }, "gears.p1.at", "off the shaft"},
		{"bearing off its shaft", func(b *Box) { b.Shafts[1].Bearings[1].At = -3 }, "shafts.out.bearings.right.at", "off the shaft"},
		{"input off its shaft", func(b *Box) { b.Input.At = -1 }, "input.at", "off the shaft"},
		{"output off its shaft", func(b *Box) { b.Output.At = 1000 }, "output.at", "off the shaft"},
		{"faces apart", func(b *Box) { b.Gears[1].At = 120 }, "meshes.a", "don't overlap"},
		{"faces partly apart", func(b *Box) { b.Gears[1].At = 80 }, "meshes.a", "part of their face"},
		{"one bearing only", func(b *Box) { b.Shafts[0].Bearings = b.Shafts[0].Bearings[:1] }, "shafts.in", "tilt"},
		{"no thrust bearing", func(b *Box) { b.Shafts[1].Bearings[0].Axial = 0 }, "", "axial"},
		{"bore through the wall", func(b *Box) { b.Shafts[0].Sections[0].Bore = 50 }, "shafts.in", "bore"},
		{"impossible centre distance", func(b *Box) { b.Shafts[1].Axis = &[2]float64{90, 0} }, "meshes.a", ""},
		{"broken path", func(b *Box) { b.Speeds[0].Path = []string{"b"} }, "speeds.only.0", "broken power path"},
		{"path ends early", func(b *Box) { b.Speeds[0].Path = []string{"a"} }, "speeds.only", "leaves the torque on shaft"},
		{"no meshes", func(b *Box) { b.Speeds[0].Path = nil }, "speeds.only", "without meshes"},
		{"direct without pilot", func(b *Box) { b.Speeds[0] = Speed{Name: "only", Direct: true} }, "speeds.only", "pilot"},
		{"unknown mesh", func(b *Box) { b.Speeds[0].Path = []string{"c"} }, "speeds.only.0", "unknown mesh"},
		{"unknown steel", func(b *Box) { b.Gears[0].Steel = "cheese" }, "gears.p1.steel", "unknown steel"},
		{"mesh on one shaft", func(b *Box) { b.Gears[1].Shaft = "in" }, "meshes.a", "on one shaft"},
		{"pilot that tilts", func(b *Box) { b.Shafts[1].Bearings[0].In = "in"; b.Shafts[1].Bearings[0].Tilt = 1 }, "shafts.out.bearings.left", "pilot must be free"},
		{"shafts carry each other", func(b *Box) {
			b.Shafts[0].Bearings[1] = Bearing{Name: "right", In: "out", InAt: 5, At: 160, Radial: rigid}
			b.Shafts[1].Bearings[0] = Bearing{Name: "left", In: "in", InAt: 170, At: 12, Radial: rigid}
		}, "shafts.in.bearings.right", "carry each other"},
		{"tapered bearing alone", func(b *Box) {
			b.Shafts[0].Bearings[0].Elements = &bearing.Elements{Kind: bearing.Tapered, Count: 17, Diameter: 9, Length: 12, Pitch: 60, ContactAngle: 0.24}
		}, "shafts.in.bearings.left", "second row to push against"},
		{"pair of ball bearings", func(b *Box) { b.Shafts[0].Pair = &BearingPair{} }, "shafts.in.pair", "must have tapered rollers"},
		{"pilot in a piloted shaft", func(b *Box) {
			b.Shafts[1].Bearings[0] = Bearing{Name: "left", In: "in", InAt: 170, At: 12, Radial: rigid}
			b.Shafts[2].Bearings[0] = Bearing{Name: "left", In: "out", InAt: 190, At: 12, Radial: rigid}
		}, "shafts.diff.bearings.left", "only one shaft in another"},
		{"duty in an unknown speed", func(b *Box) { b.Duty = &Duty{Passes: 1, Steps: []DutyStep{{Speed: "sixth", Turns: 1, Share: 1}}} }, "duty.steps.0.speed", "unknown speed"},
		{"step of a duty without length", func(b *Box) { b.Duty = &Duty{Passes: 1, Steps: []DutyStep{{Speed: "only", Time: 12, Share: 1}}} }, "duty.steps.0", "without length"},
		{"clutch without a torque", func(b *Box) { b.Clutch = &Clutch{Clamp: 9400, Faces: 2} }, "clutch", "holds nothing"},
		{"car without tyres", func(b *Box) { b.Car = buggy(RearDrive); b.Car.TyreRadius = 0 }, "car", "tyre radius"},
		{"car that nothing drives", func(b *Box) { b.Car = buggy("") }, "car.drive", "unknown drive"},
		{"weight that lies nowhere", func(b *Box) { b.Car = buggy(FrontDrive); b.Car.DrivenShare = 0 }, "car", "share of the weight"},
		{"bench test of an unknown shaft", func(b *Box) { b.Housing.Test = &HousingTest{Speed: "only", Shaft: "x"} }, "housing.test.shaft", "unknown shaft"},
		{"unlikely profile shift", func(b *Box) {
			x := 0.9
			b.Gears[0].Shift = &x
		}, "meshes.a", "profile shift of 0.90"},
		{"no torque", func(b *Box) { b.Torque = 0 }, "input.torque", "positive"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := threeShafts()
			c.spoil(b)
			found := Validate(b)
			for _, d := range found {
				if d.Path == c.path && strings.Contains(d.Summary+". "+d.Detail, c.words) {
					return
				}
			}
			if c.path == "" { // only found when loaded
				if _, err := Solve(b, Load{}); err != nil && strings.Contains(err.Error(), c.words) {
					return
				}
			}
			t.Errorf("found\n%swant %s: …%s…", all(found), c.path, c.words)
		})
	}
}

func TestSoundBoxHasNoFindings(t *testing.T) {
	if found := Validate(threeShafts()); len(found) > 0 {
		t.Errorf("found\n%s", all(found))
	}
}
