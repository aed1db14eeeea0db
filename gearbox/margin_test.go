package gearbox

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"layshaft/beam/bearing"
	"layshaft/material"
)

// The search must find the torque for any law that grows, not only for those it could have been written down for.
func TestAllowableTorqueIsFoundBySolving(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := math.Pow(10, rapid.Float64Range(-4, 4).Draw(t, "log root"))
		law := rapid.SampledFrom([]func(float64) float64{
			func(x float64) float64 { return x },
			math.Sqrt,
			func(x float64) float64 { return x * x * x },
			func(x float64) float64 { return x + 0.3*math.Sin(x) },
			func(x float64) float64 { return max(0, x-0.5*want) },
			math.Log1p,
		}).Draw(t, "law")
		got, err := crossing(func(x float64) (float64, error) { return law(x) / law(want), nil }, 1, 1)
		if err != nil || math.Abs(got-want) > 1e-9*want {
			t.Errorf("found %g (%v), want %g", got, err, want)
		}
	})
}

func TestAllowableTorqueAtItsEnds(t *testing.T) {
	if got, _ := crossing(func(float64) (float64, error) { return 0, nil }, 1, 1); !math.IsInf(got, 1) {
		t.Errorf("a limit that is never reached allows %g, want +Inf", got)
	}
	if got, _ := crossing(func(x float64) (float64, error) { return 2 + x, nil }, 1, 1); got != 0 {
		t.Errorf("a limit that is passed without load allows %g, want 0", got)
	}
	failed := errors.New("no balance")
	if _, err := crossing(func(x float64) (float64, error) { return 0, failed }, 1, 1); err != failed {
		t.Errorf("an error on the way is lost: %v", err)
	}
}

// The torque margin's own definition: put the allowable torque back and the margin is zero, for every kind of limit.
func TestMarginIsZeroAtTheAllowableTorque(t *testing.T) {
	seen := map[Kind]bool{}
	for _, make := range []func() *Box{threeShafts, jointed, func() *Box { return onRatings(bearing.FaceToFace) }} {
		first := mustSolve(t, make(), Load{}).Speeds[0]
		for _, m := range first.All() {
			seen[m.Kind] = true
			if math.IsInf(m.Allowable[m.Level], 1) {
				continue // of what a duty wears, where the static strength of a step ends it before
			}
			again := mustSolve(t, make(), Load{Torque: m.Allowable[m.Level]}).Speeds[0]
			for _, n := range again.All() {
				if n.Kind == m.Kind && n.Item == m.Item {
					if math.Abs(n.Margin) > 1e-9 {
						t.Errorf("%s, %s: margin %g at its allowable torque", m.Kind, m.Item, n.Margin)
					}
					if limit := n.Limit.At(n.Level); math.Abs(n.Demand-limit) > 1e-9*limit && m.Life == 0 {
						t.Errorf("%s, %s: demand %g at its allowable torque, limit %g", m.Kind, m.Item, n.Demand, limit)
					}
				}
			}
		}
	}
	for _, k := range Kinds() {
		if !seen[k] && !k.Reference() {
			t.Errorf("no limit of kind %q was judged", k)
		}
	}
}

func TestStatesOfAMargin(t *testing.T) {
	b := &Box{Limits: Limits{Reserve: 0.1}}
	for _, c := range []struct {
		allowable float64
		want      State
	}{{99, Over}, {100, Thin}, {109.9, Thin}, {110.1, Clear}} {
		m := Margin{Level: material.Typical, Allowable: [3]float64{1, c.allowable, 1e3}}
		if b.judge(&m, 100); m.State != c.want {
			t.Errorf("%g allowed at torque 100 with a reserve of 10 %%: %s, want %s", c.allowable, m.State, c.want)
		}
	}
}

// Limits as printed. Shigley's Mechanical Engineering Design, 9th ed., Table 7-2, p. 379 (inches there).
func TestLimitsOfShigleyTable72(t *testing.T) {
	b := &Box{}
	for _, c := range []struct {
		kind      BearingType
		low, high float64
	}{{TaperedRoller, 0.0005, 0.0012}, {CylindricalRoller, 0.0008, 0.0012}, {DeepGrooveBall, 0.001, 0.003}, {SelfAligning, 0.026, 0.052}} {
		if got := b.slopeLimit(Bearing{Type: c.kind}); got.Low != c.low || got.High != c.high || got.Source == "" {
			t.Errorf("%s: %v", c.kind, got)
		}
	}
	for _, c := range []struct {
		pitch, inches float64
		gap           bool // no row of the table has it
	}{{8, 0.010, false}, {9.9, 0.010, false}, {10, 0.005, true}, {10.16, 0.005, true}, {11, 0.005, false}, {12, 0.005, false}, {19, 0.005, false}, {19.5, 0.003, true}, {20, 0.003, false}, {24, 0.003, false}} {
		got := b.separationLimit(Mesh{Module: 25.4 / c.pitch})
		if math.Abs(got.Low-c.inches*25.4) > 1e-12 {
			t.Errorf("diametral pitch %g: separation limit %g mm, want %g in", c.pitch, got.Low, c.inches)
		}
		if strings.Contains(got.Source, "the table has no row") != c.gap {
			t.Errorf("diametral pitch %g: %s", c.pitch, got.Source)
		}
	}
}

// The printed 0.5 mrad is for uncrowned spur gears; others follow vehicle practice unless the file chooses.
func TestTiltRuleFollowsTheTeeth(t *testing.T) {
	for _, c := range []struct {
		name    string
		gear    Gear
		mesh    Mesh
		rule    TiltRule
		want    float64
		because string
	}{
		{"plain spur", Gear{}, Mesh{}, "", 0.0005, "taken because these are such"},
		{"helical", Gear{}, Mesh{Helix: 0.3}, "", 0.002, "because the gears are helical"},
		{"crowned", Gear{Crowning: 0.005}, Mesh{}, "", 0.002, "because the gears are crowned"},
		{"relieved", Gear{Relief: [2]Relief{{}, {5, 0.01}}}, Mesh{}, "", 0.002, "because the gears are relieved at their ends"},
		{"a crowned gear of another mesh", Gear{Name: "other", Crowning: 0.005}, Mesh{}, "", 0.0005, "these are such"},
		{"helical by the textbook", Gear{}, Mesh{Helix: 0.3}, TextbookSpur, 0.0005, "chosen in the box file"},
		{"spur by vehicle practice", Gear{}, Mesh{}, VehiclePractice, 0.002, "chosen in the box file"},
	} {
		if c.gear.Name == "" {
			c.gear.Name = "w"
		}
		c.mesh.Driver, c.mesh.Driven = "p", "w"
		b := &Box{Gears: []Gear{{Name: "p"}, c.gear}, Limits: Limits{Tilt: c.rule}}
		if got := b.tiltLimit(c.mesh); got.Low != c.want || !strings.Contains(got.Source, c.because) {
			t.Errorf("%s: %g rad, %q; want %g, …%s…", c.name, got.Low, got.Source, c.want, c.because)
		}
	}
}

func TestTheBoxFileOverridesLimits(t *testing.T) {
	b := &Box{Limits: Limits{Slope: 0.0007, MeshTilt: 0.0009, Separation: 0.02}}
	if b.slopeLimit(Bearing{}).High != 0.0007 || b.slopeLimit(Bearing{SlopeLimit: 0.0006}).Low != 0.0006 {
		t.Error("slope limits of the file aren't heeded")
	}
	if b.tiltLimit(Mesh{}).Low != 0.0009 || b.tiltLimit(Mesh{TiltLimit: 0.0004}).Low != 0.0004 {
		t.Error("tilt limits of the file aren't heeded")
	}
	if b.separationLimit(Mesh{Module: 2}).Low != 0.02 {
		t.Error("the separation limit of the file isn't heeded")
	}
}

// Second opinions come when they are asked for, have their own margins and never decide.
func TestSecondOpinions(t *testing.T) {
	plain := mustSolve(t, threeShafts(), Load{}).Speeds[0]
	if len(plain.References) > 0 {
		t.Error("second opinions came unasked")
	}
	both := mustSolve(t, threeShafts(), Load{Second: []Opinion{AGMA, Lewis}}).Speeds[0]
	seen := map[Kind]int{}
	for _, m := range both.References {
		seen[m.Kind]++
		if !(m.Demand > 0) || !(m.Allowable[0] > 0) || m.Allowable[0] > m.Allowable[2] || m.Limit.Source == "" {
			t.Errorf("%s, %s: demand %g, allowable %v, source %q", m.Kind, m.Item, m.Demand, m.Allowable, m.Limit.Source)
		}
		again := mustSolve(t, threeShafts(), Load{Torque: m.Allowable[m.Level], Second: []Opinion{AGMA, Lewis}}).Speeds[0]
		for _, n := range again.References {
			if n.Kind == m.Kind && n.Item == m.Item && math.Abs(n.Margin) > 1e-9 {
				t.Errorf("%s, %s: margin %g at its allowable torque", m.Kind, m.Item, n.Margin)
			}
		}
	}
	for _, k := range Kinds() {
		if k.Reference() && seen[k] == 0 {
			t.Errorf("no %q among the second opinions", k)
		}
	}
	if len(both.Margins) != len(plain.Margins) || both.Governing().Allowable != plain.Governing().Allowable {
		t.Error("second opinions changed the verdict")
	}
}

// A steel without the limits of ISO 6336 leaves the hand calculation to decide: a mesh is never without a judge.
func TestSteelWithoutLimitsIsJudgedByHand(t *testing.T) {
	b := threeShafts()
	plain, _ := material.Find(DefaultSteel)
	b.Steels = []material.Steel{{Name: "mystery", Young: plain.Young, Poisson: plain.Poisson, Yield: plain.Yield, Contact: plain.Contact}}
	b.Gears[0].Steel = "mystery"
	s := mustSolve(t, b, Load{}).Speeds[0]
	seen := map[Kind]int{}
	for _, m := range s.All() {
		seen[m.Kind]++
	}
	if seen[RootLewis] != 2 || seen[FlankHertz] != 1 || seen[RootFatigue] != 2 || s.Meshes[0].Rating != nil {
		t.Errorf("judged %v; want mesh a by hand and mesh b by ISO 6336", seen)
	}
}
