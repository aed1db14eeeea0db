package gearbox

import (
	"fmt"
	"math"
	"slices"

	"layshaft/material"
)

// Borne is what a piece of service history tells of the box that it happened in.
type Borne struct {
	Loads  []CountedLoad // the load that counts, of each speed that was driven, in the order of the box
	Needs  []Need
	Guides []Survived // of what survived: the most that guides warn of, whether or not anyone looked
}

// Need is the strength that a part must have for its limit to be just held in what service history tells of.
type Need struct {
	Kind     Kind
	Item     string // the gear, or the section of a shaft
	Gear     string // the gear; "" = a shaft
	Speed    string // in which it was loaded; of what wears over the duty the first that loads it
	Steel    string // name of its steel
	Strength Strength
	// Least and Most span what isn't known: the other strengths and the peening (low, typical and high), and where the shafts lie. MPa; 0 = not loaded.
	Least, Most float64
}

// BorneBy works out what load of a piece of service history counts, and what strength each part that it loaded needed for it.
//
// The box is solved at that load, with the duty cut down to the passes and the speed of the history. Then the strength of the part's
// steel is sought with which its limit is used up to exactly 1, all else as it is: the limit of fatigue of roots and flanks by Miner's
// rule over the passes, their static strength by the peak, of shafts the yield. A peak says nothing of fatigue: its need is one of
// static strength. And passes say nothing of static strength but by the torque that they had: their need is that of the limit of
// fatigue alone, however strong the part were against a single load, with the life line carried on above the static strength (as
// iso6336 does it), so that few passes prove little.
//
// A root's limit is in step with σ_Flim, since its life factors don't depend on it, and so is the need with the stress; a flank's is
// not quite, since Z_L, Z_V and Z_R look at σ_Hlim of the softer gear, so it is solved for. Gears of the same steel in one mesh change
// together.
//
// Without passes nothing follows for fatigue from what survived, and what broke may have been driven for ever. What wore before it
// broke may have worn in any speed, and where the duty doesn't name every speed that may have worn it, it may have been driven for
// ever.
func BorneBy(b *Box, e Evidence, method Method) (*Borne, error) {
	cut := *b
	cut.Torque, cut.Shock, cut.Duty = e.Torque, 1, dutyOf(b, e) // peaks are asked for by their own torque
	p := prepare(&cut, method)
	if p.found.HasErrors() {
		p.found.Sort()
		return nil, p.found
	}
	if cut.Housing.Test != nil {
		if err := p.findHousing(); err != nil {
			return nil, err
		}
	}
	n := needs{p: p, evidence: e, shock: max(1, b.Shock), duty: b.Duty, at: map[needKey]int{}}
	layouts := slices.Clone(p.layouts)
	tries := 1
	for _, l := range layouts {
		tries = max(tries, len(l))
	}
	for k := range tries {
		for i, l := range layouts {
			p.layouts[i] = l[k%len(l):][:1]
		}
		n.loads = nil // the same in every layout
		if err := n.solve(); err != nil {
			return nil, fmt.Errorf("service history at %.4g N·m: %w", e.Torque/1e3, err)
		}
	}
	return &Borne{n.loads, n.all, largest(n.seen)}, nil
}

// dutyOf is what the box had behind it; nil when that isn't given.
func dutyOf(b *Box, e Evidence) *Duty {
	if b.Duty == nil || e.Passes == 0 {
		return nil
	}
	for _, s := range b.Speeds {
		told := slices.ContainsFunc(b.Duty.Steps, func(d DutyStep) bool { return d.Speed == s.Name })
		if e.Broke && !told && (e.Speed == "" || e.Speed == s.Name) {
			return nil
		}
	}
	d := *b.Duty
	d.Passes = e.Passes
	if !e.Broke && e.Speed != "" {
		d.Steps = nil
		for _, s := range b.Duty.Steps {
			if s.Speed == e.Speed {
				d.Steps = append(d.Steps, s)
			}
		}
	}
	return &d
}

type needKey struct {
	kind        Kind
	item, speed string // no speed for what wears over the duty
}

// needs collects them.
type needs struct {
	p        *prepared
	evidence Evidence
	shock    float64 // of the box
	duty     *Duty   // of the box, whether or not its passes are given
	at       map[needKey]int
	all      []Need
	loads    []CountedLoad
	seen     []Survived // by speed
}

func (n *needs) add(k needKey, gear, speed, steel string, needed float64) {
	if !(needed > 0) {
		return
	}
	i, ok := n.at[k]
	if !ok {
		i = len(n.all)
		n.at[k] = i
		strength, _ := k.kind.strength()
		n.all = append(n.all, Need{Kind: k.kind, Item: k.item, Gear: gear, Steel: steel, Strength: strength, Least: needed})
	}
	found := &n.all[i]
	found.Least = min(found.Least, needed)
	if needed > found.Most {
		found.Most, found.Speed = needed, speed
	}
}

// concerns reports whether a mesh may have been hurt in what the history tells of.
func (n *needs) concerns(mesh string) bool {
	e := n.evidence
	if !e.Broke || e.Speed == "" {
		return true
	}
	return slices.Contains(n.p.box.Speeds[n.p.speedNamed(e.Speed)].Path, mesh)
}

// solve works the box out in one layout of its shafts.
func (n *needs) solve() error {
	p := n.p
	solvers, chosen := p.choose(n.evidence.Torque, nil)
	done := map[wornKey]bool{}
	for _, v := range chosen {
		load := n.load(v)
		for step, name := range v.speed.Path {
			i := p.mesh[name]
			if p.pairs[i].form == nil || !n.concerns(name) {
				continue // without limits of ISO 6336 there is nothing that history could bound
			}
			for _, t := range v.trials(step, i, solvers) {
				if err := n.teeth(v, i, t, load, done); err != nil {
					return err
				}
			}
		}
		if load.Peak.Torque == 0 {
			continue
		}
		n.loads = append(n.loads, load)
		if err := n.shafts(v, load.Peak.Torque); err != nil {
			return err
		}
		if !n.evidence.Broke {
			if err := n.guides(v, load); err != nil {
				return err
			}
		}
	}
	return nil
}

// teeth adds what one limit of a gear's teeth needs.
func (n *needs) teeth(v *solver, mesh int, t trial, load CountedLoad, done map[wornKey]bool) error {
	p, e := n.p, n.evidence
	key := needKey{t.kind, p.item(mesh, t), v.speed.Name}
	if !t.peak {
		key.speed = "" // what wears, wears in every speed
	}
	worn := t.key(material.Low)
	if t.peak && load.Peak.Torque == 0 || !t.peak && worn == nil && !e.Broke || worn != nil && done[*worn] {
		return nil
	}
	if worn != nil {
		done[*worn] = true
	}
	var err error
	if t.peak {
		if load.Peak.Torque, err = hardest(v, t, load.Peak.Torque); err != nil {
			return err
		}
	}
	likely := 0.0
	for level := material.Low; level <= material.High; level++ {
		needed, err := n.needed(v, mesh, t, level, load, likely)
		if err != nil {
			return err
		}
		likely = needed // the bands of other steels hardly move it
		n.add(key, p.gearOf(mesh, t.gear), v.speed.Name, p.pairs[mesh].steels[t.gear].Name, needed)
	}
	return nil
}

// beyond is how many times as much static strength a steel is given while the need of its limit of fatigue is sought: more than any
// load asks for.
const beyond = 100

// needed is the strength of a gear's steel with which what is asked of it is just borne, MPa, with all else at one end of its band. likely is where to look first; 0 = anywhere.
func (n *needs) needed(v *solver, mesh int, t trial, level material.Level, load CountedLoad, likely float64) (float64, error) {
	pairs := n.p.pairs
	before := make([][2]material.Steel, len(pairs))
	for m := range pairs {
		before[m] = pairs[m].steels
	}
	defer func() {
		for m := range pairs {
			pairs[m].steels = before[m]
		}
		n.p.forget()
	}()
	strength, _ := t.kind.strength()
	own := before[mesh][t.gear]
	if !(likely > 0) || math.IsInf(likely, 1) {
		likely = strength.Band(&own).At(level)
	}
	// The search is made for the torque that a limit allows; here the weaker the steel, the more of it is used up.
	weakness, err := crossing(func(weakness float64) (float64, error) {
		for m := range pairs {
			for k := range pairs[m].steels {
				if s := &pairs[m].steels[k]; SameSteel(s, &own) {
					setStrength(s, strength, 1/weakness)
				}
			}
		}
		n.p.forget() // made of the steels as they were
		switch {
		case t.peak:
			return t.usedUp(level, load.Peak.Torque/n.p.peak(v.speed), nil)
		case len(t.shares) > 0:
			return t.wornUp(level, n.stepLoad, nil)
		}
		return t.usedUp(level, n.evidence.Torque, nil)
	}, 1/likely, 1)
	return 1 / weakness, err
}

// setStrength gives teeth of a steel a strength without a band: the static one with the limit of fatigue that it is counted by, or that
// limit with more static strength than is asked for.
func setStrength(s *material.Steel, strength Strength, v float64) {
	set := func(of Strength, v float64) {
		band := of.Of(s)
		band.Low, band.Typical, band.High = v, v, v
	}
	switch fatigue, static := strength.Fatigue(); {
	case static:
		set(fatigue, v)
		set(strength, v)
	case strength == RootStrength:
		set(RootStrength, v)
		set(RootStatic, beyond*v)
	default:
		set(FlankStrength, v)
		set(FlankStatic, beyond*v)
	}
}

// SameSteel reports whether two steels of one box are one: of the same name, or of the same batch.
func SameSteel(a, b *material.Steel) bool {
	return a.Name == b.Name || a.Batch != "" && a.Batch == b.Batch
}

// shafts adds what the sections of the shafts need not to stay bent at a peak, N·mm. Their stress is the need.
func (n *needs) shafts(v *solver, peak float64) error {
	p := n.p
	m, err := v.measure(peak)
	if err != nil {
		return err
	}
	for _, i := range v.shafts {
		line := &p.lines[i]
		for j := range line.sections {
			stress, err := m.stress(i, j)
			if err != nil {
				return err
			}
			n.add(needKey{ShaftYield, line.sections[j], v.speed.Name}, "", v.speed.Name, line.steel.Name, stress)
		}
		for j := range line.notches {
			stress, err := m.notchStress(i, j)
			if err != nil {
				return err
			}
			n.add(needKey{NotchYield, line.notches[j].item, v.speed.Name}, "", v.speed.Name, line.steel.Name, stress)
		}
	}
	return nil
}
