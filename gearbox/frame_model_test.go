package gearbox

import (
	"math"
	"slices"

	"layshaft/material"
)

// The coupled system of shafts, bearings and meshes a second time, on another way: one frame of beam elements in space with six freedoms a node, the
// meshes as springs that can only push, the input's torque as the load and the output's rotation held. Nothing of packages beam and faceload is in it.
//
//	element    two-node Timoshenko beam with the stiffness matrix that is exact at its nodes (J. S. Przemieniecki, Theory of Matrix
//	           Structural Analysis, 1968, section 5.6, from memory), Cowper's shear coefficient, Saint-Venant torsion, stretch
//	mesh       a spring c_γ Δb at each strip between the pitch points of the two gears, which are fast on the nodes; its direction is that of the tooth force
//	seat       the gear is a rigid body that moves against its shaft at the two ends of its seat; each end is a spring with play
//	solution   least potential energy in the displacements, by Newton's method with a line search; package faceload solves for
//	           the loads instead, by an active set
//
// What is found for the torque flow, the sense of forces and the working pitch circles is derived anew from the box.

// frameOptions say how a box is cut.
type frameOptions struct {
	strips  int     // across each face
	middles bool    // strips of equal width, counted in their middles; otherwise the stations and weights of the coupled solution
	stretch bool    // shafts stretch under axial force, which the coupled solution leaves out of the load along the face
	noTwist bool    // shafts don't wind up
	bodies  bool    // a gear with a seat is a rigid body that touches its shaft at the ends of the seat only; otherwise it bends with its shaft and leans besides
	spacing float64 // largest distance of two nodes, mm; 0 = only where something is
}

// frameEntry is one element of a stiffness matrix.
type frameEntry struct {
	i, j  int
	value float64
}

// frameSum is a weighted sum of displacements.
type frameSum struct {
	at     []int
	weight []float64
}

func (s *frameSum) add(at int, weight float64) {
	if k := slices.Index(s.at, at); k >= 0 {
		s.weight[k] += weight
		return
	}
	s.at, s.weight = append(s.at, at), append(s.weight, weight)
}

func (s *frameSum) of(u []float64) (sum float64) {
	for k, i := range s.at {
		sum += s.weight[k] * u[i]
	}
	return sum
}

// frameStrip is one strip of a mesh. Its opening is measured along the tooth force of a driven gear that is pushed away by 1 N in the transverse plane.
type frameStrip struct {
	opening frameSum
	gap     float64 // mm, unloaded
	spring  float64 // N/mm
	width   float64 // mm
}

// frameEnd is one end of a seat: a spring that pushes, in whichever direction, once the play is used up.
type frameEnd struct {
	at     [2]int  // movement of the gear against its shaft, y and z
	play   float64 // mm on the radius
	spring float64 // N/mm
}

type frameShaft struct {
	x     []float64 // of the nodes
	first int       // freedom d (x, y, z, about x, y, z) of node k is first + 6k + d
}

type frame struct {
	box     *Box
	shafts  []frameShaft // by index in the box; no nodes where not involved
	number  []int        // freedom → unknown; −1 = held
	unknown int
	beams   []frameEntry
	springs []frameEntry
	load    []float64
	meshes  [][]frameStrip // in the order of the path
	ends    []frameEnd
	wide    map[int]bool // freedoms that all strips of a mesh share: twists at the hubs of gears
}

// frameOf builds the frame of one speed at an input torque, N·mm. Every shaft needs its axis, or a pilot in one that has it, and every mesh its stiffness.
func frameOf(b *Box, speed int, torque float64, o frameOptions) *frame {
	f := &frame{box: b, shafts: make([]frameShaft, len(b.Shafts)), wide: map[int]bool{}}
	shaft := func(name string) int {
		return slices.IndexFunc(b.Shafts, func(s Shaft) bool { return s.Name == name })
	}
	gear := func(name string) int {
		return slices.IndexFunc(b.Gears, func(g Gear) bool { return g.Name == name })
	}
	var path []Mesh
	for _, name := range b.Speeds[speed].Path {
		path = append(path, b.Meshes[slices.IndexFunc(b.Meshes, func(m Mesh) bool { return m.Name == name })])
	}

	// Nodes.
	places := make([][]float64, len(b.Shafts))
	involve := func(i int, x ...float64) { places[i] = append(places[i], x...) }
	involve(shaft(b.Input.Shaft), b.Input.At)
	involve(shaft(b.Output.Shaft), b.Output.At)
	stations := make([][]float64, len(path)) // x in the box
	widths := make([][]float64, len(path))
	hubs := make([][2]float64, len(path))
	for m, mesh := range path {
		left, right := math.Inf(-1), math.Inf(1)
		for _, name := range []string{mesh.Driver, mesh.Driven} {
			g := b.Gears[gear(name)]
			start := b.Shafts[shaft(g.Shaft)].Start
			left, right = max(left, start+g.At-g.Face/2), min(right, start+g.At+g.Face/2)
		}
		stations[m], widths[m] = frameStations(left, right, o)
		for k, name := range []string{mesh.Driver, mesh.Driven} {
			i := shaft(b.Gears[gear(name)].Shaft)
			for _, x := range stations[m] {
				involve(i, x-b.Shafts[i].Start)
			}
			hubs[m][k] = frameHub(b, path, m, name, (left+right)/2-b.Shafts[i].Start)
			involve(i, hubs[m][k])
			if g := b.Gears[gear(name)]; g.Seat != nil && o.bodies {
				involve(i, g.At+g.Seat.Offset-g.Seat.Length/2, g.At+g.Seat.Offset+g.Seat.Length/2)
			}
		}
	}
	for again := true; again; {
		again = false
		for i, s := range b.Shafts {
			for _, br := range s.Bearings {
				if j := shaft(br.In); len(places[i]) > 0 && br.In != "" && !slices.Contains(places[j], br.InAt) {
					involve(j, br.InAt)
					again = true
				}
			}
		}
	}
	freedoms := 0
	for i, s := range b.Shafts {
		if len(places[i]) == 0 {
			continue
		}
		x := 0.0
		involve(i, x)
		for _, sec := range s.Sections {
			x += sec.Length
			involve(i, x)
		}
		for _, br := range s.Bearings {
			involve(i, br.At)
		}
		f.shafts[i] = frameShaft{frameNodes(places[i], o.spacing), freedoms}
		freedoms += 6 * len(f.shafts[i].x)
	}
	gearFreedom := map[int]int{} // of gears with a seat: end 1 y, z, end 2 y, z
	for _, mesh := range path {
		for _, name := range []string{mesh.Driver, mesh.Driven} {
			g := gear(name)
			if _, ok := gearFreedom[g]; !ok && b.Gears[g].Seat != nil {
				gearFreedom[g] = freedoms
				freedoms += 4
			}
		}
	}
	f.load = make([]float64, freedoms)

	// What stands against what.
	held := map[int]bool{}
	for i, s := range b.Shafts {
		if len(places[i]) == 0 {
			continue
		}
		steel := frameSteel(b, s.Steel)
		f.beam(i, steel)
		located := false
		for _, br := range s.Bearings {
			at := f.at(i, br.At)
			other := -1
			if br.In != "" {
				other = f.at(shaft(br.In), br.InAt)
			}
			for d, k := range [6]float64{br.Axial, br.Radial, br.Radial, 0, br.Tilt, br.Tilt} {
				if d == 1 || d == 2 {
					k = 1 / (1/k + frameCase(b, br))
				}
				switch {
				case k == 0:
				case math.IsInf(k, 1):
					held[at+d] = true
				case other >= 0:
					f.springs = append(f.springs, frameEntry{at + d, at + d, k}, frameEntry{other + d, other + d, k}, frameEntry{at + d, other + d, -k}, frameEntry{other + d, at + d, -k})
				default:
					f.springs = append(f.springs, frameEntry{at + d, at + d, k})
				}
				located = located || d == 0 && k > 0
			}
		}
		if !located {
			held[f.shafts[i].first] = true
		}
	}
	in, out := shaft(b.Input.Shaft), shaft(b.Output.Shaft)
	sense := torque * float64(b.Turns)
	f.load[f.at(in, b.Input.At)+3] = sense
	held[f.at(out, b.Output.At)+3] = true

	// Meshes. The torque that reaches the driver of a mesh changes its sense from mesh to mesh.
	for m, mesh := range path {
		f.mesh(mesh, [2]int{gear(mesh.Driver), gear(mesh.Driven)}, hubs[m], shaft, sense > 0, stations[m], widths[m], gearFreedom, o.bodies)
		sense = -sense
	}
	for g, at := range gearFreedom {
		seat := b.Gears[g].Seat
		for end := range 2 {
			f.ends = append(f.ends, frameEnd{[2]int{at + 2*end, at + 2*end + 1}, seat.Clearance / 2, seat.Stiffness})
		}
	}
	f.count(held, o)
	return f
}

// frameStations are the strips of a face and their widths.
func frameStations(left, right float64, o frameOptions) (x, width []float64) {
	n := o.strips
	for i := range n {
		if o.middles {
			h := (right - left) / float64(n)
			x, width = append(x, left+h*(float64(i)+0.5)), append(width, h)
			continue
		}
		h := (right - left) / float64(n-1)
		// Gregory's rule with one correction at each end.
		share := 1.0
		switch min(i, n-1-i) {
		case 0:
			share = 5. / 12
		case 1:
			share = 13. / 12
		}
		x, width = append(x, left+h*float64(i)), append(width, h*share)
	}
	return x, width
}

// frameNodes sorts places, joins those that are one, and fills what is wider than the spacing.
func frameNodes(places []float64, spacing float64) []float64 {
	slices.Sort(places)
	nodes := places[:1:1]
	for _, x := range places[1:] {
		last := nodes[len(nodes)-1]
		if x-last < 1e-6 {
			continue
		}
		parts := 1.0
		if spacing > 0 {
			parts = math.Ceil((x - last) / spacing)
		}
		for k := 1.0; k < parts; k++ {
			nodes = append(nodes, last+(x-last)*k/parts)
		}
		nodes = append(nodes, x)
	}
	return nodes
}

// frameCase is the give of the case under a bearing, mm/N.
func frameCase(b *Box, br Bearing) float64 {
	switch {
	case br.In != "":
		return 0
	case br.Housing > 0:
		return 1 / br.Housing
	case b.Housing.Radial > 0:
		return 1 / b.Housing.Radial
	}
	return 0
}

func frameSteel(b *Box, name string) material.Steel {
	for _, s := range b.Steels {
		if s.Name == name {
			return s
		}
	}
	if name == "" {
		name = DefaultSteel
	}
	s, ok := material.Find(name)
	if !ok {
		panic("no steel " + name)
	}
	return s
}

// at is the first of the freedoms of the node of a shaft nearest to x.
func (f *frame) at(shaft int, x float64) int {
	s := f.shafts[shaft]
	best := 0
	for k := range s.x {
		if math.Abs(s.x[k]-x) < math.Abs(s.x[best]-x) {
			best = k
		}
	}
	return s.first + 6*best
}

// beam puts the elements of a shaft in place.
func (f *frame) beam(i int, steel material.Steel) {
	s := f.shafts[i]
	young, shear := steel.Young, steel.Young/(2+2*steel.Poisson)
	for k := range len(s.x) - 1 {
		mid, l := (s.x[k]+s.x[k+1])/2, s.x[k+1]-s.x[k]
		var sec Section
		end := 0.0
		for _, c := range f.box.Shafts[i].Sections {
			sec = c
			if end += c.Length; end > mid {
				break
			}
		}
		a := math.Pi / 4 * (sec.Outer*sec.Outer - sec.Bore*sec.Bore)
		in := math.Pi / 64 * (math.Pow(sec.Outer, 4) - math.Pow(sec.Bore, 4))
		// Cowper 1966, hollow circle.
		m2 := sec.Bore * sec.Bore / (sec.Outer * sec.Outer)
		ring := (1 + m2) * (1 + m2)
		kappa := 6 * (1 + steel.Poisson) * ring / ((7+6*steel.Poisson)*ring + (20+12*steel.Poisson)*m2)
		phi := 12 * young * in / (kappa * shear * a * l * l)
		c := young * in / (l * l * l * (1 + phi))
		p, q := s.first+6*k, s.first+6*(k+1)
		bar := func(d int, stiffness float64) {
			f.beams = append(f.beams, frameEntry{p + d, p + d, stiffness}, frameEntry{q + d, q + d, stiffness}, frameEntry{p + d, q + d, -stiffness}, frameEntry{q + d, p + d, -stiffness})
		}
		bar(0, young*a/l)
		bar(3, shear*2*in/l)
		// Plane xy turns about +z with dv/dx, plane xz about −y with dw/dx.
		for _, plane := range []struct {
			move, turn int
			sign       float64
		}{{1, 5, 1}, {2, 4, -1}} {
			at := [4]int{p + plane.move, p + plane.turn, q + plane.move, q + plane.turn}
			r := plane.sign
			matrix := [4][4]float64{
				{12, 6 * l * r, -12, 6 * l * r},
				{6 * l * r, (4 + phi) * l * l, -6 * l * r, (2 - phi) * l * l},
				{-12, -6 * l * r, 12, -6 * l * r},
				{6 * l * r, (2 - phi) * l * l, -6 * l * r, (4 + phi) * l * l},
			}
			for g := range 4 {
				for h := range 4 {
					f.beams = append(f.beams, frameEntry{at[g], at[h], c * matrix[g][h]})
				}
			}
		}
	}
}

// count gives each freedom its unknown: in the order of x, so that the matrix is narrow, and what a whole shaft or face has in common last.
func (f *frame) count(held map[int]bool, o frameOptions) {
	type node struct {
		x    float64
		at   int
		line int
	}
	var nodes []node
	for i, s := range f.shafts {
		for k, x := range s.x {
			nodes = append(nodes, node{f.box.Shafts[i].Start + x, s.first + 6*k, i})
		}
	}
	slices.SortStableFunc(nodes, func(a, b node) int {
		switch {
		case a.x < b.x-1e-9:
			return -1
		case a.x > b.x+1e-9:
			return 1
		}
		return 0
	})
	f.number = make([]int, len(f.load))
	for i := range f.number {
		f.number[i] = -2
	}
	common := map[[2]int][]int{}
	for _, n := range nodes {
		for d := range 6 {
			switch {
			case d == 0 && !o.stretch, d == 3 && o.noTwist:
				common[[2]int{n.line, d}] = append(common[[2]int{n.line, d}], n.at+d)
			case held[n.at+d]:
				f.number[n.at+d] = -1
			case f.wide[n.at+d]: // last, below
			default:
				f.number[n.at+d] = f.unknown
				f.unknown++
			}
		}
	}
	for i := range f.shafts {
		for _, d := range []int{0, 3} {
			all := common[[2]int{i, d}]
			if len(all) == 0 {
				continue
			}
			one := f.unknown
			if slices.ContainsFunc(all, func(at int) bool { return held[at] }) {
				one = -1
			} else {
				f.unknown++
			}
			for _, at := range all {
				f.number[at] = one
			}
		}
	}
	for i := range f.number {
		if f.number[i] == -2 {
			f.number[i] = f.unknown
			f.unknown++
		}
	}
}
