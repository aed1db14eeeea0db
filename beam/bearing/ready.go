package bearing

import (
	"errors"
	"fmt"
	"math"
)

// Row is a row of elements made ready to be asked time and again, as Elements.Hold is. It looks for the place
// along the axis from where the ring came to rest last, which changes nothing but rounding. It serves one
// goroutine at a time.
type Row struct {
	row  *row
	rest float64 // last, mm
}

// Ready checks the elements and readies them.
func (e Elements) Ready() (*Row, error) {
	r, err := e.prepare()
	if err != nil {
		return nil, err
	}
	return &Row{row: r}, nil
}

// Hold is Elements.Hold.
func (w *Row) Hold(s Stance, thrust float64) (Hold, Tangent, error) {
	r := w.row
	if err := errors.Join(s.check(r.Pitch), checkThrust(thrust)); err != nil {
		return Hold{}, Tangent{}, err
	}
	if r.Kind != Tapered { // a tapered row alone is simply pushed in until it carries the thrust
		if err := r.bearable(vector{thrust}); err != nil {
			return Hold{}, Tangent{}, err
		}
	}
	var h matrix
	x := 0.0
	a := r.state(s.at(x), &h)
	if r.Kind == Ball || r.sin != 0 {
		ok := slide(&x, w.rest, thrust, func(x float64) (force, stiffness, total float64) {
			a = r.state(s.at(x), &h)
			return a.force[0], h[0][0], a.total
		}, a.force[0]-thrust, a.total)
		if !ok {
			if x, ok = rest(func(x float64) (float64, float64) {
				a := r.state(s.at(x), nil)
				return a.force[0] - thrust, a.total
			}, math.Abs(thrust), r.Diameter); !ok {
				return Hold{}, Tangent{}, fmt.Errorf("%d %ss of %.4g mm take a thrust of %.4g N only if their ring moves more than %.3g mm along the axis, their diameter: it is too much for them", r.Count, r.Kind, r.Diameter, thrust, r.Diameter)
			}
			a = r.state(s.at(x), &h)
		}
	}
	w.rest = x
	t, _ := condensed(&h, &h, h[0][0])
	return held(a, x), t, nil
}

// slide looks for the place where the axial force is the one asked by Newton's method, from the place at hand; excess and total are those at 0,
// which is taken where it will do. It is not ok where that doesn't come down quickly. The last call of force is at x.
func slide(x *float64, start, asked float64, force func(x float64) (force, stiffness, total float64), excess, total float64) bool {
	if math.Abs(excess) <= nothing*(math.Abs(asked)+total) {
		return true
	}
	if asked == 0 {
		return false // the ring may lie loose elsewhere, and then the place nearest 0 is taken
	}
	at := start
	last := math.Inf(1)
	for range 12 {
		f, stiffness, total := force(at)
		excess := math.Abs(f - asked)
		if excess <= nothing*math.Abs(asked)+1e-14*total {
			*x = at
			return true
		}
		if !(stiffness > 0) || excess > 0.5*last {
			return false
		}
		last = excess
		at -= (f - asked) / stiffness
	}
	return false
}

// ReadyPair is a pair of rows made ready in the same way.
type ReadyPair struct {
	a, b *row
	half float64 // of the setting, that keeps each row from closing, or pushes it in, mm
	rest float64
}

// Ready checks the pair and readies it.
func (p Pair) Ready() (*ReadyPair, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	p.A, p.B = p.Rows()
	a, errA := p.A.prepare()
	b, errB := p.B.prepare()
	if err := errors.Join(errA, errB); err != nil {
		return nil, err
	}
	return &ReadyPair{a: a, b: b, half: p.Arrangement.sign() * p.Setting / 2}, nil
}

// Hold is Pair.Hold.
func (w *ReadyPair) Hold(a, b Stance, thrust float64) (holdA, holdB Hold, tangentA, tangentB, cross Tangent, err error) {
	if err = errors.Join(a.check(w.a.Pitch), b.check(w.b.Pitch), checkThrust(thrust)); err != nil {
		return
	}
	var ha, hb matrix
	var fa, fb answer
	both := func(x float64) (force, stiffness, total float64) {
		fa, fb = w.a.state(a.at(x-w.half), &ha), w.b.state(b.at(x+w.half), &hb)
		return fa.force[0] + fb.force[0], ha[0][0] + hb[0][0], fa.total + fb.total
	}
	x := 0.0
	f, _, total := both(x)
	if !slide(&x, w.rest, thrust, both, f-thrust, total) {
		most := min(w.a.Diameter, w.b.Diameter)
		var ok bool
		if x, ok = rest(func(x float64) (float64, float64) {
			fa, fb := w.a.state(a.at(x-w.half), nil), w.b.state(b.at(x+w.half), nil)
			return fa.force[0] + fb.force[0] - thrust, fa.total + fb.total
		}, math.Abs(thrust), most); !ok {
			err = fmt.Errorf("a pair of tapered rollers takes a thrust of %.4g N only if the shaft moves more than %.3g mm along its axis: it is too much for it", thrust, most)
			return
		}
		both(x)
	}
	w.rest = x
	holdA, holdB = held(fa, x-w.half), held(fb, x+w.half)
	axial := ha[0][0] + hb[0][0]
	tangentA, cross = condensed(&ha, &hb, axial)
	tangentB, _ = condensed(&hb, &hb, axial)
	return
}
