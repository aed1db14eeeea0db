package gearbox

import (
	"fmt"
	"math"
	"slices"

	"layshaft/gearstress/iso6336"
	"layshaft/material"
)

// What a rating by ISO 6336 needs and a box file may leave out. Common practice for car gears, no source; each that is used is told in the notes.
const (
	usualViscosity = 100.0 // ν_40, mm²/s
	usualGrade     = 7     // ISO 1328-1
	usualFlank     = 0.003 // Rz of a ground or honed flank, mm
	usualFillet    = 0.016 // Rz of a fillet, mm
)

// endless is for how many load cycles of its slower gear a mesh is rated where no duty is told: where the long life of a case-hardened flank begins
// (ISO 6336-2); that of roots begins earlier.
const endless = 5e7

// prepareRating readies a mesh for its rating.
func (p *prepared) prepareRating(i int) {
	q := &p.pairs[i]
	for k := range q.steels {
		if _, err := iso6336.StrengthOf(&q.steels[k], material.Typical); err != nil {
			p.warn(path("meshes", p.box.Meshes[i].Name), "no rating by ISO 6336", "The steel of one of its gears has no limits of root and flank (group, root_limit, flank_limit), so its fatigue isn't judged; Lewis and Hertz, even load and all, stand in.")
			return
		}
	}
	if err := q.teeth.unrated; err != nil {
		p.warn(path("meshes", p.box.Meshes[i].Name), "no rating by ISO 6336", "%s", err.Error())
		return
	}
	q.form = q.teeth.form
	q.deviation = p.deviation(i)
}

// fastFlank is the pitch line velocity at which flanks run in, mm/s, by the cautious choice: the faster they run, the less wears off.
const fastFlank = 20e3

// deviation is how far the flanks of a mesh may be out of line from their making, to either side, mm over the common face: f_ma of ISO 6336-1 by the accuracy grades, less what wears off.
// A gear whose own lead error is given adds nothing to it.
func (p *prepared) deviation(i int) float64 {
	q, m := &p.pairs[i], p.box.Meshes[i]
	var slopes [2]float64
	var strengths [2]iso6336.Strength
	for k, gi := range q.gears {
		g, s := p.box.Gears[gi], q.steels[k]
		strengths[k] = iso6336.Strength{Group: s.Group, Contact: s.FlankLimit.At(material.High)}
		if g.LeadKnown {
			continue
		}
		grade := g.Grade
		if grade == 0 {
			grade = usualGrade
		}
		if slope, err := iso6336.HelixSlopeTolerance(q.geometry.Reference[k], q.to-q.from, grade); err == nil {
			slopes[k] = slope
		}
	}
	made := iso6336.ManufacturingMisalignment(slopes, m.PatternChecked)
	return made - iso6336.HelixRunningIn(strengths, made, fastFlank)
}

// inputKey is a question to ISO 6336 but for its load.
type inputKey struct {
	mesh    int
	level   material.Level
	speed   string
	fatigue bool
}

// input is what ISO 6336 is asked about a mesh on the path of a speed, at one end of the steel bands. Torque, turns and K_Hβ are the caller's.
func (p *prepared) input(i int, level material.Level, on Speed, fatigue bool) iso6336.Input {
	key := inputKey{i, level, on.Name, fatigue}
	in, ok := p.inputs[key]
	if !ok {
		in = p.newInput(i, level, on, fatigue)
		p.inputs[key] = in
	}
	return in
}

func (p *prepared) newInput(i int, level material.Level, on Speed, fatigue bool) iso6336.Input {
	q := &p.pairs[i]
	in := iso6336.Input{KA: 1, KHb: 1, KHbOrigin: "load along the face from the bent shafts", Viscosity: p.box.Oil.Viscosity, LimitedPitting: p.box.Limits.Pitting}
	if in.Viscosity == 0 {
		in.Viscosity = usualViscosity
	}
	for k, gi := range q.gears {
		g, s := p.box.Gears[gi], q.steels[k]
		if g.TipRelief > 0 {
			in.Relief, in.TipRelief = iso6336.UsualRelief, max(in.TipRelief, g.TipRelief)
		}
		strength, _ := iso6336.StrengthOf(&s, level) // a steel without limits has none, which the rating refuses
		gear := iso6336.Gear{
			Strength:       strength,
			FlankRoughness: g.Roughness[0], RootRoughness: g.Roughness[1], Grade: g.Grade, Body: iso6336.Body{Rim: g.Rim, Web: g.Web},
		}
		if gear.FlankRoughness == 0 {
			gear.FlankRoughness = usualFlank
		}
		if gear.RootRoughness == 0 {
			gear.RootRoughness = usualFillet
		}
		if gear.Grade == 0 {
			gear.Grade = usualGrade
		}
		if p.idler(gi, on) {
			gear.Reversal = iso6336.Reversal{Share: 1, Peened: g.Peened}
		}
		if g.Peened && fatigue && s.Group == material.GroupCaseHardened {
			if f, err := material.Peening(level); err == nil {
				gear.Strength.Bending *= f.Value
			}
		}
		in.Gear[k] = gear
	}
	return in
}

// idler reports whether a gear is driven in one mesh of a speed and drives in another.
func (p *prepared) idler(gear int, s Speed) bool {
	drives, driven := false, false
	for _, name := range s.Path {
		m := p.box.Meshes[p.mesh[name]]
		drives = drives || p.gear[m.Driver] == gear
		driven = driven || p.gear[m.Driven] == gear
	}
	return drives && driven
}

// assumed lists what the ratings take for granted because the file doesn't say it.
func (p *prepared) assumed() (notes []string) {
	b := p.box
	if !slices.ContainsFunc(p.pairs, func(q pair) bool { return q.form != nil }) {
		return nil
	}
	var missing []string
	add := func(absent bool, text string, a ...any) {
		if absent {
			missing = append(missing, fmt.Sprintf(text, a...))
		}
	}
	any := func(f func(Gear) bool) bool { return slices.ContainsFunc(b.Gears, f) }
	add(b.Oil.Viscosity == 0, "oil of %g mm²/s at 40 °C", usualViscosity)
	add(b.Revs > 0 && b.Oil.Viscosity > 0 && b.Oil.Temperature == 0, "oil at %d °C in the screen for scuffing", usualOil)
	add(any(func(g Gear) bool { return g.Grade == 0 }), "gears of accuracy grade %d (ISO 1328-1)", usualGrade)
	add(any(func(g Gear) bool { return g.Roughness[0] == 0 }), "flanks of Rz %g µm", 1e3*usualFlank)
	add(any(func(g Gear) bool { return g.Roughness[1] == 0 }), "fillets of Rz %g µm", 1e3*usualFillet)
	add(any(func(g Gear) bool { return g.Seat != nil && g.Seat.ThrustFace == 0 }), "thrust faces of free gears at %g of the pitch radius", usualThrustFace)
	if len(missing) > 0 {
		notes = append(notes, "Not told, so taken as usual for car gears (common practice, no source): "+joined(missing)+".")
	}
	if b.Revs == 0 {
		notes = append(notes, "The speed of the input shaft isn't told, so no dynamic load is counted (K_v = 1), and the oil film is that of the standard's test gears at 10 m/s (Z_V = 1).")
	}
	if b.Duty == nil {
		notes = append(notes, "No duty is told, so fatigue is judged for endless life (5·10⁷ load cycles of the slower gear): what only launches and passes bears more. Say what it has to do under duty.")
	}
	return notes
}

// driver is the torque of a mesh's driver, N·mm > 0, at a size of the input torque, and how fast it turns, rad/s, when the input shaft turns at revs.
func (v *solver) driver(step int, torque, revs float64) (driver, speed float64) {
	speed = revs
	for _, name := range v.speed.Path[:step] {
		z := &v.p.pairs[v.p.mesh[name]].geometry.Teeth
		speed *= float64(z[0]) / float64(z[1])
	}
	return math.Abs(v.p.onDriver(v.speed, step, v.engine*torque/v.asked)), speed
}

// rate is the rating of a mesh on the path of a speed at an input torque and a speed of the input shaft, at one end of the bands. With turns 0 it is static.
func (v *solver) rate(step int, torque, revs, turns float64, level material.Level, in iso6336.Input) (*iso6336.Rating, error) {
	factor, err := v.factor(step, torque, level)
	if err != nil {
		return nil, err
	}
	in.Torque, in.Speed = v.driver(step, torque, revs)
	in.Turns, in.KHb = turns, max(1, factor)
	return v.p.pairs[v.p.mesh[v.speed.Path[step]]].form.Rate(in)
}

func joined(words []string) string {
	if n := len(words); n > 1 {
		return fmt.Sprintf("%s and %s", join(words[:n-1]), words[n-1])
	}
	return join(words)
}

func join(words []string) (s string) {
	for i, w := range words {
		if i > 0 {
			s += ", "
		}
		s += w
	}
	return s
}
