package reports_test

import (
	"math"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/chance"
	"layshaft/gearbox/study"
	"layshaft/reports/data"
	"layshaft/reports/text"
	"layshaft/reports/view"
)

// sampleSpread is a spread of two boxes with everything that a report may show; all numbers are invented.
func sampleSpread() *study.Spread {
	at := func(v float64) chance.Interval { return chance.Interval{Value: v, From: 0.97 * v, To: 1.03 * v} }
	band := func(v float64) study.Band90 {
		return study.Band90{Low: at(0.8 * v), Middle: at(v), High: at(1.2 * v), Least: 0.7 * v, Most: 1.3 * v}
	}
	never := chance.Interval{Value: 0, From: 0, To: 0.0004}
	box := func(r *gearbox.Result, v float64) study.BoxSpread {
		return study.BoxSpread{
			Box: r.Box, Asked: 190e3, Bears: band(v), Short: at(0.14), Over: never, Gaps: 3, Gap: "The gear doesn't fit.",
			Speeds:  []study.SpeedSpread{{Name: "1st", Bears: band(v), Short: at(0.14)}, {Name: "5th", Bears: study.Band90{Low: at(2 * v), Middle: at(3 * v), High: chance.Interval{Value: math.Inf(1)}, Least: v, Most: math.Inf(1)}, Short: never}},
			First:   []study.Often{{Speed: "1st", Kind: gearbox.FlankFatigue, Item: "first pinion", Share: 0.9}, {Share: 0.1}},
			Margins: []study.MarginSpread{{Speed: "1st", Kind: gearbox.FlankFatigue, Item: "first pinion", Left: band(0.3), Over: never}},
		}
	}
	return &study.Spread{
		Boxes: []study.BoxSpread{box(alder(), 210e3), box(birch(), 200e3)}, Stated: true, Samples: 4800, Wanted: 5008, Seed: 1, Level: 0.9,
		Unknowns: []study.Unknown{{Group: "steel case-carburised", Words: "its strength", Law: "triangular", Boxes: []int{0, 1}},
			{Group: "measures of gear first pinion", Words: "gears.first pinion.face, 22 mm ± 0.03 mm", Law: "normal", Plus: "0.03 mm", Boxes: []int{0}},
			{Group: "measures of gear first pinion", Words: "gears.first pinion.at, 61 mm ± 0.03 mm", Law: "normal", Plus: "0.03 mm", Boxes: []int{0}}},
		Ratio:   []study.RatioSpread{{Ratio: band(0.95), Less: at(0.8)}, {Speed: "1st", Ratio: band(0.95), Less: chance.Interval{Value: 1, From: 0.9996, To: 1}}},
		Ranking: []study.Ranked{{Group: "steel case-carburised", Effect: chance.Effect{Alone: 0.9, Total: 0.95}, Left: 0.32}},
	}
}

func TestNothingSpread(t *testing.T) {
	if text.Spread(nil, nil, text.Options{}) == nil || data.SpreadJSON(nil, &study.Spread{}, view.Options{}) == nil {
		t.Error("a report of nothing is written")
	}
}
