package agma2001

import (
	"errors"
	"fmt"
	"math"

	"layshaft/gearstress/involute"
)

// Tool is the rack-type cutter (hob) that made the teeth, and what it took off their
// thickness.
type Tool struct {
	Addendum     float64    // h_ao, in modules: depth it cuts below the reference line
	TipRadius    float64    // ρ_ao, in modules
	Protuberance float64    // δ_ao, in modules: what it undercuts for the grinding wheel; 0 = none
	Thinning     [2]float64 // Δs_n of driver and driven gear, in modules: tooth thickness taken off for backlash, ≥ 0
}

// ToolOf is the plain tool that cuts a basic rack: its addendum is the dedendum of the
// rack. The teeth are not thinned: the printed tables of AGMA 908-B89 take 0.024 modules off
// each gear, which lowers J by 1 to 3 %.
func ToolOf(r involute.Rack) Tool { return Tool{Addendum: r.Dedendum, TipRadius: r.TipRadius} }

// faintPoint is how far the centre of the tip radius may lie beyond the middle of the tool
// tooth, as a share of the radius: the two arcs then meet within 6° of level, far
// below the critical section. The 25° tables of AGMA 908-B89 come from such a tool.
const faintPoint = 0.1

func (t Tool) validate(p *involute.Pair) error {
	var errs []error
	bad := func(format string, args ...any) { errs = append(errs, fmt.Errorf(format, args...)) }
	sin, cos := math.Sincos(p.Rack.PressureAngle)
	if !(t.Addendum > 0 && t.Addendum <= 3) {
		bad("tool addendum is %v modules; expected more than 0 and at most 3, usually 1.25 to 1.4: a length in mm must be divided by the module", t.Addendum)
	}
	if !(t.Protuberance >= 0 && t.Protuberance <= 0.2) {
		bad("protuberance of the tool is %v modules; expected 0 to 0.2, usually 0.02 to 0.05", t.Protuberance)
	}
	if !(t.TipRadius >= 0 && t.TipRadius <= 1) {
		bad("tip radius of the tool is %v modules; expected 0 to 1, usually 0.2 to 0.4", t.TipRadius)
	}
	if len(errs) == 0 {
		if e := t.tipCentre(p.Rack.PressureAngle); e < -faintPoint*t.TipRadius-1e-9 {
			bad("the two tip radii of the tool overlap by %.4g modules: a radius of %.4g does not fit an addendum of %.4g", -2*e, t.TipRadius, t.Addendum)
		}
		if t.Addendum-t.TipRadius*(1-sin) <= 0 {
			bad("tip radius %.4g of the tool leaves no straight flank below its reference line with an addendum of %.4g", t.TipRadius, t.Addendum)
		}
	}
	for i, side := range sides {
		if !(t.Thinning[i] >= 0 && t.Thinning[i] <= 0.3*cos) {
			bad("%s: tooth thinning is %v modules; expected 0 to %.2f, usually about 0.02 to 0.05", side, t.Thinning[i], 0.3*cos)
		}
	}
	return errors.Join(errs...)
}

// tipCentre is the distance from the middle of the tool tooth to the centre of its tip
// radius, in modules: π/4 − h_ao tan φ − (1 − sin φ) ρ_ao/cos φ + δ_ao/cos φ.
func (t Tool) tipCentre(phi float64) float64 {
	sin, cos := math.Sincos(phi)
	return math.Pi/4 - t.Addendum*sin/cos - (1-sin)*t.TipRadius/cos + t.Protuberance/cos
}

// Form is what depends on the teeth alone: the geometry factors. It is worked out once
// and may be used by several goroutines. I and J may be replaced by figures from a book
// before Rate is called.
type Form struct {
	Pair    *involute.Pair
	Tool    Tool
	I       float64    // geometry factor I (Z_I), pitting resistance, –
	J       [2]float64 // geometry factor J (Y_J), bending strength, –
	Contact Contact    // how I came about
	Tooth   [2]Tooth   // how J came about
	Notes   []string   // where AGMA 908-B89 does not cover the pair, or it was carried beyond its range

	pinion    int  // index of the gear with fewer teeth, the driver's when equal
	tipLoaded bool // load at the tip on spur teeth too
}

// NewForm works out I and J of a pair cut by a tool. Everything impossible comes back in
// one error.
//
// Spur and low overlap (m_F ≤ 1) teeth carry the load at the highest point of single
// tooth contact, others at the tip, shared by the lines of contact. Source: AGMA 908-B89,
// clauses 3 to 5 (from memory).
func NewForm(p *involute.Pair, tool Tool) (*Form, error) { return newForm(p, tool, false) }

// newForm puts the whole load at the tip of the tooth if tip says so, also where m_F ≤ 1.
func newForm(p *involute.Pair, tool Tool, tip bool) (*Form, error) {
	if p == nil {
		return nil, errors.New("no gear pair was given; make one with involute.New")
	}
	if err := tool.validate(p); err != nil {
		return nil, err
	}
	f := &Form{Pair: p, Tool: tool, tipLoaded: tip}
	if p.Teeth[1] < p.Teeth[0] {
		f.pinion = 1
	}
	var errs []error
	if p.TransverseContactRatio >= 2 && p.OverlapRatio <= 1 {
		errs = append(errs, fmt.Errorf("transverse contact ratio is %.3f (m_p) with an overlap of %.3f (m_F): AGMA 908-B89 rates teeth that share the load like this only below 2; use the ISO rating", p.TransverseContactRatio, p.OverlapRatio))
	} else if err := f.contact(); err != nil {
		errs = append(errs, err)
	}
	for i, side := range sides {
		if err := f.tooth(i); err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", side, err))
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	for i := range f.J {
		f.Tooth[i].J = f.Tooth[i].Y * f.Contact.Overlap / (f.Tooth[i].StressCorrection * f.Contact.Sharing)
		f.J[i] = f.Tooth[i].J
	}
	f.I = f.Contact.I
	return f, f.checkRange()
}

// checkRange writes a note wherever the standard's own range is left.
func (f *Form) checkRange() error {
	p := f.Pair
	if p.TransverseContactRatio >= 2 {
		f.note("transverse contact ratio is %.3f (m_p): AGMA 908-B89 covers less than 2", p.TransverseContactRatio)
	}
	if b := p.Helix * 180 / math.Pi; b > 50+1e-9 {
		f.note("helix angle is %.2f°: AGMA 908-B89 covers up to 50°", b)
	}
	for i, side := range sides {
		outline, err := p.Tooth(i)
		if err != nil {
			return err
		}
		if outline.Undercut {
			f.note("%s: the tooth is undercut (x = %.3f); AGMA 908-B89 covers it only below the start of contact", side, p.X[i])
		}
		if f.Tooth[i].AtFilletEnd {
			f.note("%s: the parabola touches above the fillet; the section at its upper end is taken, which makes J slightly large", side)
		}
	}
	return nil
}

func (f *Form) note(format string, args ...any) {
	f.Notes = append(f.Notes, fmt.Sprintf(format, args...))
}

var sides = [2]string{"driver", "driven gear"}
