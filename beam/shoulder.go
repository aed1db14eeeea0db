package beam

import "math"

// The metal in the corner of a sharp shoulder carries next to nothing, and the
// flow of force widens only gradually behind it. So every run of one diameter
// casts a shadow over what is thicker beyond its end: at a distance t from that
// end the shaft counts as no thicker than
//
//	r + rise(t, r),  rise(t, r) = √((t/slope)² + (flat·r)²) − flat·r
//
// with r the radius of the run, and a bore of radius b counts beyond its end as
// no narrower than b − rise(t, b). The smallest radius of all shadows counts,
// and the widest bore. So more metal never makes a shaft softer, and a collar
// of no length is none.
//
// The four numbers are our own: found on 60 sharp-shouldered shafts computed as
// solids in three dimensions, tested on 57 more. On those the deflections are
// off by 1.7 % rms, the slopes at bearings by 2.8 %; without the rule it is
// 14 % (see Model.Doubts for what it does less well).
type shadow struct{ slope, flat float64 } // plain numbers

var (
	bendingShadow = shadow{slope: 1.2, flat: 0.12}
	torsionShadow = shadow{slope: 0.7, flat: 0.20} // nowhere deeper than in bending
)

// rise is how far the radius has grown at a distance t, mm.
func (s shadow) rise(t, r float64) float64 {
	along, flat := t/s.slope, s.flat*r
	return math.Sqrt(along*along+flat*flat) - flat
}

// reach is the distance at which the radius has grown by a height, mm.
func (s shadow) reach(height, r float64) float64 {
	return s.slope * math.Sqrt(height*(height+2*s.flat*r))
}

// edge is the end of a run whose shadow falls on what is beside it.
type edge struct {
	x, r float64 // place and radius, outer or of the bore, mm
	bore bool
}

// radius is what the shadow leaves of the outside, or adds to the bore, at x.
func (e *edge) radius(x float64, s shadow) float64 {
	if rise := s.rise(math.Abs(x-e.x), e.r); !e.bore {
		return e.r + rise
	} else {
		return e.r - rise
	}
}

// stretch is a part of the shaft of one outer diameter and one bore. Sections
// alike that follow one another are one, so that a cut changes nothing.
type stretch struct{ from, to, outer, bore float64 } // places and radii, mm

func (s Shaft) stretches() []stretch {
	all := make([]stretch, 0, len(s.Sections))
	var x float64
	for _, c := range s.Sections {
		to := x + c.Length
		if n := len(all); n > 0 && 2*all[n-1].outer == c.Outer && 2*all[n-1].bore == c.Bore {
			all[n-1].to = to
		} else {
			all = append(all, stretch{x, to, c.Outer / 2, c.Bore / 2})
		}
		x = to
	}
	return all
}

// edges appends the edges whose shadows reach into stretch i. On either side
// one counts only if nothing as thin, or bored as wide, stands nearer.
func edges(all []stretch, i int, found []edge) []edge {
	here := &all[i]
	for _, step := range [...]int{-1, 1} {
		thin, wide := here.outer, here.bore
		for j := i + step; j >= 0 && j < len(all); j += step {
			from, near := all[j].to, here.from
			if step > 0 {
				from, near = all[j].from, here.to
			}
			gap := math.Abs(near - from)
			if r := all[j].outer; r < thin {
				thin = r
				if bendingShadow.reach(here.outer-r, r) > gap {
					found = append(found, edge{from, r, false})
				}
			}
			if r := all[j].bore; r > wide {
				wide = r
				if bendingShadow.reach(r-here.bore, r) > gap {
					found = append(found, edge{from, r, true})
				}
			}
		}
	}
	return found
}

// Within a shadow the compliance is taken as linear over short lengths: from
// first radii on, each longer than the one before. Finer ones change no
// deflection by more than 1e-5 of itself.
const (
	firstCut = 0.12 // of the radius
	nextCut  = 1.6  // times the distance before
	moreCut  = 0.1  // and of the radius
)

// cuts appends the places within a stretch at which its cells end: in each
// shadow the lengths above and where it leaves the real radius, and where two
// shadows meet.
func (c *stretch) cuts(shadows []edge, places []float64) []float64 {
	least := coincident * c.to // apart, so that rounding makes no cell
	add := func(x float64) {
		if x-c.from > least && c.to-x > least {
			places = append(places, x)
		}
	}
	for i := range shadows {
		e := &shadows[i]
		right := 1.0
		if e.x >= c.to {
			right = -1
		}
		height := c.outer - e.r
		if e.bore {
			height = e.r - c.bore
		}
		reach := bendingShadow.reach(height, e.r)
		for t := firstCut * e.r; t < reach; t = nextCut*t + moreCut*e.r {
			add(e.x + right*t)
		}
		add(e.x + right*reach)
		add(e.x + right*torsionShadow.reach(height, e.r))
		for j := range shadows[:i] {
			if shadows[j].bore != e.bore {
				continue
			}
			for _, s := range [...]shadow{bendingShadow, torsionShadow} {
				if x, meet := c.meeting(e, &shadows[j], s); meet {
					add(x)
				}
			}
		}
	}
	if len(places) == 0 {
		return places
	}
	return distinct(places, least)
}

// meeting is the place in a stretch where two shadows are equally deep.
func (c *stretch) meeting(a, b *edge, s shadow) (x float64, meet bool) {
	over := func(x float64) bool { return a.radius(x, s) > b.radius(x, s) }
	low, high := c.from, c.to
	first := over(low)
	if over(high) == first {
		return 0, false
	}
	for range 30 {
		if middle := (low + high) / 2; over(middle) == first {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2, true
}

// softestShadow is the part of the second moment of area of the softest section
// that shadows leave everywhere. It only guards against a thin run so close to a
// wide bore, with a web between them, that their shadows would leave nothing.
const softestShadow = 0.1

// stiffness is the second moment of area in the shadows at x, mm⁴, and not
// less than least.
func (c *stretch) stiffness(x float64, s shadow, shadows []edge, least float64) float64 {
	outer, bore := c.outer, c.bore
	for i := range shadows {
		e := &shadows[i]
		if r := e.radius(x, s); e.bore {
			bore = max(bore, r)
		} else {
			outer = min(outer, r)
		}
	}
	return max(inertia(2*outer, 2*bore), least)
}
