package gearbox

import (
	"fmt"
	"math"
	"slices"

	"layshaft/gearstress/faceload"
)

// carried is how the load lies on the faces at one torque.
type carried struct {
	faces *faceload.Solution
	leans map[int]point // by gear: how it leans in its seat, slopes in planes xy and xz, rad
	base  []float64     // gap at all strips before any load and lean, mm
}

// load is that on a strip of all, N.
func (r *carried) load(strip int) float64 { return r.faces.Load[strip/strips][strip%strips] }

// settled is by how much a gap may still move, mm, when the lean of gears in their seats counts as found.
const settled = 1e-9

// carry is the way without contact sets, for where spread finds none: it finds how the meshes share the load along their faces at scale times the torque the coupling was made for. opened is by how much moved
// seats of the shafts open the flanks at all strips before any load, mm; nil: they don't.
//
// A gear on its seat leans by how the load lies on its face, which in turn depends on its lean. Both ends of a seat move along their own load, so they store
// a convex energy, (s/2)|R| + R²/2k, which adds to that of shafts and teeth: there is one solution. Newton's method finds it: each round takes the seats as the springs
// that they are at the loads so far, and goes as far towards the new loads as the energy falls. An end that carries less than a millionth of the load floats in its play.
func (c *coupling) carry(scale float64, opened []float64) (*carried, error) {
	all := len(c.initial)
	problem := faceload.Problem{Compliance: c.problem.Compliance, Meshes: slices.Clone(c.problem.Meshes)}
	base, gap, load := make([]float64, all), make([]float64, all), make([]float64, all)
	for m := range problem.Meshes {
		mesh := &problem.Meshes[m]
		mesh.Force *= scale
		mesh.Gap = gap[m*strips : (m+1)*strips]
		for i, width := range c.p.pairs[c.steps[m].mesh].widths {
			load[m*strips+i] = mesh.Force * width / mesh.Face
		}
	}
	for i := range base {
		base[i] = c.initial[i] + scale*c.wound[i]
		if opened != nil {
			base[i] += opened[i]
		}
	}
	r := &carried{leans: map[int]point{}, base: base}
	ends := c.ends
	finish := func() (err error) {
		copy(gap, base)
		problem.Compliance = c.problem.Compliance
		leans := make([]point, len(c.seated))
		for k, g := range c.seated {
			leans[k] = ends[2*k+1].move(load).minus(ends[2*k].move(load)).scaled(1 / c.p.box.Gears[g].Seat.Length)
			r.leans[g] = leans[k]
		}
		c.open(leans, gap)
		if r.faces, err = c.solver.Solve(&problem); err != nil {
			return fmt.Errorf("load along the face: %w", err)
		}
		return nil
	}
	if len(c.seated) == 0 {
		return r, finish()
	}
	if c.ends == nil {
		c.ends, c.sprung = c.seatEnds(), make([]float64, all*all)
		ends = c.ends
	}
	c.float(load)
	compliance := c.sprung
	energy := c.energy(load, base, ends)
	far := math.Inf(1)
	for range 200 {
		copy(compliance, c.problem.Compliance)
		copy(gap, base)
		for i := range ends {
			ends[i].linearise(load, compliance, gap)
		}
		problem.Compliance = compliance
		faces, err := c.solver.Solve(&problem)
		if err != nil {
			return nil, fmt.Errorf("load along the face: %w", err)
		}
		next, step := make([]float64, all), 1.0
		for {
			for m, loads := range faces.Load {
				for i, w := range loads {
					k := m*strips + i
					next[k] = load[k] + step*(w-load[k])
				}
			}
			if step == 1 {
				far = 0
				for i := range ends {
					far = max(far, ends[i].move(next).minus(ends[i].move(load)).norm())
				}
				if far < settled {
					load = next
					return r, finish()
				}
			}
			// Near the solution rounding hides what the energy still falls by.
			if e := c.energy(next, base, ends); e <= energy+1e-12*math.Abs(energy) || step < 1e-6 {
				energy = e
				break
			}
			step /= 2
		}
		load = next
	}
	return nil, fmt.Errorf("the lean of the gears in their seats and the load along their faces don't settle (still %.3g mm apart); check the seats' clearance and length", far)
}

// seatEnd is one end of a seat, with the load on it per N on each strip.
type seatEnd struct {
	seat     *Seat
	from, to int     // the strips of its gear lie between these
	per      []point // of the strips from from on
	small    float64 // load below which it floats, N
}

// seatEnds are the ends of all seats, two by two.
func (c *coupling) seatEnds() (ends []seatEnd) {
	for _, g := range c.seated {
		gear := c.p.box.Gears[g]
		all := len(c.initial)
		pair := [2]seatEnd{{seat: gear.Seat, from: all, per: make([]point, all)}, {seat: gear.Seat, from: all, per: make([]point, all)}}
		for _, sites := range c.sites {
			for _, a := range sites {
				q := &c.p.pairs[c.steps[a.step].mesh]
				if q.gears[a.role] != g {
					continue
				}
				for i, xi := range q.stations {
					k := a.step*strips + i
					turn := a.couple.plus(a.force.scaled(q.at[a.role] + xi - (gear.At + gear.Seat.Offset))).scaled(1 / gear.Seat.Length)
					pair[0].per[k] = pair[0].per[k].plus(a.force.scaled(0.5).minus(turn))
					pair[1].per[k] = pair[1].per[k].plus(a.force.scaled(0.5).plus(turn))
				}
				for n := range pair {
					pair[n].from, pair[n].to = min(pair[n].from, a.step*strips), max(pair[n].to, (a.step+1)*strips)
				}
			}
		}
		for n := range pair {
			pair[n].per = pair[n].per[pair[n].from:pair[n].to]
		}
		ends = append(ends, pair[0], pair[1])
	}
	return ends
}

// float sets the load below which each end floats in its play: a millionth of what its gear carries.
func (c *coupling) float(load []float64) {
	for i := range c.ends {
		e := &c.ends[i]
		e.small = 0
		for _, w := range load[e.from:e.to] {
			e.small += floats * w
		}
	}
}

func (e *seatEnd) under(load []float64) (r point) {
	for k, w := range load[e.from:e.to] {
		r[0] += e.per[k][0] * w
		r[1] += e.per[k][1] * w
	}
	return r
}

// move is how far the end moves, mm.
func (e *seatEnd) move(load []float64) point {
	moved, _ := e.seat.move(e.under(load), e.small)
	return moved
}

// linearise adds the end as the spring that it is at a load.
func (e *seatEnd) linearise(load, compliance, gap []float64) {
	r := e.under(load)
	moved, give := e.seat.move(r, e.small)
	rest := moved.minus(point{give[0].dot(r), give[1].dot(r)})
	n := len(load)
	for i, p := range e.per {
		gap[e.from+i] += p.dot(rest)
		g := point{give[0].dot(p), give[1].dot(p)}
		row := compliance[(e.from+i)*n+e.from:]
		for j := range e.per {
			row[j] += g[0]*e.per[j][0] + g[1]*e.per[j][1]
		}
	}
}

// energy is that of shafts, teeth, gaps and seats under a load, N·mm.
func (c *coupling) energy(load, gap []float64, ends []seatEnd) (sum float64) {
	n := len(load)
	for i, w := range load {
		give := 0.0
		for j, v := range load {
			give += c.problem.Compliance[i*n+j] * v
		}
		sum += w * (give/2 + gap[i])
	}
	for m, mesh := range c.problem.Meshes {
		for i, width := range c.p.pairs[c.steps[m].mesh].widths {
			w := load[m*strips+i]
			sum += w * w / (2 * mesh.Stiffness * width)
		}
	}
	for i := range ends {
		r, soft := ends[i].under(load).norm(), 0.0
		if k := ends[i].seat.Stiffness; k > 0 {
			soft = 1 / k
		}
		sum += ends[i].seat.Clearance/2*math.Hypot(r, ends[i].small) + r*r*soft/2
	}
	return sum
}

// open adds the gap that leaning gears open.
func (c *coupling) open(leans []point, gap []float64) {
	for _, sites := range c.sites {
		for _, a := range sites {
			q := &c.p.pairs[c.steps[a.step].mesh]
			if k := slices.Index(c.seated, q.gears[a.role]); k >= 0 {
				slope := a.force.dot(leans[k])
				for i, xi := range q.stations {
					gap[a.step*strips+i] += slope * xi
				}
			}
		}
	}
}
