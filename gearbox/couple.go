package gearbox

import (
	"math"
	"slices"

	"layshaft/beam"
	"layshaft/gearstress/faceload"
)

// slices is into how many strips a mesh is cut along its face. With 21 the largest line load is within 0.1 % of its limit in full contact
// (see the test of convergence).
const strips = 21

// site is one mesh on one of its shafts: what a unit load of its strips does to that shaft. A unit load is 1 N along the line of action
// that presses the two gears apart.
type site struct {
	step   int     // in coupling.steps
	role   int     // 0 driver, 1 driven
	first  int     // its first place in the influence of the shaft
	follow float64 // how much of the shaft's wind-up across the face the teeth follow, 0 to 1
	hub    float64 // where the torque of what doesn't follow enters the shaft, mm from its left end
	turns  int     // that place in the influence of the shaft; the middle strip where it is that of the gear
	force  point   // transverse force, –
	couple point   // couple in planes xy and xz, conjugate to the slopes there, mm
	twist  float64 // torque about +x, mm
	axial  float64 // axial force along +x, –
}

// coupling is one speed's shafts tied together by its meshes, in one layout, for one sense of the torque. It stays as it is when the torque grows.
type coupling struct {
	p       *prepared
	steps   []step      // at the torque it was made for
	forces  []meshForce // likewise
	engine  float64     // that torque on the input shaft, about +x, N·mm
	sites   [][]site    // by shaft
	problem faceload.Problem
	initial []float64 // gap of the unloaded flanks at all strips, mm
	wound   []float64 // gap that the torques at the input and the output wind up, mm, at the torque it was made for
	seated  []int     // gears that sit on bearings of their own
	answers answers   // how what limits look at answers the loads

	// For spread.
	family    *faceload.Family
	firstMove int          // parameter of the first movement of a seat
	leaning   []leaning    // as seated
	nothing   [][2]float64 // by strip: the opening, mm, and the load, N, that count as none
	key       []byte       // contact set to be tried: 1 where a strip carries
	now       spread       // found last
	trails    []trail      // by place of the making
	search    search
	spreads   int // how often the load along the faces was asked for
	fallbacks int // how often no contact set was found
}

// couple cuts the meshes of a flow into strips and finds how the shafts involved (models, by shaft) give way under them.
func (p *prepared) couple(f flow, engine float64, l layout, involved []int, models []*beam.Model) *coupling {
	c := &coupling{p: p, steps: f.steps, engine: engine, sites: make([][]site, len(p.lines))}
	for i, st := range f.steps {
		q := &p.pairs[st.mesh]
		force := p.force(st.mesh, st.torque[0], l)
		c.forces = append(c.forces, force)
		normal := force.onDriven.norm()
		for k, s := range q.shafts {
			sign := float64(2*k - 1)
			arm := -sign * q.geometry.Working[k] / 2
			axial := -sign * force.axial / normal
			c.sites[s] = append(c.sites[s], site{
				step: i, role: k, force: force.action.scaled(sign), axial: axial, couple: force.along.scaled(-arm * axial),
				follow: q.follow[k], hub: p.torqueAt(f, i, k), twist: c.leverOf(q.geometry.Base[k]/2, st.torque[0]),
			})
		}
		c.problem.Meshes = append(c.problem.Meshes, faceload.Mesh{Slices: strips, Face: q.to - q.from, Stiffness: q.stiffness, Force: normal})
		c.initial = append(c.initial, q.gap...)
		for _, g := range q.gears {
			if seat := p.box.Gears[g].Seat; seat != nil && !slices.Contains(c.seated, g) {
				c.seated = append(c.seated, g)
			}
		}
	}
	n := strips * len(c.steps)
	c.problem.Compliance = make([]float64, n*n)
	c.wound = make([]float64, n)
	for _, g := range c.seated {
		c.leaning = append(c.leaning, c.leaningOf(g))
	}
	influences := make([]*beam.Influence, len(p.lines))
	for _, s := range involved {
		if influences[s] = c.influence(s, models[s]); len(c.sites[s]) > 0 {
			c.giveWay(s, influences[s])
			c.windUp(s, influences[s])
		}
	}
	c.answers = answers{slope: make([][]answer, len(p.lines)), pilot: make([]answer, len(p.lines)), pressed: make([]pressed, len(p.lines))}
	for _, s := range involved {
		if p.lines[s].pilot >= 0 {
			c.tie(s, influences, models[s])
		}
	}
	c.answers.read(c, involved, influences)
	return c
}

// leverOf is the torque about +x that 1 N along the line of action puts on a gear, mm; none when twist is left out.
func (c *coupling) leverOf(base, torque float64) float64 {
	if c.p.method.NoTwist {
		return 0
	}
	return -math.Copysign(base, torque)
}

// influence finds how a shaft moves at all strips on it, and after these at the places that others need: where torque enters or leaves,
// its pilot, the pilot it carries, all its bearings, and hubs that stand beside their gear.
func (c *coupling) influence(s int, m *beam.Model) *beam.Influence {
	var places []float64
	for k := range c.sites[s] {
		st := &c.sites[s][k]
		st.first = len(places)
		q := &c.p.pairs[c.steps[st.step].mesh]
		for _, xi := range q.stations {
			places = append(places, q.at[st.role]+xi)
		}
	}
	extra := c.p.extraPlaces(s)
	if b := c.p.box; s != c.p.shaft[b.Input.Shaft] && s != c.p.shaft[b.Output.Shaft] {
		// Torque lost to friction on a shaft in between is lost where it comes in.
		for _, st := range c.sites[s] {
			if st.role == 1 {
				extra[portPlace] = st.hub
			}
		}
	}
	places = append(places, extra...)
	for _, br := range c.p.box.Shafts[s].Bearings {
		places = append(places, br.At)
	}
	for k := range c.sites[s] {
		st := &c.sites[s][k]
		st.turns = st.first + strips/2
		if st.hub != c.p.pairs[c.steps[st.step].mesh].at[st.role] {
			st.turns = len(places)
			places = append(places, st.hub)
		}
	}
	line := &c.p.lines[s]
	line.influence = m.Influence(places, line.influence)
	return line.influence
}

// place is one of the extra places of a shaft in its influence.
func (c *coupling) place(s, extra int) int { return strips*len(c.sites[s]) + extra }

// extraPlaces are the port, the own pilot and the carried pilot of a shaft, in this order; where there is none, its left end stands in.
func (p *prepared) extraPlaces(s int) []float64 {
	places := []float64{0, 0, 0}
	switch b := p.box; s {
	case p.shaft[b.Input.Shaft]:
		places[0] = b.Input.At
	case p.shaft[b.Output.Shaft]:
		places[0] = b.Output.At
	}
	if line := &p.lines[s]; line.pilot >= 0 {
		places[1] = p.box.Shafts[s].Bearings[line.pilot].At
	}
	if carried, ok := p.carries[p.box.Shafts[s].Name]; ok {
		i := p.shaft[carried]
		places[2] = p.box.Shafts[i].Bearings[p.lines[i].pilot].InAt
	}
	return places
}

const (
	portPlace = iota
	ownPilot
	carriedPilot
	firstBearing
)

// giveWay adds what one shaft contributes to the compliance: by how much strip i opens when 1 N presses strip j apart.
func (c *coupling) giveWay(s int, f *beam.Influence) {
	n, all := len(f.X), len(c.initial)
	for _, a := range c.sites[s] {
		for _, b := range c.sites[s] {
			hubA, hubB := a.turns, b.turns
			// A gear that is stiffer than its shaft takes the torque of a strip to its middle, a free one to its hub, and reads the twist there.
			whole, partA, partB, both := a.follow*b.follow, a.follow*(1-b.follow), (1-a.follow)*b.follow, (1-a.follow)*(1-b.follow)
			ff, fc, cf, cc, tt := a.force.dot(b.force), a.force.dot(b.couple), a.couple.dot(b.force), a.couple.dot(b.couple), a.twist*b.twist
			for i := range strips {
				row := c.problem.Compliance[(a.step*strips+i)*all+b.step*strips:]
				p := a.first + i
				for j := range strips {
					q := b.first + j
					row[j] += ff*f.VV[p*n+q] + fc*f.VS[p*n+q] + cf*f.VS[q*n+p] + cc*f.SS[p*n+q] +
						tt*(whole*f.TT[p*n+q]+partA*f.TT[p*n+hubB]+partB*f.TT[hubA*n+q]+both*f.TT[hubA*n+hubB])
				}
			}
		}
	}
}

// windUp adds the gap from the torque that enters or leaves this shaft at its port. The torque is that which balances the meshes.
func (c *coupling) windUp(s int, f *beam.Influence) {
	n := len(f.X)
	port := c.place(s, portPlace)
	balance := 0.0
	for _, a := range c.sites[s] {
		balance -= a.twist * c.problem.Meshes[a.step].Force
	}
	for _, a := range c.sites[s] {
		for i := range strips {
			turn := a.follow*f.TT[(a.first+i)*n+port] + (1-a.follow)*f.TT[a.turns*n+port]
			c.wound[a.step*strips+i] += a.twist * turn * balance
		}
	}
}

// tie adds what a pilot bearing contributes between the piloted shaft s and its carrier, whose own influences know nothing of each other: the piloted
// shaft rests on bearing and carrier in series (stiffness k), the carrier's loads move the seat, and the pilot's force bends the carrier.
func (c *coupling) tie(s int, influences []*beam.Influence, m *beam.Model) {
	line := &c.p.lines[s]
	k := m.Shaft().Supports[line.pilot].Radial
	main, carrier := influences[s], influences[line.in]
	at := c.place(s, ownPilot)
	// How the pilot's place on the piloted shaft, and the seat in the carrier, move under a unit load of each strip.
	moves := c.movesAt(s, main, at)
	seats := c.movesAt(line.in, carrier, c.place(line.in, carriedPilot))
	give := main.VV[at*len(main.X)+at]
	back := k*k*give - k
	all := len(c.initial)
	for i := range all {
		for j := range all {
			c.problem.Compliance[i*all+j] += back*seats[i].dot(seats[j]) + k*(seats[i].dot(moves[j])+moves[i].dot(seats[j]))
		}
	}
	c.answers.tie(c, s, k, give, moves, seats)
}

// movesAt is how a place of a shaft moves in both planes under a unit load of every strip; zero where the strip isn't on this shaft.
func (c *coupling) movesAt(s int, f *beam.Influence, at int) []point {
	n := len(f.X)
	moves := make([]point, len(c.initial))
	for _, a := range c.sites[s] {
		for i := range strips {
			p := a.first + i
			k := a.step*strips + i
			moves[k] = moves[k].plus(a.force.scaled(f.VV[at*n+p])).plus(a.couple.scaled(f.VS[at*n+p]))
		}
	}
	return moves
}

// loads puts the meshes on a shaft as they carry (load, N, of all strips): one load at each strip, reduced to the axis, and the torque as the shaft receives it. With losses
// that differs from F_t times the radius, since the friction that makes the difference isn't followed as a force.
func (c *coupling) loads(s int, load func(strip int) float64, loads []beam.Load) []beam.Load {
	for _, a := range c.sites[s] {
		q := &c.p.pairs[c.steps[a.step].mesh]
		perForce := -c.steps[a.step].torque[a.role] / c.problem.Meshes[a.step].Force
		whole := 0.0
		for i, xi := range q.stations {
			w := load(a.step*strips + i)
			whole += w
			loads = append(loads, beam.Load{
				X: min(max(q.at[a.role]+xi, 0), c.p.lines[s].length), Fx: w * a.axial, Fy: w * a.force[0], Fz: w * a.force[1],
				Mx: a.follow * w * perForce, My: -w * a.couple[1], Mz: w * a.couple[0],
			})
		}
		loads = append(loads, beam.Load{X: a.hub, Mx: (1 - a.follow) * whole * perForce})
	}
	return loads
}
