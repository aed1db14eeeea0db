package involute

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Base tangent length: Elements of Metric Gear Technology, span measurement tables (from memory; the digits are those of the handbook).
func TestSpanOfTheHandbook(t *testing.T) {
	g := Gauge{Module: 3, PressureAngle: rad(20), Teeth: 24}
	near(t, "teeth to span, unrounded", g.spanTeeth(0.4), 3.78787, 6e-6)
	if k := g.SpanTeeth(0.4); k != 4 {
		t.Errorf("spans %d teeth, want 4", k)
	}
	near(t, "W", g.Span(4, 0.4), 32.8266, 6e-5)
}

// Over pins: Elements of Metric Gear Technology, over-pin measurement (from memory).
func TestPinsOfTheHandbook(t *testing.T) {
	size, err := Gauge{Module: 1, PressureAngle: rad(20), Teeth: 20}.OverBalls(1.7, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "dm", size, 22.2941, 6e-5)
}

// Over wires: Machinery's Handbook, checking gear size by measurement over wires, external spur gears of 1 diametral pitch, wires of 1.728 in, even teeth, no backlash
// (from memory; four printed decimals). With 1 diametral pitch the module is 1 in, so inches stand for mm here.
func TestWiresOfTheHandbook(t *testing.T) {
	for angle, table := range map[float64]map[int]float64{
		20:   {6: 8.3032, 8: 10.3271, 10: 12.3445, 12: 14.3578, 14: 16.3683, 16: 18.3768, 18: 20.3840, 20: 22.3900, 22: 24.3952, 24: 26.3997, 26: 28.4036, 28: 30.4071, 30: 32.4102},
		14.5: {6: 8.2846, 8: 10.3160, 10: 12.3399, 12: 14.3590, 14: 16.3746, 16: 18.3877, 18: 20.3989, 20: 22.4087, 22: 24.4172, 24: 26.4247, 26: 28.4314, 28: 30.4374},
	} {
		for teeth, want := range table {
			got, err := Gauge{Module: 1, PressureAngle: rad(angle), Teeth: teeth}.OverBalls(1.728, 0)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "over wires", got, want, 6e-5)
		}
	}
}

// Chordal thickness: Elements of Metric Gear Technology, Tables 10-1 (spur) and 10-4 (helical, transverse system).
func TestChordsOfTheHandbook(t *testing.T) {
	thickness, height := Gauge{Module: 10, PressureAngle: rad(20), Teeth: 12}.Chord(0.3, 13)
	near(t, "spur, chord", thickness, 17.8256, 6e-5)
	near(t, "spur, height", height, 13.6657, 6e-5)

	// Transverse module 4, transverse pressure angle 20°, helix 22.5°, transverse shift 0.3: x_n m_n = x_t m_t, tan α_n = tan α_t cos β.
	beta := rad(22.5)
	g := Gauge{Module: 4 * math.Cos(beta), PressureAngle: math.Atan(math.Tan(rad(20)) * math.Cos(beta)), Helix: beta, Teeth: 20}
	x := 0.3 / math.Cos(beta)
	thickness, height = g.Chord(x, 4.7184)
	// The table prints the arc 6.6119 and the half angle 4.04196° of 25.362 teeth; chord and height follow.
	d := 4 * math.Cos(beta) * 25.362
	near(t, "helical, chord", thickness, d*math.Sin(rad(4.04196)), 6e-5)
	near(t, "helical, height", height, 4.7184+d/2*(1-math.Cos(rad(4.04196))), 6e-5)
}

// A spur gear of a published series of gear fatigue tests: 28 teeth, 8 diametral pitch, pins of 0.216 in; printed range over pins 3.7807 to 3.7915 in for an arc thickness of 0.19135 in at the most (from memory).
func TestPinsOfTheFatigueTestGear(t *testing.T) {
	const inch = 25.4
	g := Gauge{Module: inch / 8, PressureAngle: rad(20), Teeth: 28}
	// The reference thickness is thinner than half the pitch by the backlash: a negative shift in effect.
	x := (0.19135*inch/g.Module - math.Pi/2) / (2 * math.Tan(g.PressureAngle))
	size, err := g.OverBalls(0.216*inch, x)
	if err != nil {
		t.Fatal(err)
	}
	if got := size / inch; got < 3.7807 || got > 3.7915 {
		t.Errorf("%.4f in over pins, want 3.7807 to 3.7915", got)
	}
}

// What is measured back gives the shift, and the base pitch lies between two spans whatever the shift.
func TestGaugesMeasureBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := Gauge{
			Module: rapid.Float64Range(1, 6).Draw(t, "module"), PressureAngle: rad(rapid.SampledFrom([]float64{14.5, 17.5, 20, 25}).Draw(t, "angle")),
			Helix: rad(rapid.SampledFrom([]float64{0, 15, 30}).Draw(t, "helix")), Teeth: rapid.IntRange(12, 80).Draw(t, "teeth"),
		}
		x := rapid.Float64Range(-0.3, 0.8).Draw(t, "x")
		k := g.SpanTeeth(x)
		if got := g.SpanShift(k, g.Span(k, x)); math.Abs(got-x) > 1e-12 {
			t.Errorf("span over %d teeth tells x = %g, want %g", k, got, x)
		}
		if pitch := g.Span(k+1, x) - g.Span(k, x); math.Abs(pitch-math.Pi*g.Module*math.Cos(g.PressureAngle)) > 1e-12*pitch {
			t.Errorf("two spans differ by %g", pitch)
		}
		ball := 1.728 * g.Module
		size, err := g.OverBalls(ball, x)
		if err != nil {
			t.Fatal(err)
		}
		got, err := g.BallShift(ball, size)
		if err != nil || math.Abs(got-x) > 1e-9 {
			t.Errorf("balls tell x = %g, want %g (%v)", got, x, err)
		}
	})
}

// A ball in the drawn tooth space touches both flanks: its centre is its radius away from the nearest point of the outline.
func TestBallTouchesTheDrawnFlanks(t *testing.T) {
	for _, teeth := range []int{15, 24, 41} {
		p := mustNew(t, Spec{Module: 2, Rack: StandardRack, Teeth: [2]int{teeth, 60}, Shift: [2]float64{0.3, 0}, ShiftKnown: [2]bool{true, true}, Face: 20})
		tooth, err := p.Tooth(0)
		if err != nil {
			t.Fatal(err)
		}
		g := Gauge{Module: 2, PressureAngle: rad(20), Teeth: teeth}
		const ball = 3.5
		size, err := g.OverBalls(ball, 0.3)
		if err != nil {
			t.Fatal(err)
		}
		centre := polar((size-ball)/g.across()/2, math.Pi/float64(teeth)) // in the middle of the space
		nearest := math.Inf(1)
		for k := range 20001 {
			q := tooth.Flank(float64(k) / 20000)
			nearest = min(nearest, math.Hypot(q.X-centre.X, q.Y-centre.Y))
		}
		near(t, "distance of flank and centre", nearest, ball/2, 1e-6)
	}
}

// Thinned teeth leave backlash, and it is what a span micrometer finds missing: the span is shorter by Δs_n cos α_n on each gear.
func TestThinningIsBacklash(t *testing.T) {
	spec := Spec{Module: 2.5, Helix: rad(20), Rack: StandardRack, Teeth: [2]int{21, 40}, Shift: [2]float64{0.2, 0}, ShiftKnown: [2]bool{true, false}, CentreDistance: 82, Face: 20}
	tight := mustNew(t, spec)
	spec.Thinning = [2]float64{0.06, 0.04}
	loose := mustNew(t, spec)
	near(t, "backlash without thinning", tight.Backlash, 0, 1e-12)
	near(t, "backlash", loose.Backlash, 0.1*math.Cos(rad(20)), 1e-12)
	near(t, "profile shift of the full tooth", loose.X[1], tight.X[1], 0)
	g := Gauge{Module: 2.5, PressureAngle: rad(20), Helix: rad(20), Teeth: 21}
	thin := 0.2 - 0.06/(2*2.5*math.Tan(rad(20))) // shift of the thinned tooth
	near(t, "span", g.Span(3, 0.2)-g.Span(3, thin), 0.06*math.Cos(rad(20)), 1e-12)

	spec.Shift, spec.ShiftKnown = [2]float64{0.2, loose.X[1] + 0.01}, [2]bool{true, true}
	near(t, "teeth a little too thick for the distance", mustNew(t, spec).Backlash, 0.1*math.Cos(rad(20))-2*2.5*math.Sin(rad(20))*0.01, 1e-9)
}
