package gearbox

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/beam"
	"layshaft/gearbox/diag"
	"layshaft/gearstress/contact"
	"layshaft/gearstress/lewis"
)

// Solve works out every wanted speed of a box at an input torque. The error is a diag.List when the box itself is at fault.
func Solve(b *Box, load Load) (*Result, error) {
	torque := load.Torque
	if torque == 0 {
		torque = b.Torque
	}
	if math.IsNaN(torque) || math.IsInf(torque, 0) {
		return nil, fmt.Errorf("input torque is %v; it must be a finite number", torque)
	}
	p := prepare(b, load.Method)
	if p.found.HasErrors() {
		p.found.Sort()
		return nil, p.found
	}
	r := &Result{Box: b, Torque: torque, Notes: p.notes()}
	for i, s := range b.Speeds {
		if load.Speeds != nil && !slices.Contains(load.Speeds, s.Name) {
			continue
		}
		sr, err := p.solve(i, torque)
		if err != nil {
			return nil, fmt.Errorf("box %s, speed %s: %w", quoted(b.Name), quoted(s.Name), err)
		}
		r.Speeds = append(r.Speeds, *sr)
	}
	if len(r.Speeds) == 0 {
		return nil, errors.New("none of the wanted speeds is in box " + quoted(b.Name))
	}
	return r, nil
}

// notes are the assumptions that hold for every speed, and the warnings of Validate.
func (p *prepared) notes() []string {
	notes := []string{
		"Each mesh carries its load evenly along the common face; how the tilt crowds it to one end is shown but not yet in the tooth stress.",
		"Tooth root: the whole torque on one tooth, at its tip (Lewis), against the yield strength of the core. Flank: the whole torque on one line of contact at the pitch point (Hertz). No dynamic or shock factor: put shocks into the input torque.",
		"Shaft stress is nominal (bending, torsion and axial force, no notch factor). Shaft stiffness is that of the stepped shaft (bending, shear, softness of sharp shoulders); gear bodies don't stiffen it.",
	}
	if p.method.NoShoulder {
		notes = append(notes, "The softness of shaft shoulders is left out, as asked: real shafts bend a few per cent more.")
	}
	if p.method.NoShear {
		notes = append(notes, "Shear deformation of the shafts is left out, as asked: real shafts bend more.")
	}
	if len(p.unlike) > 0 {
		notes = append(notes, "Lewis stress stands for teeth of full depth without profile shift. These differ, and the stress of the real tooth is listed beside it: "+strings.Join(p.unlike, ", ")+".")
	}
	for _, q := range p.pairs {
		if len(q.geometry.Derived) > 0 {
			notes = append(notes, "Profile shifts and tip diameters that the file doesn't give follow from the centre distances and the rack; they are listed with each mesh.")
			break
		}
	}
	notes = append(notes, p.places.notes...)
	for _, f := range p.found {
		if f.Severity == diag.Warning {
			notes = append(notes, f.Path+": "+f.Summary+". "+f.Detail)
		}
	}
	return notes
}

// solve works out one speed in every layout of the shafts that what is known allows, and keeps the worst.
func (p *prepared) solve(speed int, torque float64) (*SpeedResult, error) {
	var worst *SpeedResult
	best := 0.0
	layouts := p.layouts[speed]
	for _, l := range layouts {
		sr, err := p.solveLayout(p.box.Speeds[speed], torque, l)
		if err != nil {
			return nil, err
		}
		first := sr.Governing().Allowable[p.box.Limits.Strength]
		best = max(best, first)
		if worst == nil || first < worst.Governing().Allowable[p.box.Limits.Strength] {
			worst = sr
		}
	}
	worst.Notes = append(worst.Notes, p.layoutNotes[speed]...)
	if len(layouts) > 1 {
		worst.Notes = append(worst.Notes, fmt.Sprintf("Of the %d layouts tried the best would allow %.4g times the torque of the worst.", len(layouts), best/worst.Governing().Allowable[p.box.Limits.Strength]))
	}
	return worst, nil
}

func (p *prepared) solveLayout(s Speed, torque float64, l layout) (*SpeedResult, error) {
	b := p.box
	engine := torque * float64(b.Turns) // about +x
	f := p.follow(s, engine)
	sr := &SpeedResult{Name: s.Name, Ratio: f.ratio, Efficiency: f.efficiency, OutputTorque: f.output}

	loads := make([][]beam.Load, len(b.Shafts))
	in, out := p.shaft[b.Input.Shaft], p.shaft[b.Output.Shaft]
	loads[in] = append(loads[in], beam.Load{X: b.Input.At, Mx: engine})
	if s.Direct {
		pilot := b.Shafts[out].Bearings[p.lines[out].pilot]
		loads[in] = append(loads[in], beam.Load{X: pilot.InAt, Mx: -engine})
		loads[out] = append(loads[out], beam.Load{X: pilot.At, Mx: engine})
	}
	forces := make([]meshForce, len(f.steps))
	for i, st := range f.steps {
		forces[i] = p.force(st.mesh, st.torque[0], l)
		p.loads(st, forces[i], loads)
	}
	loads[out] = append(loads[out], beam.Load{X: b.Output.At, Mx: -f.output})

	solved, err := p.bend(loads)
	if err != nil {
		return nil, err
	}
	for i, st := range f.steps {
		sr.Meshes = append(sr.Meshes, p.meshResult(st, forces[i], p.flank(engine), solved))
	}
	for i := range b.Shafts {
		if solved[i] != nil {
			sr.Shafts = append(sr.Shafts, p.shaftResult(i, f.steps, solved))
		}
	}
	p.judge(sr, math.Abs(torque))
	return sr, nil
}

func (p *prepared) meshResult(st step, f meshForce, flank Flank, solved []*beam.Solution) MeshResult {
	q := &p.pairs[st.mesh]
	m := p.box.Meshes[st.mesh]
	r := MeshResult{
		Name: m.Name, Gears: [2]string{m.Driver, m.Driven}, At: q.at, Geometry: q.geometry, Face: q.to - q.from,
		Flank: flank, Torque: st.torque,
		Tangential: math.Abs(f.tangential), Radial: f.radial, Axial: f.axial, Derived: q.derived, Notes: q.notes,
	}
	var moved, leaned [2]point
	for k, s := range q.shafts {
		r.Shafts[k] = p.box.Shafts[s].Name
		at := solved[s].At(q.at[k], beam.Left)
		moved[k] = point{at.Y.Deflection, at.Z.Deflection}
		leaned[k] = point{at.Y.Slope, at.Z.Slope}
	}
	r.Separation = moved[1].minus(moved[0]).dot(f.along)
	// How the driver's axis leans against the driven one's. Where the driver comes nearer along the line of action, the load is larger.
	lean := leaned[0].minus(leaned[1])
	r.Tilt = lean.norm()
	r.TiltInAction = lean.dot(f.action)
	r.FaceGap = math.Abs(r.TiltInAction) * r.Face

	torque := math.Abs(st.torque[0])
	ft := 2 * torque / q.geometry.Reference[0]
	for k := range r.Root {
		r.Root[k] = lewis.Stress(ft, r.Face, m.Module, q.formTable[k])
		r.RootReal[k] = lewis.Stress(ft, r.Face, m.Module, q.formReal[k])
	}
	r.Contact = contact.PitchPoint(q.geometry, torque, r.Face, q.elasticity)
	return r
}

func (p *prepared) shaftResult(i int, steps []step, solved []*beam.Solution) ShaftResult {
	s, line, solution := p.box.Shafts[i], p.lines[i], solved[i]
	most := solution.MaxDeflection()
	r := ShaftResult{
		Name: s.Name, Start: s.Start, Length: line.length, Solution: solution,
		MaxDeflection: most.Deflection(), MaxAt: most.X,
		Sections: make([]SectionResult, len(s.Sections)),
		Bearings: make([]BearingResult, len(s.Bearings)),
	}
	x := 0.0
	for j, sec := range s.Sections {
		r.Sections[j] = SectionResult{Number: j + 1, From: x, To: x + sec.Length, Outer: sec.Outer, Bore: sec.Bore, Stress: solution.SectionStress(j)}
		x += sec.Length
	}
	first, last := math.Inf(1), math.Inf(-1)
	for j, reaction := range solution.Reactions() {
		br := s.Bearings[j]
		first, last = min(first, br.At), max(last, br.At)
		at := solution.At(br.At, beam.Left)
		slope := point{at.Y.Slope, at.Z.Slope}
		if j == line.pilot {
			carrier := solved[line.in].At(br.InAt, beam.Left)
			slope = slope.minus(point{carrier.Y.Slope, carrier.Z.Slope})
		}
		r.Bearings[j] = BearingResult{
			Name: br.Name, Type: br.Type, At: br.At, Force: [3]float64{reaction.Fx, reaction.Fy, reaction.Fz},
			Radial: math.Hypot(reaction.Fy, reaction.Fz), Slope: slope.norm(), Deflection: at.Deflection(),
		}
	}
	r.Span = last - first
	for _, st := range steps {
		q := p.pairs[st.mesh]
		for k, on := range q.shafts {
			if on == i {
				g := p.box.Gears[q.gears[k]]
				r.Gears = append(r.Gears, GearSeat{
					Name: g.Name, Mesh: p.box.Meshes[st.mesh].Name, From: g.At - g.Face/2, To: g.At + g.Face/2, Diameter: q.geometry.Working[k],
				})
			}
		}
	}
	return r
}
