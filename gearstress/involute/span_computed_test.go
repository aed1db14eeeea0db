package involute

import (
	"math"
	"testing"
)

// The base tangent length of helical gears on two involute helicoids of their own making: the jaws stand on the line
// between two flanks that is normal to both. So its length doesn't change, to first order, when either end moves over its
// flank, and its ends lie on the diameter of contact; along the axis they are as far apart as the face must be wide.
func TestSpanOnTheHelicoids(t *testing.T) {
	for _, c := range []struct {
		teeth             int
		angle, helix, x   float64
		module, tolerance float64
	}{{17, 20, 15, 0.3, 2.5, 1e-7}, {38, 20, 30, 0.1, 3, 1e-7}, {61, 17.5, 35, -0.2, 2, 1e-7}, {24, 25, 8, 0, 4, 1e-7}} {
		g := Gauge{Module: c.module, PressureAngle: rad(c.angle), Helix: rad(c.helix), Teeth: c.teeth}
		k := g.SpanTeeth(c.x)
		span := g.Span(k, c.x)

		// The transverse tooth: half of it at the base circle, and how far the last of k teeth is turned from the middle.
		z, transverse := float64(c.teeth), c.module/math.Cos(g.Helix)
		alpha := math.Atan(math.Tan(g.PressureAngle) / math.Cos(g.Helix))
		radius := z * transverse / 2 * math.Cos(alpha)
		half := (math.Pi/2+2*c.x*math.Tan(g.PressureAngle))/z + math.Tan(alpha) - alpha
		turn := math.Pi / z * float64(k-1)
		twist := math.Tan(g.Helix) / (z * transverse / 2)
		// Twice from the middle to a point of the flank at roll angle xi and axial place w: the other end is its image,
		// turned half round the line of sight.
		across := func(xi, w float64) (length, at float64) {
			r := radius * math.Hypot(1, xi)
			x := r * math.Sin(turn+half-(xi-math.Atan(xi))+twist*w)
			return 2 * math.Hypot(x, w), r
		}
		touch := g.SpanContact(span)
		xi := math.Sqrt(touch*touch/(4*radius*radius) - 1)
		w := -g.SpanFace(span) / 2
		length, at := across(xi, w)
		near(t, "span", length, span, c.tolerance)
		near(t, "diameter of contact", 2*at, touch, 1e-9)
		const step = 1e-4
		for _, d := range [][2]float64{{step, 0}, {0, step}} {
			more, _ := across(xi+d[0], w+d[1])
			less, _ := across(xi-d[0], w-d[1])
			near(t, "slope of the length", (more-less)/(2*step), 0, 1e-6)
		}
		// Over k teeth the jaws touch nearest to the shifted reference circle.
		want := z*transverse + 2*c.x*c.module
		for _, other := range []int{k - 1, k + 1} {
			if there := g.SpanContact(g.Span(other, c.x)); math.Abs(there-want) < math.Abs(touch-want) {
				t.Errorf("%d teeth at %g°: the jaws touch at %.3f mm over %d teeth, at %.3f mm over %d; want them near %.3f mm", c.teeth, c.helix, touch, k, there, other, want)
			}
		}
		// What a span tells: the shift that made it.
		near(t, "shift", g.SpanShift(k, span), c.x, 1e-12)
	}
}
