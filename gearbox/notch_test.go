package gearbox

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"layshaft/beam"
	"layshaft/beam/strength"
	"layshaft/material"
)

// notchedSpeeds is twoSpeeds with the notches of notched, under a duty that bends the shaft beyond what it bears for ever.
func notchedSpeeds() *Box {
	b := twoSpeeds(2000, DutyStep{Speed: "only", Turns: 40, Share: 1}, DutyStep{Speed: "higher", Turns: 300, Share: 0.9}, DutyStep{Speed: "higher", Turns: 60, Share: -0.3})
	b.Shafts[1].Notches = notched().Shafts[1].Notches
	return b
}

// Put back, the allowable torque of every notch leaves no margin under a duty too, at each end of the steel; and at it the notch lasts the
// duty and not a turn more, unless more than an endless life is asked of it.
func TestNotchAtItsAllowableTorqueUnderADuty(t *testing.T) {
	for _, level := range []material.Level{material.Low, material.Typical, material.High} {
		b := notchedSpeeds()
		b.Limits.Strength = level
		first := mustSolve(t, b, Load{})
		for _, n := range b.Shafts[1].Notches {
			for _, kind := range []Kind{NotchFatigue, NotchYield} {
				item := n.Name + " of out shaft"
				m := limitOf(t, first, "higher", kind, item)
				again := limitOf(t, mustSolve(t, b, Load{Torque: m.Allowable[level]}), "higher", kind, item)
				if math.Abs(again.Margin) > 1e-9 {
					t.Errorf("%s of %s, %s: margin %g at its allowable torque", kind, item, level, again.Margin)
				}
				if kind == NotchFatigue && again.Life < b.Duty.Passes*(1-1e-5) {
					t.Errorf("%s, %s: lasts %g passes of %g at its allowable torque", item, level, again.Life, b.Duty.Passes)
				}
				if kind == NotchFatigue && m.Step == "" {
					t.Errorf("%s: the step that uses most isn't named", item)
				}
			}
		}
	}
}

// The torque that a notch allows is the same whatever torque is asked, and in whichever speed.
func TestNotchDoesNotDependOnTheAskedTorque(t *testing.T) {
	b := notchedSpeeds()
	first := mustSolve(t, b, Load{})
	for _, share := range []float64{0.05, 20} {
		again := mustSolve(t, b, Load{Torque: share * b.Torque})
		for _, n := range b.Shafts[1].Notches {
			item := n.Name + " of out shaft"
			want := limitOf(t, first, "only", NotchFatigue, item).Allowable[material.Low]
			for _, speed := range []string{"only", "higher"} {
				got := limitOf(t, again, speed, NotchFatigue, item).Allowable[material.Low]
				if math.Abs(got-want) > 1e-9*want {
					t.Errorf("%s in %s, asked for %g times the torque: %.12g, want %.12g", item, speed, share, got, want)
				}
			}
		}
	}
}

// What a notch carries is what the bent shaft shows there, boxes with pilots, seats and elements.
func TestNotchCarriesWhatTheShaftDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := frameBox(t)
		for i := range b.Shafts {
			s := &b.Shafts[i]
			s.Notches = []Notch{{Name: "hole", Shape: strength.CrossHole, At: rapid.Float64Range(0, s.length()).Draw(t, "at"), Hole: 2}}
		}
		v, _ := frameState(t, b, b.Torque, Method{})
		st, err := v.at(b.Torque)
		if err != nil {
			t.Skip(err)
		}
		m, err := v.measure(b.Torque)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range v.shafts {
			carried, err := m.carried(s, 0)
			if err != nil {
				t.Fatal(err)
			}
			for k, side := range []beam.Side{beam.Left, beam.Right} {
				want := st.solved[s].At(b.Shafts[s].Notches[0].At, side)
				top := st.solved[s].Curve(0)
				most := slices.MaxFunc(top, func(a, b beam.State) int { return int(math.Copysign(1, a.Moment()-b.Moment())) })
				alikeTo(t, "moment", carried[k].Moment, want.Moment(), 1e-8, most.Moment()+1)
				alikeTo(t, "torque", carried[k].Torque, want.Torque, 1e-9, math.Abs(v.engine)*30)
				alikeTo(t, "normal force", carried[k].Normal, want.Normal, 1e-9, 1e6)
			}
		}
	})
}

// Where the shaft carries nothing, beyond its last bearing, a notch is nowhere reached; and no notch changes anything else.
func TestNotchesElsewhere(t *testing.T) {
	plain, b := mustSolve(t, threeShafts(), Load{}).Speeds[0], notched()
	b.Shafts[1].Notches = append(b.Shafts[1].Notches, Notch{Name: "end", Shape: strength.CirclipGroove, At: 2, Depth: 1, Radius: 0.05})
	cut := mustSolve(t, b, Load{})
	for _, kind := range []Kind{NotchFatigue, NotchYield} {
		if m := limitOf(t, cut, "only", kind, "end of out shaft"); !math.IsInf(m.Allowable[0], 1) || m.Demand != 0 {
			t.Errorf("%s where nothing bends the shaft: allows %g, actual %g MPa", kind, m.Allowable[0], m.Demand)
		}
	}
	for _, m := range plain.All() {
		if got := limitOf(t, cut, "only", m.Kind, m.Item); got.Allowable != m.Allowable {
			t.Errorf("%s of %s allows %v with notches, %v without", m.Kind, m.Item, got.Allowable, m.Allowable)
		}
	}
}

// By hand: a shoulder under the loads that the shaft shows there, with K_t, K_f and Goodman written down once more. Shigley's formulas.
func TestShoulderByHand(t *testing.T) {
	b := notched()
	b.Steels = []material.Steel{{Name: "s", Young: 206000, Poisson: 0.3, Density: 7.85e-6, Yield: exactly(700, "x"), Tensile: exactly(900, "x")}}
	b.Shafts[1].Steel = "s"
	r := mustSolve(t, b, Load{})
	at := r.Speeds[0].Shafts[1].Solution.At(102, beam.Left)
	bore := math.Pi / 32 * (math.Pow(36, 4) - math.Pow(10, 4)) / 36
	n := strength.Notch{Kind: strength.Shoulder, Outer: 40, Bottom: 36, Bore: 10, Radius: 1.5}
	k := n.Concentration(900)
	q, qs := strength.Sensitivity(900, 1.5)
	sigma := (1 + q*(k.Bending-1)) * at.Moment() / bore
	tau := (1 + qs*(k.Torsion-1)) * math.Abs(at.Torque) / (2 * bore)
	normal := max(0, (1+q*(k.Tension-1))*at.Normal/(math.Pi/4*(36*36-10*10)))
	endurance := 450 * 4.51 * math.Pow(900, -0.265) * math.Pow(36/7.62, -0.107) * strength.ReliabilityFactor(0.99)
	want := sigma + math.Hypot(normal, math.Sqrt(3)*tau)/900*endurance
	m := limitOf(t, r, "only", NotchFatigue, "step of out shaft")
	if math.Abs(m.Demand-want) > 1e-9*want {
		t.Errorf("stress %.9g MPa, by hand %.9g", m.Demand, want)
	}
	if limit := m.Limit.At(m.Level); math.Abs(limit-endurance) > 1e-9*endurance {
		t.Errorf("limit %.9g MPa for endless life, by hand %.9g", limit, endurance)
	}
	for _, word := range []string{"Goodman", "steady", "machined", "Peterson"} {
		if !strings.Contains(m.Limit.Source, word) {
			t.Errorf("the source doesn't name %q: %s", word, m.Limit.Source)
		}
	}
}

// Without a duty fatigue of a notch doesn't decide: its turns are counted at the asked torque, and end above the torque for endless life.
func TestNotchWithoutADuty(t *testing.T) {
	b := notched()
	endless := limitOf(t, mustSolve(t, b, Load{}), "only", NotchFatigue, "circlip of out shaft").Allowable[0]
	for _, share := range []float64{0.99, 1.2} {
		s := mustSolve(t, b, Load{Torque: share * endless}).Speeds[0]
		for _, m := range s.Margins {
			if m.Kind == NotchFatigue {
				t.Fatal("it decides")
			}
		}
		m := limitOf(t, &Result{Speeds: []SpeedResult{s}}, "only", NotchFatigue, "circlip of out shaft")
		if over := share > 1; math.IsInf(m.Turns, 1) == over {
			t.Errorf("at %g times the torque for endless life it lasts %g turns", share, m.Turns)
		}
	}
}

// A rounder corner never bears less, and Soderberg never allows more than Gerber.
func TestRounderNotchesBearMore(t *testing.T) {
	last := 0.0
	for _, radius := range []float64{0.2, 0.5, 1, 2} {
		b := notched()
		b.Shafts[1].Notches = []Notch{{Name: "step", Shape: strength.Shoulder, At: 102, Radius: radius}}
		at := limitOf(t, mustSolve(t, b, Load{}), "only", NotchFatigue, "step of out shaft").Allowable[0]
		if at <= last {
			t.Errorf("radius %g mm bears %g N·mm, a smaller one %g", radius, at, last)
		}
		last = at
	}
	b := notched()
	b.Limits.ShaftCriterion = strength.Gerber
	gerber := limitOf(t, mustSolve(t, b, Load{}), "only", NotchFatigue, "step of out shaft").Allowable[0]
	b.Limits.ShaftCriterion = strength.Soderberg
	if soderberg := limitOf(t, mustSolve(t, b, Load{}), "only", NotchFatigue, "step of out shaft").Allowable[0]; soderberg >= gerber {
		t.Errorf("Soderberg allows %g N·mm, Gerber %g", soderberg, gerber)
	}
}

func TestImpossibleNotchesOfABox(t *testing.T) {
	for _, c := range []struct {
		notch Notch
		want  string
	}{
		{Notch{Name: "x", Shape: strength.Shoulder, At: 90, Radius: 1}, "a shoulder beside its step"},
		{Notch{Name: "x", Shape: strength.Keyway, At: 2, Length: 10, Depth: 3}, "off the shaft"},
		{Notch{Name: "x", Shape: strength.CirclipGroove, At: 150, Depth: 16, Radius: 0.1}, "an impossible notch"},
	} {
		b := threeShafts()
		b.Shafts[1].Notches = []Notch{c.notch}
		if found := Validate(b); len(found) != 1 || found[0].Summary != c.want || found[0].Path != "shafts.out.notches.x" {
			t.Errorf("%+v: %v, want %q", c.notch, found, c.want)
		}
	}
}

// With one step of the duty a notch lives as often as its shaft turns in it, here 21/39 of the input's turns: by hand at its allowable torque.
func TestNotchCountsTurnsOfItsShaft(t *testing.T) {
	const turns, passes = 40.0, 2000.0
	b := twoSpeeds(passes, DutyStep{Speed: "only", Turns: turns, Share: 1})
	b.Shafts[1].Notches = []Notch{{Name: "step", Shape: strength.Shoulder, At: 102, Radius: 1.5}}
	at := limitOf(t, mustSolve(t, b, Load{}), "only", NotchFatigue, "step of out shaft").Allowable[material.Low]
	solution := mustSolve(t, b, Load{Torque: at}).Speeds[0].Shafts[1].Solution
	steel, _ := material.Find(DefaultSteel)
	f, err := strength.Notch{Kind: strength.Shoulder, Outer: 40, Bottom: 36, Bore: 10, Radius: 1.5}.Fatigue(strength.Steel{Tensile: steel.Tensile.Low, Yield: steel.Yield.Low}, strength.UsualRules)
	if err != nil {
		t.Fatal(err)
	}
	used := 0.0
	for _, side := range []beam.Side{beam.Left, beam.Right} {
		s := solution.At(102, side)
		w := f.Swing(strength.Load{Moment: s.Moment(), Torque: s.Torque, Normal: s.Normal})
		used = max(used, f.UsedUp([]strength.Bin{{Swing: w, Turns: turns * passes * 21 / 39}}))
	}
	if math.Abs(used-1) > 1e-8 {
		t.Errorf("at its allowable torque it has used up %.10g of its life", used)
	}
}
