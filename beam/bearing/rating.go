package bearing

import (
	"errors"
	"fmt"
	"math"
)

// Rating is what a catalogue says a bearing bears. Kind Ball is a deep groove ball bearing, or one of angular contact.
type Rating struct {
	Kind    Kind
	Dynamic float64 // basic dynamic load rating C, N; 0 where only static safety is asked
	Static  float64 // basic static load rating C0, N; 0 where only the life of a roller bearing is asked

	// Of a tapered bearing, from the catalogue or from TaperedFactors: the limit e of F_a/F_r up
	// to which axial load does not count, the axial factor Y and the static axial factor Y0, –.
	E, Y, Y0 float64

	// Factor f0 of a deep groove ball bearing, from the catalogue, –; 0 = not known, usualF0.
	F0 float64

	Fatigue float64 // fatigue load limit C_u, N; 0 = not known, FatigueLimit
	Mean    float64 // diameter half way from bore to outside, which stands for the pitch diameter, mm; 0 = not known

	// Contact angle of an angular contact ball bearing, rad, its size alone; 0 = deep groove. It
	// moves nothing of other kinds.
	Angle float64
}

// Check says what cannot be about the rating, all of it at once; nil if nothing.
func (c Rating) Check() error {
	if c.Kind < Ball || c.Kind > Tapered {
		return fmt.Errorf("rating of an unknown kind %d of bearing: use Ball, Cylindrical, Needle or Tapered", int(c.Kind))
	}
	var all []error
	for _, v := range []struct {
		name  string
		value float64
		most  float64
	}{{"dynamic rating C, N", c.Dynamic, mostForce}, {"static rating C0, N", c.Static, mostForce}, {"factor e", c.E, 100}, {"factor Y", c.Y, 100}, {"factor Y0", c.Y0, 100}, {"factor f0", c.F0, 100}, {"fatigue load limit C_u, N", c.Fatigue, mostForce}, {"mean diameter, mm", c.Mean, 10000}, {"contact angle, rad", c.Angle, mostContactAngle}} {
		if !(v.value >= 0 && v.value <= v.most) {
			all = append(all, fmt.Errorf("%s: %g given, a number from 0 to %g is expected", v.name, v.value, v.most))
		}
	}
	return errors.Join(all...)
}

// Equivalent is the dynamic equivalent load P, N, of a radial and an axial load, N (their signs do
// not count).
//
//	deep groove ball   F_a/F_r ≤ e: P = F_r, else X F_r + Y F_a; from DeepGrooveFactors
//	angular contact    the same, from AngularFactors
//	tapered            F_a/F_r ≤ e: P = F_r, else 0.4 F_r + Y F_a
//	cylindrical        P = F_r, no axial load
//
// Never less than F_r: the rounded factors of the deep groove table alone would fall up to 1 % short
// of it just past e. Sources: ISO 281 in the form of bearing makers' catalogue pages (tapered), and
// its table (deep groove).
func (c Rating) Equivalent(radial, axial float64) (float64, error) {
	fr, fa, err := c.loads(radial, axial)
	if err != nil {
		return 0, err
	}
	switch c.Kind {
	case Ball:
		if fa == 0 {
			return fr, nil
		}
		if c.Static == 0 && c.Angle < steep {
			return 0, errors.New("a deep groove ball bearing under axial load needs its static rating C0: give it")
		}
		x, y, e, _ := DeepGrooveFactors(fa, c.Static, c.F0)
		if c.Angle > 0 {
			x, y, e, _ = AngularFactors(c.Angle, fa, c.Static, c.F0)
		}
		if fa <= e*fr {
			return fr, nil
		}
		return max(fr, x*fr+y*fa), nil
	case Tapered:
		if fa > 0 && (c.E == 0 || c.Y == 0) {
			return 0, errors.New("a tapered bearing under axial load needs its factors e and Y: give those of the catalogue, or of its contact angle (TaperedFactors)")
		}
		if fa <= c.E*fr {
			return fr, nil
		}
		return max(fr, 0.4*fr+c.Y*fa), nil
	}
	return fr, nil
}

// StaticEquivalent is the static equivalent load P0, N, of a radial and an axial load, N.
//
//	deep groove ball   P0 = 0.6 F_r + 0.5 F_a, at least F_r
//	angular contact    P0 = 0.5 F_r + Y0 F_a, at least F_r
//	tapered            P0 = 0.5 F_r + Y0 F_a, at least F_r
//	cylindrical        P0 = F_r
//
// Source: ISO 76, in the form of bearing makers' catalogue pages.
func (c Rating) StaticEquivalent(radial, axial float64) (float64, error) {
	fr, fa, err := c.loads(radial, axial)
	if err != nil {
		return 0, err
	}
	switch c.Kind {
	case Ball:
		if c.Angle > 0 {
			_, _, _, y0 := AngularFactors(c.Angle, fa, 1, 0)
			return max(fr, 0.5*fr+y0*fa), nil
		}
		return max(fr, 0.6*fr+0.5*fa), nil
	case Tapered:
		if fa > 0 && c.Y0 == 0 {
			return 0, errors.New("a tapered bearing under axial load needs its static factor Y0: give that of the catalogue, or of its contact angle (TaperedFactors)")
		}
		return max(fr, 0.5*fr+c.Y0*fa), nil
	}
	return fr, nil
}

// StaticSafety is C0/P0 under a radial and an axial load, N; +Inf without load. Source: ISO 76.
func (c Rating) StaticSafety(radial, axial float64) (float64, error) {
	p0, err := c.StaticEquivalent(radial, axial)
	if err != nil {
		return 0, err
	}
	if c.Static == 0 {
		return 0, errors.New("static safety needs the static rating C0: give it")
	}
	return c.Static / p0, nil
}

// Life is the basic rating life L10 in millions of revolutions under a steady radial and axial load, N;
// +Inf without load. Source: ISO 281.
func (c Rating) Life(radial, axial float64) (float64, error) {
	p, err := c.Equivalent(radial, axial)
	if err != nil {
		return 0, err
	}
	if c.Dynamic == 0 {
		return 0, errors.New("a life needs the dynamic rating C: give it")
	}
	return BasicLife(c.Kind, c.Dynamic, p), nil
}

// loads checks the rating and both loads and takes off their signs.
func (c Rating) loads(radial, axial float64) (fr, fa float64, err error) {
	if err := c.Check(); err != nil {
		return 0, 0, err
	}
	fr, fa = math.Abs(radial), math.Abs(axial)
	if !(fr <= mostForce && fa <= mostForce) {
		return 0, 0, fmt.Errorf("radial load %g N, axial load %g N: numbers up to %g are expected", radial, axial, mostForce)
	}
	if fa > 0 && (c.Kind == Cylindrical || c.Kind == Needle) {
		return 0, 0, fmt.Errorf("an axial load of %.4g N on a %v bearing: these rules have no place for it, let another bearing or the ribs take it", fa, c.Kind)
	}
	return fr, fa, nil
}

// usualF0 is f0 where the catalogue is not at hand: with it the table below is the older one
// over F_a/C0, 0.014 to 0.56. Deep groove ball bearings of the sizes in gearboxes have 12 to 15.
const usualF0 = 12.3

// deepGroove is the table for deep groove ball bearings of ordinary clearance: f0 F_a/C0, the limit
// e of F_a/F_r, the axial factor Y. The radial factor X is 0.56 throughout.
// Source: ISO 281, table of X and Y for radial ball bearings (from memory).
var deepGroove = [...]struct{ load, e, y float64 }{
	{0.172, 0.19, 2.30}, {0.345, 0.22, 1.99}, {0.689, 0.26, 1.71}, {1.03, 0.28, 1.55}, {1.38, 0.30, 1.45},
	{2.07, 0.34, 1.31}, {3.45, 0.38, 1.15}, {5.17, 0.42, 1.04}, {6.89, 0.44, 1.00},
}

// DeepGrooveFactors are the factors of a deep groove ball bearing of ordinary clearance under an
// axial load, N, with a static rating C0, N, and the factor f0 (0 = not known): the radial factor X
// and the axial factor Y, which count past the limit e of F_a/F_r. Between the rows of the table of
// ISO 281 they are interpolated over f0 F_a/C0, as the standard has it; beyond, the value of its
// end is kept and within is false.
func DeepGrooveFactors(axial, static, f0 float64) (x, y, e float64, within bool) {
	if f0 == 0 {
		f0 = usualF0
	}
	load := f0 * axial / static
	first, last := deepGroove[0], deepGroove[len(deepGroove)-1]
	within = load >= first.load && load <= last.load
	load = min(max(load, first.load), last.load)
	i := 1
	for deepGroove[i].load < load {
		i++
	}
	low, high := deepGroove[i-1], deepGroove[i]
	part := (load - low.load) / (high.load - low.load)
	return 0.56, low.y + part*(high.y-low.y), low.e + part*(high.e-low.e), within
}

// TaperedFactors are e, Y and Y0 of a single row tapered roller bearing from its contact angle, rad
// (its sign does not count), for want of a catalogue.
//
//	e = 1.5 tan α    Y = 0.4 cot α    Y0 = 0.22 cot α
//
// Sources: ISO 281 (e, Y) and ISO 76 (Y0), written down from memory.
func TaperedFactors(angle float64) (e, y, y0 float64) {
	t := math.Tan(math.Abs(angle))
	return 1.5 * t, 0.4 / t, 0.22 / t
}
