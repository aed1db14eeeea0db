package gauge

import (
	"fmt"
	"math"
)

// Length and Angle are numbers of a note, mm and rad, that a report shows in its units.
type (
	Length float64
	Angle  float64
)

func (l Length) String() string { return fmt.Sprintf("%.4g mm", float64(l)) }
func (a Angle) String() string  { return fmt.Sprintf("%.4g°", float64(a)/degree) }

// Note is a remark about a gear or a pair, in words with its numbers.
type Note struct {
	About  string // name of the gear or the pair
	Format string // with a verb for each number
	Args   []any  // Length, Angle or anything else
}

// String is the note in mm and degrees.
func (n Note) String() string {
	text := fmt.Sprintf(n.Format, n.Args...)
	if n.About != "" {
		return n.About + ": " + text
	}
	return text
}

func (r *Result) note(about, format string, args ...any) {
	r.Notes = append(r.Notes, Note{about, format, args})
}

// lackTips puts aside readings that need the tip diameter of their gear, where it isn't known.
func (s Set) lackTips(r *Result) {
	for _, g := range s.Gears {
		var tip, root, between bool
		for _, k := range g.Readings {
			tip, root, between = tip || k.Kind == Tip, root || k.Kind == Root, between || k.Kind == TipToRoot
		}
		for i := range g.Readings {
			k := &g.Readings[i]
			switch needsTip := !tip; {
			case needsTip && (k.Kind == TipHelix || k.Kind == Chord):
				k.Aside = "it is counted from the tips: read the tip diameter too"
			case needsTip && !root && (k.Kind == Depth || k.Kind == TipToRoot), k.Kind == TipToRoot && !tip && !root && !between:
				k.Aside = "it needs the tip or the root diameter beside it"
			}
			if k.Aside != "" {
				r.note(g.Name, "the %s of %v is put aside: %s.", k.Name(), shown(k.Kind, k.Value), k.Aside)
			}
		}
	}
}

// shown is a value of a kind as a report shows it.
func shown(k Kind, v float64) any {
	if k.Angle() {
		return Angle(v)
	}
	return Length(v)
}

// putAside marks readings that the flank shows to be impossible; true when there was one, and the group must be
// worked out anew.
func (r *Result) putAside(u *unknowns, sub Set, f fit, members []int) (any bool) {
	if f.spread == nil || math.IsInf(f.square, 1) {
		return false
	}
	for i := range sub.Gears {
		g := &r.Set.Gears[members[i]]
		flank := u.flank(f.v, i)
		tip := 0.0
		if u.tip[i] >= 0 {
			tip = f.v[u.tip[i]]
		}
		for k := range g.Readings {
			reading := &g.Readings[k]
			if reading.Aside != "" {
				continue
			}
			switch reading.Kind {
			case Span:
				need := reading.Value * math.Sin(flank.helix)
				touch := math.Hypot(flank.base(), reading.Value*math.Cos(flank.helix))
				switch {
				case g.Face > 0 && need > g.Face*1.02:
					reading.Aside = "narrow"
					r.note(g.Name, "the %s is put aside: on this helix it needs a face of %v, and the gear has %v, so one jaw slips off. Measure over fewer teeth, or over two balls.",
						reading.Name(), Length(need), Length(g.Face))
				case tip > 0 && touch > tip+reading.Width():
					reading.Aside = "beyond"
					r.note(g.Name, "the %s is put aside: the jaws would touch at a diameter of %v, beyond the tips at %v. Measure over fewer teeth.",
						reading.Name(), Length(touch), Length(tip))
				}
			case OverBalls:
				if tip > 0 && reading.Value < tip {
					reading.Aside = "sunk"
					r.note(g.Name, "the size over %v balls is put aside: at %v it lies inside the tips of %v, so the anvils touched teeth and not balls. Take larger balls.",
						Length(reading.Size), Length(reading.Value), Length(tip))
				}
			}
			any = any || reading.Aside != ""
		}
	}
	return any
}

// missing says what the readings of a group lack to fix its flank.
func missing(u *unknowns, s Set, f fit) (all []Note) {
	say := func(format string, args ...any) {
		all = append(all, Note{About: s.Gears[0].Name, Format: format, Args: args})
	}
	spans, balls, helices := map[int]bool{}, map[float64]bool{}, 0
	for _, g := range s.Gears {
		for _, r := range g.Readings {
			switch r.Kind {
			case Span:
				spans[r.Teeth] = true
			case OverBalls:
				balls[r.Size] = true
			case TipHelix, Lead:
				helices++
			}
			if r.Aside != "" {
				continue
			}
		}
	}
	if helices == 0 && u.helix[0] >= 0 {
		say("the helix is not fixed: roll the tips over paper with ink, or find the lead. If the teeth are straight, say that it is a spur gear.")
	}
	switch {
	case len(spans) == 0 && len(balls) == 0:
		say("nothing tells the base pitch: read the span over two numbers of teeth, such as %d and %d, or the size over balls of two sizes.",
			max(2, s.Gears[0].Teeth/8), max(2, s.Gears[0].Teeth/8)+1)
	case len(spans) == 0 && len(balls) == 1:
		say("one size of ball cannot fix the flank: a thicker tooth of a smaller pitch reads the same. Read a span too, or take a second size of ball, which tells the base pitch to about ± %v.",
			Length(0.01))
	case len(spans) == 1 && len(balls) == 0:
		say("one span cannot fix the flank: read it over one tooth more or less, whose difference is the base pitch.")
	default:
		if f.spread == nil || math.IsInf(f.square, 1) {
			say("the readings do not fix the flank, or no gear has them: check the counts and the readings.")
		} else {
			at := u.pitch[0]
			say("the readings hardly fix the base pitch: %v ± %v.", Length(f.v[at]), Length(wide*math.Sqrt(f.spread[at][at])))
		}
	}
	return all
}

// contradictions names the reading without which the others agree, if all together hardly do.
func (r *Result) contradictions(u *unknowns, f fit, members []int) {
	freedom := len(u.rows) - len(u.freeBut(nil))
	if freedom <= 0 || f.square <= chiSquared(freedom) {
		return
	}
	best, at := f.square, -1
	for i := range u.rows {
		rest := append(append([]row(nil), u.rows[:i]...), u.rows[i+1:]...)
		if f := solve(rest, f.v, u.scale, u.freeBut(nil)); f.spread != nil && f.square < best {
			best, at = f.square, i
		}
	}
	about := r.Set.Gears[members[0]].Name
	if at < 0 || freedom > 1 && best > chiSquared(freedom-1) {
		r.note(about, "the readings contradict each other by more than their ± lets them: read them again, and give worn or rough teeth a wider ±.")
		return
	}
	from := u.readings[at]
	if from.gear >= 0 {
		about = r.Set.Gears[members[from.gear]].Name
	}
	made := u.rows[at].f(f.v)
	r.note(about, "the readings contradict each other: without the %s of %v (the others would make about %v) they agree, though another may be wrong too. Read it again.",
		from.reading.Name(), shown(from.reading.Kind, from.reading.Value), shown(from.reading.Kind, made))
}

// chiSquared is what a sum of squared misfits stays below in 999 of 1000 cases, by the approximation of Wilson and Hilferty.
func chiSquared(freedom int) float64 {
	const z = 3.0902
	n := float64(freedom)
	c := 1 - 2/(9*n) + z*math.Sqrt(2/(9*n))
	return n * c * c * c
}

// How short tips must be, in modules, before a word is said.
const shortTip = 0.85

// remarks says what a builder should know of the readings and of what was made of them.
func (r *Result) remarks(g Group, u *unknowns) {
	if len(g.Labels) == 0 {
		if g.Fixed {
			r.note(r.Set.Gears[g.Gears[0]].Name,
				"no tool of the series searched has this base pitch of %v; the free label stands alone. Check the spans and the counts.",
				Length(g.BasePitch.Value))
		}
		return
	}
	best := g.Labels[0]
	paired := map[int]bool{} // on a known distance
	for _, p := range r.Set.Pairs {
		for _, at := range p.Gears {
			paired[at] = paired[at] || p.Centre >= 0
		}
	}
	r.rolled(g, best)
	for i, at := range g.Gears {
		gear, l := r.Set.Gears[at], best.Gears[i]
		if a := l.Addendum; a.Value != 0 && a.Value+a.Tolerance < shortTip {
			r.note(gear.Name, "the tips stand only %.2f modules above the shifted reference circle, where a full tooth has 1: worn, chamfered, or shortened for clearance.",
				a.Value)
		}
		if l.Thinning.Value == 0 && !l.Bare && !paired[at] {
			r.note(gear.Name, "the profile shift is that of the tooth as it is: if it was thinned for backlash by %v, the shift from which it was thinned is %.3f more.",
				Length(0.05), 0.05/(2*best.Module*math.Tan(best.PressureAngle)))
		}
	}
}

// rolled says what ink rolls show: the trap of the helix.
func (r *Result) rolled(g Group, best Label) {
	for _, at := range g.Gears {
		gear := r.Set.Gears[at]
		for _, reading := range gear.Readings {
			if reading.Kind == TipHelix && reading.Aside == "" {
				r.note(gear.Name, "the ink roll shows the helix at the tips, %v here; at the reference circle, for which a box file asks, it is %v, and the same for every gear that it meshes with.",
					Angle(reading.Value), Angle(best.Helix.Value))
				return
			}
		}
	}
}

// closing says where a pair does not close.
func (r *Result) closing(c Close, measured Reading) {
	name := r.Set.Pairs[c.Pair].Name
	off := c.Own.Value - measured.Value
	switch room := math.Hypot(c.Own.Tolerance, measured.Width()); {
	case math.Abs(off) > 1.5*room:
		r.note(name, "does not close: its teeth stand at a centre distance of %v ± %v, and %v was measured. Check the spans, the helix and the distance.",
			Length(c.Own.Value), Length(c.Own.Tolerance), Length(measured.Value))
	case c.Assumed:
		r.note(name, "its backlash was not read: by the spans it is %v ± %v along the pitch circle. Spans contain the thinning for backlash, so spans alone give a centre distance that is too small.",
			Length(c.Backlash.Value), Length(c.Backlash.Tolerance))
	}
}
