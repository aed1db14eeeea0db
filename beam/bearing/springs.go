package bearing

import "math"

// Springs are the three secant stiffnesses of a row under a load.
type Springs struct {
	Radial float64 // N/mm
	Axial  float64 // N/mm
	Tilt   float64 // N·mm/rad
}

// Springs are linear springs that stand in for the row under the given load: force {x, y, z} in N
// and couple {about y, about z} in N·mm that the shaft puts on the inner ring at the pressure
// centre. With q the displacement at which the row carries that load, each is the force of its own
// movement over that movement,
//
//	Radial = (F(q) − F(q without its radial part)) · δ / δ²
//
// and likewise Axial and Tilt: the mean of the tangent stiffness on the way there, never negative.
// A shaft on these springs sits at the same place as on the row, so that a repeated exchange of
// loads and springs settles at it
//
//   - exactly for a radial load that the elements stand symmetric to, with or without a couple in
//     the plane of the load, on rollers without a contact angle and an even number of them;
//     otherwise off sideways by less than π/Count of the movement, much less without clearance;
//   - with a contact angle, exactly in the radial direction; along the axis the spring carries what
//     exceeds the axial load that the radial one induces at its displacement;
//   - on balls under thrust but for the tilt that thrust and radial load together give a free ring;
//   - with load and couple in different planes, in the direction of each (the row is stiffer
//     against tilting in the plane of the load than across it).
//
// Where there is no movement it is the tangent: the tilting one is that in the plane of the radial
// load. Clearance makes the radial spring go to 0 with the load, as does the contact law itself
// without clearance. A squeezed row keeps a finite stiffness, and grows softer until half of it is
// unloaded. A row of rollers without a contact angle has no axial stiffness (0). A row with a
// contact angle and no load at all has none whatever.
func (e Elements) Springs(force [3]float64, couple [2]float64) (Springs, error) {
	r, err := e.prepare()
	if err != nil {
		return Springs{}, err
	}
	f := vector{force[0], force[1], force[2], couple[0], couple[1]}
	p, err := r.settle(f)
	if err != nil {
		return Springs{}, err
	}
	q, h := p.q, &p.tangent

	// Across is the direction of the radial load and, turned by a right angle, of the tilt in its plane.
	across := [2]float64{1, 0}
	if n := math.Hypot(f[1], f[2]); n > 0 {
		across = [2]float64{f[1] / n, f[2] / n}
	}
	along := func(direction vector) (k float64) {
		for i, d := range direction {
			k += d * dot(h[i], direction)
		}
		return k
	}
	s := Springs{
		Radial: along(vector{1: across[0], 2: across[1]}),
		Axial:  h[0][0],
		Tilt:   along(vector{3: -across[1], 4: across[0]}),
	}
	secant := func(tangent float64, part ...int) float64 {
		rest := q
		var square float64
		for _, i := range part {
			rest[i] = 0
			square += q[i] * q[i]
		}
		// A movement so small that the difference would be noise has its tangent for a mean.
		if square == 0 || tangent*math.Sqrt(square) < 1e-6*p.total*r.arm(part[0]) {
			return tangent
		}
		without := r.state(rest, nil)
		var work float64
		for _, i := range part {
			work += (p.force[i] - without.force[i]) * q[i]
		}
		return max(0, work/square)
	}
	s.Radial = secant(s.Radial, 1, 2)
	s.Axial = secant(s.Axial, 0)
	s.Tilt = secant(s.Tilt, 3, 4)
	return s, nil
}

// arm turns an element load into a force (1) or a couple about the pressure centre (mm).
func (r *row) arm(direction int) float64 {
	switch {
	case direction < 3:
		return 1
	case r.Kind == Ball:
		return r.Pitch / 2
	}
	return r.Length / 2
}
