package gauge

import (
	"math"

	"layshaft/gearstress/involute"
)

// flank is one side of the teeth of a gear and its mirror image, as every reading of them sees it.
type flank struct {
	teeth int
	pitch float64 // normal base pitch p_bn, mm
	helix float64 // base helix β_b, rad, ≥ 0
	thick float64 // normal base thickness s_bn, mm
}

// flankOf is the flank that a label makes.
func flankOf(g involute.Gauge, x float64) flank {
	sin, cos := math.Sin(g.Helix), math.Cos(g.PressureAngle)
	return flank{g.Teeth, math.Pi * g.Module * cos, math.Asin(sin * cos), g.Span(1, x)}
}

// label is the gear of a pressure angle that has this flank, with its generating profile shift: that of the tooth as
// it is, thinned or worn.
func (f flank) label(angle float64) (g involute.Gauge, x float64) {
	cos := math.Cos(angle)
	g = involute.Gauge{Module: f.pitch / (math.Pi * cos), PressureAngle: angle, Helix: math.Asin(min(1,
		math.Sin(f.helix)/cos)), Teeth: f.teeth}
	return g, g.SpanShift(1, f.thick)
}

// base is the base diameter d_b, mm.
func (f flank) base() float64 { return float64(f.teeth) * f.pitch / (math.Pi * math.Cos(f.helix)) }

// transverseThick is the thickness of a tooth along the base circle s_b, mm.
func (f flank) transverseThick() float64 { return f.thick / math.Cos(f.helix) }

// span is the base tangent length over k teeth, mm: (k − 1) p_bn + s_bn.
func (f flank) span(k int) float64 { return float64(k-1)*f.pitch + f.thick }

// overBalls is the size over two balls (mm) in opposite spaces, mm; NaN where they fall to the bottom of the space.
//
//	inv α_K = π/z ((s_bn + D_M)/p_bn − 1)
//
// is that of involute.Gauge.OverBalls with s_bn/p_bn in place of shift and module.
func (f flank) overBalls(ball float64) float64 {
	inv := math.Pi / float64(f.teeth) * ((f.thick+ball)/f.pitch - 1)
	angle, err := involute.InverseInvolute(inv)
	if err != nil {
		return math.NaN()
	}
	size := f.base() / math.Cos(angle)
	if f.teeth%2 == 1 {
		size *= math.Cos(math.Pi / (2 * float64(f.teeth)))
	}
	return size + ball
}

// lead is how far a tooth advances in one turn, mm: π d_b/tan β_b.
func (f flank) lead() float64 { return float64(f.teeth) * f.pitch / math.Sin(f.helix) }

// helixAt is the helix angle on the cylinder of a diameter (mm), rad: tan β_y = tan β_b d_y/d_b.
func (f flank) helixAt(d float64) float64 { return math.Atan(math.Tan(f.helix) * d / f.base()) }

// half is half the angle that a tooth takes up on the cylinder of a diameter (mm), rad.
func (f flank) half(d float64) float64 {
	return math.Pi*f.thick/(float64(f.teeth)*f.pitch) - involute.Involute(math.Acos(min(1, f.base()/d)))
}

// land is half the angle of the land on the tip cylinder (mm), rad: from 0, where teeth come to a point or are
// thought to, to half a pitch.
func (f flank) land(tip float64) float64 {
	return min(max(0, f.half(tip)), math.Pi/(2*float64(f.teeth)))
}

// acrossTips is what a caliper reads across the corners of two tips that stand opposite each other as nearly as an
// odd count lets them, mm. Where the teeth come to a point it
// is d_a cos(90°/z).
func (f flank) acrossTips(tip float64) float64 {
	return tip * math.Cos(math.Pi/(2*float64(f.teeth))-f.land(tip))
}

// betweenJaws is what long flat jaws read of an odd count, one on two tips, the other on the one opposite, mm. Where
// the teeth come to a point it is d_a (1 + cos(180°/z))/2.
func (f flank) betweenJaws(tip float64) float64 {
	return tip / 2 * (1 + math.Cos(math.Pi/float64(f.teeth)-f.land(tip)))
}

// chord is the thickness that a tooth caliper reads in the normal section, set to a height (mm) below the tip (mm),
// mm. It lies on the cylinder on which the
// height above the chord is the one set, found by halving; NaN where the tooth has no flank there.
func (f flank) chord(height, tip float64) float64 {
	at := func(d float64) (chord, above float64) {
		helix := f.helixAt(d)
		cos := math.Cos(helix)
		arc := 2 * f.half(d) * d / 2 * cos
		around := d / (cos * cos) // a helical tooth is measured as one on a cylinder of this diameter
		half := arc / around
		return around * math.Sin(half), (tip-d)/2 + around/2*(1-math.Cos(half))
	}
	low, high := f.base(), tip
	if _, most := at(low); !(height > 0 && height < most && low < high) {
		return math.NaN()
	}
	for range 100 {
		mid := (low + high) / 2
		if mid == low || mid == high {
			break
		}
		if _, above := at(mid); above > height {
			low = mid
		} else {
			high = mid
		}
	}
	chord, _ := at(low)
	return chord
}

// mesh is a pair of flanks of one base pitch and helix.
type mesh struct{ driver, driven flank }

func (m mesh) teeth() float64 { return float64(m.driver.teeth + m.driven.teeth) }

// working is the working pressure angle α_wt at a centre distance (mm), rad; NaN where the base circles touch.
func (m mesh) working(centre float64) float64 {
	return math.Acos((m.driver.base() + m.driven.base()) / (2 * centre))
}

// backlash is that along the working pitch circle, j_wt, at a centre distance (mm), mm. From the thicknesses on the
// working circles, taken back to the base circle and turned into the normal:
//
//	s_bn1 + s_bn2 + j_wt cos α_wt cos β_b − (z_1 + z_2) p_bn/π · inv α_wt = p_bn
func (m mesh) backlash(centre float64) float64 {
	working := m.working(centre)
	f := m.driver
	normal := f.pitch - f.thick - m.driven.thick + m.teeth()*f.pitch/math.Pi*involute.Involute(working)
	return normal / (math.Cos(working) * math.Cos(f.helix))
}

// centre is the centre distance at which the pair has a backlash (mm) along its working pitch circle, mm; NaN where
// no distance leaves it. Backlash grows with distance: found by halving.
func (m mesh) centre(backlash float64) float64 {
	touch := (m.driver.base() + m.driven.base()) / 2
	low, high := touch*(1+1e-12), touch*2
	if !(m.backlash(low) <= backlash && m.backlash(high) >= backlash) {
		return math.NaN()
	}
	for range 100 {
		mid := (low + high) / 2
		if mid == low || mid == high {
			break
		}
		if m.backlash(mid) < backlash {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}
