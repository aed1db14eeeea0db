package page

import (
	"encoding/json"
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"
)

func TestFigures(t *testing.T) {
	for _, c := range []struct {
		v      float64
		digits int
		want   string
	}{
		{0, 3, "0"},
		{1e-15, 3, "0"},
		{-0.25234, 3, "−0.252"},
		{66.34, 3, "66.3"},
		{99.96, 3, "100"}, // the printed rounding decides the decimals, so not 100.0
		{9.996, 3, "10.0"},
		{12345, 3, "12345"},
		{12.2, 4, "12.20"},
		{math.NaN(), 3, "n/a"},
		{math.Inf(1), 3, "–"},
	} {
		if got := figure(c.v, c.digits); got != c.want {
			t.Errorf("figure(%v, %d) is %q, want %q", c.v, c.digits, got, c.want)
		}
	}
}

func TestNumbersAreTypeset(t *testing.T) {
	for text, want := range map[string]string{"1.5e+07": "1.5·10⁷", "-1.23e-09": "−1.23·10⁻⁹", "endless": "endless", "-3.2": "−3.2", "170": "170"} {
		if got := typeset(text); got != want {
			t.Errorf("%q is set as %q, want %q", text, got, want)
		}
	}
}

func TestPercents(t *testing.T) {
	for v, want := range map[float64]string{
		0:           "0.0 %",
		-0.0001:     "−0.01 %",
		0.069:       "+6.9 %",
		-0.005:      "−0.5 %",
		0.0996:      "+10.0 %",
		-0.61:       "−61.0 %",
		9.99:        "+999.0 %",
		27.59:       "> 1000 %",
		math.Inf(1): "not reached",
	} {
		if got := percent(v); got != want {
			t.Errorf("percent(%v) is %q, want %q", v, got, want)
		}
	}
	if got := percent(math.NaN()); got != "n/a" {
		t.Errorf("percent(NaN) is %q", got)
	}
}

func TestShortDropsOnlyTrailingZeros(t *testing.T) {
	for v, want := range map[float64]string{170: "170", 162.5: "162.5", 10: "10", 1200: "1200", 125.384: "125.38"} {
		if got := short(v); got != want {
			t.Errorf("short(%v) is %q, want %q", v, got, want)
		}
	}
}

func TestRoundScaleHoldsItsRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(-1e6, 1e6).Draw(t, "low")
		high := low + max(1, math.Abs(low))*rapid.Float64Range(1e-4, 10).Draw(t, "width")
		parts := rapid.IntRange(2, 14).Draw(t, "parts")
		s := roundScale(low, high, parts)
		slack := 1e-6 * s.Step
		if s.Low > low+slack || s.High < high-slack {
			t.Fatalf("%v does not hold %v to %v", s, low, high)
		}
		if n := (s.High - s.Low) / s.Step; n < 1-1e-6 || n > float64(parts)+2.5 {
			t.Fatalf("%v has %v steps for %d wanted", s, n, parts)
		}
		for _, end := range []float64{s.Low, s.High} {
			if k := end / s.Step; math.Abs(k-math.Round(k)) > 1e-6 {
				t.Fatalf("%v does not end on a step", s)
			}
		}
	})
}

// Curves are written to four significant digits: within 5 in the fifth.
func TestTableKeepsFourDigits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e12, 1e12).Draw(t, "v")
		text, err := json.Marshal(table{{v}})
		if err != nil {
			t.Fatal(err)
		}
		var back [][]float64
		if err := json.Unmarshal(text, &back); err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		if math.Abs(back[0][0]-v) > 5.0001e-4*math.Abs(v)+1e-9 {
			t.Fatalf("%v became %v", v, back[0][0])
		}
	})
}
