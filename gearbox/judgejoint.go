package gearbox

import (
	"fmt"
	"math"

	"layshaft/beam/joint"
	"layshaft/material"
)

// Torque and thrust that pass through a joint follow from those of the meshes alone, however the load lies on their faces: they grow in step with the
// torque.

// inStep is a limit on a number that grows in step with the input torque, at so many times it; demand is at the asked torque.
func (v *solver) inStep(kind Kind, item string, times, demand float64, band material.Band, source string, notes ...string) limit {
	per := demand / v.asked * times
	if band.Source != "" {
		source += "; " + band.Source
	}
	band.Source = source
	actual := func(torque float64, _ material.Level) (float64, error) { return per * torque, nil }
	return limit{
		kind: kind, item: item, source: band.Source, band: &band, actual: actual, notes: notes,
		used: func(torque float64, level material.Level) (float64, error) { return per * torque / band.At(level), nil },
	}
}

// joints adds the limits of the joints of a shaft.
func (v *solver) joints(shaft int, add func(limit)) {
	p := v.p
	s, steel, peak := &p.box.Shafts[shaft], &p.lines[shaft].steel, p.peak(v.speed)
	for i := range s.Joints {
		j := &s.Joints[i]
		item := j.Name + " on " + ShaftTitle(s.Name)
		if j.Type == CirclipRing {
			v.circlip(s, j, item, peak, steel, add)
			continue
		}
		torque := math.Abs(v.through(shaft, j.along()))
		if torque == 0 {
			continue
		}
		outer, bore := s.under(j.along())
		switch j.Type {
		case StraightSpline, InvoluteSpline:
			spline := j.spline()
			stress := max(spline.Pressure(torque), math.Sqrt(3)*spline.Shear(torque))
			add(v.inStep(JointYield, item, peak, stress, steel.Yield,
				fmt.Sprintf("the larger of flank pressure, on %g %% of the teeth (German textbook rule, from memory), and √3 times the shear stress in half of them (Machinery's Handbook, from memory)", 100*spline.Share)))
		case ParallelKey:
			key := joint.Key{Diameter: outer, Width: j.Width, Height: j.Height, Length: j.Length}
			stress := max(key.Pressure(torque), math.Sqrt(3)*key.Shear(torque))
			add(v.inStep(JointYield, item, peak, stress, steel.Yield, "the larger of pressure on half the height of the key and √3 times its shear stress; the key as strong as the shaft"))
		case PressedOn:
			fit := joint.Fit{
				Diameter: outer, Outer: j.Outer, Bore: bore, Interference: j.Interference, Length: j.Length, Friction: orUsual(j.Friction, usualFitFriction),
				HubYoung: steel.Young, ShaftYoung: steel.Young, HubPoisson: steel.Poisson, ShaftPoisson: steel.Poisson,
			}
			grip, source := gripOf(fit, steel.Yield)
			var notes []string
			if grip.Low < fit.Torque() {
				notes = append(notes, item+": hub or shaft yields at this interference with the poorer steels, and grips no more than it does where it begins to.")
			}
			add(v.inStep(FitSlip, item, peak, torque, grip, source+"; thick rings after Lamé (Shigley's Mechanical Engineering Design, 9th ed., eqs 7-39 to 7-47)", notes...))
		}
	}
}

// gripOf is the torque that a press fit grips, N·mm: a hub or shaft that yields presses no harder than where it begins to.
func gripOf(fit joint.Fit, yield material.Band) (material.Band, string) {
	hub, shaft := fit.VonMises()
	most := max(hub, shaft, -fit.AtBore())
	at := func(y float64) float64 { return fit.Torque() * min(1, y/most) }
	return material.Band{Low: at(yield.Low), Typical: at(yield.Typical), High: at(yield.High)}, fmt.Sprintf("friction %g on a pressure of %.0f MPa, or as much as hub and shaft bear without yielding", fit.Friction, fit.Pressure())
}

// circlip adds the limit of a circlip's groove, where the thrust of its gear goes towards it.
func (v *solver) circlip(s *Shaft, j *Joint, item string, peak float64, steel *material.Steel, add func(limit)) {
	p := v.p
	g := p.gear[j.Holds]
	thrust := v.thrust(g)
	if thrust*(j.At-p.box.Gears[g].At) <= 0 {
		return
	}
	outer, _ := s.under(j.along())
	groove := joint.Circlip{Outer: outer, Bottom: outer - 2*j.Depth}
	y := steel.Yield
	add(v.inStep(CirclipPush, item, peak, math.Abs(thrust), material.Band{Low: groove.Groove(y.Low), Typical: groove.Groove(y.Typical), High: groove.Groove(y.High), Source: y.Source},
		"the groove by the form of DIN 471, shoulder of three times its depth (1.2 from memory); the ring itself isn't judged"))
}

// onGears adds the limits of the engagement teeth and of the bolts of the gears on the path.
func (v *solver) onGears(add func(limit)) {
	p := v.p
	f := p.follow(v.speed, v.engine)
	peak := p.peak(v.speed)
	for i, st := range f.steps {
		q := &p.pairs[st.mesh]
		for role, gear := range q.gears {
			g := &p.box.Gears[gear]
			torque := math.Abs(st.torque[role])
			steel := &q.steels[role]
			if g.Dogs != nil && g.Seat != nil && !f.handsOn(p, i, role) {
				d := g.Dogs.joint()
				stress := max(d.Pressure(torque), math.Sqrt(3)*d.Shear(torque))
				add(v.inStep(DogYield, g.Name, peak, stress, steel.Yield,
					fmt.Sprintf("statics: the larger of pressure on the flanks and √3 times the shear stress at the foot, %g %% of the teeth carry", 100*d.Share), g.Dogs.notes(g.Name)...))
			}
			if g.Bolts != nil {
				r := g.Bolts.ring()
				force := r.Needed(torque, math.Abs(v.thrust(gear)))
				add(v.inStep(BoltSlip, g.Name, peak, force, exactly(r.Least(), fmt.Sprintf("%s %s at %g %% of yield, thread friction %g (form of VDI 2230, from memory), scatter %g", g.Bolts.Thread, g.Bolts.Class, 100*boltUse, threadFriction, r.Scatter)),
					fmt.Sprintf("clamping force at each bolt, by which friction %g carries the torque while the thrust of the mesh takes the wheel off its flange", r.Friction)))
			}
		}
	}
}

// joint is engagement teeth as their stresses are reckoned.
func (d *Dogs) joint() joint.Dogs {
	return joint.Dogs{Teeth: d.Teeth, Radius: d.Diameter / 2, Height: d.Height, Length: d.Length, Thick: d.Thick, Share: orUsual(d.Share, usualDogShare), Face: !d.Radial, Back: d.Back}
}

// notes says whether torque holds engagement teeth in.
func (d *Dogs) notes(gear string) []string {
	if stays, _ := d.joint().Stays(0); stays {
		return nil
	}
	return []string{gear + ": without a back angle nothing but friction holds its engagement teeth in under torque, and under vibration nothing does."}
}

// ring is bolts as their grip is reckoned.
func (b *Bolts) ring() joint.Ring {
	force, _ := Threads[b.Thread].Preload(BoltClasses[b.Class], boltUse, threadFriction, 0)
	return joint.Ring{
		Bolts: b.Count, Circle: b.Circle / 2, Preload: force, Scatter: orUsual(b.Scatter, usualScatter), Embedding: b.Embedding, Friction: orUsual(b.Friction, usualBoltFriction),
	}
}

func orUsual(given, usual float64) float64 {
	if given == 0 {
		return usual
	}
	return given
}

// through is the torque about +x that enters a shaft within a stretch of it, at the asked torque, N·mm.
func (v *solver) through(shaft int, over span) (sum float64) {
	p := v.p
	f := p.follow(v.speed, v.engine)
	within := func(at, torque float64) {
		if at >= over.from-closing && at <= over.to+closing {
			sum += torque
		}
	}
	for _, l := range p.ports(v.speed, shaft, v.engine, f.output, nil) {
		within(l.X, l.Mx)
	}
	for i, st := range f.steps {
		for role, on := range p.pairs[st.mesh].shafts {
			if on == shaft && !f.handsOn(p, i, role) {
				within(p.torqueAt(f, i, role), -st.torque[role])
			}
		}
	}
	return sum
}

// thrust is the force along +x that its meshes in this speed put on a gear, at the asked torque, N.
func (v *solver) thrust(gear int) (sum float64) {
	if v.fixed == nil {
		return 0
	}
	scale := v.asked / math.Abs(v.fixed.engine)
	for i, st := range v.fixed.steps {
		for role, g := range v.p.pairs[st.mesh].gears {
			if g == gear {
				sum += float64(1-2*role) * v.fixed.forces[i].axial * scale
			}
		}
	}
	return sum
}
