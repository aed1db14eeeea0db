package bearing

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// vector holds what belongs to the five movements of the inner ring against the outer one:
// along x, y, z and tilting about +y, +z. Displacements in mm and rad, forces in N and N·mm.
type vector [5]float64

// matrix is a symmetric 5×5 one, both halves filled.
type matrix [5][5]float64

// slice is a short piece of a roller.
type slice struct {
	at     float64 // along the roller from its middle, in roller lengths
	square float64 // mean of the square of that over the slice
	weight float64 // share of the roller
}

// sliceCount slices to a roller, laid out as Gauss points.
const sliceCount = 8

var (
	cuts = func() (s [sliceCount]slice) {
		var x, w [sliceCount]float64
		quad.Legendre{}.FixedLocations(x[:], w[:], -0.5, 0.5)
		for i := range s {
			s[i] = slice{x[i], x[i] * x[i], w[i]}
		}
		return s
	}()
	// whole is the one slice that does when nothing tilts: load at the middle, and the mean
	// square of the offset for the stiffness against tilting.
	whole = [1]slice{{0, 1. / 12, 1}}
)

// row is a checked set of elements with what does not change with the displacement worked out.
type row struct {
	Elements
	sin, cos float64      // of the contact angle
	at       [][2]float64 // cos, sin of the place of each element, from +y towards +z
	factor   float64      // load of an element = factor · approachⁿ

	reach float64 // balls: distance of the groove centres when they just touch the ball, mm
	apart float64 // balls: radial distance of the groove centres with the rings in their nominal place, mm
	lever float64 // balls: radius on which the inner groove centres lie, mm
}

// prepare checks the elements and works out what stays the same.
func (e Elements) prepare() (*row, error) {
	if err := e.Check(); err != nil {
		return nil, err
	}
	r := &row{Elements: e, at: make([][2]float64, e.Count)}
	r.sin, r.cos = math.Sincos(e.ContactAngle)
	for i := range r.at {
		s, c := math.Sincos(e.Turn + 2*math.Pi*float64(i)/float64(e.Count))
		r.at[i] = [2]float64{c, s}
	}
	if e.Kind == Ball {
		r.factor = BallLoad(1, e.Diameter)
		f := e.groove()
		r.reach = (2*f - 1) * e.Diameter
		r.apart = r.reach*r.cos - e.Clearance/2
		r.lever = e.Pitch/2 + (f-0.5)*e.Diameter*r.cos
	} else {
		r.factor = LineLoad(1, e.Length)
	}
	return r, nil
}

// law is the load of one element, N, and its slope, N/mm, at an approach > 0, mm.
func (r *row) law(approach float64) (load, slope float64) {
	if r.Kind == Ball {
		slope = r.factor * math.Sqrt(approach)
		return slope * approach, 1.5 * slope
	}
	slope = r.factor * ninthRoot(approach)
	return slope * approach, 10. / 9 * slope
}

// answer is what a row gives back at a displacement.
type answer struct {
	force    vector  // what the shaft must put on the inner ring
	total    float64 // sum of the element loads, N
	heaviest float64 // heaviest element load, N
	loaded   int     // number of elements that carry
}

// state is the row at a displacement q. With h not nil the tangent stiffness, the derivative of
// the force, is put there.
//
// The elements are springs with a potential, so the force is its gradient and the stiffness is
// symmetric. Both approaches are convex functions of q and the laws rise ever faster, so the
// potential is convex too: there is one balance only.
func (r *row) state(q vector, h *matrix) answer {
	if h != nil {
		*h = matrix{}
	}
	if r.Kind == Ball {
		return r.ballState(q, h)
	}
	return r.rollerState(q, h)
}

// rollerState: the approach of slice t of the roller at angle φ is
//
//	δx sin α + (δy cos φ + δz sin φ) cos α + t (θz cos φ − θy sin φ) − (clearance/2) cos α
//
// about the pressure centre, where tilting acts through the slice's distance t from the middle of
// the roller alone. Slices carry as the whole roller's law has it, each its share.
func (r *row) rollerState(q vector, h *matrix) (a answer) {
	pieces := cuts[:]
	if q[3] == 0 && q[4] == 0 {
		pieces = whole[:]
	}
	even := q[0]*r.sin - r.Clearance/2*r.cos
	for _, at := range r.at {
		c, s := at[0], at[1]
		middle := even + (q[1]*c+q[2]*s)*r.cos
		lean := (q[4]*c - q[3]*s) * r.Length
		// Sums over the slices of load, load·t, slope, slope·t and slope·t².
		var load, moment, k0, k1, k2 float64
		for _, p := range pieces {
			approach := middle + lean*p.at
			if approach <= 0 {
				continue
			}
			q, k := r.law(approach)
			q, k = q*p.weight, k*p.weight
			load += q
			moment += q * p.at
			k0 += k
			k1 += k * p.at
			k2 += k * p.square
		}
		if load == 0 {
			continue
		}
		a.add(load)
		b := [3]float64{r.sin, r.cos * c, r.cos * s}
		d := [2]float64{-s * r.Length, c * r.Length}
		for i := range 3 {
			a.force[i] += load * b[i]
		}
		a.force[3] += moment * d[0]
		a.force[4] += moment * d[1]
		if h == nil {
			continue
		}
		for i := range 3 {
			for j := i; j < 3; j++ {
				h[i][j] += k0 * b[i] * b[j]
			}
			h[i][3] += k1 * b[i] * d[0]
			h[i][4] += k1 * b[i] * d[1]
		}
		h[3][3] += k2 * d[0] * d[0]
		h[3][4] += k2 * d[0] * d[1]
		h[4][4] += k2 * d[1] * d[1]
	}
	mirror(h)
	return a
}

// ballState: a ball sits between the centres of curvature of its two grooves. The approach is the
// distance of these centres less the one at which both grooves just touch the ball, and the line of
// contact runs through both: it turns as the rings move. (The usual static model of a ball row.)
func (r *row) ballState(q vector, h *matrix) (a answer) {
	tan := r.sin / r.cos
	for _, at := range r.at {
		c, s := at[0], at[1]
		// How the inner groove centre moves: axially through jx, radially through jr.
		jx := vector{1, 0, 0, s * r.lever, -c * r.lever}
		jr := vector{0, c, s, -s * r.lever * tan, c * r.lever * tan}
		x := r.reach*r.sin + dot(jx, q)
		y := r.apart + dot(jr, q)
		distance := math.Sqrt(x*x + y*y)
		approach := distance - r.reach
		if approach <= 0 {
			continue
		}
		load, slope := r.law(approach)
		a.add(load)
		sin, cos := x/distance, y/distance
		turning := load / distance
		var n, m vector
		for i := range n {
			n[i] = cos*jr[i] + sin*jx[i]
			m[i] = cos*jx[i] - sin*jr[i]
			a.force[i] += load * n[i]
		}
		if h == nil {
			continue
		}
		for i := range n {
			for j := i; j < 5; j++ {
				h[i][j] += slope*n[i]*n[j] + turning*m[i]*m[j]
			}
		}
	}
	mirror(h)
	return a
}

func (a *answer) add(load float64) {
	a.total += load
	a.heaviest = max(a.heaviest, load)
	a.loaded++
}

// mirror fills the lower half of h, if there is one, from the upper.
func mirror(h *matrix) {
	if h == nil {
		return
	}
	for i := range 5 {
		for j := range i {
			h[i][j] = h[j][i]
		}
	}
}

func dot(a, b vector) (s float64) {
	for i := range a {
		s += a[i] * b[i]
	}
	return s
}
