package bearing

import (
	"errors"
	"fmt"
	"math"
)

// Arrangement is how the two bearings A (left) and B (right) of a pair face each other.
type Arrangement int

// The arrangements.
const (
	FaceToFace Arrangement = iota // X: A carries shaft thrust towards −x, B towards +x; the pressure centres lie between the rows
	BackToBack                    // O: A carries shaft thrust towards +x, B towards −x; the pressure centres lie outside the rows
)

// String is the arrangement in words.
func (a Arrangement) String() string {
	if a == BackToBack {
		return "back to back (O)"
	}
	return "face to face (X)"
}

// sign is +1 where an external force towards +x loads A, −1 where it loads B.
func (a Arrangement) sign() float64 {
	if a == BackToBack {
		return 1
	}
	return -1
}

// Induced is the axial force, N, that a radial force, N, on a tapered bearing of axial factor Y calls up:
//
//	F_a = 0.5 F_r / Y
//
// It is near what half a loaded ring of rollers gives (see LoadIntegrals). Source: rule of bearing
// makers' catalogues for tapered roller bearings, seen on catalogue pages.
func Induced(radial, y float64) float64 { return 0.5 * radial / y }

// PairAxial shares an external axial force, N, positive on the shaft from A towards B, between the
// bearings of a pair whose radial loads induce the given axial forces, N, and that is set without
// preload. Each bearing carries at least what it induces itself, and the shaft balances:
//
//	face to face: F_aB = F_aA + K    back to back: F_aA = F_aB + K
//
// Source: equilibrium; the rule of bearing makers' catalogues in one line.
func PairAxial(arrangement Arrangement, inducedA, inducedB, axial float64) (a, b float64) {
	k := arrangement.sign() * axial
	a = max(inducedA, inducedB+k)
	return a, a - k
}

// UnloadForce is the external axial force, N, at which a preloaded pair of two equal rows loses its
// preload, N, in the row that the force eases: 2ⁿ times the preload with n of the contact law,
// 2.16 times for rollers, 2.83 for balls. At that force the other row, pushed in twice as far as
// by the preload, carries all of it. Without radial load.
func UnloadForce(kind Kind, preload float64) float64 { return math.Pow(2, kind.exponent()) * preload }

// Pair is two rows with contact angles set against each other on one shaft that does not stretch.
// Only the size of their contact angles counts here; the arrangement gives the sign.
type Pair struct {
	Arrangement Arrangement
	A, B        Elements

	// Setting is the axial end play of the shaft, mm; negative: the rows are pushed together by
	// that much. The rows' own Clearance must be 0: the setting decides it.
	Setting float64
}

// Rows are A and B with the signs of their contact angles as the arrangement has them, as Hold of a row needs them.
func (p Pair) Rows() (a, b Elements) {
	a, b = p.A, p.B
	s := p.Arrangement.sign()
	a.ContactAngle = s * math.Abs(a.ContactAngle)
	b.ContactAngle = -s * math.Abs(b.ContactAngle)
	return a, b
}

// Check says what cannot be about the pair, all of it at once; nil if nothing.
func (p Pair) Check() error {
	var all []error
	if p.Arrangement != FaceToFace && p.Arrangement != BackToBack {
		all = append(all, fmt.Errorf("unknown arrangement %d of a pair: use FaceToFace or BackToBack", int(p.Arrangement)))
	}
	for i, e := range []Elements{p.A, p.B} {
		name := "AB"[i]
		if err := e.Check(); err != nil {
			all = append(all, fmt.Errorf("bearing %c of the pair: %w", name, err))
			continue
		}
		if e.ContactAngle == 0 {
			all = append(all, fmt.Errorf("bearing %c of the pair: it has no contact angle, so it takes no part in a pair", name))
		}
		if e.Clearance != 0 {
			all = append(all, fmt.Errorf("bearing %c of the pair: clearance %g mm given, leave it 0 and use the setting of the pair", name, e.Clearance))
		}
	}
	if most := min(p.A.Diameter, p.B.Diameter) / 8; len(all) == 0 && !(math.Abs(p.Setting) <= most) {
		all = append(all, fmt.Errorf("setting %g mm of the pair: at most an eighth of the element diameter (%.3g mm) is expected", p.Setting, most))
	}
	return errors.Join(all...)
}

// PreloadSetting is the setting (negative, mm) that gives the pair an axial preload, N ≥ 0, at rest.
func (p Pair) PreloadSetting(preload float64) (float64, error) {
	p.Setting = 0
	a, b, err := p.prepare()
	if err != nil {
		return 0, err
	}
	if !(preload >= 0 && preload <= mostForce) {
		return 0, fmt.Errorf("preload %g N: a number from 0 to %g is expected", preload, mostForce)
	}
	setting := 0.0
	for _, r := range []*row{a, b} {
		x, err := r.pushed(preload)
		if err != nil {
			return 0, err
		}
		setting -= x
	}
	return setting, nil
}

// PairState is a pair at rest under its loads.
type PairState struct {
	AxialA, AxialB float64 // axial force each bearing carries, N, ≥ 0
	Displacement   float64 // of the shaft along +x, from the middle of its setting, mm

	// Tangent is the axial stiffness of the pair at this place, N/mm: the sum of both rows',
	// their rings free to move sideways under their radial loads.
	Tangent float64
}

// Settle is the balance of the pair under the radial forces of both bearings, N ≥ 0, and an external
// axial force on the shaft, N, positive from A towards B. Unlike the catalogue rule of PairAxial it
// knows preload and end play. Rings and housing are stiff here, so real pairs lose preload sooner.
func (p Pair) Settle(radialA, radialB, axial float64) (PairState, error) {
	a, b, err := p.prepare()
	if err != nil {
		return PairState{}, err
	}
	if !(radialA >= 0 && radialA <= mostForce && radialB >= 0 && radialB <= mostForce && math.Abs(axial) <= mostForce) {
		return PairState{}, fmt.Errorf("radial forces %g and %g N, axial %g N: finite numbers are expected, the radial ones not below 0", radialA, radialB, axial)
	}
	sign := p.Arrangement.sign()
	size := math.Abs(axial) + radialA + radialB
	// x is the movement that presses A in and lets B out.
	var fault error
	var s PairState
	excess := func(x float64) float64 {
		fa, ka, errA := a.thrust(x-p.Setting/2, radialA)
		fb, kb, errB := b.thrust(-x-p.Setting/2, radialB)
		fault = errors.Join(errA, errB)
		s = PairState{AxialA: fa, AxialB: fb, Displacement: sign * x, Tangent: ka + kb}
		return fa - fb - sign*axial
	}
	// Nothing at rest between its end plays stays in the middle; otherwise widen until the balance is enclosed.
	if excess(0) == 0 || fault != nil {
		return s, fault
	}
	low, high := 0.0, 0.0
	step := math.Abs(p.Setting)/2 + 1e-4
	most := min(a.Diameter, b.Diameter) / 8
	for excess(low) > 0 && fault == nil {
		low, high = low-step, low
		step *= 2
		if low < -most {
			return PairState{}, fmt.Errorf("a pair under %.4g and %.4g N radial and %.4g N axial moves more than %.3g mm: the loads are too great for it", radialA, radialB, axial, most)
		}
	}
	for excess(high) < 0 && fault == nil {
		low, high = high, high+step
		step *= 2
		if high > most {
			return PairState{}, fmt.Errorf("a pair under %.4g and %.4g N radial and %.4g N axial moves more than %.3g mm: the loads are too great for it", radialA, radialB, axial, most)
		}
	}
	if fault != nil {
		return PairState{}, fault
	}
	excess(root(excess, low, high, 1e-10*size))
	return s, fault
}

// prepare checks the pair and prepares both rows, each in its own frame: pushed in is positive.
func (p Pair) prepare() (a, b *row, err error) {
	if err := p.Check(); err != nil {
		return nil, nil, err
	}
	p.A.ContactAngle, p.B.ContactAngle = math.Abs(p.A.ContactAngle), math.Abs(p.B.ContactAngle)
	a, errA := p.A.prepare()
	b, errB := p.B.prepare()
	return a, b, errors.Join(errA, errB)
}

// pushed is how far an axial force, N, alone pushes a row in, mm.
func (r *row) pushed(force float64) (float64, error) {
	p, err := r.settle(vector{force})
	return p.q[0], err
}

// thrust is the axial force of a row, N, and its stiffness, N/mm, pushed in by x, mm, under a radial
// force, N, with the ring free to move sideways and held against tilting.
func (r *row) thrust(x, radial float64) (force, tangent float64, err error) {
	q := vector{0: x}
	if radial == 0 {
		var h matrix
		a := r.state(q, &h)
		return a.force[0], h[0][0], nil
	}
	// Where the element under the load starts to carry, and a little deeper.
	touch := -x * r.sin / r.cos
	if r.Kind == Ball {
		along := r.reach*r.sin + x
		touch = math.Sqrt(max(0, r.reach*r.reach-along*along)) - r.apart
	}
	q[1] = max(0, touch) + r.touch(radial/r.cos)/r.cos
	p, err := r.balance(vector{1: radial}, q, [5]bool{1: true, 2: true})
	if err != nil {
		return 0, 0, fmt.Errorf("%d %ss pushed in by %.4g mm carry no radial force of %.4g N", r.Count, r.Kind, x, radial)
	}
	h := &p.tangent
	tangent = h[0][0]
	if det := h[1][1]*h[2][2] - h[1][2]*h[1][2]; det > 0 {
		tangent -= (h[2][2]*h[0][1]*h[0][1] - 2*h[1][2]*h[0][1]*h[0][2] + h[1][1]*h[0][2]*h[0][2]) / det
	}
	return p.force[0], max(0, tangent), nil
}
