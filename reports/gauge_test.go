package reports_test

import (
	"math"
	"testing"

	"layshaft/gearstress/gauge"
	"layshaft/reports/data"
	"layshaft/reports/text"
	"layshaft/reports/view"
)

// gauged is a bench with a pair that closes, and a gear whose twins the readings can't tell from it.
func gauged(t *testing.T) view.Bench {
	t.Helper()
	const degree = math.Pi / 180
	pinion := gauge.Gear{Name: "pinion", Teeth: 17, Face: 22, Readings: []gauge.Reading{
		{Kind: gauge.Tip, Value: 51.83}, {Kind: gauge.Span, Teeth: 3, Value: 19.52}, {Kind: gauge.Span, Teeth: 4, Value: 26.90}, {Kind: gauge.OverBalls, Size: 4.5, Value: 52.98},
		{Kind: gauge.TipHelix, Value: 24.8 * degree}, {Kind: gauge.Depth, Value: 5.60},
	}}
	wheel := gauge.Gear{Name: "wheel", Teeth: 35, Face: 20, Readings: []gauge.Reading{
		{Kind: gauge.Tip, Value: 99.02}, {Kind: gauge.Span, Teeth: 4, Value: 27.21}, {Kind: gauge.Span, Teeth: 5, Value: 34.59}, {Kind: gauge.TipHelix, Value: 23.4 * degree},
	}}
	// 42 teeth of 10 DP at 20° (own computation), by caliper.
	alone := gauge.Gear{Name: "old wheel", Teeth: 42, Spur: true, Readings: []gauge.Reading{{Kind: gauge.Span, Teeth: 5, Value: 35.25, By: gauge.Caliper}, {Kind: gauge.Span, Teeth: 6, Value: 42.75, By: gauge.Caliper}}}
	one := gauge.Gear{Name: "odd gear", Teeth: 20, Spur: true, Readings: []gauge.Reading{{Kind: gauge.OverBalls, Size: 4.5, Value: 56.0}, {Kind: gauge.Tip, Value: 55.0}}}
	result, err := gauge.Solve(gauge.Set{
		Gears:   []gauge.Gear{pinion, wheel, alone, one},
		Pairs:   []gauge.Pair{{Name: "only pair", Gears: [2]int{0, 1}, Centre: 0, Backlash: gauge.Reading{Kind: gauge.Backlash, Value: 0.10}}},
		Centres: []gauge.Centre{{Name: "input – output", Reading: gauge.Reading{Kind: gauge.Distance, Value: 70.5, By: gauge.Plugs}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	return view.Bench{Name: "Bench", Result: result, Box: "box.yaml"}
}

func TestNothingGauged(t *testing.T) {
	if text.Gauge(nil, view.Bench{}, text.Options{}) == nil || data.GaugeJSON(nil, view.Bench{}, view.Options{}) == nil || data.GaugeCSV(nil, view.Bench{}, view.Options{}) == nil {
		t.Error("a report of nothing is written")
	}
}
