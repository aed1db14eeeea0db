package involute

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// toothCases are equivalent spur gears of all kinds: undercut, standard, old racks,
// large shifts, a sharp cutter, a full radius, a helical pair.
var toothCases = []struct {
	name  string
	teeth int
	shift float64
	helix float64 // degrees
	rack  Rack
}{
	{"standard 23", 23, 0, 0, StandardRack},
	{"undercut 10", 10, 0, 0, StandardRack},
	{"deeply undercut 8", 8, 0.13, 0, StandardRack},
	{"shifted 12", 12, 0.5, 0, StandardRack},
	{"14.5 degrees, undercut", 20, 0, 0, Rack{PressureAngle: rad(14.5), Addendum: 1, Dedendum: 1.157, TipRadius: 0.21}},
	{"17.5 degrees", 19, 0.25, 0, Rack{PressureAngle: rad(17.5), Addendum: 1.1, Dedendum: 1.4, TipRadius: 0.3}},
	{"25 degrees, large shift", 14, 0.6, 0, Rack{PressureAngle: rad(25), Addendum: 1, Dedendum: 1.25, TipRadius: 0.25}},
	{"sharp cutter", 17, 0, 0, Rack{PressureAngle: rad(20), Addendum: 1, Dedendum: 1.25, TipRadius: 0}},
	{"shift above the corner centre", 40, 1.0, 0, StandardRack},
	{"corner centre on the pitch line", 30, 0.87, 0, StandardRack},
	{"negative shift", 60, -0.6, 0, StandardRack},
	{"helical", 23, 0.2, 25, StandardRack},
	{"helical, undercut", 10, 0.1, 20, StandardRack},
	{"steep helix", 15, 0.1, 40, Rack{PressureAngle: rad(17.5), Addendum: 1, Dedendum: 1.4, TipRadius: 0.3}},
	{"ground", 25, 0.2, 0, Rack{PressureAngle: rad(20), Addendum: 1, Dedendum: 1.4, TipRadius: 0.4, Protuberance: 0.02}},
	{"ground, large residual undercut", 40, 0, 0, Rack{PressureAngle: rad(20), Addendum: 1, Dedendum: 1.4, TipRadius: 0.3, Protuberance: 0.08}},
	{"ground and undercut", 13, 0, 0, Rack{PressureAngle: rad(20), Addendum: 1, Dedendum: 1.4, TipRadius: 0.35, Protuberance: 0.03}},
	{"ground, barely undercut", 19, 0.03, 0, Rack{PressureAngle: rad(20), Addendum: 1, Dedendum: 1.4, TipRadius: 0.35, Protuberance: 0.03}},
	{"ground, corner centre on the pitch line", 30, 1, 0, Rack{PressureAngle: rad(20), Addendum: 1, Dedendum: 1.4, TipRadius: 0.4, Protuberance: 0.02}},
	{"ground, helical", 21, 0.3, 25, Rack{PressureAngle: rad(20), Addendum: 1, Dedendum: 1.4, TipRadius: 0.4, Protuberance: 0.04}},
}

func toothPair(t testing.TB, k int) *Pair {
	t.Helper()
	c := toothCases[k]
	return mustNew(t, Spec{Module: 2, Helix: rad(c.helix), Rack: c.rack, Teeth: [2]int{c.teeth, 61}, Shift: [2]float64{c.shift, 0}, ShiftKnown: [2]bool{true, true}, Face: 20})
}

func toothCase(t testing.TB, k int) *Tooth {
	t.Helper()
	tooth, err := toothPair(t, k).Tooth(0)
	if err != nil {
		t.Fatal(err)
	}
	return tooth
}

// cutAngle is the half angle left of a tooth at a radius after a rack cutter has
// rolled past, by brute force: at every place of the roll, the cutter's own outline
// (straight flank, corner circle, land) tells which angles at this radius it
// removes. Nothing of the fillet or involute formulas is used. In the transverse
// section the cutter is that of the normal section, stretched along its pitch line.
func cutAngle(t *Tooth, rack Rack, radius float64) float64 {
	m, r, x := t.Module/t.stretch, t.Reference/2, t.Shift*t.Module
	alpha := rack.PressureAngle
	tip := r - rack.Dedendum*m + x // height of the cutter's land above the gear axis
	line := r + x                  // its reference line
	// Half width of the cutter tooth at a height above the gear axis; negative
	// below its land.
	corner := func(y float64) float64 {
		rho := rack.TipRadius * m
		cy := tip + rho
		cx := math.Pi/4*m - (line-cy)*math.Tan(alpha) - (rack.TipRadius-rack.Protuberance)*m/math.Cos(alpha)
		return cx + math.Sqrt(max(0, rho*rho-(cy-y)*(cy-y)))
	}
	half := func(y float64) float64 {
		if y < tip {
			return -1
		}
		straight := math.Pi/4*m - (line-y)*math.Tan(alpha)
		rho := rack.TipRadius * m
		if cy := tip + rho; y < cy-rho*math.Sin(alpha) {
			return corner(y)
		} else if rack.Protuberance > 0 && y < cy+rho {
			return max(straight, corner(y)) // the corner reaches over the ground flank
		}
		return straight
	}
	// The gear stands still with the tooth on the Y axis; the cutter tooth to its
	// right is rolled past. At roll angle phi its middle lies at phi·r along the
	// pitch line of a frame turned by phi.
	removed := func(angle, phi float64) bool {
		x, y := radius*math.Sin(angle-phi), radius*math.Cos(angle-phi)
		middle := math.Pi/t.Teeth - phi
		w := half(y) * t.stretch
		return w >= 0 && math.Abs(x-middle*r) <= w
	}
	span := 1.6 * math.Sqrt(2/t.Teeth) // how far the cutter must roll, rad
	touched := func(angle float64) bool {
		const steps = 2000
		for k := range steps + 1 {
			if removed(angle, span*(2*float64(k)/steps-1)) {
				return true
			}
		}
		return false
	}
	lo, hi := -math.Pi/t.Teeth, math.Pi/t.Teeth
	for range 24 {
		if mid := (lo + hi) / 2; touched(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

func TestOutlineIsWhatARollingRackLeaves(t *testing.T) {
	for k, c := range toothCases {
		outline := func(t *testing.T, tooth *Tooth) {
			worst := 0.0
			// The roll is stepped, so that the cutter misses the envelope by about
			// r·step²/8, some 1e-6 mm; a sharp corner misses by up to a step.
			tolerance := 2e-5
			if c.rack.TipRadius == 0 {
				tolerance = 2e-3
			}
			check := func(q Point) {
				radius := math.Hypot(q.X, q.Y)
				cut := cutAngle(tooth, c.rack, radius)
				gap := math.Abs(math.Atan2(q.X, q.Y)-cut) * radius
				worst = max(worst, gap)
				if gap > tolerance {
					t.Errorf("at radius %.4f the outline is at %.6f mm, the rolling rack leaves %.6f mm", radius, math.Atan2(q.X, q.Y)*radius, cut*radius)
				}
			}
			for i := 1; i <= 8; i++ {
				check(tooth.Fillet(float64(i) / 8.5))
				check(tooth.Flank(float64(i) / 8.5))
			}
			t.Logf("largest difference %.2g mm, undercut %v", worst, tooth.Undercut)
		}
		t.Run(c.name, func(t *testing.T) { outline(t, toothCase(t, k)) })
		if c.helix > 0 {
			t.Run(c.name+", transverse", func(t *testing.T) {
				tooth, err := toothPair(t, k).TransverseTooth(0)
				if err != nil {
					t.Fatal(err)
				}
				outline(t, tooth)
			})
		}
	}
}

// Thickness at the reference circle is m (π/2 + 2 x tan α): ISO 21771:2007.
func TestThicknessAtReferenceCircle(t *testing.T) {
	for k := range toothCases {
		tooth := toothCase(t, k)
		if tooth.Form > tooth.Reference {
			continue
		}
		want := tooth.Module * (math.Pi/2 + 2*tooth.Shift*math.Tan(tooth.PressureAngle))
		// Found on the outline, by bisection for the point with that radius.
		lo, hi := 0.0, 1.0
		for range 60 {
			if q := tooth.Flank((lo + hi) / 2); math.Hypot(q.X, q.Y) < tooth.Reference/2 {
				lo = (lo + hi) / 2
			} else {
				hi = (lo + hi) / 2
			}
		}
		q := tooth.Flank(lo)
		near(t, toothCases[k].name, math.Atan2(q.X, q.Y)*tooth.Reference, want, 1e-9)
	}
}

func TestOutlineIsClosedSmoothAndSymmetric(t *testing.T) {
	for k, c := range toothCases {
		tooth := toothCase(t, k)
		join, flank := tooth.Fillet(1), tooth.Flank(0)
		near(t, c.name+": fillet meets flank", math.Hypot(join.X-flank.X, join.Y-flank.Y), 0, 1e-9)
		if !tooth.Undercut && c.rack.TipRadius > 0 && c.rack.Protuberance == 0 {
			const h = 1e-6
			a, b := tooth.Fillet(1-h), tooth.Flank(h)
			one := math.Atan2(join.X-a.X, join.Y-a.Y)
			two := math.Atan2(b.X-join.X, b.Y-join.Y)
			near(t, c.name+": slope where they meet", one, two, 0.001)
		}
		outline := tooth.Outline(7)
		for i, q := range outline {
			mirror := outline[len(outline)-1-i]
			if math.Abs(q.X+mirror.X) > 1e-12 || q.Y != mirror.Y {
				t.Fatalf("%s: points %v and %v are not mirrored", c.name, q, mirror)
			}
		}
		first := outline[0]
		near(t, c.name+": ends in the middle of the space", math.Atan2(first.X, first.Y), -math.Pi/tooth.Teeth, 1e-12)
		near(t, c.name+": ends on the root circle", math.Hypot(first.X, first.Y), tooth.Root/2, 1e-9)
	}
}

// Section at the 30° tangent by the closed form of ISO 6336-3:2006 (from memory):
// θ = (2 G/z) tan θ − H, s = z sin(π/3 − θ) + √3 (G/cos θ − ρ).
func TestFilletAgreesWithClosedFormSection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		teeth := rapid.IntRange(10, 90).Draw(t, "teeth")
		x := rapid.Float64Range(-0.2, 0.7).Draw(t, "x")
		rho := rapid.Float64Range(0.1, 0.38).Draw(t, "rho")
		rack := Rack{PressureAngle: rad(20), Addendum: 1, Dedendum: 1.25, TipRadius: rho, Protuberance: rapid.SampledFrom([]float64{0, 0.02, 0.05}).Draw(t, "residual undercut")}
		p, err := New(Spec{Module: 1, Rack: rack, Teeth: [2]int{teeth, 61}, Shift: [2]float64{x, 0}, ShiftKnown: [2]bool{true, true}, Face: 10})
		if err != nil {
			t.Skip(err.Error())
		}
		tooth, err := p.Tooth(0)
		if err != nil {
			t.Fatal(err)
		}
		z := float64(teeth)
		alpha := rad(20)
		e := math.Pi/4 - 1.25*math.Tan(alpha) + rack.Protuberance/math.Cos(alpha) - (1-math.Sin(alpha))*rho/math.Cos(alpha)
		g := rho - 1.25 + x
		h := 2/z*(math.Pi/2-e) - math.Pi/3
		theta := math.Pi / 6
		for range 200 {
			theta = 2*g/z*math.Tan(theta) - h
		}
		want := z*math.Sin(math.Pi/3-theta) + math.Sqrt(3)*(g/math.Cos(theta)-rho)
		if got := 2 * steepest(tooth, 30).X; math.Abs(got-want) > 1e-5 {
			t.Fatalf("section at 30°: %v on the outline, %v by closed form", got, want)
		}
	})
}

// A residual undercut takes just its amount off the flank where the fillet would have begun, raises the start of the
// involute, and leaves the flank above alone.
func TestResidualUndercut(t *testing.T) {
	plain := Rack{PressureAngle: rad(20), Addendum: 1, Dedendum: 1.4, TipRadius: 0.35}
	ground := plain
	ground.Protuberance = 0.04
	spec := Spec{Module: 2, Rack: plain, Teeth: [2]int{30, 60}, Shift: [2]float64{0.3, 0}, ShiftKnown: [2]bool{true, true}, Face: 20}
	before := mustNew(t, spec)
	spec.Rack = ground
	after := mustNew(t, spec)
	a, err := before.Tooth(0)
	if err != nil {
		t.Fatal(err)
	}
	b, err := after.Tooth(0)
	if err != nil {
		t.Fatal(err)
	}
	if b.Form <= a.Form || after.Form[0] <= before.Form[0] {
		t.Errorf("the involute starts at %.4f mm with the undercut, %.4f without", b.Form, a.Form)
	}
	near(t, "half angle at the reference circle", b.HalfAngle(b.Reference), a.HalfAngle(a.Reference), 1e-15)
	// At the direction of the straight flank the ground tooth's fillet lies 0.04 modules inside the involute, along
	// its normal.
	r, angle := b.fillet(b.PressureAngle)
	gap := (b.HalfAngle(2*r) - angle) * r * math.Cos(math.Acos(b.Base/2/r))
	near(t, "undercut along the normal", gap, 0.04*2, 2e-3)
	// Fillet and flank meet.
	end, start := b.Fillet(1), b.Flank(0)
	near(t, "fillet meets flank", math.Hypot(end.X-start.X, end.Y-start.Y), 0, 1e-6)
}

func TestToothOfAThirdGearIsRefused(t *testing.T) {
	p := mustNew(t, Spec{Module: 2, Rack: StandardRack, Teeth: [2]int{20, 40}, ShiftKnown: [2]bool{true, true}, Face: 20})
	for _, i := range []int{-1, 2} {
		if _, err := p.Tooth(i); err == nil {
			t.Errorf("Tooth(%d) gave no error", i)
		}
	}
}

// The transverse tooth of either gear stands on that gear's own circles: d_b = z m_n cos α_t/cos β and so on.
func TestTransverseToothOfEitherGear(t *testing.T) {
	p := mustNew(t, Spec{Module: 2.5, Helix: rad(22), Rack: StandardRack, Teeth: [2]int{17, 38}, Shift: [2]float64{0.3, 0.1}, ShiftKnown: [2]bool{true, true}, Face: 20})
	alpha := math.Atan(math.Tan(rad(20)) / math.Cos(rad(22)))
	for i, z := range []float64{17, 38} {
		tooth, err := p.TransverseTooth(i)
		if err != nil {
			t.Fatal(err)
		}
		d := z * 2.5 / math.Cos(rad(22))
		near(t, "reference circle", tooth.Reference, d, 1e-9)
		near(t, "base circle", tooth.Base, d*math.Cos(alpha), 1e-9)
		near(t, "tip circle", tooth.Tip, p.Tip[i], 0)
		near(t, "root circle", tooth.Root, p.Root[i], 1e-9)
		// Half the thickness at the reference circle, in the transverse section.
		near(t, "half thickness", tooth.HalfAngle(d)*d/2, (math.Pi/4+[]float64{0.3, 0.1}[i]*math.Tan(rad(20)))*2.5/math.Cos(rad(22)), 1e-9)
	}
}
