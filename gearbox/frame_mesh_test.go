package gearbox

import (
	"math"
	"slices"

	"layshaft/gearstress/involute"
)

// axis is where the axis of a shaft lies, that of its carrier when it has none of its own.
func (f *frame) axis(i int, shaft func(string) int) [2]float64 {
	s := f.box.Shafts[i]
	if s.Axis != nil {
		return *s.Axis
	}
	for _, br := range s.Bearings {
		if br.In != "" {
			return f.axis(shaft(br.In), shaft)
		}
	}
	panic("no axis for " + s.Name)
}

// mesh puts the strips of a mesh in place. drives tells whether the driver's shaft turns its gear about +x.
// hubs are where the torque that the bodies of its gears take enters each shaft.
func (f *frame) mesh(m Mesh, gears [2]int, hubs [2]float64, shaft func(string) int, drives bool, stations, widths []float64, free map[int]int, bodies bool) {
	b := f.box
	var on [2]int
	var teeth [2]float64
	for k, g := range gears {
		on[k], teeth[k] = shaft(b.Gears[g].Shaft), float64(b.Gears[g].Teeth)
	}
	from, to := f.axis(on[0], shaft), f.axis(on[1], shaft)
	ey, ez := to[0]-from[0], to[1]-from[1]
	centre := math.Hypot(ey, ez)
	ey, ez = ey/centre, ez/centre
	// Working pressure angle from the base circles, which the axes' distance leaves as they are.
	transverse := math.Atan(math.Tan(m.Rack.PressureAngle) / math.Cos(m.Helix))
	reference := m.Module * (teeth[0] + teeth[1]) / math.Cos(m.Helix) / 2
	working := math.Acos(reference * math.Cos(transverse) / centre)
	turn := 1.0
	if !drives {
		turn = -1
	}
	// On the driven gear: to the side in which the driver's pitch point moves (e_x × e for a driver that turns about +x), and away from the driver.
	ny := turn*math.Cos(working)*-ez + math.Sin(working)*ey
	nz := turn*math.Cos(working)*ey + math.Sin(working)*ez
	// A right-hand driver turned about +x is a right-hand screw: it wants to go to +x, and pushes what it turns to −x.
	helix := math.Atan(math.Tan(m.Helix) * centre / reference)
	nx := -turn * math.Cos(working) * math.Tan(helix)
	if m.Hand == Left {
		nx = -nx
	}
	pitch := [2]float64{centre * teeth[0] / (teeth[0] + teeth[1]), -centre * teeth[1] / (teeth[0] + teeth[1])}

	middle := (stations[0] + stations[len(stations)-1]) / 2
	roots := frameRoots(b, gears, m, centre)
	var follow [2]float64
	half := 0.0 // of the face
	for _, w := range widths {
		half += w / 2
	}
	for k, g := range gears {
		at := middle - b.Shafts[on[k]].Start
		follow[k] = frameFollow(b.Gears[g], roots[k], f.box.Shafts[on[k]], at-half, at+half)
	}
	strips := make([]frameStrip, len(stations))
	for i, x := range stations {
		s := &strips[i]
		s.spring, s.width = m.Stiffness*widths[i], widths[i]
		for k, g := range gears {
			gear := b.Gears[g]
			start := b.Shafts[on[k]].Start
			at := f.at(on[k], x-start)
			sign := float64(2*k - 1) // + on the driven gear
			py, pz := pitch[k]*ey, pitch[k]*ez
			body := bodies && gear.Seat != nil
			s.opening.add(at, sign*nx)
			if !body {
				s.opening.add(at+1, sign*ny)
				s.opening.add(at+2, sign*nz)
				s.opening.add(at+4, sign*pz*nx)
				s.opening.add(at+5, sign*-py*nx)
			}
			// Moment of the force at the pitch point (0, py, pz) about the axis. The part of it that the gear's body takes goes to the shaft at its hub.
			share := follow[k]
			s.opening.add(at+3, share*sign*(py*nz-pz*ny))
			hub := f.at(on[k], hubs[k]) + 3
			s.opening.add(hub, (1-share)*sign*(py*nz-pz*ny))
			f.wide[hub] = true
			xi := x - start - gear.At
			s.gap += gear.Crowning*4*xi*xi/(gear.Face*gear.Face) + gear.LeadError*(xi/gear.Face+0.5)
			for e, r := range gear.Relief {
				if deep := r.Length - (gear.Face/2 + float64(1-2*e)*xi); deep > 0 {
					s.gap += r.Amount * deep / r.Length
				}
			}
			if from, ok := free[g]; ok {
				// The gear moves against its shaft by e1 and e2 at the ends of the seat and in a straight line between; it turns about z with y, about −y with z.
				rel := xi - gear.Seat.Offset
				for end := range 2 {
					turn := float64(2*end-1) / gear.Seat.Length
					share := 0.5 + turn*rel
					y, z := sign*(ny*share-py*nx*turn), sign*(nz*share-pz*nx*turn)
					s.opening.add(from+2*end, y)
					s.opening.add(from+2*end+1, z)
					if body {
						ground := f.at(on[k], gear.At+gear.Seat.Offset+float64(2*end-1)*gear.Seat.Length/2)
						s.opening.add(ground+1, y)
						s.opening.add(ground+2, z)
					}
				}
			}
		}
	}
	f.meshes = append(f.meshes, strips)
}

// frameHub is where the body of a gear of a path hands its torque to its shaft: at the middle of the face; a free gear beside itself, unless it is an idler,
// which hands it to the next mesh.
func frameHub(b *Box, path []Mesh, m int, name string, middle float64) float64 {
	g := &b.Gears[slices.IndexFunc(b.Gears, func(g Gear) bool { return g.Name == name })]
	for _, beside := range []int{m - 1, m + 1} {
		if beside >= 0 && beside < len(path) && (path[beside].Driver == name || path[beside].Driven == name) {
			return middle
		}
	}
	if g.Seat == nil {
		return middle
	}
	return b.HubAt(g)
}

// frameRoots are the root diameters of a mesh; profile shifts are the business of package involute.
func frameRoots(b *Box, gears [2]int, m Mesh, centre float64) [2]float64 {
	spec := involute.Spec{Module: m.Module, Helix: m.Helix, Rack: m.Rack, CentreDistance: centre, Face: min(b.Gears[gears[0]].Face, b.Gears[gears[1]].Face)}
	for k, g := range gears {
		spec.Teeth[k], spec.TipDiameter[k] = b.Gears[g].Teeth, b.Gears[g].TipDiameter
		if x := b.Gears[g].Shift; x != nil {
			spec.Shift[k], spec.ShiftKnown[k] = *x, true
		}
	}
	pair, err := involute.New(spec)
	if err != nil {
		panic(err)
	}
	return pair.Root
}

// frameFollow is how much of its shaft's twist between two strips a gear makes: as the gear's body up to the root circle and the shaft are one round bar
// there, the polar second moment of the shaft over that of the body. Nothing when the gear sits on a bearing of its own.
//
// Over a step of the shaft it is the mean over the part of the face that lies on the shaft.
func frameFollow(g Gear, root float64, s Shaft, from, to float64) float64 {
	if g.Seat != nil {
		return 0
	}
	polar := func(d, bore float64) float64 { return math.Pow(d, 4) - math.Pow(bore, 4) }
	sum, on, left := 0.0, 0.0, 0.0
	for _, c := range s.Sections {
		right := left + c.Length
		if covered := min(right, to) - max(left, from); covered > 0 {
			sum += covered * min(1, polar(c.Outer, c.Bore)/polar(root, c.Bore))
			on += covered
		}
		left = right
	}
	return sum / on
}
