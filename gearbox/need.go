package gearbox

import (
	"fmt"
	"slices"

	"layshaft/material"
)

// Need is the strength that a part must have for its limit to be just held in what evidence tells of.
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

// Needs works out what strength each part that was loaded in a piece of evidence would have needed.
//
// The box is solved at the told torque, with the duty cut down to the told passes and speed. Then the strength of the part's steel is
// sought with which its limit is used up to exactly 1, all else as it is: of root and flank for fatigue (Miner's rule) and for the peak, of shafts for yield. A root's
// limit is in step with σ_Flim, since its life factors don't depend on it, and so is the need with the stress; a flank's is not quite, since Z_L, Z_V and Z_R look at σ_Hlim of the
// softer gear, so it is solved for. Gears of the same steel in one mesh change together.
//
// What can't be known is kept on the careful side. Without passes nothing follows for fatigue from what survived, and what broke may have been driven for ever. In a speed with a share of
// the torque in the duty, what survived is counted at that share, what broke at no less than the torque. What wore before it broke may have worn in any speed, and where
// the duty doesn't name every speed that may have worn it, it may have been driven for ever. Coast is left out of what survived, but for the roots that wear in it.
func Needs(b *Box, e Evidence, method Method) ([]Need, error) {
	cut := *b
	cut.Torque, cut.Duty = e.Torque, dutyOf(b, e)
	p := prepare(&cut, method)
	if p.found.HasErrors() {
		p.found.Sort()
		return nil, p.found
	}
	if cut.Housing.Test != nil {
		if err := p.findHousing(); err != nil {
			return nil, fmt.Errorf("box %s, bench test of the case: %w", quoted(b.Name), err)
		}
	}
	n := needs{p: p, evidence: e, duty: b.Duty, at: map[needKey]int{}}
	layouts := slices.Clone(p.layouts)
	tries := 1
	for _, l := range layouts {
		tries = max(tries, len(l))
	}
	for k := range tries {
		for i, l := range layouts {
			p.layouts[i] = l[k%len(l):][:1]
		}
		if err := n.solve(); err != nil {
			return nil, fmt.Errorf("evidence at %.4g N·m: %w", e.Torque/1e3, err)
		}
	}
	return n.all, nil
}

// dutyOf is what the box had behind it; nil when that isn't told.
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
	duty     *Duty // of the box, whether or not its passes are told
	at       map[needKey]int
	all      []Need
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

// peak is over how many times the told torque a speed was loaded at once, shock aside; 0 = it wasn't driven, or nothing is known of it.
func (n *needs) peak(speed string) (times float64) {
	e := n.evidence
	if e.Speed != "" && speed != e.Speed {
		return 0
	}
	told := false
	if n.duty != nil {
		for _, s := range n.duty.Steps {
			if s.Speed == speed {
				told, times = true, max(times, s.Share)
			}
		}
	}
	switch {
	case e.Broke:
		return max(times, 1)
	case !told && (n.duty == nil || e.Speed != ""):
		return 1
	}
	return times
}

// concerns reports whether a mesh may have been hurt in what evidence tells of.
func (n *needs) concerns(mesh string) bool {
	e := n.evidence
	if !e.Broke || e.Speed == "" {
		return true
	}
	return slices.Contains(n.p.box.Speeds[n.p.speedNamed(e.Speed)].Path, mesh)
}

// solve works the box out in one layout of its shafts.
func (n *needs) solve() error {
	p, e := n.p, n.evidence
	solvers, chosen := p.choose(e.Torque, nil)
	done := map[wornKey]bool{}
	for _, v := range chosen {
		times := n.peak(v.speed.Name)
		for step, name := range v.speed.Path {
			i := p.mesh[name]
			if p.pairs[i].form == nil || !n.concerns(name) {
				continue // without limits of ISO 6336 there is nothing that evidence could bound
			}
			for _, t := range v.trials(step, i, solvers) {
				key, torque := needKey{t.kind, p.item(i, t), v.speed.Name}, e.Torque*times
				if !t.peak {
					key.speed, torque = "", e.Torque // what wears, wears in every speed
				}
				worn := t.key(material.Low)
				if torque == 0 || !t.peak && worn == nil && !e.Broke || worn != nil && done[*worn] {
					continue
				}
				if worn != nil {
					done[*worn] = true
				}
				for level := material.Low; level <= material.High; level++ {
					needed, err := n.needed(v, i, t, level, torque)
					if err != nil {
						return err
					}
					n.add(key, p.gearOf(i, t.gear), v.speed.Name, p.pairs[i].steels[t.gear].Name, needed)
				}
			}
		}
		if times > 0 {
			if err := n.shafts(v, times); err != nil {
				return err
			}
		}
	}
	return nil
}

// needed is the strength of a gear's steel with which what is asked of it is just borne at a torque, MPa, with all else at one end of its band.
func (n *needs) needed(v *solver, mesh int, t trial, level material.Level, torque float64) (float64, error) {
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
	// The search is made for the torque that a limit allows; here the weaker the steel, the more of it is used up.
	weakness, err := crossing(func(weakness float64) (float64, error) {
		for m := range pairs {
			for k := range pairs[m].steels {
				if s := &pairs[m].steels[k]; SameSteel(s, &own) {
					band := strength.Of(s)
					band.Low, band.Typical, band.High = 1/weakness, 1/weakness, 1/weakness
				}
			}
		}
		n.p.forget()
		return v.usedUp(&t, level, torque)
	}, 1/strength.Of(&own).At(level), 1)
	return 1 / weakness, err
}

// SameSteel reports whether two steels of one box are one: of the same name, or of the same batch.
func SameSteel(a, b *material.Steel) bool {
	return a.Name == b.Name || a.Batch != "" && a.Batch == b.Batch
}

// shafts adds what the sections of the shafts need not to stay bent. Their stress is the need.
func (n *needs) shafts(v *solver, times float64) error {
	p := n.p
	m, err := v.measure(n.evidence.Torque * times * max(1, p.box.Shock))
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
	}
	return nil
}
