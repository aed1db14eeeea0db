package scuffing

import (
	"math"
	"testing"
)

// The friction power as a sum over the pairs of teeth in contact, Σ μ w |v_s|, at many moments while
// the gears turn by one pitch. The shares are written out anew; midpoint rule, 4000 moments.
func TestFrictionPowerIsTheSumOverPairsInContact(t *testing.T) {
	spec := spurSpec()
	for _, teeth := range [][2]int{{20, 37}, {37, 20}, {31, 31}} {
		spec.Teeth = teeth
		p := pairOf(t, spec)
		in := inputOf(p)
		r := screen(t, in)
		force := in.Torque / (p.Base[0] / 2) // along the line of action, N
		spin := in.Speed * (1 + float64(teeth[0])/float64(teeth[1]))
		pitch := math.Pi * p.Base[0] / float64(teeth[0])
		const moments = 4000
		power := 0.0
		for k := range moments {
			for s := r.A.Distance + (float64(k)+0.5)/moments*pitch; s < r.E.Distance; s += pitch {
				share := 1.0
				switch {
				case s < r.B.Distance:
					share = (1 + (s-r.A.Distance)/(r.B.Distance-r.A.Distance)) / 3
				case s > r.D.Distance:
					share = (1 + (r.E.Distance-s)/(r.E.Distance-r.D.Distance)) / 3
				}
				power += r.Flash.Friction * force * share * math.Abs(s) * spin / moments
			}
		}
		near(t, "friction power", r.FrictionPower, power, 1e-4*power)
		near(t, "share of the driver's power", r.FrictionShare, power/(in.Torque*in.Speed), 1e-4*r.FrictionShare)
	}
}

// Ohlendorf's loss factor (from memory; Niemann and Winter, Maschinenelemente II):
//
//	P_V/P = μ π (u + 1)/(z_1 u cos β_b) (1 − ε_α + ε_1² + ε_2²)
//
// It halves the load between two pairs where the standard's share goes from ⅓ to ⅔. Worked out by
// hand, that takes (ε_α − 1)²/9 off the bracket; with 1/ε_α all along the path of wide helical
// pairs the bracket is (ε_1² + ε_2²)/ε_α, and 1 + 0.3 at the ends adds to it.
func TestFrictionShareAgainstOhlendorf(t *testing.T) {
	p := pairOf(t, spurSpec())
	r := screen(t, inputOf(p))
	w, err := newPath(p, 300)
	if err != nil {
		t.Fatal(err)
	}
	e1, e2, eps := w.addendum()[0], w.addendum()[1], w.contactRatio()
	scale := r.Flash.Friction * math.Pi * (1.0/20 + 1.0/37)
	ohlendorf := scale * (1 - eps + e1*e1 + e2*e2)
	near(t, "spur pair", r.FrictionShare, ohlendorf-scale*(eps-1)*(eps-1)/9, 1e-9)
	t.Logf("standard's sharing against Ohlendorf: %.1f %%", 100*(r.FrictionShare/ohlendorf-1))

	spec := helicalSpec()
	spec.Face = 40
	p = pairOf(t, spec)
	r = screen(t, inputOf(p))
	if w, err = newPath(p, 300); err != nil {
		t.Fatal(err)
	}
	e1, e2, eps = w.addendum()[0], w.addendum()[1], w.contactRatio()
	plain := (e1*e1 + e2*e2) / eps
	// Each end: 2/ε_α ∫ 0.3 (1 − x/l) (e − x) dx from 0 to l, in base pitches.
	l := 0.2 * math.Sin(p.BaseHelix) * p.Working[0] / 2 * math.Sin(p.WorkingPressureAngle) / w.pitch
	ends := 2 / eps * 0.3 * ((e1+e2)*l/2 - 2*l*l/6)
	near(t, "wide helical pair", r.FrictionShare, r.Flash.Friction*math.Pi*(1.0/17+1.0/38)/math.Cos(p.BaseHelix)*(plain+ends), 1e-9)
}

// The mean flash is that of a plain fine sum over the stations' formulas.
func TestMeanFlashAgainstAFineSum(t *testing.T) {
	for _, in := range []Input{inputOf(pairOf(t, spurSpec())), inputOf(pairOf(t, helicalSpec()))} {
		r := screen(t, in)
		w, err := newPath(in.Pair, in.Speed)
		if err != nil {
			t.Fatal(err)
		}
		h := newSharing(w, 7, 0)
		b := Steel.ThermalContact()
		c := &mesh{path: w, sharing: h, load: r.LineLoad / w.cos, thermal: [2]float64{b, b}, ze: steelOnSteel}
		const n = 20000
		sum, most := 0.0, 0.0
		for k := range n {
			s := w.a + (float64(k)+0.5)/n*(w.e-w.a)
			f := c.station(s, h.at(s, s), 1, r.Flash.Friction).Flash
			sum += f / n
			most = max(most, f)
		}
		near(t, "mean flash", r.Flash.Mean, sum, 1e-3*sum)
		near(t, "highest flash", r.Flash.Hottest.Flash, most, 2e-3*most)
	}
}
