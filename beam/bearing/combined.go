package bearing

import (
	"errors"
	"fmt"
	"math"
)

// mostForce bounds the forces taken, N, and couples, N·mm.
const mostForce = 1e9

// Force is what the shaft must put on the inner ring to hold it displaced against the outer ring:
// force {x, y, z} in N and couple {about y, about z} in N·mm, for displacement {x, y, z} in mm and
// tilt {about +y, about +z} in rad. All at the pressure centre and right-handed; a positive
// displacement asks for a positive force.
func (e Elements) Force(displacement [3]float64, tilt [2]float64) (force [3]float64, couple [2]float64, err error) {
	r, q, err := e.displaced(displacement, tilt)
	if err != nil {
		return force, couple, err
	}
	f := r.state(q, nil).force
	return [3]float64(f[:3]), [2]float64(f[3:]), nil
}

// TangentStiffness is the derivative of Force with respect to {x, y, z, tilt about y, tilt about z}
// at a displacement in mm and rad: N/mm, N·mm/rad, and N/rad (the same as N·mm/mm) where they mix.
// It is symmetric.
func (e Elements) TangentStiffness(displacement [3]float64, tilt [2]float64) ([5][5]float64, error) {
	r, q, err := e.displaced(displacement, tilt)
	if err != nil {
		return [5][5]float64{}, err
	}
	var h matrix
	r.state(q, &h)
	return h, nil
}

func (e Elements) displaced(displacement [3]float64, tilt [2]float64) (*row, vector, error) {
	r, err := e.prepare()
	q := vector{displacement[0], displacement[1], displacement[2], tilt[0], tilt[1]}
	if err != nil {
		return nil, q, err
	}
	for i, x := range q {
		if most := e.Diameter / 4; i < 3 && !(math.Abs(x) <= most) {
			err = errors.Join(err, fmt.Errorf("displacement %g mm along %c: at most a quarter of the element diameter of %g mm is expected", x, "xyz"[i], e.Diameter))
		} else if i >= 3 && !(math.Abs(x) <= 0.1) {
			err = errors.Join(err, fmt.Errorf("tilt %g rad about %c: at most 0.1 rad is expected", x, "yz"[i-3]))
		}
	}
	return r, q, err
}

// Displacement is the inverse of Force: where the inner ring settles under force {x, y, z}, N, and
// couple {about y, about z}, N·mm, put on it by the shaft at the pressure centre; displacement
// {x, y, z} in mm and tilt in rad. What a row cannot resist at all (a cylindrical roller's axial
// movement) stays 0; within clearance, where anything balances, it is a place in the middle.
//
// The ring is free to tilt and to move along here. A row with clearance then hinges on its loaded side
// under the least couple, by milliradians: on a shaft that other bearings hold it doesn't, and Hold is the
// question to ask.
func (e Elements) Displacement(force [3]float64, couple [2]float64) (displacement [3]float64, tilt [2]float64, err error) {
	r, err := e.prepare()
	if err != nil {
		return displacement, tilt, err
	}
	p, err := r.settle(vector{force[0], force[1], force[2], couple[0], couple[1]})
	if err != nil {
		return displacement, tilt, err
	}
	return [3]float64(p.q[:3]), [2]float64(p.q[3:]), nil
}

// settle finds the place under the load f.
func (r *row) settle(f vector) (place, error) {
	if err := r.bearable(f); err != nil {
		return place{}, err
	}
	if f == (vector{}) {
		var p place
		p.answer = r.state(p.q, &p.tangent)
		return p, nil
	}
	radial := math.Hypot(f[1], f[2])
	couple := math.Hypot(f[3], f[4])
	leaning := couple > 0 || r.Kind == Ball && f[0] != 0
	free := [5]bool{r.sin != 0 || r.Kind == Ball && leaning, true, true, leaning, leaning}

	// Start a little too deep: there Newton's method comes down without trouble.
	var q vector
	if radial > 0 {
		d := max(r.Clearance, 0)/2 + r.touch(radial/r.cos)/r.cos
		q[1], q[2] = f[1]/radial*d, f[2]/radial*d
	}
	if r.Kind == Ball && f[0] != 0 {
		q[0] = math.Copysign(math.Sqrt(max(0, r.reach*r.reach-r.apart*r.apart))+r.touch(math.Abs(f[0])), f[0]) * r.open(f[0])
	}
	if radial == 0 && f[0] == 0 && couple > 0 {
		// A couple alone: tilt until the ends touch.
		arm := r.Length / 2
		lean := max(r.Clearance, 0) / 2
		if r.Kind == Ball {
			arm = r.lever
			lean = math.Sqrt(max(0, r.reach*r.reach-r.apart*r.apart))
		}
		lean += r.touch(couple / arm)
		q[3], q[4] = f[3]/couple*lean/arm, f[4]/couple*lean/arm
	}
	p, err := r.balance(f, q, free)
	if err == nil {
		for i, x := range p.q {
			if i < 3 && math.Abs(x) > r.Diameter/4 || i >= 3 && math.Abs(x) > 0.1 {
				err = errNoBalance
			}
		}
	}
	if err != nil {
		return place{}, r.unbearable(f)
	}
	return p, nil
}

// open is 1 where a row of balls is loose under thrust with the sign of axial and must move to
// touch, 0 where it touches as it stands (contact angle given).
func (r *row) open(axial float64) float64 {
	if r.sin*axial > 0 {
		return 0
	}
	return 1
}

// bearable refuses what cannot be carried by any such row.
func (r *row) bearable(f vector) error {
	var all []error
	for i, x := range f {
		if !(math.Abs(x) <= mostForce) {
			all = append(all, fmt.Errorf("%s %g: a number up to %g is expected", loadName[i], x, mostForce))
		}
	}
	if len(all) > 0 {
		return errors.Join(all...)
	}
	if r.Kind != Ball && r.sin == 0 && f[0] != 0 {
		return fmt.Errorf("an axial force of %.4g N on a row of %ss: they roll across it and carry none, let another bearing or the ribs take it", f[0], r.Kind)
	}
	if r.sin*f[0] < 0 {
		return fmt.Errorf("an axial force of %.4g N against the open side of a row with a contact angle of %.3g°: turn the bearing round or let the other one take it", f[0], r.ContactAngle*180/math.Pi)
	}
	if need := r.leastAxial(math.Hypot(f[1], f[2])); r.Kind == Tapered && math.Abs(f[0]) < need {
		return fmt.Errorf("a row of tapered rollers at %.3g° under %.4g N across needs at least %.4g N of axial force to stay together, it gets %.4g N: give it the axial load of its pair",
			math.Abs(r.ContactAngle)*180/math.Pi, math.Hypot(f[1], f[2]), need, math.Abs(f[0]))
	}
	return nil
}

// leastAxial is the axial force, N, without which no tapered row carries a radial one: all of it on one roller.
func (r *row) leastAxial(radial float64) float64 { return radial * math.Abs(r.sin) / r.cos }

func (r *row) unbearable(f vector) error {
	return fmt.Errorf("%d %ss find no balance under force (%.4g, %.4g, %.4g) N and couple (%.4g, %.4g) N·mm: the couple is more than the row can hold, or the axial force too small to keep it together",
		r.Count, r.Kind, f[0], f[1], f[2], f[3], f[4])
}

var loadName = [5]string{"force along x", "force along y", "force along z", "couple about y", "couple about z"}
