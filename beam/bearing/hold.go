package bearing

import (
	"fmt"
	"math"
)

// Stance is where a shaft stands in a bearing across its axis: the inner ring against the outer one.
type Stance struct {
	Across [2]float64 // y, z, mm
	Tilt   [2]float64 // about +y, about +z, rad
}

// Hold is what a shaft must put on the inner ring to stand where it stands, at the pressure centre, with
// the ring where it has come to rest along the axis.
type Hold struct {
	Axial  float64    // where the ring rests along +x, mm
	Force  [3]float64 // x, y, z, N
	Couple [2]float64 // about +y, about +z, N·mm
	Total  float64    // sum of the loads of the elements, N

	Heaviest float64 // load of the heaviest element, N
	Loaded   int     // elements that carry
}

// Tangent is the derivative of {Fy, Fz, couple about y, about z} by {y, z, tilt about y, about z} with
// the thrust held and the place along the axis following: N/mm, N·mm/rad, and N/rad where they mix.
type Tangent [4][4]float64

// Hold is the row with the shaft standing in it at s and putting the axial force thrust, N, on it: the
// ring comes to rest along the axis where the elements carry that, and everything else follows from the
// place. This is how a bearing works between a shaft that decides where the ring stands across, and a
// thrust that passes through it. A row of cylindrical or needle rollers stays where it is along the axis,
// and takes no thrust. Places far beyond any that means something are answered too, so that a search may pass through them.
//
// The potential of the row is convex, so its axial force never falls as the ring moves along, and there
// is one balance; where the ring may lie loose over a range any place of it carries the same, and the one
// at 0 is taken when it is among them. The forces are the derivative of the potential at rest, which is
// convex as well.
func (e Elements) Hold(s Stance, thrust float64) (Hold, Tangent, error) {
	r, err := e.Ready()
	if err != nil {
		return Hold{}, Tangent{}, err
	}
	return r.Hold(s, thrust)
}

// Hold is the pair with the shaft standing in its rows at a and b and an external axial force thrust on
// the shaft, N, positive from A towards B. The shaft comes to rest along its axis where both rows together
// carry that, each at its own place across; end play and preload are the pair's setting. cross is the
// derivative of A's forces by B's stance, since both share the axial movement; that of B's by A's is its
// transpose. The axial place in each Hold is that of its own row.
func (p Pair) Hold(a, b Stance, thrust float64) (holdA, holdB Hold, tangentA, tangentB, cross Tangent, err error) {
	r, err := p.Ready()
	if err != nil {
		return
	}
	return r.Hold(a, b, thrust)
}

// at is the stance as a displacement of the ring that has moved along by x.
func (s Stance) at(x float64) vector {
	return vector{x, s.Across[0], s.Across[1], s.Tilt[0], s.Tilt[1]}
}

func (s Stance) check(pitch float64) error {
	// NaN fails both.
	if math.Hypot(s.Across[0], s.Across[1]) <= pitch && math.Hypot(s.Tilt[0], s.Tilt[1]) <= 1 {
		return nil
	}
	return fmt.Errorf("the shaft stands at %g, %g mm, tilted by %g, %g rad: at most the pitch diameter of %g mm and 1 rad are expected", s.Across[0], s.Across[1], s.Tilt[0], s.Tilt[1], pitch)
}

func checkThrust(thrust float64) error {
	if !(math.Abs(thrust) <= mostForce) {
		return fmt.Errorf("an axial force of %g N: a number up to %g is expected", thrust, mostForce)
	}
	return nil
}

func held(a answer, x float64) Hold {
	return Hold{Axial: x, Force: [3]float64(a.force[:3]), Couple: [2]float64(a.force[3:]), Total: a.total, Heaviest: a.heaviest, Loaded: a.loaded}
}

// condensed takes the axial movement out of the tangent stiffness of rows that share it: own is that of
// the row itself, and cross what another row's stance does to it, through the movement that both share
// against the axial stiffness of all. Where nothing resists the movement there is nothing to take out.
func condensed(of, other *matrix, axial float64) (own, cross Tangent) {
	for i := range 4 {
		for j := range 4 {
			own[i][j] = of[i+1][j+1]
			if axial > 1e-13*(of[1][1]+of[2][2]) {
				own[i][j] -= of[i+1][0] * of[0][j+1] / axial
				cross[i][j] = -of[i+1][0] * other[0][j+1] / axial
			}
		}
	}
	return own, cross
}

// nothing is the share of all forces at hand below which what is left of them counts as none.
const nothing = 1e-13

// rest finds where excess, which never falls, is zero: the axial force that the elements give beyond the one asked,
// with the sum of their loads, from which follows what counts as nothing. It is not ok when that is farther off than most.
func rest(excess func(x float64) (force, total float64), asked, most float64) (x float64, ok bool) {
	first, total := excess(0)
	if math.Abs(first) <= nothing*(asked+total) {
		return 0, true
	}
	// Widen towards the balance until it is enclosed.
	way := -math.Copysign(1, first)
	near, far := 0.0, most/1024
	for {
		var f float64
		if f, total = excess(way * far); f*way >= 0 {
			break
		}
		if far >= most {
			return 0, false
		}
		near, far = far, min(2*far, most)
	}
	return way * root(func(x float64) float64 {
		f, _ := excess(way * x)
		return way * f
	}, near, far, nothing*asked+1e-14*total), true
}
