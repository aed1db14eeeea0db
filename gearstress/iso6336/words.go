package iso6336

import (
	"fmt"
	"slices"
)

// say writes down where a rating leaves the range of the standard and what it takes for granted.
func (r *Rating) say(c *Compiled, l *load) {
	f := c.form
	r.Notes = slices.Concat(f.Notes, r.Stiffness.Notes, l.dynamic.notes(l.applied))
	for i, side := range sides {
		g := &c.in.Gear[i]
		if !c.hardness[i] {
			r.assume("%s: hardness in HBW not known; no gain from work hardening counted (Z_W = 1)", side)
		}
		r.sayOf(&c.flank[i], side, "flank")
		if c.in.Relief == NoRelief && f.Edition == Edition2019 && f.Pair.OverlapRatio > 0 && i == 0 {
			r.assume("helical teeth without known tip relief: Z_B and Z_D hold f_ZCa = 1.2 (2019 edition, from memory)")
		}
		if rim := g.Body.Rim; rim > 0 && rim <= thinnestRim*f.Height[i] {
			r.note("%s: the rim of %.3g mm is only %.2f tooth heights thick; ISO 6336-3 gives no Y_B at 0.5 and below and asks to avoid it (Y_B = %.2f is the formula carried on)", side, rim, rim/f.Height[i], c.yb[i])
		}
		if rz := g.RootRoughness * 1000; rz > 40 {
			r.note("%s: roughness of the fillet R_z = %.3g µm is beyond the 40 µm up to which Y_RrelT is given; that of 40 µm is taken", side, rz)
		}
		r.sayOf(&c.root[i], side, "root")
	}
}

// sayOf is the same of one strength.
func (r *Rating) sayOf(s *strength, side, what string) {
	if second := s.capped(); second > 0 {
		r.assume("%s, %s: the long life strength of %.4g MPa would be above the static strength of %.4g MPa; the static one holds until the other falls below it", side, what, second, s.curve.Static())
	}
	if s.cycles > longLife {
		r.note("%s, %s: %.3g load cycles are beyond the 10^10 where the life factors of ISO 6336 end; that of 10^10 is taken", side, what, s.cycles)
	}
}

func (r *Rating) note(format string, args ...any) {
	r.Notes = append(r.Notes, fmt.Sprintf(format, args...))
}

func (r *Rating) assume(format string, args ...any) {
	r.Assumed = append(r.Assumed, fmt.Sprintf(format, args...))
}
