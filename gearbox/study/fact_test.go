package study

import (
	"math"
	"slices"
	"strings"
	"testing"

	"layshaft/gearbox"
)

// Every value that is told of two long and unlike boxes stands in their files, at the part that it is told of, there and
// back: nothing that was scaled on the way.
func TestFactsStandInTheFiles(t *testing.T) {
	t.Parallel()
	alder, birch := demo(t)
	there, back := demoSplit(t)
	for c, boxes := range map[*CauseSplit][2]*gearbox.Result{there: {alder, birch}, back: {birch, alder}} {
		sections, places, spans := 0, 0, 0
		for _, cause := range c.Causes {
			for _, f := range cause.Facts {
				for i, got := range []float64{f.From, f.To} {
					b := boxes[i].Box
					var want float64
					switch f.What {
					case "diameter":
						want = shaftOf(b, f.Part).Sections[f.Sections[i]-1].Outer
						sections++
					case "place":
						want = gearOf(b, f.Part).At
						places++
					case "span":
						s := shaftOf(b, f.Part)
						want = math.Abs(s.Bearings[1].At - s.Bearings[0].At)
						spans++
					case "face":
						want = gearOf(b, f.Part).Face
					case "stiffness":
						want = shaftOf(b, "output").Bearings[0].Radial
					case "seat length":
						want = gearOf(b, f.Part).Seat.Length
					default:
						t.Errorf("%s of %s: not expected", f.What, f.Part)
					}
					if got != want {
						t.Errorf("%s: %s of %s is %g, the file has %g", b.Name, f.What, f.Part, got, want)
					}
				}
			}
		}
		// Birch has a larger section at the bearing of the output shaft, and no thicker one in its middle.
		if sections != 4 || places != 24 || spans != 6 {
			t.Errorf("%d ends of sections, %d of places, %d of spans; want 4, 24, 6", sections, places, spans)
		}
		shafts := c.Causes[c.cause(Sections)]
		for k, want := range [][2]int{{4, 4}, {1, 1}} {
			if f := shafts.Facts[k]; f.Part != "output" || f.Sections != want {
				t.Errorf("section %v of %s, want %v of output", f.Sections, f.Part, want)
			}
		}
		if want := []string{"input", "output", "diff"}; !slices.Equal(shafts.Aside, want) {
			t.Errorf("steps not in proportion of %v, want %v", shafts.Aside, want)
		}
	}
}

// A place at which a gear engages is a place of its own, and one that only keeps beside its gear isn't.
func TestHubsAreTold(t *testing.T) {
	free := func(at, hub float64) *gearbox.Result {
		return solve(t, altered(pairBox(t, "long"), func(b *gearbox.Box) {
			b.Gears[0].At, b.Gears[1].At = at, at
			b.Gears[1].Seat = &gearbox.Seat{Length: 22, Clearance: 0.03, Stiffness: 4e5}
			if hub > 0 {
				b.Gears[1].EngagesAt = &hub
			}
		}))
	}
	for _, w := range []struct {
		a, b *gearbox.Result
		want string
	}{
		{free(60, 76), free(60, 44), "hub (engages_at)"},
		{free(60, 0), free(60, 44), "hub (engages_at)"},
		{free(60, 76), free(70, 86), "place place"},
		{free(60, 76), free(70, 76), "place place"}, // the hub is where it was
		{free(60, 76), free(70, 80), "place place hub (engages_at)"},
	} {
		c := split(t, w.a, w.b)
		var told []string
		for i := range c.Causes {
			for _, f := range c.Causes[i].Facts {
				told = append(told, f.What)
			}
			if same := c.Causes[i].Same; same == (c.Causes[i].Groups[0] == Positions) {
				t.Errorf("%v the same: %v", c.Causes[i].Groups, same)
			}
		}
		if got := strings.Join(told, " "); got != w.want {
			t.Errorf("%q is told, want %q", got, w.want)
		}
	}
}

// What a file says is unknown is a difference of its own group, and takes what it costs: the box with the least of what it
// may be is the end of the mix.
func TestUnknownIsADifference(t *testing.T) {
	helical := func(unknown string) *gearbox.Result {
		return solve(t, altered(pairBox(t, "long"), func(b *gearbox.Box) {
			b.Meshes[0].Helix, b.Meshes[0].Hand, b.Centres = 0.3, gearbox.Right, slices.Clone(b.Centres)
			b.Centres[0].Distance = 70.7
			b.Shafts[1].Bearings[1].At = 120
			if unknown != "" {
				b.Unknown = map[string]bool{unknown: true}
			}
		}))
	}
	known := helical("")
	for _, w := range []struct {
		path  string
		group Group
	}{{"input.turns", Sense}, {"housing", Case}, {"gears.pinion.grade", Teeth}, {"gears.pinion.steel", Steel}, {"gears.wheel.seat", Seats}} {
		open := helical(w.path)
		c := split(t, known, open)
		it := &c.Speeds[0].Items[0]
		least := math.Inf(1)
		for _, other := range c.Speeds[0].Items {
			if other.Limit != nil {
				least = min(least, other.To)
			}
		}
		if want := open.Speeds[0].First.Torque; math.Abs(least-want) > 1e-9*want {
			t.Errorf("%s: the mix ends at %g, the box at %g", w.path, least, want)
		}
		for i, cause := range c.Causes {
			if cause.Same != (cause.Groups[0] != w.group) {
				t.Errorf("%s: %v the same: %v", w.path, cause.Groups, cause.Same)
			}
			if !cause.Same && (len(cause.Facts) != 1 || cause.Facts[0].Names[1] != "unknown") {
				t.Errorf("%s: %+v", w.path, cause.Facts)
			}
			if cause.Same && it.Shares[i] != 0 {
				t.Errorf("%s: %v has %g", w.path, cause.Groups, it.Shares[i])
			}
		}
	}
}
