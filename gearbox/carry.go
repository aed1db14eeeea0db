package gearbox

import (
	"fmt"
	"math"
	"slices"

	"layshaft/beam"
)

// A pilot bearing sits in another shaft. Seen from the piloted shaft, the carrier is one more spring in series with the bearing: its
// flexibility at that place, the same in both planes since shafts are round. The carrier's own loads move the seat. So two bending problems
// that are tied together fall apart into three that follow each other, exactly and without iteration: the carrier without the pilot, whose
// deflection moves the seat; the piloted shaft, which finds the pilot's force; the carrier again, with that force.

// prepareModels readies every shaft for bending, carriers before what they carry, and keeps that order.
func (p *prepared) prepareModels() {
	for len(p.order) < len(p.lines) {
		for i := range p.lines {
			if !slices.Contains(p.order, i) && (p.lines[i].pilot < 0 || slices.Contains(p.order, p.lines[i].in)) {
				p.order = append(p.order, i)
			}
		}
	}
	p.remodel()
}

// remodel makes the shafts anew, with the case as stiff as it is known to be.
func (p *prepared) remodel() {
	models := make([]*beam.Model, len(p.lines))
	for _, i := range p.order {
		if in := p.lines[i].in; p.lines[i].pilot >= 0 && models[in] == nil {
			continue // the fault of the carrier is told
		}
		m, err := p.modelOn(i, models)
		if err != nil {
			for _, e := range parts(err) {
				p.fault(path("shafts", p.box.Shafts[i].Name), "shaft can't be solved", "%s", e.Error())
			}
			continue
		}
		models[i], p.lines[i].model = m, m
	}
}

// modelOn makes one shaft, on the models of those that carry it.
func (p *prepared) modelOn(i int, models []*beam.Model) (*beam.Model, error) {
	s := p.box.Shafts[i]
	line := &p.lines[i]
	shaft := beam.Shaft{Young: line.steel.Young, Poisson: line.steel.Poisson, NoShear: p.method.NoShear, NoShoulder: p.method.NoShoulder}
	for _, sec := range s.Sections {
		shaft.Sections = append(shaft.Sections, beam.Section(sec))
	}
	for j, br := range s.Bearings {
		support := p.support(br)
		if s.Pair != nil { // it holds its shaft by itself: pairthrust.go puts on what the last takes
			support.Axial = 0
			if j == 0 {
				support.Axial = math.Inf(1)
			}
		}
		if j == line.pilot {
			support.Radial = 1 / (1/support.Radial + models[line.in].Flexibility(br.InAt, br.InAt))
		}
		shaft.Supports = append(shaft.Supports, support)
	}
	if p.springy([]int{i}) {
		// A row of elements holds a shaft against tilting only as far as its load happens to let it, so the shaft must stand without that.
		bare := shaft
		bare.Supports = slices.Clone(shaft.Supports)
		for j, br := range s.Bearings {
			if br.Elements != nil {
				bare.Supports[j].Tilt = 0
			}
		}
		if _, err := beam.New(bare); err != nil {
			return nil, err
		}
	}
	return beam.New(shaft)
}

// bend solves the shafts under their loads and on moved seats, both indexed like Box.Shafts; no seats at all or none of a shaft: they stay where they are. A shaft that
// has neither loads nor seats nor carries one that has stays nil.
func (p *prepared) bend(models []*beam.Model, loads [][]beam.Load, moved [][]beam.Seat) ([]*beam.Solution, error) {
	return p.bendWith(models, loads, moved, func(int, []beam.Reaction) (beam.Load, bool) { return beam.Load{}, false })
}

// bendWith is bend with another load along some shafts, which moves nothing across and may follow from what the bearings put on them.
func (p *prepared) bendWith(models []*beam.Model, loads [][]beam.Load, moved [][]beam.Seat, along func(shaft int, reactions []beam.Reaction) (beam.Load, bool)) ([]*beam.Solution, error) {
	solved := make([]*beam.Solution, len(loads))
	seats, pressed := make([][]beam.Seat, len(loads)), make([][]beam.Load, len(loads))
	copy(seats, moved)
	for _, i := range p.order {
		if len(loads[i]) == 0 && seats[i] == nil {
			continue
		}
		line := &p.lines[i]
		if line.pilot >= 0 && solved[line.in] != nil {
			bearings := p.box.Shafts[i].Bearings
			at := solved[line.in].At(bearings[line.pilot].InAt, beam.Left)
			own := make([]beam.Seat, len(bearings))
			copy(own, seats[i])
			own[line.pilot].Move[0] += at.Y.Deflection
			own[line.pilot].Move[1] += at.Z.Deflection
			seats[i] = own
		}
		if err := p.bendOne(i, models[i], loads[i], seats[i], solved); err != nil {
			return nil, err
		}
	}
	for _, i := range slices.Backward(p.order) {
		line := &p.lines[i]
		if line.pilot < 0 || solved[i] == nil {
			continue
		}
		force := solved[i].Reactions()[line.pilot]
		at := p.box.Shafts[i].Bearings[line.pilot].InAt
		pressed[line.in] = []beam.Load{{X: at, Fy: -force.Fy, Fz: -force.Fz}}
		all := append(slices.Clone(loads[line.in]), pressed[line.in]...)
		if err := p.bendOne(line.in, models[line.in], all, seats[line.in], solved); err != nil {
			return nil, err
		}
	}
	for i := range solved {
		if solved[i] == nil {
			continue
		}
		if load, ok := along(i, solved[i].Reactions()); ok {
			if err := p.bendOne(i, models[i], slices.Concat(loads[i], pressed[i], []beam.Load{load}), seats[i], solved); err != nil {
				return nil, err
			}
		}
	}
	return solved, nil
}

func (p *prepared) bendOne(i int, model *beam.Model, loads []beam.Load, seats []beam.Seat, solved []*beam.Solution) error {
	p.bent++
	s, err := model.Solve(beam.Case{Loads: loads, Seats: seats})
	if err != nil {
		return fmt.Errorf("%s: %w", ShaftTitle(p.box.Shafts[i].Name), err)
	}
	solved[i] = s
	return nil
}
