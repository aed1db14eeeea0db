package gearbox

import (
	"math"
	"testing"

	"layshaft/gearstress/iso6336"
	"layshaft/material"
)

// twoSpeeds is threeShafts with a second speed over the same final drive, and a duty.
func twoSpeeds(passes float64, steps ...DutyStep) *Box {
	b := threeShafts()
	b.Gears = append(b.Gears,
		Gear{Name: "p3", Shaft: "in", At: 120, Teeth: 25, Face: 20}, Gear{Name: "w3", Shaft: "out", At: 120, Teeth: 35, Face: 20})
	third := b.Meshes[0]
	third.Name, third.Driver, third.Driven = "c", "p3", "w3"
	b.Meshes = append(b.Meshes, third)
	b.Speeds = append(b.Speeds, Speed{Name: "higher", Path: []string{"c", "b"}})
	if len(steps) > 0 {
		b.Duty = &Duty{Passes: passes, Steps: steps}
	}
	return b
}

func limitOf(t *testing.T, r *Result, speed string, kind Kind, item string) Margin {
	t.Helper()
	for _, s := range r.Speeds {
		for _, m := range s.Margins {
			if s.Name == speed && m.Kind == kind && m.Item == item {
				return m
			}
		}
	}
	t.Fatalf("speed %s has no %s of %s", speed, kind, item)
	return Margin{}
}

// With one step the duty is a number of load cycles: at the allowable torque the tooth lives exactly that long.
func TestDutyOfOneStepIsALife(t *testing.T) {
	const turns, passes = 40.0, 500.0
	b := twoSpeeds(passes, DutyStep{"only", turns, 1})
	for _, c := range []struct {
		kind Kind
		item string
		step int
		life func(*iso6336.Rating) float64
		want float64 // load cycles of that gear
	}{
		{RootFatigue, "p1", 0, func(r *iso6336.Rating) float64 { return r.Root[0].Life }, turns * passes},
		{RootFatigue, "w1", 0, func(r *iso6336.Rating) float64 { return r.Root[1].Life }, turns * passes * 21 / 39},
		{FlankFatigue, "p2", 1, func(r *iso6336.Rating) float64 { return r.Flank[0].Life }, turns * passes * 21 / 39},
		{FlankFatigue, "w2", 1, func(r *iso6336.Rating) float64 { return r.Flank[1].Life }, turns * passes * 21 / 39 * 17 / 71},
	} {
		at := limitOf(t, mustSolve(t, b, Load{}), "only", c.kind, c.item).Allowable[material.Low]
		again := mustSolve(t, b, Load{Torque: at}).Speeds[0]
		if got := c.life(again.Meshes[c.step].Rating); math.Abs(got-c.want) > 1e-5*c.want && c.want > 1e5 {
			t.Errorf("%s of %s: %.6g load cycles at its allowable torque, want %.6g", c.kind, c.item, got, c.want)
		}
		for _, m := range again.Margins {
			if m.Kind == c.kind && m.Item == c.item && math.Abs(m.Margin) > 1e-8 {
				t.Errorf("%s of %s: margin %g at its allowable torque", c.kind, c.item, m.Margin)
			}
		}
	}
}

// More to do never allows more torque; next to nothing to do allows no more than the peak strength, and no more than K factors apart.
func TestDutyAndTorque(t *testing.T) {
	last := math.Inf(1)
	for _, passes := range []float64{1e-2, 1, 100, 1e4, 1e6, 1e9} {
		r := mustSolve(t, twoSpeeds(passes, DutyStep{"only", 50, 1}), Load{})
		at := limitOf(t, r, "only", RootFatigue, "p2").Allowable[material.Typical]
		if at > last*(1+1e-9) {
			t.Errorf("%g passes allow %g, fewer passes allowed %g", passes, at, last)
		}
		if peak := limitOf(t, r, "only", RootPeak, "p2").Allowable[material.Typical]; at > peak*(1+1e-9) {
			t.Errorf("%g passes allow %g N·mm, more than the peak strength %g", passes, at, peak)
		}
		last = at
	}
}

// A mesh that is loaded in two speeds wears in both.
func TestDutyAddsUpOverSpeeds(t *testing.T) {
	first, second := DutyStep{"only", 50, 1}, DutyStep{"higher", 200, 1}
	allowed := func(steps ...DutyStep) float64 {
		return limitOf(t, mustSolve(t, twoSpeeds(1e4, steps...), Load{}), "only", FlankFatigue, "p2").Allowable[material.Low]
	}
	both, one, other := allowed(first, second), allowed(first), allowed(second)
	if !(both < one && both < other) {
		t.Errorf("both speeds allow %g, one alone %g and %g", both, one, other)
	}
	// Told in two parts it is the same duty.
	if halves := allowed(DutyStep{"only", 25, 1}, second, DutyStep{"only", 25, 1}); math.Abs(halves-both) > 1e-8*both {
		t.Errorf("the same duty in two parts allows %g, in one %g", halves, both)
	}
	// A speed that isn't wanted still wears the mesh.
	r := mustSolve(t, twoSpeeds(1e4, first, second), Load{Speeds: []string{"only"}})
	if got := limitOf(t, r, "only", FlankFatigue, "p2").Allowable[material.Low]; math.Abs(got-both) > 1e-9*both {
		t.Errorf("asked for one speed alone the mesh allows %g, want %g", got, both)
	}
}

// Coast bends the same root but loads the other flank.
func TestCoastWearsTheOtherFlank(t *testing.T) {
	drive, coast := DutyStep{"only", 50, 1}, DutyStep{"only", 500, -1}
	r0, r1 := mustSolve(t, twoSpeeds(1e4, drive), Load{}), mustSolve(t, twoSpeeds(1e4, drive, coast), Load{})
	if a, b := limitOf(t, r0, "only", FlankFatigue, "p1").Allowable[0], limitOf(t, r1, "only", FlankFatigue, "p1").Allowable[0]; math.Abs(a-b) > 1e-9*a {
		t.Errorf("coast changes the drive flank from %g to %g", a, b)
	}
	if a, b := limitOf(t, r0, "only", RootFatigue, "p1").Allowable[0], limitOf(t, r1, "only", RootFatigue, "p1").Allowable[0]; !(b < a) {
		t.Errorf("coast leaves the root at %g of %g", b, a)
	}
}

// The shock factor stands on the peak limits alone.
func TestShockCountsForThePeak(t *testing.T) {
	plain := mustSolve(t, threeShafts(), Load{})
	b := threeShafts()
	b.Shock = 2
	shocked := mustSolve(t, b, Load{})
	for _, m := range plain.Speeds[0].Margins {
		want := m.Allowable[0]
		if m.Kind == RootPeak || m.Kind == FlankPeak {
			want /= 2
		}
		if got := limitOf(t, shocked, "only", m.Kind, m.Item).Allowable[0]; math.Abs(got-want) > 1e-7*want {
			t.Errorf("%s of %s: %g with a shock factor of 2, want %g", m.Kind, m.Item, got, want)
		}
	}
}

// How many passes it lasts: as many as the duty asks for when the torque is the allowable one, and as many whatever number of passes the duty asks for.
func TestLifeInPasses(t *testing.T) {
	b := twoSpeeds(1e4, DutyStep{"only", 50, 1}, DutyStep{"higher", 200, 0.8})
	m := limitOf(t, mustSolve(t, b, Load{}), "only", FlankFatigue, "p2")
	again := limitOf(t, mustSolve(t, b, Load{Torque: m.Allowable[m.Level]}), "only", FlankFatigue, "p2")
	if math.Abs(again.Life-1e4) > 1e-4*1e4 {
		t.Errorf("at its allowable torque it lasts %g passes, want 10 000", again.Life)
	}
	b.Duty.Passes = 100
	if few := limitOf(t, mustSolve(t, b, Load{}), "only", FlankFatigue, "p2"); math.Abs(few.Life-m.Life) > 1e-9*m.Life {
		t.Errorf("it lasts %g passes when 100 are asked for, %g when 10 000 are", few.Life, m.Life)
	}
	if peak := limitOf(t, mustSolve(t, b, Load{}), "only", FlankPeak, "p2"); peak.Life != 0 {
		t.Errorf("the peak limit counts %g passes", peak.Life)
	}
}
