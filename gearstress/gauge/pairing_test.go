package gauge

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"

	"pgregory.net/rapid"
)

// The trap of a first guess: 17 and 44 teeth of module 2.25 mm at 17.5°, 27°, 78 mm apart. Tip over teeth + 2 says
// 2.5 mm, and the distance then asks for a
// helix of about 12°, with which both tips miss by three quarters of a millimetre. The distance and both tips
// together lead back to what was made.
func TestFittingsOfTheTrap(t *testing.T) {
	made, err := involute.New(involute.Spec{Module: 2.25, Helix: 27 * degree,
		Rack:  involute.Rack{PressureAngle: 17.5 * degree, Addendum: 1, Dedendum: 1.25, TipRadius: 0.3},
		Teeth: [2]int{17, 44}, Shift: [2]float64{0.2, 0}, ShiftKnown: [2]bool{true, false}, CentreDistance: 77.5, Face: 20})
	if err != nil {
		t.Fatal(err)
	}
	pair := Pairing{Teeth: made.Teeth, Distance: 77.5, Tip: made.Tip, Root: made.Root}
	found := false
	for _, f := range pair.Fittings() {
		if f.Module == 2.5 {
			t.Errorf("module 2.5 mm at a helix of %.1f° is said to fit", f.Helix/degree)
		}
		found = found || f.Module == 2.25 && math.Abs(f.Helix-27*degree) <= 1.01*degree
	}
	if !found {
		t.Errorf("module 2.25 mm is not among %+v", pair.Fittings())
	}
	// Spans fix the base pitch, and with it the pressure angle.
	for i := range pair.Spans {
		g := made.Gauge(i)
		for k := range 2 {
			n := g.SpanTeeth(made.X[i]) + k
			pair.Spans[i] = append(pair.Spans[i], Reading{Kind: Span, Teeth: n, Value: g.Span(n, made.X[i]) - 0.05})
		}
	}
	best := pair.Fittings()[0]
	if best.Module != 2.25 || math.Abs(best.PressureAngle-17.5*degree) > 1e-9 || math.Abs(best.Helix-27*degree) > 1e-9 {
		t.Errorf("likeliest: module %g, %.4g°, helix %.4g°", best.Module, best.PressureAngle/degree, best.Helix/degree)
	}
	near(t, "shift", best.Shift[0], 0.2, 1e-9)
}

// Any pair that is made of the first series, measured exactly: it is among the sets when spans are measured too.
func TestFittingsHoldTheTruth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		helix := rapid.SampledFrom([]float64{0, 15, 20, 24, 30}).Draw(t, "helix") * degree
		m := rapid.SampledFrom([]float64{2, 2.25, 2.5, 2.75, 3}).Draw(t, "module")
		teeth := [2]int{rapid.IntRange(13, 30).Draw(t, "driver"), rapid.IntRange(25, 60).Draw(t, "driven")}
		sum := rapid.Float64Range(0, 0.6).Draw(t, "sum")
		share := rapid.Float64Range(0.3, 0.8).Draw(t, "share")
		spec := involute.Spec{Module: m, Helix: helix, Rack: involute.StandardRack, Teeth: teeth,
			Shift: [2]float64{sum * share, sum * (1 - share)}, ShiftKnown: [2]bool{true, true}, Face: 20}
		made, err := involute.New(spec)
		if err != nil {
			t.Skip(err.Error())
		}
		pair := Pairing{Teeth: teeth, Distance: made.Centre, Tip: made.Tip}
		for i := range pair.Spans {
			g := made.Gauge(i)
			for k := range 2 {
				n := max(1, g.SpanTeeth(made.X[i])-1) + k
				pair.Spans[i] = append(pair.Spans[i], Reading{Kind: Span, Teeth: n, Value: g.Span(n, made.X[i])})
			}
		}
		for _, f := range pair.Fittings() {
			if f.Module == m && f.PressureAngle == 20*degree && math.Abs(f.Helix-helix) < 1e-9 {
				return
			}
		}
		t.Errorf("module %g, helix %g°, shifts %v is not among %+v", m, helix/degree, made.X, pair.Fittings())
	})
}
