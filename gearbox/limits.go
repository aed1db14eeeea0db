package gearbox

import (
	"fmt"
	"math"
	"slices"

	"layshaft/gearstress/agma2001"
	"layshaft/material"
)

// limit is one limit of one part in one speed, ready to be asked at any torque. The full and the brief solution read the same list of them.
type limit struct {
	kind    Kind
	item    string
	gear    string
	mesh    string // of a gear that runs in more than one mesh of the speed
	flank   Flank
	own     bool // the file itself sets it
	opinion bool // it stands beside the verdict
	notes   []string
	source  string
	band    *material.Band // where it ends; nil = at what is used up at the torque that is found
	// actual is what the part has to bear at an input torque, in the unit of the kind, and used how much of the limit that uses up, at one end of the bands.
	actual func(torque float64, level material.Level) (float64, error)
	used   func(torque float64, level material.Level) (float64, error)
	follow func(level material.Level) []watch // nil = it grows with the torque alone
	// What bounds what is used up without asking how the load lies at every torque; nil = nothing is known to.
	most   ceiling
	least  func(torque float64, level material.Level) (float64, error)
	trial  *trial  // of teeth that are rated by ISO 6336
	shown  float64 // about what it has to bear at the asked torque; 0 = that isn't known
	inStep bool    // what is used up grows about in step with the torque
	near   guess   // where it was found to be reached last, at another end of the bands
	wears  wearer  // of what wears out, by how much; nil = of all others
}

// decides reports whether the limit counts for the verdict.
func (v *solver) decides(l *limit) bool {
	switch {
	case l.opinion:
		return false
	case v.p.kinds != nil:
		return slices.Contains(v.p.kinds, l.kind)
	case l.kind.Class() == WearsOut:
		return v.p.box.Duty != nil
	}
	return l.own || l.kind.Class() == Breaks
}

// usualLimits is about how many a speed has.
const usualLimits = 64

// limits lists what a solved speed is held against. In brief only what decides, and what is wanted by name, comes along.
func (v *solver) limits(sr *SpeedResult, solvers map[work]*solver) (all []limit, err error) {
	p := v.p
	all = make([]limit, 0, usualLimits)
	asks := func(kind Kind, item string, own bool) bool {
		l := limit{kind: kind, item: item, own: own}
		return !p.brief || v.decides(&l) || p.wants(sr.Name, &l)
	}
	add := func(l limit) {
		if l.opinion || asks(l.kind, l.item, l.own) {
			all = append(all, l)
		}
	}
	for n := range sr.Meshes {
		i := p.mesh[sr.Meshes[n].Name]
		q := &p.pairs[i]
		if q.form != nil {
			for _, t := range v.trials(n, i, solvers) {
				l := v.toothLimit(t, i)
				if sr.meshesOf(l.gear) > 1 {
					l.mesh = sr.Meshes[n].Name
				}
				add(l)
			}
		} else { // the hand calculation is all there is
			v.lewis(sr, n, q, add)
		}
		if asks(MeshTilt, q.name, q.tilt.own) {
			add(v.answered(v.simple(row{MeshTilt, n, 0}, q.name, 1, func(m *measure) (float64, error) { return m.tilt(n) }, q.tilt), &v.fixed.answers.axes[n]))
		}
		if asks(MeshSeparation, q.name, q.separation.own) {
			add(v.answered(v.simple(row{MeshSeparation, n, 0}, q.name, 1, func(m *measure) (float64, error) { return m.separation(n) }, q.separation), &v.fixed.answers.apart[n]))
		}
		if p.brief {
			continue
		}
		if slices.Contains(p.second, Lewis) && q.form != nil {
			v.lewis(sr, n, q, func(l limit) {
				l.opinion = true
				add(l)
			})
		}
		if slices.Contains(p.second, AGMA) {
			if err := v.agma(sr, n, q, add); err != nil {
				return nil, err
			}
		}
	}
	v.onGears(add)
	peak := p.peak(v.speed)
	for n := range sr.Shafts {
		i := p.shaft[sr.Shafts[n].Name]
		line := &p.lines[i]
		for j, sec := range sr.Shafts[n].Sections {
			if sec.Stress.VonMises > 0 {
				l := v.simple(row{ShaftYield, i, j}, line.sections[j], peak, func(m *measure) (float64, error) { return m.stress(i, j) }, guide(line.steel.Yield))
				l.notes = p.box.rests(ShaftYield, line.steel.Name)
				l.shown = peak * sec.Stress.VonMises
				add(v.seen(l, moved))
			}
		}
		for j := range line.notches {
			if err := v.notch(i, j, solvers, add); err != nil {
				return nil, err
			}
		}
		v.joints(i, add)
		for j := range sr.Shafts[n].Bearings {
			if asks(BearingSlope, line.bearings[j], line.slopes[j].own) {
				l := v.simple(row{BearingSlope, i, j}, line.bearings[j], 1, func(m *measure) (float64, error) { return m.slope(i, j) }, line.slopes[j])
				if v.fixed != nil {
					l = v.answered(l, &v.fixed.answers.slope[i][j])
				}
				add(l)
			}
			if err := v.bearingLimits(i, j, solvers, add); err != nil {
				return nil, err
			}
		}
	}
	return all, nil
}

// wants reports whether a limit was asked for by name.
func (p *prepared) wants(speed string, l *limit) bool {
	return slices.ContainsFunc(p.wanted, func(w Wanted) bool { return w.Speed == speed && w.Kind == l.kind && w.Item == l.item })
}

// simple is a limit of one number of the measure, at so many times the torque.
func (v *solver) simple(r row, item string, times float64, of func(*measure) (float64, error), b bound) limit {
	number := func(torque float64) (float64, error) {
		m, err := v.measure(torque)
		if err != nil {
			return 0, err
		}
		return of(m)
	}
	return limit{
		kind: r.kind, item: item, own: b.own, source: b.Source, band: &b.Band, follow: func(material.Level) []watch { return []watch{{profile: v.profile(r, number), times: times}} },
		actual: func(torque float64, _ material.Level) (float64, error) { return number(torque * times) },
		used: func(torque float64, level material.Level) (float64, error) {
			x, err := number(torque * times)
			return x / b.At(level), err
		},
	}
}

// peak is how many times the asked torque a speed bears at once: by the shock, or by a step of the duty that is driven with more.
func (p *prepared) peak(s Speed) float64 {
	times := max(1, p.box.Shock)
	if p.box.Duty != nil {
		for _, d := range p.box.Duty.Steps {
			if d.Speed == s.Name {
				times = max(times, d.Share)
			}
		}
	}
	return times
}

// lewis is the hand calculation: load even along the face, no load factors, so that stresses grow with the torque alone.
func (v *solver) lewis(sr *SpeedResult, n int, q *pair, add func(limit)) {
	m := &sr.Meshes[n]
	hand := func(kind Kind, item string, stress func(times float64) float64, band *material.Band, notes []string) {
		actual := func(torque float64, _ material.Level) (float64, error) { return stress(torque / v.asked), nil }
		add(limit{kind: kind, item: item, notes: notes, source: band.Source, band: band, actual: actual, follow: func(material.Level) []watch { return nil },
			used: func(torque float64, level material.Level) (float64, error) {
				s, err := actual(torque, level)
				return s / band.At(level), err
			}})
	}
	for k, name := range m.Gears {
		stress, notes := m.Root[k], v.p.box.rests(RootLewis, q.steels[k].Name)
		if math.IsNaN(stress) {
			stress = m.RootReal[k]
			notes = append(notes, fmt.Sprintf("%s: no published Lewis table covers this tooth; the parabola in the real tooth stands in.", name))
		}
		if !math.IsNaN(stress) {
			hand(RootLewis, name, func(times float64) float64 { return stress * times }, &q.steels[k].Yield, notes)
		}
	}
	hand(FlankHertz, q.name, func(times float64) float64 { return m.Contact * math.Sqrt(times) }, &q.flank, nil)
}

// agma is ANSI/AGMA 2001-D04 with the load along the face from the bent shafts.
func (v *solver) agma(sr *SpeedResult, n int, q *pair, add func(limit)) error {
	m := &sr.Meshes[n]
	form, err := agma2001.NewForm(q.geometry, agma2001.ToolOf(q.geometry.Rack))
	if err != nil {
		m.Notes = append(m.Notes, "no AGMA rating: "+err.Error())
		return nil
	}
	if m.AGMA, err = v.rateAGMA(n, q, form, v.asked, v.p.box.Limits.Strength); err != nil {
		m.Notes = append(m.Notes, "no AGMA rating: "+err.Error())
		return nil
	}
	m.Checks = append(m.Checks, sentences("AGMA rating: ", m.AGMA.Notes)...)
	for k, name := range m.Gears {
		for _, kind := range []Kind{RootAGMA, FlankAGMA} {
			outcome := func(r *agma2001.Rating) *agma2001.Outcome {
				if kind == RootAGMA {
					return &r.Root[k].Outcome
				}
				return &r.Flank[k].Outcome
			}
			add(limit{
				kind: kind, item: name, opinion: true, follow: func(level material.Level) []watch { return []watch{v.faceLoads(n, 1, level)} },
				source: "ANSI/AGMA 2001-D04 at 10⁷ cycles, whatever the duty, 99 % reliability; " + agmaSource(q.steels[k], kind),
				actual: func(torque float64, level material.Level) (float64, error) {
					r, err := v.rateAGMA(n, q, form, torque, level)
					if err != nil {
						return 0, err
					}
					return outcome(r).Stress, nil
				},
				used: func(torque float64, level material.Level) (float64, error) {
					r, err := v.rateAGMA(n, q, form, torque, level)
					if err != nil {
						return 0, err
					}
					// Permissible at the cycles of the rating, taken back to those of the allowable number.
					o := outcome(r)
					return o.Stress * o.LifeFactor / o.Permissible, nil
				},
			})
		}
	}
	return nil
}

// faceLoads is the peak of the load along the face of the mesh at a step of the path, at so many times an input torque, at one end of the bands, up to a factor that the torque doesn't change.
func (v *solver) faceLoads(step int, times float64, level material.Level) watch {
	return watch{times: times, profile: v.profile(loadRow(step, level), func(torque float64) (float64, error) {
		k, err := v.factor(step, torque, level)
		return k * torque, err
	})}
}
