package gearbox_test

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
	"layshaft/material"
)

// file is a demonstration box with some of its text changed.
func file(t *testing.T, name string, changes ...string) *gearbox.Box {
	t.Helper()
	data, err := os.ReadFile("../testdata/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(text, changes[i]) {
			t.Fatalf("%s has no %q", name, changes[i])
		}
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	b, found := boxfile.Read(name+".yaml", []byte(text))
	if found.HasErrors() {
		t.Fatal(found)
	}
	return b
}

const (
	birchSide  = "side:\n  diff: positive         # clockwise from the line input → output, looking along the shafts from the left\n"
	birchThird = "  - {between: [input, diff], distance: 184 mm}\n"
)

// What isn't known is reported by the least over boxes in which somebody wrote it down, each solved by itself with its duty: in every speed, at every end of the bands; and the range that
// is told is that of these very numbers.
func TestReportedIsTheLeastOfBoxesWrittenOut(t *testing.T) {
	t.Parallel()
	sides := []string{"positive", "negative"}
	written := func(changes func(word string) []string, words ...string) (boxes []*gearbox.Box) {
		for _, w := range words {
			boxes = append(boxes, file(t, "birch", changes(w)...))
		}
		return boxes
	}
	// Without the third distance: input and output lie along y, the differential at every fifteenth degree round the output shaft.
	var round []*gearbox.Box
	for k := range 24 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 24)
		b := file(t, "birch", birchSide, "", birchThird, "")
		b.Shafts[0].Axis, b.Shafts[1].Axis = &[2]float64{}, &[2]float64{80, 0}
		b.Shafts[2].Axis = &[2]float64{80 + 126.5*cos, 126.5 * sin}
		round = append(round, b)
	}
	both := written(func(w string) []string { return []string{"diff: positive", "diff: " + w} }, sides...)
	for _, c := range []struct {
		name  string
		open  *gearbox.Box
		boxes []*gearbox.Box
		loads []gearbox.Load
	}{
		{"side left out", file(t, "birch", birchSide, ""), both, []gearbox.Load{{}, {Torque: -190e3}, {Brief: true}, {Torque: 500e3, Speeds: []string{"3rd"}}}},
		{"side unknown", file(t, "birch", "diff: positive", "diff: unknown"), both, []gearbox.Load{{}}},
		{"third distance left out", file(t, "birch", birchSide, "", birchThird, ""), round, []gearbox.Load{{Loose: true}}},
		{"sense unknown", file(t, "birch", "turns: clockwise", "turns: unknown"),
			written(func(w string) []string { return []string{"turns: clockwise", "turns: " + w} }, "clockwise", "anticlockwise"), []gearbox.Load{{}, {Torque: -190e3}}},
		{"steel unknown", file(t, "birch", "steel: case-carburised", "steel: unknown"),
			written(func(w string) []string { return []string{"steel: case-carburised", "steel: " + w} }, "case-carburised", "through-hardened"), []gearbox.Load{{}}},
		{"case unknown", file(t, "birch", "parts:  ", "housing: unknown\nparts:  "),
			written(func(w string) []string { return []string{"parts:  ", w + "parts:  "} }, "", "housing: {radial: 300 N/µm}\n"), []gearbox.Load{{}}},
		{"grade unknown", file(t, "birch", "teeth: 13,", "teeth: 13, grade: unknown,"),
			written(func(w string) []string { return []string{"teeth: 13,", "teeth: 13, grade: " + w + ","} }, "7", "8"), []gearbox.Load{{}}},
		{"hand unknown", file(t, "birch", "helix: 22°, hand: left", "helix: 22°, hand: unknown"),
			written(func(w string) []string { return []string{"helix: 22°, hand: left", "helix: 22°, hand: " + w} }, "right", "left"), []gearbox.Load{{}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			for _, load := range c.loads {
				r := solved(t, c.open, load)
				var all []*gearbox.Result
				for _, b := range c.boxes {
					all = append(all, solved(t, b, load))
				}
				if r.Box != c.open {
					t.Error("the result is of another box")
				}
				for i, s := range r.Speeds {
					least, most := math.Inf(1), 0.0
					ends := [material.High + 1]float64{math.Inf(1), math.Inf(1), math.Inf(1)}
					for _, one := range all {
						least, most = min(least, one.Speeds[i].First.Torque), max(most, one.Speeds[i].First.Torque)
						for level := range ends {
							ends[level] = min(ends[level], one.Speeds[i].Allowable(material.Level(level)))
						}
					}
					same := func(what string, got, want float64) {
						if !(math.Abs(got-want) <= 1e-9*want) && !(math.IsNaN(got) && math.IsNaN(want)) {
							t.Errorf("%s, %s: %.9g N·mm, want %.9g", s.Name, what, got, want)
						}
					}
					same("first limit", s.First.Torque, least)
					for level := range ends {
						same(material.Level(level).String(), s.Allowable(material.Level(level)), ends[level])
					}
					if s.Tried == nil || s.Tried.Boxes != len(c.boxes) {
						t.Fatalf("%s: tried %+v, want %d boxes", s.Name, s.Tried, len(c.boxes))
					}
					same("least tried", s.Tried.Least, least)
					same("most tried", s.Tried.Most, most)
					said := strings.Join(s.Checks, "\n")
					if spread := fmt.Sprintf("%.4g N·m to %.4g N·m", least/1e3, most/1e3); most > least*(1+1e-9) != strings.Contains(said, spread) {
						t.Errorf("%s: the range %s is told: %q", s.Name, spread, said)
					}
				}
			}
		})
	}
}

// A seat that may or may not be there: with the whole face and the usual play, or fast.
func TestUnknownSeat(t *testing.T) {
	const seat = "seat: {length: 27 mm, clearance: 0.03 mm, stiffness: 400 N/µm}"
	boxes, tried, err := gearbox.Alternatives(file(t, "birch", seat, "seat: unknown"))
	if err != nil || len(boxes) != 2 || len(tried) != 1 {
		t.Fatalf("%d boxes, %q, %v", len(boxes), tried, err)
	}
	for k, want := range []*gearbox.Box{file(t, "birch", ", "+seat, ""), file(t, "birch", "length: 27 mm", "length: 21 mm")} {
		if a, b := solved(t, boxes[k], gearbox.Load{}).Allowable(material.Typical), solved(t, want, gearbox.Load{}).Allowable(material.Typical); a != b {
			t.Errorf("%s: %g N·mm, written out %g", boxes[k].Variant, a, b)
		}
	}
}

// A box of which all is known is its own only alternative; each of several is its own.
func TestAlternativesAreSettled(t *testing.T) {
	known := file(t, "birch")
	if boxes, tried, err := gearbox.Alternatives(known); err != nil || len(boxes) != 1 || boxes[0] != known || tried != nil {
		t.Errorf("%d boxes, %q, %v", len(boxes), tried, err)
	}
	open := file(t, "birch", birchSide, "", "turns: clockwise", "turns: unknown")
	boxes, tried, err := gearbox.Alternatives(open)
	if err != nil || len(boxes) != 4 || len(tried) != 2 {
		t.Fatalf("%d boxes, %q, %v", len(boxes), tried, err)
	}
	variants := map[string]bool{}
	for _, b := range boxes {
		variants[b.Variant] = true
		again, _, err := gearbox.Alternatives(b)
		if err != nil || len(again) != 1 || again[0] != b {
			t.Errorf("%s: %d boxes of its own, %v", b.Variant, len(again), err)
		}
	}
	if len(variants) != 4 {
		t.Errorf("variants %v", variants)
	}
	if !open.Unknown["input.turns"] || open.Turns != 1 || open.Layout != nil {
		t.Error("the box itself was changed")
	}
}

// Alternatives that somebody has worked on are those that are solved.
func TestGivenAlternativesAreUsed(t *testing.T) {
	open := file(t, "birch", birchSide, "")
	boxes, tried, err := gearbox.Alternatives(open)
	if err != nil {
		t.Fatal(err)
	}
	open.Alternatives, open.Tried = boxes[:1], tried
	r, one := solved(t, open, gearbox.Load{}), solved(t, boxes[0], gearbox.Load{})
	if r.Allowable(material.Typical) != one.Allowable(material.Typical) {
		t.Error("other boxes were solved")
	}
}

// Too much unknown is refused, and what to settle is named.
func TestTooMuchUnknown(t *testing.T) {
	b := file(t, "birch", "turns: clockwise", "turns: unknown", birchSide, "", birchThird, "", "steel: case-carburised", "steel: unknown", "parts:  ", "housing: unknown\nparts:  ", "teeth: 13,", "teeth: 13, grade: unknown,")
	_, err := gearbox.Solve(b, gearbox.Load{})
	if err == nil || !strings.Contains(err.Error(), "too much is unknown") || !strings.Contains(err.Error(), "sense of rotation") {
		t.Errorf("error %v", err)
	}
}
