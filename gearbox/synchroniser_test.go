package gearbox

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"layshaft/gearstress/involute"
)

// spur is a gear of 12 mm face, free when play is set.
func spur(name, shaft string, at float64, teeth int, free bool) Gear {
	g := Gear{Name: name, Shaft: shaft, At: at, Teeth: teeth, Face: 12}
	if free {
		g.Seat = &Seat{Length: 12, Clearance: 0.03}
	}
	return g
}

func spurMesh(name, driver, driven string) Mesh {
	return Mesh{Name: name, Driver: driver, Driven: driven, Module: 2.5, Rack: involute.StandardRack, Efficiency: 1}
}

func straight(name string, y, z float64) Shaft {
	return Shaft{
		Name: name, Axis: &[2]float64{y, z}, Sections: []Section{{Length: 200, Outer: 24, Bore: 6}},
		Bearings: []Bearing{{Name: "left", Type: DeepGrooveBall, At: 10, Radial: rigid, Axial: rigid}, {Name: "right", Type: DeepGrooveBall, At: 190, Radial: rigid}},
	}
}

// twoShafts is a two-shaft box of three speeds and reverse: the wheels of 1st and 2nd and the pinion of 3rd turn freely, reverse goes over an idler that turns on its pin and a free wheel. A final
// drive follows.
func twoShafts() *Box {
	b := &Box{
		Name: "two shafts", Torque: 50e3, Turns: 1, Revs: 600, Input: Port{"in", 2}, Output: Port{"diff", 100},
		Shafts: []Shaft{straight("in", 0, 0), straight("out", 70, 0), straight("diff", 70+120, 0), straight("pin", 35, 0)},
		Gears: []Gear{
			spur("p1", "in", 40, 16, false), spur("w1", "out", 40, 40, true),
			spur("p2", "in", 70, 22, false), spur("w2", "out", 70, 34, true),
			spur("p3", "in", 100, 26, true), spur("w3", "out", 100, 30, false),
			spur("pr", "in", 130, 15, false), spur("idler", "pin", 130, 22, true), spur("wr", "out", 130, 28, true),
			spur("pf", "out", 160, 20, false), spur("wf", "diff", 160, 76, false),
		},
		Meshes: []Mesh{
			spurMesh("1", "p1", "w1"), spurMesh("2", "p2", "w2"), spurMesh("3", "p3", "w3"),
			spurMesh("r1", "pr", "idler"), spurMesh("r2", "idler", "wr"), spurMesh("f", "pf", "wf"),
		},
		Speeds: []Speed{{Name: "1st", Path: []string{"1", "f"}}, {Name: "2nd", Path: []string{"2", "f"}}, {Name: "3rd", Path: []string{"3", "f"}}, {Name: "reverse", Path: []string{"r1", "r2", "f"}}},
	}
	// The pin lies where the teeth of the idler meet both others.
	b.Shafts[3].Axis = nil
	b.Centres = []Centre{{[2]string{"in", "pin"}, 46.25}, {[2]string{"pin", "out"}, 62.5}}
	return b
}

// layshaftBox is an inline box: constant-mesh pair, 1st free on the mainshaft, 2nd free on the layshaft, direct top.
func layshaftBox() *Box {
	b := &Box{
		Name: "layshaft", Torque: 50e3, Turns: 1, Revs: 500, Input: Port{"in", 2}, Output: Port{"main", 190},
		Shafts: []Shaft{straight("in", 0, 0), straight("main", 0, 0), straight("lay", 0, -70)},
		Gears: []Gear{
			spur("ci", "in", 185, 24, false), spur("cl", "lay", 30, 32, false),
			spur("l1", "lay", 90, 16, false), spur("m1", "main", 55, 40, true),
			spur("l2", "lay", 130, 26, true), spur("m2", "main", 95, 30, false),
		},
		Meshes: []Mesh{spurMesh("constant", "ci", "cl"), spurMesh("1", "l1", "m1"), spurMesh("2", "l2", "m2")},
		Speeds: []Speed{{Name: "1st", Path: []string{"constant", "1"}}, {Name: "2nd", Path: []string{"constant", "2"}}, {Name: "top", Direct: true}},
	}
	b.Shafts[1].Start, b.Shafts[2].Start = 190, 155
	b.Shafts[1].Bearings[0] = Bearing{Name: "pilot", Type: NeedleRoller, At: 2, Radial: rigid, In: "in", InAt: 192}
	return b
}

func synchroniserOf(t testing.TB, w *Weights, speed string) Synchroniser {
	t.Helper()
	for _, y := range w.Synchronisers {
		if y.Speed == speed {
			return y
		}
	}
	t.Fatalf("no speed %q", speed)
	return Synchroniser{}
}

// By hand. On the input shaft turn with it: p1, p2, pr and the disc. w1 goes at 16/40 of it, w2 at 22/34, the idler at 15/22 and wr at 15/28; p3 is held by w3, which the car turns.
func TestSynchronisersOfATwoShaftBox(t *testing.T) {
	b := twoShafts()
	b.Parts = []Part{{Name: "disc", Inertia: 4000, TurnsWith: "in"}, {Name: "flange", Inertia: 999, TurnsWith: "diff"}, {Name: "case", Mass: 9}}
	w := mustWeigh(t, b)
	j := func(name string) float64 { return weightOf(t, w, name).Inertia }
	square := func(a, b float64) float64 { return a * a / b / b }
	atInput := j("in") + j("p1") + j("p2") + j("pr") + 4000 + j("w1")*square(16, 40) + j("w2")*square(22, 34) + j("idler")*square(15, 22) + j("wr")*square(15, 28)
	for _, c := range []struct {
		speed, gear, shaft string
		ratio              float64
	}{
		{"1st", "w1", "out", -16.0 / 40}, {"2nd", "w2", "out", -22.0 / 34}, {"3rd", "p3", "in", 1}, {"reverse", "wr", "out", 15.0 / 28},
	} {
		y := synchroniserOf(t, w, c.speed)
		if y.Unknown != "" || y.Gear != c.gear || y.Shaft != c.shaft {
			t.Errorf("%s: %+v", c.speed, y)
			continue
		}
		close1(t, c.speed+" ratio", y.Ratio, c.ratio, 1e-12)
		close1(t, c.speed+" inertia", y.Inertia, atInput/c.ratio/c.ratio, 1e-12)
	}
	if len(w.Notes) != 2 {
		t.Errorf("notes: %q", w.Notes)
	}
	// Up from 1st into 2nd at 600 rad/s: the input has to fall to 600 · (34/22)/(40/16) = 370.909 rad/s, w2 on the output shaft by 22/34 of that difference.
	up := synchroniserOf(t, w, "2nd").Up
	difference := (600 - 370.9090909) * 22 / 34
	if up == nil || up.From != "1st" {
		t.Fatalf("up into 2nd: %+v", up)
	}
	close1(t, "difference", up.Difference, difference, 1e-9)
	close1(t, "torque-time", up.TorqueTime, atInput*square(34, 22)*difference/1000, 1e-9)
	close1(t, "heat", up.Heat, atInput*square(34, 22)*difference*difference/2/1000, 1e-9)
	// Down from 2nd into 1st, to arrive at 600 rad/s.
	down := synchroniserOf(t, w, "1st").Down
	if down == nil || down.From != "2nd" {
		t.Fatalf("down into 1st: %+v", down)
	}
	close1(t, "difference down", down.Difference, (600-370.9090909)*16/40, 1e-9)
	for _, speed := range []string{"1st", "reverse"} {
		if y := synchroniserOf(t, w, speed); y.Up != nil || speed == "reverse" && y.Down != nil {
			t.Errorf("into %s from a neighbour that it hasn't: %+v", speed, y)
		}
	}
	if synchroniserOf(t, w, "3rd").Down != nil {
		t.Error("down into the longest speed")
	}
	b.Revs = 0
	if synchroniserOf(t, mustWeigh(t, b), "2nd").Up != nil {
		t.Error("a shift at no known revs")
	}
}

// By hand. The layshaft goes at 24/32 of the input, m1 at 24/32 · 16/40; l2 is held by m2. Top joins input and mainshaft, 2nd joins l2 to the layshaft.
func TestSynchronisersOfALayshaftBox(t *testing.T) {
	b := layshaftBox()
	w := mustWeigh(t, b)
	j := func(name string) float64 { return weightOf(t, w, name).Inertia }
	lay := 24.0 / 32
	m1 := lay * 16 / 40
	atInput := j("in") + j("ci") + (j("lay")+j("cl")+j("l1"))*lay*lay + j("m1")*m1*m1
	for _, c := range []struct {
		speed, gear, shaft string
		ratio              float64
	}{
		{"1st", "m1", "main", m1}, {"2nd", "l2", "lay", -lay}, {"top", "", "in", 1},
	} {
		y := synchroniserOf(t, w, c.speed)
		if y.Unknown != "" || y.Gear != c.gear || y.Shaft != c.shaft {
			t.Errorf("%s: %+v", c.speed, y)
			continue
		}
		close1(t, c.speed+" ratio", y.Ratio, c.ratio, 1e-12)
		close1(t, c.speed+" inertia", y.Inertia, atInput/c.ratio/c.ratio, 1e-12)
	}
	// 2nd has 32/24 · 30/26 = 1.53846; into top at 500 rad/s the input falls to 500/1.53846 = 325.
	close1(t, "into top", synchroniserOf(t, w, "top").Up.Difference, 175, 1e-9)
}

// However heavy the parts and whatever the teeth, the energy at the synchroniser is that of its parts, and shares add up.
func TestEnergyAtTheSynchroniser(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := twoShafts()
		for i := range b.Gears {
			b.Gears[i].Face = rapid.Float64Range(5, 15).Draw(t, "face")
		}
		b.Parts = []Part{{Name: "disc", Inertia: rapid.Float64Range(1, 1e5).Draw(t, "disc"), TurnsWith: "in"}}
		w, err := Weigh(b)
		if err != nil {
			t.Fatal(err)
		}
		for _, y := range w.Synchronisers {
			omega := 600 * y.Ratio
			var energy, sum float64
			for _, s := range y.Shares {
				name := strings.TrimSuffix(s.Part, " shaft")
				var own float64
				for _, p := range w.Parts {
					if p.Name == name {
						own = p.Inertia
					}
				}
				energy += own * (omega * s.Ratio) * (omega * s.Ratio) / 2
				sum += s.Inertia
			}
			if math.Abs(y.Inertia*omega*omega/2-energy) > 1e-12*energy || math.Abs(sum-y.Inertia) > 1e-12*sum {
				t.Fatalf("%s: ½ J ω² = %g, parts %g; J = %g, shares %g", y.Speed, y.Inertia*omega*omega/2, energy, y.Inertia, sum)
			}
		}
		// With one output speed, all speeds see the same energy at the same input speed: it is the same parts.
		first := w.Synchronisers[0]
		for _, y := range w.Synchronisers[1:] {
			if a, b := first.Inertia*first.Ratio*first.Ratio, y.Inertia*y.Ratio*y.Ratio; math.Abs(a-b) > 1e-12*a {
				t.Fatalf("%g kg·mm² at the input shaft by %s, %g by %s", a, first.Speed, b, y.Speed)
			}
		}
	})
}

func TestSynchronisersThatCannotBeKnown(t *testing.T) {
	for name, c := range map[string]struct {
		change func(b *Box)
		speed  string
		want   string
	}{
		"no seat anywhere": {func(b *Box) {
			for i := range b.Gears {
				b.Gears[i].Seat = nil
			}
		}, "2nd", "no gear of the box is told to turn freely"},
		"no seat on the way":   {func(b *Box) { b.Gears[1].Seat = nil }, "1st", "give that one a seat"},
		"two seats on the way": {func(b *Box) { b.Gears[0].Seat = b.Gears[1].Seat }, "1st", `more than one gear on its way turns freely ("p1", "w1")`},
		"seats of the final pair": {func(b *Box) {
			b.Gears[9].Seat = b.Gears[1].Seat
			b.Gears[5].Seat = b.Gears[1].Seat
			b.Gears[4].Seat = nil
		}, "3rd", "more than one"},
		// 1st with its free wheel made fast would lock the box, were its mesh known to last by another speed.
		"a way that stays tied": {func(b *Box) {
			b.Gears[1].Seat = nil
			b.Speeds = append(b.Speeds, Speed{Name: "crawler", Path: []string{"1", "f"}})
			b.Gears = append(b.Gears, spur("pc", "out", 178, 20, true), spur("wc", "diff", 178, 76, false))
			b.Meshes = append(b.Meshes, spurMesh("c", "pc", "wc"))
			b.Speeds[4].Path = []string{"1", "c"}
		}, "2nd", "still tied together"},
	} {
		b := twoShafts()
		c.change(b)
		w := mustWeigh(t, b)
		y := synchroniserOf(t, w, c.speed)
		if !strings.Contains(y.Unknown, c.want) || !math.IsNaN(y.Inertia) || y.Up != nil || y.Down != nil {
			t.Errorf("%s: %+v", name, y)
		}
	}
	// The others are worked out, and it is said what they rest on.
	b := twoShafts()
	b.Gears[1].Seat = nil
	w := mustWeigh(t, b)
	if y := synchroniserOf(t, w, "2nd"); y.Unknown != "" || y.Up == nil {
		t.Errorf("%+v", y)
	}
	if notes := strings.Join(w.Notes, "\n"); !strings.Contains(notes, "no gear on the way of 1st") {
		t.Errorf("notes:\n%s", notes)
	}
}
