package gearbox

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"layshaft/beam"
	"layshaft/gearbox/diag"
	"layshaft/gearstress/contact"
	"layshaft/gearstress/faceload"
	"layshaft/gearstress/lewis"
)

// LeastTorque and MostTorque bound the size of an input torque, N·mm: what lies outside was written in another unit.
const LeastTorque, MostTorque = 10.0, 1e9

// CheckTorque refuses an input torque, N·mm, that no gearbox has.
func CheckTorque(torque float64) error {
	if size := math.Abs(torque); !(size >= LeastTorque && size <= MostTorque) {
		return fmt.Errorf("an input torque of %s N·m can't be reckoned with; from %g N·m to %.0f N·m is expected: check the number and its unit",
			strconv.FormatFloat(torque/1000, 'f', -1, 64), LeastTorque/1000, MostTorque/1000)
	}
	return nil
}

// Solve works out every wanted speed of a box at an input torque. The error is a diag.List when the box itself is at fault.
func Solve(b *Box, load Load) (*Result, error) {
	torque := load.Torque
	if torque == 0 {
		torque = b.Torque
	}
	if err := CheckTorque(torque); err != nil {
		return nil, err
	}
	p := prepare(b, load.Method)
	if !load.Loose {
		p.checkSolids()
	}
	if p.found.HasErrors() {
		p.found.Sort()
		return nil, p.found
	}
	boxes, tried, err := p.alternatives()
	if err != nil {
		return nil, err
	}
	if len(boxes) == 1 && boxes[0] == b {
		return p.solve(load, torque)
	}
	if load.Memory == nil {
		load.Memory = new(Memory)
	}
	results := make([]*Result, len(boxes))
	for k, box := range boxes {
		q := prepare(box, load.Method)
		if q.found.HasErrors() {
			q.found.Sort()
			return nil, q.found
		}
		if results[k], err = q.solve(load, torque); err != nil {
			return nil, err
		}
	}
	r := merge(results)
	r.Box, r.Checks, r.Warnings = b, append(slices.Clone(tried), r.Checks...), p.found
	return r, nil
}

// solve works out every wanted speed of a box whose shafts are settled.
func (p *prepared) solve(load Load, torque float64) (*Result, error) {
	b := p.box
	p.second, p.brief, p.kinds, p.wanted = load.Second, load.Brief, load.Kinds, load.Wanted
	if p.box.Housing.Test != nil {
		if err := p.findHousing(); err != nil {
			return nil, fmt.Errorf("box %s, bench test of the case: %w", quoted(b.Name), err)
		}
	}
	p.memory = load.Memory
	r := &Result{Box: b, Torque: torque, Case: p.housing, Checks: p.checks(), Notes: p.notes(), Warnings: p.found, NotJudged: p.notJudged(), Kinds: load.Kinds, Weights: p.weigh()}
	solvers, chosen := p.choose(torque, load.Speeds)
	for _, v := range chosen {
		sr, err := v.result(solvers)
		if err != nil {
			return nil, fmt.Errorf("box %s, speed %s: %w", quoted(b.Name), quoted(v.speed.Name), err)
		}
		r.Speeds = append(r.Speeds, *sr)
		if load.Brief && load.Least {
			p.least = min(p.least, sr.First.Torque)
		}
	}
	if load.Work != nil {
		load.Work.add(p.work(solvers))
	}
	if len(r.Speeds) == 0 && (load.Speeds == nil || len(load.Speeds) > 0) {
		return nil, errors.New("none of the wanted speeds is in box " + quoted(b.Name))
	}
	r.Lives = p.lives(r.Speeds)
	return r, nil
}

// notes are the assumptions that hold for every speed.
func (p *prepared) notes() []string {
	notes := []string{
		"Shafts, bearings and meshes are solved as one system: the load along each face (K_Hβ) is that of the bent shafts, and the tooth stresses have it in them.",
		"Root and flank are rated by ISO 6336:2019, method B. The application factor K_A is 1: put shocks into the input torque, and single peaks into the shock factor.",
		"Shaft stress is nominal (bending, torsion and axial force, no notch factor). Shaft stiffness is that of the stepped shaft (bending, shear, softness of sharp shoulders); gear bodies don't stiffen it.",
	}
	notes = append(notes, p.assumed()...)
	notes = append(notes, p.hubNote()...)
	if p.method.NoShoulder {
		notes = append(notes, "The softness of shaft shoulders is left out, as asked: real shafts bend a few per cent more.")
	}
	if p.method.NoTwist {
		notes = append(notes, "The wind-up of shafts across a face is left out, as asked.")
	}
	if p.method.NoShear {
		notes = append(notes, "Shear deformation of the shafts is left out, as asked: real shafts bend more.")
	}
	if len(p.unlike) > 0 && slices.Contains(p.second, Lewis) {
		notes = append(notes, "Lewis stress stands for teeth of full depth without profile shift. These differ, and the stress of the real tooth is listed beside it: "+strings.Join(p.unlike, ", ")+".")
	}
	for _, q := range p.pairs {
		if len(q.geometry.Derived) > 0 {
			notes = append(notes, "Profile shifts and tip diameters that the file doesn't give follow from the centre distances and the rack.")
			break
		}
	}
	return notes
}

// checks are guesses about where shafts lie, and the warnings of Validate.
func (p *prepared) checks() []string {
	checks := slices.Clone(p.places.notes)
	for _, f := range p.found {
		if f.Severity == diag.Warning {
			checks = append(checks, f.Path+": "+f.Summary+". "+f.Detail)
		}
	}
	return checks
}

// choose readies every speed that is wanted or that the duty needs.
func (p *prepared) choose(torque float64, wanted []string) (solvers map[work]*solver, chosen []*solver) {
	solvers = map[work]*solver{}
	p.loaded = map[loaded][]share{}
	for i, s := range p.box.Speeds {
		asked := wanted == nil || slices.Contains(wanted, s.Name)
		if !asked && !p.inDuty(s.Name) {
			continue
		}
		v := p.solverFor(s, p.layouts[i][0], torque)
		solvers[work{s.Name, false}] = v
		if p.coasts(s.Name) {
			solvers[work{s.Name, true}] = p.solverFor(s, v.layout, -torque)
		}
		if asked {
			chosen = append(chosen, v)
		}
	}
	return solvers, chosen
}

// result works out a speed and judges it.
func (v *solver) result(solvers map[work]*solver) (*SpeedResult, error) {
	p := v.p
	st, err := v.at(v.asked)
	if err != nil {
		return nil, fmt.Errorf("at an input torque of %.4g N·m: %w", v.asked/1e3, err)
	}
	sr := &SpeedResult{Name: v.speed.Name, Ratio: st.flow.ratio, Efficiency: st.flow.efficiency, OutputTorque: st.flow.output, Reach: p.reach(v.speed, v.torque())}
	sr.Notes = sr.Reach.note()
	for i := range st.flow.steps {
		m, err := v.meshResult(st, i, solvers)
		if err != nil {
			return nil, err
		}
		sr.Meshes = append(sr.Meshes, m)
	}
	for i := range p.box.Shafts {
		if st.solved[i] != nil {
			sr.Shafts = append(sr.Shafts, p.shaftResult(i, st))
		}
	}
	judge := v.judge
	if p.brief {
		judge = v.findFirst
	}
	err = judge(sr, solvers)
	sr.Notes = append(sr.Notes, v.edgeNotes()...)
	return sr, err
}

// meshResult is one mesh of the path at the asked torque.
func (v *solver) meshResult(st *state, n int, solvers map[work]*solver) (MeshResult, error) {
	p := v.p
	step, f := st.flow.steps[n], st.coupling.forces[n]
	q, m := &p.pairs[step.mesh], p.box.Meshes[step.mesh]
	pose := p.pose(st, n)
	faces := st.carried.faces
	r := MeshResult{
		Name: m.Name, Gears: [2]string{m.Driver, m.Driven}, At: q.at, Geometry: q.geometry, Face: q.to - q.from,
		Flank: p.flank(st.engine), Torque: step.torque, Derived: q.derived, Checks: sentences("", q.notes),
		Tangential: math.Abs(f.tangential), Radial: f.radial, Axial: f.axial,
		Separation: pose.separation, Tilt: pose.axes.norm(), TiltInAction: pose.lean.dot(f.action),
		Stations: q.stations, LineLoad: faces.LineLoad[n], FaceFactor: faces.FaceLoadFactor(n), InContact: faces.ContactFraction(n), Stiffness: q.stiffness,
	}
	for k, s := range q.shafts {
		r.Shafts[k] = p.box.Shafts[s].Name
	}
	r.FaceGap = math.Abs(r.TiltInAction) * r.Face
	r.FactorC, _ = faceload.FromMisalignment(r.FaceGap, q.stiffness, f.onDriven.norm()/r.Face)
	r.Checks = append(r.Checks, r.close()...)
	var err error
	if !p.brief {
		if err := v.explain(&r, st, n); err != nil {
			return r, err
		}
	}

	torque := math.Abs(step.torque[0])
	ft := 2 * torque / q.geometry.Reference[0]
	for k := range r.Root {
		r.Root[k] = lewis.Stress(ft, r.Face, m.Module, q.formTable[k])
		r.RootReal[k] = lewis.Stress(ft, r.Face, m.Module, q.formReal[k])
	}
	r.Contact = contact.PitchPoint(q.geometry, torque, r.Face, q.elasticity)
	r.Counted = r.FaceFactor
	if q.form == nil {
		return r, nil
	}
	level := p.box.Limits.Strength
	r.Deviation = q.deviation
	if r.Counted, err = v.factor(n, v.asked, level); err != nil {
		return r, err
	}
	shares := v.shares(q.gears[0], solvers)
	if len(shares) == 0 && p.box.Duty != nil {
		r.Checks = append(r.Checks, "no step of the duty loads it, so its fatigue isn't judged, only its peak.")
	}
	turns := v.turns(step.mesh, v.flankShares(q.gears[0], v.sense(n), solvers))
	if r.Rating, err = v.rate(n, v.asked, p.box.Revs, turns, level, p.input(step.mesh, level, v.speed, true)); err != nil {
		return r, err
	}
	if p.brief {
		return r, nil
	}
	if r.Peak, err = v.rate(n, v.asked*p.peak(v.speed), p.box.Revs, 0, level, p.input(step.mesh, level, v.speed, false)); err != nil {
		return r, err
	}
	r.Checks = append(r.Checks, sentences("", r.Rating.Notes)...)
	r.Checks = append(r.Checks, sentences("at the peak torque: ", unsaid(r.Peak.Notes, r.Rating.Notes))...)
	r.Notes = append(r.Notes, sentences("", r.Rating.Assumed)...)
	r.Notes = append(r.Notes, sentences("at the peak torque: ", unsaid(r.Peak.Assumed, r.Rating.Assumed))...)
	r.Scuffing = v.scuff(&r, n)
	if r.FaceFactor > crowded {
		r.Checks = append(r.Checks, fmt.Sprintf("crowds its load: the peak is %.2f times the mean, at the %s end.", r.FaceFactor, r.CrowdedEnd()))
	}
	if r.InContact < 1-1e-6 {
		r.Checks = append(r.Checks, fmt.Sprintf("carries on %.0f %% of its face only.", 100*r.InContact))
	}
	return r, nil
}

// sentences are notes with what they are about in front and a full stop behind.
func sentences(about string, notes []string) (all []string) {
	for _, n := range notes {
		all = append(all, about+strings.TrimRight(n, ".")+".")
	}
	return all
}

// unsaid are the notes that are not among those said before.
func unsaid(notes, before []string) []string {
	return slices.DeleteFunc(slices.Clone(notes), func(n string) bool { return slices.Contains(before, n) })
}

// explain adds what tilts a mesh, and how the pattern on its flanks grows with the torque.
func (v *solver) explain(r *MeshResult, st *state, n int) (err error) {
	if r.Causes, err = v.p.causes(st, n); err != nil {
		return err
	}
	for _, share := range growth {
		spot, err := v.spot(n, v.asked*share)
		if err != nil { // at the asked torque it has been solved already
			r.Notes = append(r.Notes, fmt.Sprintf("Mesh %s: how its load lies along the face at %.4g N·m is not shown: %v.", r.Name, v.asked*share/1e3, err))
			continue
		}
		r.Growth = append(r.Growth, spot)
	}
	return nil
}

// growth is at which shares of the asked torque the pattern on the flank is shown.
var growth = []float64{0.1, 0.25, 0.5, 0.75, 1, 1.25, 1.5}

// spot is how the load of a mesh lies along its face at a torque.
func (v *solver) spot(n int, torque float64) (Spot, error) {
	load, err := v.find(torque, making{})
	if err != nil {
		return Spot{}, err
	}
	r, err := v.fixed.carried(load)
	if err != nil {
		return Spot{}, err
	}
	faces := r.faces
	return Spot{torque, faces.FaceLoadFactor(n), faces.ContactFraction(n), faces.Centroid(n)}, nil
}

// crowded is the face load factor above which a note points at the crowding; common practice, no source.
const crowded = 1.6

func (p *prepared) shaftResult(i int, st *state) ShaftResult {
	s, line, solution := p.box.Shafts[i], p.lines[i], st.solved[i]
	most := solution.MaxDeflection()
	r := ShaftResult{
		Name: s.Name, Start: s.Start, Length: line.length, Solution: solution,
		MaxDeflection: most.Deflection(), MaxAt: most.X,
		Sections: make([]SectionResult, len(s.Sections)),
		Bearings: make([]BearingResult, len(s.Bearings)),
		Notes:    sentences(ShaftTitle(s.Name)+": ", st.models[i].Doubts()),
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
		r.Bearings[j] = BearingResult{
			Name: br.Name, Type: br.Type, At: br.At, Force: [3]float64{reaction.Fx, reaction.Fy, reaction.Fz},
			Radial: math.Hypot(reaction.Fy, reaction.Fz), Slope: p.bearingSlope(st, i, j), Deflection: at.Deflection(),
		}
	}
	r.Span = last - first
	for _, step := range st.flow.steps {
		q := p.pairs[step.mesh]
		for k, on := range q.shafts {
			if on == i {
				g := p.box.Gears[q.gears[k]]
				r.Gears = append(r.Gears, GearSeat{
					Name: g.Name, Mesh: p.box.Meshes[step.mesh].Name, From: g.At - g.Face/2, To: g.At + g.Face/2, Diameter: q.geometry.Working[k],
					Deflection: solution.At(g.At, beam.Left).Deflection(), Slope: slopeAt(solution, g.At).norm(),
				})
			}
		}
	}
	return r
}
