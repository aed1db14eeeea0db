package gearbox

import (
	"math"
	"strings"
	"testing"
)

// byCentres is threeShafts with the axes given as distances instead of coordinates.
func byCentres(distances ...Centre) *Box {
	b := threeShafts()
	for i := range b.Shafts {
		b.Shafts[i].Axis = nil
	}
	b.Centres = distances
	return b
}

var (
	inOut   = Centre{[2]string{"in", "out"}, 66}
	outDiff = Centre{[2]string{"out", "diff"}, 119}
	inDiff  = Centre{[2]string{"diff", "in"}, math.Hypot(66+119*math.Cos(70*math.Pi/180), 119*math.Sin(70*math.Pi/180))}
)

// Three distances and a side say as much as coordinates: turning and shifting the whole box changes nothing that is judged.
func TestTriangleEqualsCoordinates(t *testing.T) {
	given := mustSolve(t, threeShafts(), Load{}).Speeds[0]
	b := byCentres(inOut, outDiff, inDiff)
	b.Side = map[string]int{"diff": -1} // the differential lies at −70° from the line in → out: anticlockwise looking along +x
	solved := mustSolve(t, b, Load{}).Speeds[0]
	for i, m := range given.Margins {
		n := solved.Margins[i]
		if m.Item != n.Item || math.Abs(m.Allowable[0]-n.Allowable[0]) > 1e-6*m.Allowable[0] {
			t.Errorf("%s, %s: allowable %g by coordinates; %s, %g by distances", m.Kind, m.Item, m.Allowable[0], n.Item, n.Allowable[0])
		}
	}
	b.Side["diff"] = 1
	if other := mustSolve(t, b, Load{}).Speeds[0]; math.Abs(other.Shafts[1].MaxDeflection-given.Shafts[1].MaxDeflection) < 1e-3*given.Shafts[1].MaxDeflection {
		t.Error("the other side of the line bends the output shaft alike; the side is not heeded")
	}
}

func TestUnknownSideReportsTheWorse(t *testing.T) {
	b := byCentres(inOut, outDiff, inDiff)
	r := mustSolve(t, b, Load{})
	both := r.Speeds[0]
	lowest := math.Inf(1)
	for _, side := range []int{1, -1} {
		b.Side = map[string]int{"diff": side}
		lowest = min(lowest, mustSolve(t, b, Load{}).Speeds[0].Governing().Allowable[0])
	}
	if got := both.Governing().Allowable[0]; got != lowest {
		t.Errorf("allowable %g with the side unknown, want the worse of both sides, %g", got, lowest)
	}
	if !strings.Contains(strings.Join(r.Checks, "\n"), "either side") {
		t.Errorf("the notes don't say that both sides were tried: %q", r.Checks)
	}
}

// Where the third distance isn't known, no place of the shaft may be worse than the one reported.
func TestUnknownAngleReportsTheWorst(t *testing.T) {
	r := mustSolve(t, byCentres(inOut, outDiff), Load{})
	reported := r.Speeds[0].Governing().Allowable[0]
	for degrees := 0.0; degrees < 360; degrees += 45 {
		b := threeShafts()
		b.Shafts[2].Axis = &[2]float64{66 + 119*math.Cos(degrees*math.Pi/180), 119 * math.Sin(degrees*math.Pi/180)}
		// Some of these directions would let the wheel into the input shaft.
		if a := mustSolve(t, b, Load{Loose: true}).Speeds[0].Governing().Allowable[0]; a < reported*(1-1e-9) {
			t.Errorf("at %g° the box allows %g, less than the %g reported as the worst", degrees, a, reported)
		}
	}
	if !strings.Contains(strings.Join(r.Checks, "\n"), "direction isn't") {
		t.Errorf("the notes don't say that the direction is unknown: %q", r.Checks)
	}
}

func TestPlacesThatCannotBe(t *testing.T) {
	for _, c := range []struct {
		name string
		box  *Box
		want string
	}{
		{"no triangle", byCentres(inOut, outDiff, Centre{[2]string{"in", "diff"}, 300}), "don't make a triangle"},
		{"two distances for one pair", byCentres(inOut, outDiff, Centre{[2]string{"out", "in"}, 67}), "distances don't agree"},
		{"distance on one axis", func() *Box {
			b := threeShafts()
			b.Shafts[0].Axis, b.Shafts[1].Axis = nil, nil
			b.Shafts[1].Bearings[0].In, b.Shafts[1].Bearings[0].InAt, b.Shafts[1].Bearings[0].Axial = "in", 170, 0
			b.Centres = []Centre{inOut}
			return b
		}(), "no distance here"},
		{"nothing known", func() *Box {
			b := byCentres(inOut)
			b.Speeds[0].Path = []string{"a", "b"}
			b.Meshes[1].Driver, b.Meshes[1].Driven = "p2", "w2"
			b.Shafts[0].Axis = &[2]float64{}
			b.Shafts[1].Axis = &[2]float64{66, 0}
			return b
		}(), ""}, // the distance of the final drive follows from its teeth: no fault
	} {
		t.Run(c.name, func(t *testing.T) {
			found := Validate(c.box)
			if c.want == "" {
				if found.HasErrors() {
					t.Fatalf("found %v", found)
				}
				return
			}
			if !found.HasErrors() || !strings.Contains(all(found), c.want) {
				t.Errorf("found %q, want %q in it", all(found), c.want)
			}
		})
	}
}
