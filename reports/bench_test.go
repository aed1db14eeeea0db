package reports_test

import (
	"io"
	"testing"

	"layshaft/gearbox"
	"layshaft/reports/data"
	"layshaft/reports/text"
	"layshaft/reports/view"
)

// fiveSpeeds are two boxes of five speeds, as people compare them.
func fiveSpeeds() []*gearbox.Result {
	boxes := []*gearbox.Result{alder(), birch()}
	for _, r := range boxes {
		for range 4 {
			r.Speeds = append(r.Speeds, r.Speeds[0])
		}
		r.Speeds = r.Speeds[1:]
	}
	return boxes
}

func BenchmarkCheck(b *testing.B) {
	boxes := fiveSpeeds()
	for b.Loop() {
		if err := text.Check(io.Discard, boxes, text.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCheckJSON(b *testing.B) {
	boxes := fiveSpeeds()
	for b.Loop() {
		if err := data.CheckJSON(io.Discard, boxes, view.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
