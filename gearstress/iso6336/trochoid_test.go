package iso6336

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"
)

// rolled is a tooth built by rolling the rack, without any formula of the standard: the
// fillet is the offset of the path of the tool's corner centre, its critical point is where a line of 30° to the
// middle of the tooth touches first, radius and angles are measured on points.
type rolled struct{ cutTooth }

type xy struct{ x, y float64 }

// centre is the path of the centre of the tool's corner in the frame of the tooth (axis at the origin, middle of the
// tooth on +y), modules, after the tool has rolled by s.
func (c rolled) centre(s float64) xy {
	r := c.teeth / 2
	deep := c.dedendum - c.tipRadius
	// The corner touches, from inside, the line that the protuberance leaves s_pr outside the finished flank.
	half := math.Pi/4 - deep*math.Tan(c.angle) - (c.tipRadius-c.residual)/math.Cos(c.angle)
	x, y := half+s, r+c.shift-deep
	sin, cos := math.Sincos(s/r + math.Pi/c.teeth)
	return xy{x*cos - y*sin, x*sin + y*cos}
}

func (c rolled) fillet(s float64) xy {
	const h = 1e-5
	a, b, p := c.centre(s-h), c.centre(s+h), c.centre(s)
	dx, dy := b.x-a.x, b.y-a.y
	l := math.Hypot(dx, dy)
	one := xy{p.x + c.tipRadius*dy/l, p.y - c.tipRadius*dx/l}
	two := xy{p.x - c.tipRadius*dy/l, p.y + c.tipRadius*dx/l}
	if math.Hypot(one.x, one.y) < math.Hypot(two.x, two.y) {
		return one
	}
	return two
}

// section finds chord, radius of the fillet and height of the critical section, modules.
func (c rolled) section() (chord, radius, height float64) {
	// Where a line of 30° through a point of the fillet meets the middle of the tooth.
	meet := func(s float64) float64 { p := c.fillet(s); return p.y - math.Sqrt(3)*p.x }
	// From the root circle, where the corner stands on the line through the axis, upward.
	// With the centre of the corner outside the pitch line the tool rolls the other way meanwhile.
	low := -c.centreHalf()
	high := low + math.Copysign((c.dedendum-c.tipRadius+2)/math.Tan(c.angle)/2, c.dedendum-c.tipRadius-c.shift)
	best, at := math.Inf(1), 0.0
	const n = 500
	for k := range n + 1 {
		s := low + (high-low)*float64(k)/n
		if v := meet(s); v < best {
			best, at = v, s
		}
	}
	a, b := at-math.Abs(high-low)/n, at+math.Abs(high-low)/n
	slope := func(s float64) float64 { const h = 1e-5; return meet(s+h) - meet(s-h) }
	for range 60 {
		mid := (a + b) / 2
		if slope(mid) < 0 {
			a = mid
		} else {
			b = mid
		}
	}
	s := (a + b) / 2
	p := c.fillet(s)
	// Circle through three points nearby.
	const h = 5e-4
	p1, p2 := c.fillet(s-h), c.fillet(s+h)
	u, v, w := math.Hypot(p1.x-p.x, p1.y-p.y), math.Hypot(p2.x-p.x, p2.y-p.y), math.Hypot(p1.x-p2.x, p1.y-p2.y)
	area := math.Abs((p1.x-p.x)*(p2.y-p.y) - (p2.x-p.x)*(p1.y-p.y))
	return -2 * p.x, u * v * w / (2 * area), p.y
}

func (c rolled) centreHalf() float64 {
	deep := c.dedendum - c.tipRadius
	return math.Pi/4 - deep*math.Tan(c.angle) - (c.tipRadius-c.residual)/math.Cos(c.angle)
}

// flank is a point of the involute at radius r, modules.
func (c rolled) flank(r float64) xy {
	// Half the tooth at the pitch circle is π/4 + x tan α; going out it loses the difference of the involute functions.
	half := (math.Pi/4+c.shift*math.Tan(c.angle))/(c.teeth/2) + inv(c.angle) - inv(math.Acos(c.teeth/2*math.Cos(c.angle)/r))
	return xy{-r * math.Sin(half), r * math.Cos(half)}
}

func (c rolled) formFactor() (yf, ys float64) {
	chord, radius, height := c.section()
	base := c.teeth / 2 * math.Cos(c.angle)
	along := math.Sqrt(c.tipDiameter*c.tipDiameter/4-base*base) - (c.contact-1)*math.Pi*math.Cos(c.angle)
	r := math.Hypot(along, base)
	const h = 1e-5
	a, b, p := c.flank(r-h), c.flank(r+h), c.flank(r)
	dx, dy := b.x-a.x, b.y-a.y
	// The load runs along the normal (dy, −dx), into the tooth.
	reach := -p.x / dy
	arm := p.y - dx*reach - height
	angle := math.Atan(dx / dy)
	yf = 6 * arm * math.Cos(angle) / (chord * chord * math.Cos(c.angle))
	l, q := chord/arm, chord/(2*radius)
	return yf, (1.2 + 0.13*l) * math.Pow(q, 1/(1.21+2.3/l))
}

func TestClosedFormMeetsRolledTooth(t *testing.T) {
	worstF, worstS, cases := 0.0, 0.0, 0
	racks := []struct{ angle, addendum, dedendum, tip, residual float64 }{
		{20, 1, 1.25, 0.38, 0}, {20, 1, 1.25, 0.25, 0}, {20, 1, 1.4, 0.39, 0}, {20, 1, 1.4, 0.4, 0.04}, {20, 1, 1.4, 0.3, 0.02},
		{14.5, 1, 1.157, 0.2, 0}, {17.5, 1, 1.25, 0.3, 0}, {25, 1, 1.25, 0.25, 0}, {20, 0.8, 1, 0.3, 0},
	}
	for _, r := range racks {
		for _, z := range []float64{12, 14, 17.3, 25, 40, 83.1, 250} {
			for _, x := range []float64{-0.3, 0, 0.2, 0.5, 0.8} {
				for _, contact := range []float64{1, 1.4, 1.9} {
					c := cutTooth{angle: radians(r.angle), dedendum: r.dedendum, tipRadius: r.tip, residual: r.residual,
						teeth: z, shift: x, tipDiameter: z + 2*(r.addendum+x), contact: contact}
					f, err := c.form(1)
					if err != nil {
						t.Fatalf("%+v: %v", c, err)
					}
					cases++
					yf, ys := rolled{c}.formFactor()
					if d := math.Abs(f.YF/yf - 1); !(d < 1e-6) {
						t.Errorf("Y_F %.8g, rolled %.8g for %+v", f.YF, yf, c)
					} else {
						worstF = max(worstF, d)
					}
					if d := math.Abs(f.YS/ys - 1); !(d < 5e-6) {
						t.Errorf("Y_S %.8g, rolled %.8g for %+v", f.YS, ys, c)
					} else {
						worstS = max(worstS, d)
					}
				}
			}
		}
	}
	t.Logf("%d teeth; largest difference Y_F %.1e, Y_S %.1e", cases, worstF, worstS)
}

// The fillet of package involute, drawn for charts, must pass through the critical point.
func TestCriticalPointLiesOnDrawnFillet(t *testing.T) {
	for _, spec := range []involute.Spec{spurSpec(), helicalSpec()} {
		f := formOf(t, spec, Edition2019)
		for i := range sides {
			tooth, err := f.Pair.Tooth(i)
			if err != nil {
				t.Fatal(err)
			}
			low, high := 0.0, 1.0
			for range 60 {
				mid := (low + high) / 2
				if p := tooth.Fillet(mid); math.Hypot(p.X, p.Y) < f.Tooth[i].sectionRadius {
					low = mid
				} else {
					high = mid
				}
			}
			near(t, "chord on the drawn fillet", 2*tooth.Fillet(low).X, f.Tooth[i].Chord, 1e-9)
		}
	}
}
