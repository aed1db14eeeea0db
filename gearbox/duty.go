package gearbox

import (
	"math"
	"slices"
	"strconv"

	"layshaft/gearstress/iso6336"
	"layshaft/material"
)

// InputTurns is how often the input shaft turns in a step: as told, or by its time and speed.
func (b *Box) InputTurns(d DutyStep) float64 {
	if d.Turns > 0 {
		return d.Turns
	}
	return d.Time * b.InputRevs(d) / (2 * math.Pi)
}

// InputRevs is how fast the input shaft turns in a step, rad/s; 0 = not known.
func (b *Box) InputRevs(d DutyStep) float64 {
	if d.Revs > 0 {
		return d.Revs
	}
	return b.Revs
}

// inDuty reports whether the duty has a step in a speed; coasts, whether it has one against the asked torque.
func (p *prepared) inDuty(speed string) bool {
	return p.box.Duty != nil && slices.ContainsFunc(p.box.Duty.Steps, func(d DutyStep) bool { return d.Speed == speed })
}

func (p *prepared) coasts(speed string) bool {
	return p.box.Duty != nil && slices.ContainsFunc(p.box.Duty.Steps, func(d DutyStep) bool { return d.Speed == speed && d.Share < 0 })
}

// checkDuty makes sure that every step says how long it is.
func (p *prepared) checkDuty() {
	for i, d := range p.box.Duty.Steps {
		if !(p.box.InputTurns(d) > 0) {
			p.fault(path("duty", "steps", strconv.Itoa(i)), "a step without length", "Tell the turns of the input shaft, or a time and the speed of the input shaft.")
		}
	}
}

// work is a speed in one sense of the torque: as asked, or back against it.
type work struct {
	speed string
	back  bool
}

// share is one step of the duty as one mesh of a gear sees it.
type share struct {
	solver *solver // of the speed, in the sense of the step
	torque float64 // size of the torque over the asked one, > 0
	revs   float64 // of the input shaft, rad/s
	turns  float64 // of the mesh's driver, in all passes
	number int     // of the step in the duty
	step   int     // of the mesh on the path of that speed
	mesh   int
	role   int     // of the gear there: 0 drives, 1 is driven
	sense  float64 // of the torque on the mesh's gears about +x, ±1: it says which of its two flanks the gear carries on
	ready  [material.High + 1]ready
}

// ready is what ISO 6336 says of the mesh under a step, at one end of the steel bands.
type ready struct {
	c     *iso6336.Compiled // nil = not asked yet
	per   float64           // torque on the mesh's driver over the input torque
	steel int               // of which state of the steels, prepared.steel
	jump  [2]float64        // just below and just above the torque on the driver at which stresses fall at once, N·mm; zero = none
}

// loaded is a gear, or one of its flanks by the sense of the torque; 0 = both.
type loaded struct {
	gear  int
	sense float64
}

// shares are where a gear is loaded in the duty, in all its meshes: the same for all speeds that were chosen together.
func (v *solver) shares(gear int, solvers map[work]*solver) []share {
	if v.p.box.Duty == nil {
		return nil
	}
	k := loaded{gear: gear}
	all, ok := v.p.loaded[k]
	if !ok {
		all = v.findShares(gear, solvers)
		v.p.loaded[k] = all
	}
	return all
}

// flankShares are those of them in which the gear carries on one of its flanks.
func (v *solver) flankShares(gear int, sense float64, solvers map[work]*solver) []share {
	k := loaded{gear, sense}
	all, ok := v.p.loaded[k]
	if !ok {
		all = on(sense, v.shares(gear, solvers))
		v.p.loaded[k] = all
	}
	return all
}

func (v *solver) findShares(gear int, solvers map[work]*solver) (all []share) {
	p := v.p
	for number, d := range p.box.Duty.Steps {
		in := solvers[work{d.Speed, d.Share < 0}]
		turns := p.box.InputTurns(d) * p.box.Duty.Passes
		for i, name := range in.speed.Path {
			m := p.mesh[name]
			if role := slices.Index(p.pairs[m].gears[:], gear); role >= 0 {
				all = append(all, share{solver: in, torque: math.Abs(d.Share), revs: p.box.InputRevs(d), turns: turns, number: number, step: i, mesh: m, role: role, sense: in.sense(i)})
			}
			z := p.pairs[m].geometry.Teeth
			turns *= float64(z[0]) / float64(z[1])
		}
	}
	return all
}

// sense is that of the torque on the gears of the mesh at a step of the path, about +x, ±1.
func (v *solver) sense(step int) float64 {
	return math.Copysign(1, v.p.onDriver(v.speed, step, v.engine))
}

// carries is the flank that carries in the mesh at a step of the path, seen from the car that goes forwards: backwards the final drive pulls on the flank on which it coasts
// forwards.
func (v *solver) carries(step int) Flank {
	if v.sense(step)*v.p.forwards(v.p.mesh[v.speed.Path[step]]) > 0 {
		return DriveFlank
	}
	return CoastFlank
}

// forwards is the sense of the driver's torque about +x in a mesh, ±1, when the engine drives the car forwards, or backwards where the mesh is in no forward speed.
func (p *prepared) forwards(mesh int) (sense float64) {
	for _, s := range p.box.Speeds {
		step := slices.Index(s.Path, p.box.Meshes[mesh].Name)
		if step < 0 {
			continue
		}
		backwards := p.backwards(s)
		if sense == 0 || !backwards {
			sense = math.Copysign(1, p.onDriver(s, step, float64(p.box.Turns)))
		}
		if !backwards {
			return sense
		}
	}
	return sense
}

// on picks the steps in which the gear carries on one of its flanks, told by the sense of the torque.
func on(sense float64, shares []share) (all []share) {
	for _, s := range shares {
		if s.sense == sense {
			all = append(all, s)
		}
	}
	return all
}

// turns is how often the driver of a mesh turns in the time it is rated for: in the steps of the duty in which it carries.
func (v *solver) turns(mesh int, shares []share) (turns float64) {
	for _, s := range shares {
		if s.mesh == mesh {
			turns += s.turns
		}
	}
	if turns > 0 {
		return turns
	}
	z := v.p.pairs[mesh].geometry.Teeth
	return endless * max(1, float64(z[1])/float64(z[0]))
}

// wornKey is one thing that wears over the whole duty. Since the duty counts every speed and every mesh of a gear, the answer is the same in whichever it is asked.
type wornKey struct {
	gear    int // of the box
	kind    Kind
	sense   float64 // of the flank; 0 = both
	level   int
	reached bool // under what really reaches it
}

// remember gives what was found before, or finds it.
func (p *prepared) remember(k wornKey, find func() (found, error)) (f found, err error) {
	f, ok := p.worn[k]
	if !ok {
		if f, err = find(); err == nil {
			p.worn[k] = f
		}
	}
	return f, err
}

// compiled is what ISO 6336 says of the mesh under the load of a step, ready for torques on its driver.
func (s *share) compiled(level material.Level, fatigue bool) (*ready, error) {
	r, now := &s.ready[level], s.solver.p.steel
	if r.c == nil || r.steel != now {
		c, per, err := s.solver.compiled(s.step, level, fatigue, s.revs, s.turns)
		if err != nil {
			return nil, err
		}
		*r = ready{c: c, per: per, steel: now}
		if below, above, ok := c.Jump(); ok {
			r.jump = [2]float64{below, above}
		}
	}
	return r, nil
}

// at is what it says at an input torque of the given size, N·mm; over a stretch of torques up to that one, the most it says.
func (s *share) at(level material.Level, fatigue bool, torque float64, over *stretch) (c *iso6336.Compiled, stresses iso6336.Stresses, err error) {
	r, err := s.compiled(level, fatigue)
	if err != nil {
		return nil, stresses, err
	}
	if over != nil && over.all {
		stresses = r.c.At(r.per, 1)
		for k := range 2 {
			stresses.Root[k].Stress, stresses.Flank[k].Stress = math.Inf(1), math.Inf(1)
		}
		return r.c, stresses, nil
	}
	factor, err := over.factor(s, torque, level)
	if err != nil {
		return nil, stresses, err
	}
	stresses = r.c.At(r.per*torque, max(1, factor))
	if over == nil || over.even {
		return r.c, stresses, nil
	}
	if below := r.jump[0]; below > r.per*s.torque*over.from && below < r.per*torque {
		before := r.c.At(below, max(1, factor))
		for k := range 2 {
			stresses.Root[k].Stress = max(stresses.Root[k].Stress, before.Root[k].Stress)
			stresses.Flank[k].Stress = max(stresses.Flank[k].Stress, before.Flank[k].Stress)
		}
	}
	return r.c, stresses, nil
}

// damage is what the stress on a gear's root or flank adds to the Miner sum in the turns of the step; one beyond the static strength counts as if it stopped there.
func (a *ask) damage(c *iso6336.Compiled, gear int, u iso6336.Utilisation) float64 {
	if a.root() {
		return c.RootDamage(gear, min(u.Stress, u.Static))
	}
	return c.FlankDamage(gear, min(u.Stress, u.Static))
}

// wear is what a duty does to a gear.
type wear struct {
	sum    float64 // Miner's, a step that is beyond the static strength counted as if it stopped there
	most   string  // the speed whose step adds most to it
	static float64 // the largest share of the static strength that a step needs; more than 1: there is no life
}

// worn is what the duty of a trial does, torque giving the size of the input torque in each step.
//
// A gear that takes part in several meshes has the sum of them all. On the way through an idler its teeth are bent to and fro once a turn: that is one load cycle, of the worse of both meshes, since its
// strength is that of bending both ways already.
func worn(t *trial, level material.Level, torque func(*share) float64, over *stretch) (w wear, err error) {
	var bent [2]float64 // what the step at hand adds, by sense
	number, speed, largest := -1, "", 0.0
	next := func() {
		added := max(bent[0], bent[1])
		w.sum += added
		if added > largest {
			largest, w.most = added, speed
		}
		bent = [2]float64{}
	}
	for i := range t.shares {
		s := &t.shares[i]
		c, stresses, err := s.at(level, true, torque(s), over)
		if err != nil {
			return w, err
		}
		u := t.of(&stresses, s.role)
		if s.number != number {
			next()
			number, speed = s.number, s.solver.speed.Name
		}
		way := 0
		if s.sense < 0 {
			way = 1
		}
		bent[way] += t.damage(c, s.role, u)
		w.static = max(w.static, u.OfStatic())
	}
	next()
	return w, nil
}

// AtOnce is the life, in passes, of what the first load breaks: less than any load cycle is of any duty.
const AtOnce = 1e-9

// live counts how long a limit lasts at the asked torque, and at what really reaches it. Against the latter it has a margin too: by how much all that reaches it,
// step by step, might grow.
func (v *solver) live(m *Margin, t *trial) (err error) {
	if len(t.shares) == 0 {
		m.Turns, err = v.turnsLeft(t, m.Level)
		return err
	}
	passes := func(load func(*share) float64) (float64, error) {
		w, err := worn(t, m.Level, load, nil)
		if w.static > 1 {
			return AtOnce, err
		}
		return max(v.p.box.Duty.Passes/w.sum, AtOnce), err
	}
	at := m.Allowable[m.Level]
	if math.IsInf(at, 1) {
		at = v.asked
	}
	if m.Step, err = v.step(t, m.Level, at); err != nil {
		return err
	}
	if m.Life, err = passes(func(s *share) float64 { return v.asked * s.torque }); err != nil || !v.p.box.bounded() {
		return err
	}
	comes := func(s *share) float64 { return s.reach().Running.Torque }
	if m.LifeReached, err = passes(comes); err != nil {
		return err
	}
	key := t.key(m.Level)
	key.reached = true
	f, err := v.p.remember(*key, func() (found, error) {
		if never, err := t.never(m.Level); err != nil || never {
			return found{torque: math.Inf(1)}, err
		}
		grown := func(torque float64) func(*share) float64 {
			return func(s *share) float64 { return torque / v.asked * comes(s) }
		}
		at, err := v.p.crossing(func(torque float64) (float64, error) { return wornUp(t, m.Level, grown(torque), nil) }, &guess{v.asked, 1}, v.asked)
		if err != nil {
			return found{}, err
		}
		return unbroken(found{torque: at}, t, m.Level, grown(at))
	})
	m.Reached = f.torque/v.asked - 1
	return err
}

// turnsLeft is how many turns of the input shaft in this speed a limit lasts at the asked torque, where no duty is given; +Inf = without end.
func (v *solver) turnsLeft(t *trial, level material.Level) (float64, error) {
	c, stresses, err := t.shown.at(level, true, v.asked, nil)
	if err != nil {
		return 0, err
	}
	u := t.of(&stresses, t.gear)
	if u.OfStatic() > 1 {
		return 0, nil
	}
	_, perTurn := v.driver(t.shown.step, v.asked, 1) // turns of the driver per turn of the input shaft
	return t.shown.turns / perTurn / t.damage(c, t.gear, u), nil
}

// reach is what comes to the teeth in a step of the duty; nil when neither clutch nor tyres are told.
func (s share) reach() *Reach { return s.solver.p.reach(s.solver.speed, s.torque*s.solver.torque()) }

// GearLife is how long a gear lasts the duty.
type GearLife struct {
	Gear         string
	Speeds       []string // in which the duty loads it
	Root         Life     //
	Drive, Coast Life     // of its flanks, seen from the car that goes forwards
}

// Life is a number of passes of the duty; 0 = the duty doesn't load it, +Inf = without end.
type Life struct {
	Asked   float64 // at the asked torque
	Reached float64 // at what really reaches the teeth; 0 where neither clutch nor tyres are told
}

// Shortest is the least of its lives, each taken by itself.
func (g *GearLife) Shortest() Life {
	least := func(of func(Life) float64) (shortest float64) {
		for _, l := range []Life{g.Root, g.Drive, g.Coast} {
			if v := of(l); v > 0 && (shortest == 0 || v < shortest) {
				shortest = v
			}
		}
		return shortest
	}
	return Life{least(func(l Life) float64 { return l.Asked }), least(func(l Life) float64 { return l.Reached })}
}

// lives gathers the lives of every gear from the limits of some speeds. A gear in two meshes lasts as long as the worse.
func (p *prepared) lives(speeds []SpeedResult) (all []GearLife) {
	if p.box.Duty == nil {
		return nil
	}
	for _, g := range p.box.Gears {
		life := GearLife{Gear: g.Name}
		sooner := func(l *Life, m *Margin) {
			if l.Asked == 0 || m.Life < l.Asked {
				l.Asked = m.Life
			}
			if l.Reached == 0 || m.LifeReached < l.Reached {
				l.Reached = m.LifeReached
			}
		}
		for i := range speeds {
			for k := range speeds[i].Margins {
				switch m := &speeds[i].Margins[k]; {
				case m.Gear != g.Name || m.Life == 0:
				case m.Kind == RootFatigue:
					sooner(&life.Root, m)
				case m.Flank == CoastFlank:
					sooner(&life.Coast, m)
				default:
					sooner(&life.Drive, m)
				}
			}
		}
		if life.Root.Asked == 0 {
			continue
		}
		for _, s := range p.box.Speeds {
			if p.inDuty(s.Name) && slices.ContainsFunc(s.Path, func(m string) bool {
				return p.box.Meshes[p.mesh[m]].Driver == g.Name || p.box.Meshes[p.mesh[m]].Driven == g.Name
			}) {
				life.Speeds = append(life.Speeds, s.Name)
			}
		}
		all = append(all, life)
	}
	return all
}
