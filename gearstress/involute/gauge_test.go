package involute

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// space is what a helical tooth space looks like, for measuring in it by brute force: two helicoids made of the transverse involute, screwed along the axis.
type space struct {
	base, half, twist float64 // base radius, mm; half angle of the space at the base circle (negative where the involutes cross above it), rad; turn along the axis, rad/mm
}

func spaceOf(g Gauge, x float64) space {
	z := float64(g.Teeth)
	d := z * g.Module / math.Cos(g.Helix)
	alpha := math.Atan(math.Tan(g.PressureAngle) / math.Cos(g.Helix))
	// Transverse thickness at the reference circle; the space is what is left of the pitch.
	gap := math.Pi*d/z - g.Module*(math.Pi/2+2*x*math.Tan(g.PressureAngle))/math.Cos(g.Helix)
	return space{base: d * math.Cos(alpha) / 2, half: gap/d - Involute(alpha), twist: math.Tan(g.Helix) / (d / 2)}
}

// flank is a point of the flank to one side of the space, at roll angle xi and axial place w: radius and angle from the middle of the space.
func (s space) flank(xi, w float64) (x, y, z float64) {
	r := s.base * math.Hypot(1, xi)
	angle := s.half + xi - math.Atan(xi) + s.twist*w
	return r * math.Sin(angle), r * math.Cos(angle), w
}

// nearest is the distance from a point on the middle of the space at a radius to the flank, mm, and the radius where it is reached: a grid that closes in.
func (s space) nearest(radius, reach float64) (distance, at float64) {
	xi0, w0, dxi, dw := 0.5, 0.0, 0.5, reach
	for range 60 {
		best, bx, bw := math.Inf(1), xi0, w0
		for i := -8; i <= 8; i++ {
			for j := -8; j <= 8; j++ {
				xi, w := max(0, xi0+dxi*float64(i)/8), w0+dw*float64(j)/8
				x, y, z := s.flank(xi, w)
				if d := math.Sqrt(x*x + (y-radius)*(y-radius) + z*z); d < best {
					best, bx, bw = d, xi, w
				}
			}
		}
		distance, xi0, w0 = best, bx, bw
		dxi, dw = dxi*0.6, dw*0.6
	}
	return distance, s.base * math.Hypot(1, xi0)
}

// A ball laid into the real space of a spur or helical gear touches both flanks, where BallContact says.
func TestBallTouchesTheHelicoids(t *testing.T) {
	worst := 0.0
	for _, c := range []struct {
		teeth          int
		helix, x, ball float64
	}{{24, 0, 0.2, 5.2}, {17, 15, 0.3, 5}, {23, 22, 0, 5.2}, {38, 30, 0.1, 5}, {61, 35, -0.2, 5.5}} {
		g := Gauge{Module: 3, PressureAngle: rad(20), Helix: rad(c.helix), Teeth: c.teeth}
		size, err := g.OverBalls(c.ball, c.x)
		if err != nil {
			t.Fatal(err)
		}
		centres := size - c.ball
		// Opposite spaces face each other with even teeth; with odd ones they stand half a pitch off.
		off := math.Pi * float64(g.Teeth%2) / float64(g.Teeth)
		radius := centres / 2 / math.Sin((math.Pi-off)/2)
		distance, at := spaceOf(g, c.x).nearest(radius, c.ball)
		near(t, "distance of centre and flank", distance, c.ball/2, 1e-8)
		worst = max(worst, math.Abs(distance-c.ball/2))
		contact, err := g.BallContact(c.ball, size)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "diameter of contact", contact, 2*at, 1e-4) // the distance is flat at its least: half its digits
	}
	t.Logf("largest difference %.1e mm", worst)
}

func TestBestBallTouchesWhereItShould(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := Gauge{
			Module: rapid.Float64Range(1, 6).Draw(t, "module"), PressureAngle: rad(rapid.SampledFrom([]float64{14.5, 17.5, 20, 25}).Draw(t, "angle")),
			Helix: rad(rapid.SampledFrom([]float64{0, 0.01, 15, 35}).Draw(t, "helix")), Teeth: rapid.IntRange(12, 120).Draw(t, "teeth"),
		}
		x := rapid.Float64Range(0, 0.8).Draw(t, "x")
		ball, err := g.BestBall(x)
		if err != nil {
			t.Fatal(err)
		}
		size, err := g.OverBalls(ball, x)
		if err != nil {
			t.Fatal(err)
		}
		contact, err := g.BallContact(ball, size)
		if err != nil {
			t.Fatal(err)
		}
		if want := g.reference() + 2*x*g.Module; math.Abs(contact-want) > 1e-7*want {
			t.Fatalf("ball of %v mm touches at %v mm, want %v", ball, contact, want)
		}
	})
}

// The jaws of a span on the drawn teeth: the outermost flank of k teeth reaches furthest sideways where a jaw touches it.
func TestSpanOnTheDrawnTeeth(t *testing.T) {
	for _, c := range []struct {
		teeth int
		x     float64
	}{{15, 0.4}, {24, 0}, {41, 0.2}, {60, -0.3}} {
		p := mustNew(t, Spec{Module: 2, Rack: StandardRack, Teeth: [2]int{c.teeth, 60}, Shift: [2]float64{c.x, 0.3}, ShiftKnown: [2]bool{true, true}, Face: 20})
		tooth, err := p.Tooth(0)
		if err != nil {
			t.Fatal(err)
		}
		g := p.Gauge(0)
		k := g.SpanTeeth(c.x)
		turn := math.Pi / float64(c.teeth) * float64(k-1) // the last of k teeth, the middle one upright
		widest, at := 0.0, 0.0
		for n := range 20001 {
			q := tooth.Flank(float64(n) / 20000)
			if x := q.X*math.Cos(turn) + q.Y*math.Sin(turn); x > widest {
				widest, at = x, math.Hypot(q.X, q.Y)
			}
		}
		near(t, "span", g.Span(k, c.x), 2*widest, 1e-6)
		near(t, "diameter of contact", g.SpanContact(g.Span(k, c.x)), 2*at, 2e-3)
		if d := g.SpanContact(g.Span(k, c.x)); d <= p.Form[0] || d >= p.Tip[0] {
			t.Errorf("%d teeth: the jaws touch at %.3f mm, the flank goes from %.3f to %.3f mm", c.teeth, d, p.Form[0], p.Tip[0])
		}
	}
}

// Constant chord of standard teeth, Machinery's Handbook, gear tooth caliper settings (from memory): 1.3870 m at 0.7476 m for 20°, full depth.
func TestConstantChordOfTheHandbook(t *testing.T) {
	thickness, height := Gauge{Module: 1, PressureAngle: rad(20), Teeth: 30}.ConstantChord(0, 1)
	near(t, "chord", thickness, 1.3870, 6e-5)
	near(t, "height", height, 0.7476, 6e-5)
}

// The constant chord on the drawn tooth: the flank has that thickness at that height, and leans by the pressure angle there.
func TestConstantChordOnTheDrawnTooth(t *testing.T) {
	for _, c := range []struct{ x, helix float64 }{{0, 0}, {0.4, 0}, {0.2, 20}} {
		p := mustNew(t, Spec{Module: 2, Helix: rad(c.helix), Rack: StandardRack, Teeth: [2]int{23, 60}, Shift: [2]float64{c.x, 0}, ShiftKnown: [2]bool{true, true}, Face: 20})
		tooth, err := p.Tooth(0)
		if err != nil {
			t.Fatal(err)
		}
		chord, height := p.Gauge(0).ConstantChord(c.x, (p.Tip[0]-p.Reference[0])/2)
		x, y := chord/2, tooth.Tip/2-height
		near(t, "half chord", math.Hypot(x, y)*math.Sin(tooth.HalfAngle(2*math.Hypot(x, y))), x, 1e-12)
	}
}

func TestBallsThatFitNowhereAreRefused(t *testing.T) {
	g := Gauge{Module: 2, PressureAngle: rad(20), Teeth: 20}
	if v, err := g.OverBalls(0.5, 0); err == nil {
		t.Errorf("a tiny ball gave a size of %v", v)
	}
	if v, err := g.BallShift(3.5, 30); err == nil {
		t.Errorf("a size inside the base circle gave a shift of %v", v)
	}
	if v, err := g.BallContact(3.5, 38); err == nil {
		t.Errorf("a ball below the base circle touches at %v", v)
	}
	if v, err := g.BestBall(-1); err == nil {
		t.Errorf("a shifted reference circle below the base circle gave a ball of %v", v)
	}
}

// The fatigue test gear of gauge_published_test.go, its thinning given to the pair: the shift to measure with is x_E.
func TestGeneratingShiftGivesTheThickness(t *testing.T) {
	const inch = 25.4
	s := Spec{Module: inch / 8, Rack: StandardRack, Teeth: [2]int{28, 28}, ShiftKnown: [2]bool{true, true}, Face: 6.35}
	s.Thinning[0] = math.Pi/2*s.Module - 0.19135*inch
	p := mustNew(t, s)
	size, err := p.Gauge(0).OverBalls(0.216*inch, p.GeneratingShift(0))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "over pins, in", size/inch, (3.7807+3.7915)/2, (3.7915-3.7807)/2)
	thickness, _ := p.Gauge(0).Chord(p.GeneratingShift(0), 0)
	near(t, "chord, in", thickness/inch, 0.191, 0.0005) // printed: 0.191 (from memory)
	near(t, "backlash", p.Backlash, s.Thinning[0]*math.Cos(rad(20)), 1e-12)
	if p.CutShift(0) != 0 {
		t.Errorf("thinned by 0.04 modules the outline has x = %v", p.CutShift(0))
	}
}

// Thinned by more than 0.05 modules the outline is as thin as the tooth, and its root as deep.
func TestMuchThinningIsInTheOutline(t *testing.T) {
	s := standard(25, 40)
	full := mustNew(t, s)
	s.Thinning[0] = 0.2
	p := mustNew(t, s)
	before, _ := full.Tooth(0)
	after, err := p.Tooth(0)
	if err != nil {
		t.Fatal(err)
	}
	d := after.Reference
	near(t, "thickness", after.HalfAngle(d)*d, before.HalfAngle(d)*d-0.2, 1e-12)
	near(t, "root", p.Root[0], full.Root[0]-0.2/math.Tan(rad(20)), 1e-12)
	near(t, "root of the outline", after.Root, p.Root[0], 1e-12)
	near(t, "tip", p.Tip[0], full.Tip[0], 0)
	near(t, "other root", p.Root[1], full.Root[1], 0)
}

func BenchmarkOverBalls(b *testing.B) {
	g := Gauge{Module: 2.5, PressureAngle: rad(20), Helix: rad(22), Teeth: 23}
	for b.Loop() {
		if _, err := g.OverBalls(4.5, 0.2); err != nil {
			b.Fatal(err)
		}
	}
}
