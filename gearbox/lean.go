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

// load is that on a strip, N.
func (r *carried) load(strip int) float64 { return r.faces.Load[strip/strips][strip%strips] }

// By how much a gap may still move, mm, when the lean of gears in their seats counts as found: settled, or nearly where rounding lets it come no nearer.
const (
	settled = 1e-12
	nearly  = 1e-9
)

// carry is the way without contact sets, for where spread finds none: it finds how the meshes share the load along their faces at scale times the torque the coupling was made for. opened is by
// how much moved seats of the shafts open the flanks at all strips before any load, mm; nil: they don't.
//
// A gear on its seat leans by how the load lies on its face, which in turn depends on its lean. What its seat stores is convex in the couple on it, and adds to the energy of shafts and teeth: there
// is one solution. Newton's method finds it: each round takes the seats as the springs that they are at the loads so far, and goes as far towards the new loads as the energy falls.
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
	finish := func() (err error) {
		copy(gap, base)
		problem.Compliance = c.problem.Compliance
		for k, g := range c.seated {
			l := &c.leaning[k]
			r.leans[g], _, _ = l.lean(scale, l.under(scale, load))
			l.open(r.leans[g], gap)
		}
		if r.faces, err = c.p.faces.Solve(&problem); err != nil {
			return fmt.Errorf("load along the face: %w", err)
		}
		return nil
	}
	if len(c.seated) == 0 {
		return r, finish()
	}
	compliance := make([]float64, all*all)
	energy := c.energy(scale, load, base)
	far := math.Inf(1)
	for range 200 {
		copy(compliance, c.problem.Compliance)
		copy(gap, base)
		for k := range c.leaning {
			c.leaning[k].linearise(scale, load, compliance, gap)
		}
		problem.Compliance = compliance
		faces, err := c.p.faces.Solve(&problem)
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
				before := far
				far = 0
				for k := range c.leaning {
					l := &c.leaning[k]
					from, _, _ := l.lean(scale, l.under(scale, load))
					to, _, _ := l.lean(scale, l.under(scale, next))
					far = max(far, to.minus(from).norm()*l.seat.Length)
				}
				if far < settled || far < nearly && far > before/2 {
					load = next
					return r, finish()
				}
			}
			// Near the solution rounding hides what the energy still falls by.
			if e := c.energy(scale, next, base); e <= energy+1e-12*math.Abs(energy) || step < 1e-6 {
				energy = e
				break
			}
			step /= 2
		}
		load = next
	}
	return nil, fmt.Errorf("the lean of the gears in their seats and the load along their faces don't settle (still %.3g mm apart); check the seats' clearance and length", far)
}

// linearise adds the gear's seat as the spring that it is at a load.
func (l *leaning) linearise(scale float64, load, compliance, gap []float64) {
	couple := l.under(scale, load)
	lean, give, _ := l.lean(scale, couple)
	turned := couple.minus(l.couple.scaled(scale)) // by how the loads lie
	l.open(lean.minus(point{give[0].dot(turned), give[1].dot(turned)}), gap)
	n := len(load)
	for i := range n {
		own := point{l.opens[0][i], l.opens[1][i]}
		if own == (point{}) {
			continue
		}
		g := point{give[0].dot(own), give[1].dot(own)}
		row := compliance[i*n : i*n+n]
		for j := range row {
			row[j] += g[0]*l.opens[0][j] + g[1]*l.opens[1][j]
		}
	}
}

// open adds the gap that the leaning gear opens.
func (l *leaning) open(lean point, gap []float64) {
	for k := range gap {
		gap[k] += lean[0]*l.opens[0][k] + lean[1]*l.opens[1][k]
	}
}

// energy is that of shafts, teeth, gaps and seats under a load, N·mm.
func (c *coupling) energy(scale float64, load, gap []float64) (sum float64) {
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
	for k := range c.leaning {
		l := &c.leaning[k]
		sum += l.energy(scale, l.under(scale, load))
	}
	return sum
}
