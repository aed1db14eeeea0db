package iso6336

import (
	"errors"
	"fmt"
	"math"

	"layshaft/gearstress/involute"
)

// Form is everything about a pair that does not depend on load, speed or steel.
// It is worked out once and may be used by several goroutines.
type Form struct {
	Pair    *involute.Pair
	Edition Edition
	Tooth   [2]ToothForm
	// NormalContact is ε_αn = ε_α/cos²β_b, contact ratio of the equivalent spur gears, –.
	NormalContact float64
	ZH            float64    // Z_H, zone factor, –
	ZEps          float64    // Z_ε, contact ratio factor, –
	ZBeta         float64    // Z_β, helix angle factor, –
	M             [2]float64 // M_1, M_2: contact stress at the inner point of single contact over that at the pitch point, –
	YBeta         float64    // Y_β, helix angle factor of the root, –
	Height        [2]float64 // h = (d_a − d_f)/2, tooth height, mm
	Notes         []string   // where the geometry leaves the range of the standard

	relativeRadius float64 // ρ_red at the pitch point, transverse, mm
	pinion         int     // index of the gear with fewer teeth
}

// mostContact is the transverse contact ratio, –, from which on a rating is refused.
// Z_ε of spur gears falls to 0 at ε_α = 4, so a stress from up there would look far too
// harmless. Own choice.
const mostContact = 3.0

// NewForm works out the form factors of a pair. residual is the undercut s_pr
// that a protuberance tool leaves after grinding, mm, for each gear; zero takes
// what the rack of the pair says (Rack.Protuberance). Everything impossible comes back in one
// error.
func NewForm(p *involute.Pair, edition Edition, residual [2]float64) (*Form, error) {
	if p == nil {
		return nil, errors.New("no gear pair was given; make one with involute.New")
	}
	errs := []error{edition.valid()}
	for i, side := range sides {
		if residual[i] == 0 {
			residual[i] = p.Rack.Protuberance * p.Module
		}
		if !(residual[i] >= 0 && residual[i] < p.Module) {
			errs = append(errs, fmt.Errorf("%s: residual undercut s_pr is %v mm; expected 0 to less than one module (%g mm), usually a few hundredths of a millimetre", side, residual[i], p.Module))
		}
	}
	if eps := p.TransverseContactRatio; !(eps < mostContact) {
		errs = append(errs, fmt.Errorf("transverse contact ratio ε_α is %.3f; ISO 6336 covers 1 to 2.5, and from %g on its factors (Z_ε, Y_F) lose their meaning: check addendum, pressure angle and tip diameters", eps, mostContact))
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	cosBb := math.Cos(p.BaseHelix)
	f := &Form{Pair: p, Edition: edition, NormalContact: p.TransverseContactRatio / (cosBb * cosBb)}
	if p.Teeth[1] < p.Teeth[0] {
		f.pinion = 1
	}
	f.ZH = zoneFactor(p)
	f.ZEps = contactRatioFactor(p.TransverseContactRatio, p.OverlapRatio)
	f.ZBeta = 1 / math.Sqrt(math.Cos(p.Helix))
	f.YBeta = rootHelixFactor(edition, p.OverlapRatio, p.Helix)
	f.relativeRadius = relativeRadius(p)
	for i, side := range sides {
		var err error
		if f.M[i], err = singleContactFactor(p, i); err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", side, err))
		}
		f.Height[i] = (p.Tip[i] - p.Root[i]) / 2
		if err := f.cutTooth(i, residual[i]); err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", side, err))
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	if err := f.checkRange(residual); err != nil {
		return nil, err
	}
	return f, nil
}

func (f *Form) cutTooth(i int, residual float64) error {
	p := f.Pair
	cosBb := math.Cos(p.BaseHelix)
	zn := float64(p.Teeth[i]) / (cosBb * cosBb * math.Cos(p.Helix))
	c := cutTooth{
		angle:       p.Rack.PressureAngle,
		dedendum:    p.Rack.Dedendum,
		tipRadius:   p.Rack.TipRadius,
		residual:    residual / p.Module,
		teeth:       zn,
		shift:       p.CutShift(i),
		tipDiameter: zn + (p.Tip[i]-p.Reference[i])/p.Module,
		contact:     f.NormalContact,
	}
	t, err := c.form(p.Module)
	if err != nil {
		return err
	}
	if f.Edition == Edition2019 {
		t.LoadSharing = loadSharing(f.NormalContact, p.OverlapRatio)
		t.YF *= t.LoadSharing
	}
	f.Tooth[i] = t
	return nil
}

// checkRange writes a note wherever the standard's own range is left.
func (f *Form) checkRange(residual [2]float64) error {
	p := f.Pair
	if eps := f.NormalContact; eps > 2.5 {
		f.note("contact ratio of the equivalent spur gears is %.3f (ε_αn), more than the 2.5 that ISO 6336-3 covers", eps)
	} else if eps >= 2 {
		f.note("contact ratio of the equivalent spur gears is %.3f (ε_αn): at least two pairs always share the load, which the point of single contact (Y_F, Z_B, Z_D) does not describe well; Y_DT stands for it only with accuracy grade 4 or better", eps)
	}
	if b := degrees(p.Helix); b > 30+1e-9 {
		f.note("helix angle is %.2f°: Y_β is held at its value of 30° and the results should be confirmed by experience (ISO 6336-3)", b)
	}
	if a := degrees(p.Rack.PressureAngle); a > 25+1e-9 {
		f.note("pressure angle is %.2f°, more than the 25° up to which the results of ISO 6336-2 and -3 are confirmed by experience", a)
	}
	for i, side := range sides {
		t := f.Tooth[i]
		if t.Notch < 1 || t.Notch >= 8 {
			f.note("%s: notch parameter q_s is %.3f, outside 1 to 8 where Y_S is confirmed (ISO 6336-3)", side, t.Notch)
		}
		outline, err := p.Tooth(i)
		if err != nil {
			return err
		}
		if outline.Undercut {
			f.note("%s: the tooth is undercut (x = %.3f); ISO 6336-3 does not cover an involute that starts above the fillet", side, outline.Shift)
		}
		// The outline has the protuberance of the rack in it; with another the comparison says nothing.
		if residual[i] == p.Rack.Protuberance*p.Module && 2*t.sectionRadius > outline.Form {
			f.note("%s: the 30° tangent touches above the fillet (diameter %.3f mm, the involute starts at %.3f mm of the equivalent spur gear); the true critical section lies lower", side, 2*t.sectionRadius, outline.Form)
		}
	}
	if f.Edition == Edition2019 && f.NormalContact > 2.05 && p.OverlapRatio == 0 {
		f.note("f_ε (2019 edition) and Y_DT both allow for shared load with ε_αn = %.3f: with accuracy grade 4 or better both are in the stress", f.NormalContact)
	}
	return nil
}

func (f *Form) note(format string, args ...any) {
	f.Notes = append(f.Notes, fmt.Sprintf(format, args...))
}

var sides = [2]string{"driver", "driven gear"}
