package gearbox

import (
	"math"

	"layshaft/beam/joint"
)

// JointType says how something is held on a shaft.
type JointType string

// The joints of shafts.
const (
	StraightSpline JointType = "straight spline"
	InvoluteSpline JointType = "involute spline"
	ParallelKey    JointType = "key"
	PressedOn      JointType = "press fit"
	CirclipRing    JointType = "circlip"
)

// JointTypes lists the types in the order shown to people.
func JointTypes() []JointType {
	return []JointType{InvoluteSpline, StraightSpline, ParallelKey, PressedOn, CirclipRing}
}

// Joint is a place of a shaft at which torque or thrust passes to what sits on it. What its type asks for is given, the rest is 0.
type Joint struct {
	Name   string
	Type   JointType
	At     float64 // its middle, mm from the shaft's left end
	Length float64 // over which it carries, mm
	Teeth  int     // of a spline
	Outer  float64 // over the teeth of the shaft; of a press fit the outside of the hub, mm
	Inner  float64 // over the tips of the teeth in the hub, mm
	Width  float64 // of a key, mm
	Height float64 // of a key, all of it, mm
	Depth  float64 // of the groove of a circlip, mm
	Holds  string  // the gear whose thrust a circlip takes
	// Of a press fit: on the diameter, as measured less what is flattened, mm; and its friction, 0 = as usual.
	Interference, Friction float64
}

// Dogs are the engagement teeth of a free gear, dogs or radial teeth; nil = not given.
type Dogs struct {
	Teeth    int
	Diameter float64 // on which they touch, mm
	Height   float64 // radial height that touches, mm
	Length   float64 // how far they are in, along the shaft, mm
	Thick    float64 // of a tooth along the circle, mm
	Share    float64 // of the teeth that carries, –; 0 = as usual
	Back     float64 // back angle, rad: > 0 = undercut
	Radial   bool    // radial teeth under a sleeve; else dogs on a face
}

// Bolts hold a wheel on its flange; nil = not given.
type Bolts struct {
	Count     int
	Thread    string  // "M10"
	Class     string  // "10.9"
	Circle    float64 // diameter of their circle, mm
	Friction  float64 // of the joint, –; 0 = as usual
	Scatter   float64 // α_A, –; 0 = as usual
	Embedding float64 // force lost as surfaces bed down, N
}

// Threads are the metric threads with coarse pitch, by name.
var Threads = map[string]joint.Thread{
	"M6": {Diameter: 6, Pitch: 1}, "M8": {Diameter: 8, Pitch: 1.25}, "M10": {Diameter: 10, Pitch: 1.5}, "M12": {Diameter: 12, Pitch: 1.75}, "M14": {Diameter: 14, Pitch: 2}, "M16": {Diameter: 16, Pitch: 2},
}

// BoltClasses are the yield strengths of bolts by their class, MPa, ISO 898-1 (from memory).
var BoltClasses = map[string]float64{"8.8": 640, "10.9": 940, "12.9": 1100}

// What is taken of joints where nothing is given: common practice, no source, but the shares of splines, a German textbook rule (from memory).
const (
	usualStraightShare = 0.75
	usualInvoluteShare = 0.9
	usualDogShare      = 0.5
	usualFitFriction   = 0.12
	usualBoltFriction  = 0.12 // of the joint
	threadFriction     = 0.14
	usualScatter       = 1.6 // α_A of a torque wrench
	boltUse            = 0.9 // of the yield strength, in assembly
)

// along is where a joint begins and ends, mm from the shaft's left end.
func (j *Joint) along() span { return span{j.At - j.Length/2, j.At + j.Length/2} }

// spline is a joint as its stresses are reckoned.
func (j *Joint) spline() joint.Spline {
	share := usualInvoluteShare
	if j.Type == StraightSpline {
		share = usualStraightShare
	}
	return joint.Spline{Teeth: j.Teeth, Outer: j.Outer, Inner: j.Inner, Length: j.Length, Share: share}
}

// under is the smallest outer diameter and the widest bore of the sections that a joint reaches over, mm.
func (s *Shaft) under(over span) (outer, bore float64) {
	outer = math.Inf(1)
	x := 0.0
	for _, sec := range s.Sections {
		if end := x + sec.Length; x <= over.to && end >= over.from {
			outer, bore = min(outer, sec.Outer), max(bore, sec.Bore)
		}
		x += sec.Length
	}
	return outer, bore
}

// checkJoints makes sure that the joints of a shaft are on it and that a circlip holds a gear of it.
func (p *prepared) checkJoints(i int) {
	s, line := &p.box.Shafts[i], &p.lines[i]
	for _, j := range s.Joints {
		where := path("shafts", s.Name, "joints", j.Name)
		over := j.along()
		if over.from < -closing || over.to > line.length+closing {
			p.fault(where, "off the shaft", "The joint reaches from %.6g to %.6g mm, but shaft %q runs from 0 to %.6g mm.", over.from, over.to, s.Name, line.length)
			continue
		}
		outer, bore := s.under(over)
		switch j.Type {
		case StraightSpline, InvoluteSpline:
			if j.Outer <= j.Inner {
				p.fault(where, "a spline that doesn't touch", "The teeth of the shaft reach to %.6g mm, those of the hub only down to %.6g mm.", j.Outer, j.Inner)
			}
		case PressedOn:
			if j.Outer <= outer {
				p.fault(where+".outer", "a hub without a wall", "The outside of the hub must lie beyond the shaft of %.6g mm.", outer)
			}
		case CirclipRing:
			if g, ok := p.gear[j.Holds]; !ok || p.box.Gears[g].Shaft != s.Name {
				p.fault(where+".holds", "a circlip without its gear", "It must hold a gear of shaft %q.", s.Name)
			}
			if outer-2*j.Depth <= bore {
				p.fault(where+".depth", "a groove through the wall", "A groove of %.6g mm leaves nothing of %.6g mm with a bore of %.6g mm.", j.Depth, outer, bore)
			}
		}
	}
}
