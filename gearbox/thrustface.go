package gearbox

import "math"

// A free gear leans on a face that takes its axial force before it leans in its seat. As long as the couple on it is less than |F_a| r_f, with r_f the radius of that face, the force only moves
// towards the rim of the face and the gear stays upright; beyond that it hinges on the rim, and the seat gets what is left of the couple. So the face takes the couple M_f, |M_f| ≤ |F_a| r_f, that leaves the seat the least
// energy Ψ,
//
//	Φ(M) = min Ψ(M − M_f)
//
// which is convex as Ψ is: either the gear doesn't lean, or M_f = |F_a| r_f along the lean. With r_f = 0 the seat bears all; a large face keeps the gear upright. Own derivation, from the equilibrium of a stiff gear.

// usualThrustFace is the radius of a thrust face over that of the working pitch circle where it isn't given: between the seat and the rim of the body. Common practice, no source.
const usualThrustFace = 0.5

// leaning is a gear on its seat, with what doesn't depend on how its load lies along the face: at the torque the coupling was made for.
type leaning struct {
	seat   *Seat
	opens  [2][]float64 // by how much it opens its flanks at all strips when it leans by 1 rad in a plane about the middle of the face, mm; and what 1 N on the strips turns it by, N·mm
	arms   []arm        // its meshes
	force  point        // that it puts on the shaft, N
	couple point        // about the middle of the seat, with its loads in the middle of their faces, N·mm
	small  float64      // load below which an end of its seat floats, N
	stiff  float64      // what its lean is of the order of from the give of the ends alone, rad
	face   float64      // couple that its thrust face can take, N·mm
	way    point        // of the couple that the face took last, to start from
}

// floats is the share of what a gear carries below which an end of its seat floats in its play.
const floats = 1e-6

func (c *coupling) leaningOf(g int) leaning {
	gear := &c.p.box.Gears[g]
	l := leaning{seat: gear.Seat}
	for plane := range l.opens {
		l.opens[plane] = make([]float64, len(c.initial))
	}
	thrust, radius := 0.0, gear.Seat.ThrustFace
	for _, sites := range c.sites {
		for _, a := range sites {
			q := &c.p.pairs[c.steps[a.step].mesh]
			if q.gears[a.role] != g {
				continue
			}
			for i, xi := range q.stations {
				for plane := range l.opens {
					l.opens[plane][a.step*strips+i] += a.force[plane] * xi
				}
			}
			l.arms = append(l.arms, arm{a.step, a.force})
			force := c.problem.Meshes[a.step].Force
			beside := q.at[a.role] - (gear.At + gear.Seat.Offset)
			l.force = l.force.plus(a.force.scaled(force))
			l.couple = l.couple.plus(a.couple.plus(a.force.scaled(beside)).scaled(force))
			l.small += floats * force
			thrust += a.axial * force
			if gear.Seat.ThrustFace == 0 {
				radius = usualThrustFace * q.geometry.Working[a.role] / 2
			}
		}
	}
	l.face = math.Abs(thrust) * radius
	if k := gear.Seat.Stiffness; k > 0 {
		l.stiff = l.force.norm() / k / gear.Seat.Length
	}
	return l
}

// lean is how the gear leans at scale times the torque of the coupling under a couple, rad, how that answers the couple, by rows, rad/(N·mm), and the couple that is left for the seat.
func (l *leaning) lean(scale float64, couple point) (lean point, give [2]point, seat point) {
	force, small, face := l.force.scaled(scale), l.small*scale, l.face*scale
	size := couple.norm()
	if size <= face {
		return point{}, [2]point{}, point{}
	}
	if face == 0 {
		lean, give = l.seat.lean(force, couple, small)
		return lean, give, couple
	}
	// The seat's couple lies on a disc about the couple on the gear. Newton's method with the energy's parabola minimised over the disc, as far as the energy falls, stays within.
	seat = couple.minus(l.way.scaled(face))
	if l.way == (point{}) {
		seat = couple.scaled(1 - face/size)
	}
	lean, give = l.seat.lean(force, seat, small)
	for range 500 { // few, but where an end all but floats
		from := seat.minus(couple)
		to := lowest(give, lean.minus(point{give[0].dot(from), give[1].dot(from)}), face)
		step := to.minus(from)
		slope := lean.dot(step)
		done := step.dot(step) <= 1e-20*seat.dot(seat)+1e-30*size*size
		for share := 1.0; ; {
			next := seat.plus(step.scaled(share))
			lean, give = l.seat.lean(force, next, small)
			now := lean.dot(step)
			if done || now <= -0.5*slope || slope >= 0 || share < 1e-9 { // a slope up is rounding
				seat = next
				break
			}
			share *= max(0.1, slope/(slope-now))
		}
		if done {
			break
		}
	}
	l.way = couple.minus(seat).scaled(1 / face)
	size = lean.norm()
	if size == 0 {
		return lean, give, seat
	}
	// With n the lean's direction: dx + (face/|ℓ|)(1 − n nᵀ) G dx = dM, dℓ = G dx.
	n, k := lean.scaled(1/size), face/size
	var square [2]point
	for i := range 2 {
		for j := range 2 {
			turned := give[i][j] - n[i]*(n[0]*give[0][j]+n[1]*give[1][j])
			square[i][j] = k * turned
		}
		square[i][i]++
	}
	det := square[0][0]*square[1][1] - square[0][1]*square[1][0]
	inverse := [2]point{{square[1][1] / det, -square[0][1] / det}, {-square[1][0] / det, square[0][0] / det}}
	var all [2]point
	for i := range 2 {
		for j := range 2 {
			all[i][j] = give[i][0]*inverse[0][j] + give[i][1]*inverse[1][j]
		}
	}
	return lean, all, seat
}

// lowest is where on a disc of some radius about 0 the parabola ½ zᵀ G z + b z is least, with G positive: (G + λ) z = −b with λ ≥ 0, and on the rim unless λ is 0.
func lowest(g [2]point, b point, radius float64) point {
	// Along the principal directions of G.
	mean, unlike := (g[0][0]+g[1][1])/2, (g[0][0]-g[1][1])/2
	off := math.Hypot(unlike, g[0][1])
	cos, sin := 1.0, 0.0
	switch {
	case off <= 1e-14*mean: // all but alike every way
	case unlike > 0:
		cos = math.Sqrt((1 + unlike/off) / 2)
		sin = g[0][1] / (2 * off * cos)
	default:
		sin = math.Sqrt((1 - unlike/off) / 2)
		cos = g[0][1] / (2 * off * sin)
	}
	steep, flat := mean+off, max(mean-off, 0)
	one, other := b.dot(point{cos, sin}), b.dot(point{-sin, cos})
	// The size of z falls with λ, and its inverse is all but straight: Newton's method comes from below.
	lambda := max(0, math.Abs(one)/radius-steep, math.Abs(other)/radius-flat)
	against := func(b, stiff float64) float64 {
		if b == 0 {
			return 0 // nothing to give way to, where nothing may resist
		}
		return -b / stiff
	}
	var z point
	for range 50 {
		z = point{against(one, steep+lambda), against(other, flat+lambda)}
		square := z.dot(z)
		if square <= radius*radius*(1+4e-16) {
			break
		}
		size := math.Sqrt(square)
		lambda += (size/radius - 1) * square / (z[0]*z[0]/(steep+lambda) + z[1]*z[1]/(flat+lambda))
	}
	if lambda > 0 {
		z = z.scaled(radius / z.norm())
	}
	return point{z[0]*cos - z[1]*sin, z[0]*sin + z[1]*cos}
}

// under is the couple on the gear under the loads on all strips, N·mm.
func (l *leaning) under(scale float64, load []float64) point {
	couple := l.couple.scaled(scale)
	for plane, opens := range l.opens {
		for k, w := range load {
			couple[plane] += opens[k] * w
		}
	}
	return couple
}

// energy is what its seat stores under a couple, N·mm.
func (l *leaning) energy(scale float64, couple point) float64 {
	_, _, seat := l.lean(scale, couple)
	return l.seat.energy(l.force.scaled(scale), seat, l.small*scale)
}
