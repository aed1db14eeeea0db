package gearbox

import (
	"fmt"
	"math"

	"layshaft/beam/bearing"
	"layshaft/gearstress/scuffing"
	"layshaft/material"
)

// usualReliability is the share of bearings that outlast their life where the file asks for no other: that of the basic life.
const usualReliability = 0.9

// turnsPerInput is how often a shaft turns about +x per turn of the input shaft; 0 where nothing on the path drives it.
func (v *solver) turnsPerInput(shaft int) float64 {
	p := v.p
	if v.speed.Direct {
		if shaft == p.shaft[p.box.Input.Shaft] || shaft == p.shaft[p.box.Output.Shaft] {
			return 1
		}
		return 0
	}
	turns := map[int]float64{p.shaft[p.box.Input.Shaft]: 1}
	for _, name := range v.speed.Path {
		q := &p.pairs[p.mesh[name]]
		z := q.geometry.Teeth
		turns[q.shafts[1]] = -turns[q.shafts[0]] * float64(z[0]) / float64(z[1])
	}
	return turns[shaft]
}

// ringTurns is how often the two rings of a bearing turn against each other per turn of the input shaft.
func (v *solver) ringTurns(shaft, j int) float64 {
	turns := v.turnsPerInput(shaft)
	if line := &v.p.lines[shaft]; j == line.pilot {
		turns -= v.turnsPerInput(line.in)
	}
	return math.Abs(turns)
}

// bearingWear is a bearing that the duty wears.
type bearingWear struct {
	bearingRating
	p       *prepared
	shaft   int
	bearing int
	owner   int // number of the bearing among all of the box
	shares  []share
	turns   float64 // of its rings against each other in all of the duty, millions
	a1      float64
	oil     float64 // viscosity at work, mm²/s; 0 = the basic life is asked for
}

// bearingWear readies a bearing for the duty; nil where the duty doesn't turn it or its life can't be told.
func (v *solver) bearingWear(shaft, j int, r bearingRating, solvers map[work]*solver) *bearingWear {
	p := v.p
	if p.box.Duty == nil || !r.lasts() {
		return nil
	}
	w := &bearingWear{bearingRating: r, p: p, shaft: shaft, bearing: j, a1: 1}
	if wanted := p.box.Limits.BearingReliability; wanted > 0 {
		w.a1 = bearing.StandardScatter.LifeFactor(wanted)
	}
	oil := p.box.Oil
	if oil.Cleanliness > 0 && oil.Temperature > 0 && oil.Viscosity > 0 && r.fatigue > 0 && r.pitch > 0 && p.box.Revs > 0 {
		w.oil = scuffing.Viscosity(oil.Viscosity, oil.Temperature) / scuffing.Density(oil.Temperature)
	}
	for i := range shaft {
		w.owner += len(p.box.Shafts[i].Bearings)
	}
	w.owner += j
	for number, d := range p.box.Duty.Steps {
		in := solvers[work{d.Speed, d.Share < 0}]
		per := in.ringTurns(shaft, j)
		if turns := p.box.InputTurns(d) * p.box.Duty.Passes * per; turns > 0 {
			w.turns += turns / 1e6
			w.shares = append(w.shares, share{solver: in, torque: math.Abs(d.Share), revs: p.box.InputRevs(d) * per, turns: turns, number: number})
		}
	}
	if len(w.shares) == 0 {
		return nil
	}
	return w
}

// key is what its answer is remembered by.
func (w *bearingWear) key(level material.Level) *wornKey {
	return &wornKey{part: w.owner, kind: BearingLife, level: int(level)}
}

// exponent is the power of the load with which it wears.
func (w *bearingWear) exponent() float64 {
	if w.Kind == bearing.Ball {
		return 3
	}
	return 10. / 3
}

func (w *bearingWear) loads() (all []*share) {
	for i := range w.shares {
		all = append(all, &w.shares[i])
	}
	return all
}

// equivalentAt is its equivalent load, N, in a step at an input torque of the given size, N·mm.
func (w *bearingWear) equivalentAt(s *share, torque float64) (float64, error) {
	m, err := s.solver.measure(torque)
	if err != nil {
		return 0, err
	}
	l, err := m.bearing(w.shaft, w.bearing)
	if err != nil {
		return 0, err
	}
	return w.equivalent(l)
}

// factor is by how much it lasts longer in a step than L10.
func (w *bearingWear) factor(s *share, load float64) float64 {
	if w.oil == 0 || load == 0 || s.revs == 0 {
		return w.a1
	}
	ratio := w.oil / bearing.ReferenceViscosity(s.revs*30/math.Pi, w.pitch)
	return w.a1 * bearing.SystemFactor(w.Kind, ratio, w.p.box.Oil.Cleanliness*w.fatigue/load)
}

// wornUp is how much of its life the duty uses up, to make it grow like a load.
func (w *bearingWear) wornUp(level material.Level, torque func(*share) float64, over *stretch) (float64, error) {
	sum, err := w.worn(level, torque, over)
	return math.Pow(sum.sum, 1/w.exponent()), err
}

// turnsLeft has no answer: without a duty its life isn't judged.
func (w *bearingWear) turnsLeft(*solver, material.Level) (float64, error) { return math.Inf(1), nil }

// worn is what the duty does to it, as wear of teeth.
func (w *bearingWear) worn(level material.Level, torque func(*share) float64, _ *stretch) (sum wear, err error) {
	most, speeds := 0.0, map[string]float64{}
	for i := range w.shares {
		s := &w.shares[i]
		load, err := w.equivalentAt(s, torque(s))
		if err != nil {
			return sum, err
		}
		used := bearing.Wear(w.Kind, w.Dynamic*w.at[level], []bearing.Stage{{Turns: s.turns / 1e6, Load: load, Factor: w.factor(s, load)}})
		sum.sum += used
		name := s.solver.speed.Name
		if speeds[name] += used; speeds[name] > most {
			most, sum.most = speeds[name], name
		}
	}
	return sum, nil
}

// allowed is the steady load, N, that just uses it up in all turns of the duty, its oil aside.
func (w *bearingWear) allowed(level material.Level) float64 {
	return w.Dynamic * w.at[level] * math.Pow(w.a1/w.turns, 1/w.exponent())
}

// words are the source of the limit.
func (w *bearingWear) words() string {
	reliability := usualReliability
	if wanted := w.p.box.Limits.BearingReliability; wanted > 0 {
		reliability = wanted
	}
	life := "basic life"
	if w.oil > 0 {
		life = "modified life (a_ISO from memory)"
	}
	return fmt.Sprintf("ISO 281, %s at %.4g %% reliability, for the duty (Miner's rule over turns); %s", life, 100*reliability, w.source)
}

// bearingLimits are those of one bearing by its ratings.
func (v *solver) bearingLimits(shaft, j int, solvers map[work]*solver, add func(limit)) error {
	r, ok := v.p.rated(shaft, j)
	if !ok {
		return nil
	}
	m, err := v.measure(v.asked)
	if err != nil {
		return err
	}
	shown, err := m.bearing(shaft, j)
	if err != nil {
		return err
	}
	item, rest := v.p.lines[shaft].bearings[j], v.p.atRest(shaft, j)
	if p0, err := r.staticEquivalent(shown); err == nil && p0 > 0 && r.Static > 0 {
		l := v.simple(row{BearingStatic, shaft, j}, item, v.p.peak(v.speed), func(m *measure) (float64, error) {
			l, err := m.bearing(shaft, j)
			if err != nil {
				return 0, err
			}
			return r.staticEquivalent(l)
		}, v.p.staticLimit(&r))
		atRest, _ := r.staticEquivalent(rest)
		l.shown = p0 * v.p.peak(v.speed)
		add(v.swings(l, atRest, l.band.Low))
	}
	if w := v.bearingWear(shaft, j, r, solvers); w != nil {
		used, err := w.wornUp(material.Typical, func(s *share) float64 { return v.asked * s.torque }, nil)
		if err != nil || used == 0 {
			return err
		}
		atRest, _ := r.equivalent(rest)
		l := v.lifeLimit(w, item)
		if w.oil == 0 { // else the life falls faster than by the load
			l.shown = used * w.allowed(material.Typical)
		}
		add(v.swings(l, atRest, w.allowed(material.Low)))
	}
	return nil
}

// swings gives a limit on a bearing what bounds it: what is in step with the torque, and what it carries at rest, from
// preload or squeeze.
func (v *solver) swings(l limit, rest, allowed float64) limit {
	l = v.seen(l, moved)
	most := l.most
	l.most = func(from, to float64, level material.Level, solve bool) (float64, error) {
		used, err := most(from, to, level, solve)
		return used + rest/allowed, err
	}
	return l
}

// lifeLimit is the life of a bearing as a limit: as the steady load that would use it up in the same turns.
func (v *solver) lifeLimit(w *bearingWear, item string) limit {
	band := material.Band{Low: w.allowed(material.Low), Typical: w.allowed(material.Typical), High: w.allowed(material.High), Source: w.words()}
	used := func(torque float64, level material.Level) (float64, error) {
		return w.wornUp(level, func(s *share) float64 { return torque * s.torque }, nil)
	}
	return limit{
		kind: BearingLife, item: item, source: band.Source, band: &band, wears: w, used: used,
		actual: func(torque float64, level material.Level) (float64, error) {
			u, err := used(torque, level)
			return u * w.allowed(level), err
		},
		follow: func(material.Level) (all []watch) {
			for _, s := range w.loads() {
				all = append(all, watch{times: s.torque, profile: s.solver.profile(row{BearingLife, w.shaft, w.bearing}, func(torque float64) (float64, error) {
					return w.equivalentAt(s, torque)
				})})
			}
			return all
		},
	}
}

// staticLimit is the static equivalent load that a bearing bears, N.
func (p *prepared) staticLimit(r *bearingRating) bound {
	safety, whose := p.box.Limits.StaticSafety, "of the box file"
	if safety == 0 {
		safety, whose = 1, "at which the heaviest element leaves a dent of a ten-thousandth of its diameter; makers ask for 1.5 (balls) to 3 (rollers) where shocks must leave no noise"
	}
	c0 := func(level material.Level) float64 { return r.Static * r.at[level] / safety }
	return guide(material.Band{Low: c0(material.Low), Typical: c0(material.Typical), High: c0(material.High),
		Source: fmt.Sprintf("ISO 76, C₀/P₀ = %.3g %s; %s", safety, whose, r.source)})
}

// bearingsNotJudged lists of which bearings neither life nor static load is judged, and why.
func (p *prepared) bearingsNotJudged(add func(what, why string)) {
	var bare, unpaired, undated, unloaded []string
	all := 0
	for i := range p.box.Shafts {
		s := &p.box.Shafts[i]
		for j, br := range s.Bearings {
			if br.Type == Plain {
				continue
			}
			all++
			switch r, ok := p.rated(i, j); {
			case ok && r.Dynamic == 0:
				undated = append(undated, p.lines[i].bearings[j])
			case ok && r.Static == 0:
				unloaded = append(unloaded, p.lines[i].bearings[j])
			case ok:
			case br.Rating != nil && br.Type == TaperedRoller && s.Pair == nil:
				unpaired = append(unpaired, p.lines[i].bearings[j])
			default:
				bare = append(bare, p.lines[i].bearings[j])
			}
		}
	}
	const few = 3
	if len(bare) > 0 {
		what := "life and static load of bearings"
		switch {
		case len(bare) == all:
		case len(bare) <= few:
			what = "life and static load of " + joined(bare)
		default:
			what = fmt.Sprintf("life and static load of %d of %d bearings", len(bare), all)
		}
		add(what, "rating of each (C, C₀), or its elements")
	}
	if len(unpaired) > 0 {
		add("life and static load of "+joined(unpaired), "pair of the shaft: how its tapered bearings face each other")
	}
	if len(undated) > 0 && p.box.Duty != nil {
		add("life of "+joined(undated), "dynamic of their ratings (C)")
	}
	if len(unloaded) > 0 {
		add("static load of "+joined(unloaded), "static of their ratings (C₀)")
	}
	if p.box.Duty == nil && len(bare)+len(unpaired) < all {
		add("life of bearings", "a duty")
	}
}
