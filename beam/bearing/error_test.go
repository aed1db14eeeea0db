package bearing

import (
	"math"
	"strings"
	"testing"
)

func TestMistakesAreNamed(t *testing.T) {
	good := Elements{Kind: Cylindrical, Count: 14, Diameter: 9, Length: 10, Pitch: 52}
	ball := Elements{Kind: Ball, Count: 9, Diameter: 12, Pitch: 60}
	taper := Elements{Kind: Tapered, Count: 17, Diameter: 8, Length: 12, Pitch: 50, ContactAngle: 0.25}
	with := func(e Elements, change func(*Elements)) Elements { change(&e); return e }
	for _, c := range []struct {
		name string
		e    Elements
		want []string
	}{
		{"kind", with(good, func(e *Elements) { e.Kind = 7 }), []string{"unknown kind 7"}},
		{"several at once", with(good, func(e *Elements) { e.Count, e.Diameter, e.Length = 2, -1, math.NaN() }), []string{"2 rolling elements", "diameter -1 mm", "length NaN mm"}},
		{"pitch", with(good, func(e *Elements) { e.Pitch = 8 }), []string{"pitch diameter 8 mm", "larger than the element diameter of 9 mm"}},
		{"no room", with(good, func(e *Elements) { e.Count = 19 }), []string{"19 elements of 9 mm do not fit on a circle of 52 mm"}},
		{"groove of a roller", with(good, func(e *Elements) { e.Groove = 0.52 }), []string{"only balls run in grooves"}},
		{"angle of a roller", with(good, func(e *Elements) { e.ContactAngle = 0.2 }), []string{"contact angle 0.2 rad given for a cylindrical roller"}},
		{"clearance", with(good, func(e *Elements) { e.Clearance = 2 }), []string{"clearance 2 mm: more than a tenth"}},
		{"turn", with(good, func(e *Elements) { e.Turn = math.Inf(1) }), []string{"first element at +Inf rad"}},
		{"length of a ball", with(ball, func(e *Elements) { e.Length = 3 }), []string{"length 3 mm given for a ball"}},
		{"groove", with(ball, func(e *Elements) { e.Groove = 0.5 }), []string{"groove radius of 0.5 ball diameters"}},
		{"loose in its grooves", with(ball, func(e *Elements) { e.Clearance = 0.6 }), []string{"clearance 0.6 mm is too much for grooves"}},
		{"angle of a ball", with(ball, func(e *Elements) { e.ContactAngle = 1.5 }), []string{"contact angle 1.5 rad of a ball"}},
		{"taper without angle", with(taper, func(e *Elements) { e.ContactAngle = 0 }), []string{"contact angle 0 rad of a tapered roller"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, _, err := c.e.Hold(Stance{}, 0)
			for _, want := range c.want {
				if err == nil || !strings.Contains(err.Error(), want) {
					t.Errorf("got %v, want %q", err, want)
				}
			}
		})
	}
	for _, c := range []struct {
		name   string
		e      Elements
		force  [3]float64
		couple [2]float64
		want   string
	}{
		{"thrust on rollers", good, [3]float64{10, 1000}, [2]float64{}, "axial force of 10 N on a row of cylindrical rollers"},
		{"wrong way", taper, [3]float64{-500, 1000}, [2]float64{}, "against the open side of a row with a contact angle of 14.3°"},
		{"too little thrust", taper, [3]float64{100, 1000}, [2]float64{}, "needs at least 255.3 N of axial force to stay together, it gets 100 N"},
		{"no number", good, [3]float64{1: math.NaN()}, [2]float64{1: math.Inf(1)}, "force along y NaN: a number up to 1e+09 is expected\ncouple about z +Inf"},
		{"too great a couple", taper, [3]float64{500, 1000}, [2]float64{1: 1e6}, "find no balance under force (500, 1000, 0) N and couple (0, 1e+06) N·mm"},
		{"too great a force", ball, [3]float64{1: 1e9}, [2]float64{}, "find no balance"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, _, err := c.e.Displacement(c.force, c.couple)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q", err, c.want)
			}
		})
	}
	refused := func(name, want string, err error) {
		t.Helper()
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: got %v, want %q", name, err, want)
		}
	}
	_, err := good.Radial(math.NaN())
	refused("radial", "radial force NaN N", err)
	_, err = good.RadialAt(5)
	refused("radial at", "radial displacement 5 mm", err)
	_, _, err = good.Force([3]float64{math.NaN()}, [2]float64{0.2})
	refused("force", "displacement NaN mm along x: at most a quarter of the element diameter of 9 mm is expected\ntilt 0.2 rad about y", err)
	_, err = good.TangentStiffness([3]float64{9}, [2]float64{})
	refused("tangent", "displacement 9 mm along x", err)

	_, _, err = good.Hold(Stance{}, 10)
	refused("hold", "axial force of 10 N on a row of cylindrical rollers", err)
	_, _, err = with(ball, func(e *Elements) { e.ContactAngle = 0.4 }).Hold(Stance{}, -10)
	refused("hold", "against the open side", err)
	_, _, err = taper.Hold(Stance{}, -10)
	refused("hold", "take a thrust of -10 N only if their ring moves more than 8 mm", err)
	_, _, err = ball.Hold(Stance{Across: [2]float64{math.NaN(), 0}}, math.Inf(1))
	refused("hold", "the shaft stands at NaN, 0 mm, tilted by 0, 0 rad: at most the pitch diameter of 60 mm and 1 rad are expected\nan axial force of +Inf N", err)

	pair := Pair{Arrangement: BackToBack, A: taper, B: good}
	refused("pair", "bearing B of the pair: it has no contact angle", pair.Check())
	pair.B = with(taper, func(e *Elements) { e.Clearance = 0.01 })
	refused("pair", "bearing B of the pair: clearance 0.01 mm given", pair.Check())
	pair.B, pair.Arrangement = taper, 3
	refused("pair", "unknown arrangement 3", pair.Check())
	pair.Arrangement, pair.Setting = BackToBack, 4
	refused("pair", "setting 4 mm of the pair", pair.Check())
	pair.Setting = 0
	_, err = pair.PreloadSetting(-1)
	refused("preload", "preload -1 N", err)
	_, err = pair.Settle(-1, 0, 0)
	refused("settle", "radial forces -1 and 0 N", err)
	_, err = pair.Settle(0, 0, 9e8)
	refused("settle", "the loads are too great for it", err)

	_, _, _, _, _, err = pair.Hold(Stance{}, Stance{}, 9e8)
	refused("pair's hold", "a pair of tapered rollers takes a thrust of 9e+08 N only if the shaft moves more than 8 mm", err)

	_, err = Rating{Kind: Cylindrical, Dynamic: 1}.Life(5, 1)
	refused("rating", "an axial load of 1 N on a cylindrical roller bearing", err)
	_, err = Rating{Kind: Ball, Dynamic: 1}.Life(5, 1)
	refused("rating", "needs its static rating C0", err)
	_, err = Rating{Kind: Tapered, Dynamic: 1}.Life(5, 1)
	refused("rating", "needs its factors e and Y", err)
	_, err = Rating{Kind: Tapered}.StaticSafety(5, 1)
	refused("rating", "needs its static factor Y0", err)
	_, err = Rating{Kind: Ball}.Life(5, 0)
	refused("rating", "a life needs the dynamic rating C", err)
	_, err = Rating{Kind: Ball}.StaticSafety(5, 0)
	refused("rating", "static safety needs the static rating C0", err)
	_, err = Rating{Kind: Ball, Dynamic: -1, Static: math.NaN()}.Life(5, 0)
	refused("rating", "dynamic rating C, N: -1 given, a number from 0 to 1e+09 is expected\nstatic rating C0, N: NaN given", err)
	_, err = Rating{Kind: 9}.Life(5, 0)
	refused("rating", "unknown kind 9", err)
	_, err = Rating{Kind: Ball, Dynamic: 1}.Life(math.NaN(), 0)
	refused("rating", "radial load NaN N", err)
}
