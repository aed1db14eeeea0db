package gearbox

import (
	"cmp"
	"math"

	"layshaft/beam"
	"layshaft/beam/strength"
	"layshaft/material"
)

// Notches of shafts: what the file says of them, put together with the sections around them, ready to be judged at any torque.

// notchStations is at how many places along it a notch with a length is looked at.
const notchStations = 5

// AtStep is how far a shoulder may stand from its step, mm: what a rule is read to.
const AtStep = 0.5

// notchLine is a notch of a shaft ready to be judged.
type notchLine struct {
	item     string
	stations []float64 // where it is looked at, mm from the shaft's left end
	net      strength.Modulus
	fatigue  [material.High + 1]*strength.Fatigue // by the level of the steel
}

// cut is what a notch carries, at each of its stations on both sides.
type cut []strength.Load

// cut takes it from a shaft that was bent, and puts it behind others.
func (n *notchLine) cut(r *beam.Recurring, all cut) cut {
	for _, x := range n.stations {
		left, right := r.Beside(x)
		for _, s := range []*beam.State{&left, &right} {
			all = append(all, strength.Load{Moment: s.Moment(), Torque: s.Torque, Normal: s.Normal, Shear: s.Shear()})
		}
	}
	return all
}

// carried is what a notch carries under a measure.
func (m *measure) carried(shaft, notch int) (cut, error) {
	if err := m.bend(shaft); err != nil {
		return nil, err
	}
	return m.cut[shaft][notch], nil
}

// notchStress is the equivalent stress in what a notch leaves of its section, MPa.
func (m *measure) notchStress(shaft, notch int) (float64, error) {
	all, err := m.carried(shaft, notch)
	most := 0.0
	for _, l := range all {
		most = max(most, m.solver.p.lines[shaft].notches[notch].net.Under(l).VonMises())
	}
	return m.grown * most, err
}

// shaftRules are how fatigue of a shaft is judged.
func (b *Box) shaftRules(s *Shaft) strength.Rules {
	usual := strength.UsualRules
	return strength.Rules{
		Surface: cmp.Or(s.Surface, usual.Surface), Criterion: cmp.Or(b.Limits.ShaftCriterion, usual.Criterion), Torsion: cmp.Or(b.Limits.ShaftTorsion, usual.Torsion),
	}
}

// prepareNotches readies the notches of a shaft.
func (p *prepared) prepareNotches(i int) {
	s, line := &p.box.Shafts[i], &p.lines[i]
	for _, n := range s.Notches {
		where := path("shafts", s.Name, "notches", n.Name)
		if from, to := n.along(); from < 0 || to > line.length {
			p.fault(where, "off the shaft", "The %s %q reaches from %.6g to %.6g mm, but shaft %q runs from 0 to %.6g mm.", n.Shape, n.Name, from, to, s.Name, line.length)
			continue
		}
		if n.Shape == strength.Shoulder && len(s.Sections) < 2 {
			p.fault(where, "a shoulder without a step", "Shaft %q is one section: it has no step.", s.Name)
			continue
		}
		shape, at := s.shape(n)
		if math.Abs(at-n.At) > AtStep {
			p.warn(where, "a shoulder beside its step", "No section of shaft %q begins or ends within %g mm of %.6g mm. It is judged at the nearest step, at %.6g mm: check the place.", s.Name, AtStep, n.At, at)
		}
		if n.Shape == strength.Shoulder && shape.Bottom == shape.Outer {
			continue // both sections are alike: nothing raises the stress
		}
		if err := shape.Check(); err != nil {
			for _, e := range parts(err) {
				p.fault(where, "an impossible notch", "%s: %s.", capitalised(string(n.Shape)), e)
			}
			continue
		}
		ready := notchLine{item: n.Name + " of " + ShaftTitle(s.Name), net: shape.Net(), stations: []float64{at}}
		if n.Length > 0 {
			from, to := n.along()
			ready.stations = nil
			for k := range notchStations {
				ready.stations = append(ready.stations, from+(to-from)*float64(k)/(notchStations-1))
			}
		}
		for level := material.Low; level <= material.High; level++ {
			steel := strength.Steel{Tensile: line.steel.Tensile.At(level), Yield: line.steel.Yield.At(level)}
			// What history says of the yield strength alone may have left the tensile strength behind.
			steel.Tensile = max(steel.Tensile, steel.Yield)
			f, err := shape.Fatigue(steel, p.box.shaftRules(s))
			if err != nil {
				p.fault(path("shafts", s.Name, "steel"), "a steel without fatigue", "%s.", err)
				return
			}
			ready.fatigue[level] = f
		}
		line.notches = append(line.notches, ready)
		line.stations += len(ready.stations)
	}
}

// along is where a notch begins and ends, mm from the shaft's left end.
func (n *Notch) along() (from, to float64) { return n.At - n.Length/2, n.At + n.Length/2 }

// shape puts a notch together with the sections that it stands in, and says where exactly it stands: a shoulder at the nearest end of a section. Where a notch reaches over several sections the thinnest counts, and the widest bore.
func (s *Shaft) shape(n Notch) (shape strength.Notch, at float64) {
	shape = strength.Notch{Kind: n.Shape, Radius: n.Radius, Width: n.Width, Hole: n.Hole}
	at = n.At
	x, nearest := 0.0, math.Inf(1)
	from, to := n.along()
	shape.Outer = math.Inf(1)
	for k, sec := range s.Sections {
		end := x + sec.Length
		if n.Shape == strength.Shoulder && k > 0 && math.Abs(x-n.At) < nearest {
			before := s.Sections[k-1]
			nearest, at = math.Abs(x-n.At), x
			shape.Outer, shape.Bottom, shape.Bore = max(before.Outer, sec.Outer), min(before.Outer, sec.Outer), max(before.Bore, sec.Bore)
		}
		if n.Shape != strength.Shoulder && x <= to && end >= from {
			shape.Outer, shape.Bore = min(shape.Outer, sec.Outer), max(shape.Bore, sec.Bore)
		}
		x = end
	}
	switch n.Shape {
	case strength.Shoulder:
		return shape, at
	case strength.CirclipGroove, strength.RoundGroove:
		shape.Bottom = shape.Outer - 2*n.Depth
	case strength.Keyway:
		shape.Depth = n.Depth
	case strength.SplineRoot, strength.PinionRoot:
		shape.Bottom = cmp.Or(n.Root, shape.Outer)
		shape.Outer = max(shape.Outer, shape.Bottom)
	}
	return shape, at
}
