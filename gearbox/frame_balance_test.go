package gearbox

import (
	"errors"
	"math"
	"slices"
)

// frameSolution is a frame in balance.
type frameSolution struct {
	f      *frame
	u      []float64   // by freedom
	load   [][]float64 // of the strips, by mesh, N
	react  []float64   // of what holds a freedom, on the shaft, N or N·mm
	rounds int
}

// energy is the potential at u, N·mm.
func (f *frame) energy(u []float64, play float64) (e float64) {
	for _, list := range [][]frameEntry{f.beams, f.springs} {
		for _, k := range list {
			e += k.value * u[k.i] * u[k.j] / 2
		}
	}
	for i, v := range f.load {
		e -= v * u[i]
	}
	for _, strips := range f.meshes {
		for i := range strips {
			over := max(0, -strips[i].opening.of(u)-strips[i].gap)
			e += strips[i].spring * over * over / 2
		}
	}
	for _, end := range f.ends {
		over := max(0, math.Hypot(u[end.at[0]], u[end.at[1]])-play*end.play)
		e += end.spring * over * over / 2
	}
	return e
}

// solve finds the least potential. The play of seats comes in steps, since without it the energy is piecewise quadratic and Newton's method is sure.
func (f *frame) solve() (*frameSolution, error) {
	s := &frameSolution{f: f, u: make([]float64, len(f.load))}
	plays := []float64{1}
	if slices.ContainsFunc(f.ends, func(e frameEnd) bool { return e.play > 0 }) {
		plays = []float64{0, 0.02, 0.1, 0.3, 0.6, 1}
	}
	for i, play := range plays {
		if err := s.newton(play, i == 0); err != nil {
			return nil, err
		}
	}
	s.react = make([]float64, len(f.load))
	for i, v := range f.load {
		s.react[i] = -v
	}
	for _, k := range f.beams {
		s.react[k.i] += k.value * s.u[k.j]
	}
	for _, strips := range f.meshes {
		loads := make([]float64, len(strips))
		for i := range strips {
			loads[i] = max(0, -strips[i].opening.of(s.u)-strips[i].gap) * strips[i].spring
			for k, at := range strips[i].opening.at {
				s.react[at] -= loads[i] * strips[i].opening.weight[k]
			}
		}
		s.load = append(s.load, loads)
	}
	return s, nil
}

// newton goes down from s.u; when fresh, from all strips and seats in touch, as if they could pull.
func (s *frameSolution) newton(play float64, fresh bool) error {
	f := s.f
	for round := range 200 {
		all := fresh && round == 0
		m := newFrameMatrix(f.unknown)
		down := make([]float64, f.unknown) // minus the gradient
		put := func(i, j int, v float64) {
			if i, j = f.number[i], f.number[j]; i >= 0 && j >= 0 && i >= j {
				m.add(i, j, v)
			}
		}
		push := func(i int, v float64) {
			if i = f.number[i]; i >= 0 {
				down[i] += v
			}
		}
		for i, v := range f.load {
			push(i, v)
		}
		for _, list := range [][]frameEntry{f.beams, f.springs} {
			for _, k := range list {
				put(k.i, k.j, k.value)
				push(k.i, -k.value*s.u[k.j])
			}
		}
		for _, strips := range f.meshes {
			for i := range strips {
				st := &strips[i]
				over := -st.opening.of(s.u) - st.gap
				if over <= 0 && !all {
					continue
				}
				for a, p := range st.opening.at {
					push(p, st.spring*over*st.opening.weight[a])
					for b, q := range st.opening.at {
						put(p, q, st.spring*st.opening.weight[a]*st.opening.weight[b])
					}
				}
			}
		}
		for _, end := range f.ends {
			v := [2]float64{s.u[end.at[0]], s.u[end.at[1]]}
			size, gap := math.Hypot(v[0], v[1]), play*end.play
			switch {
			case gap == 0 || size == 0:
				for k := range 2 {
					push(end.at[k], -end.spring*v[k])
					put(end.at[k], end.at[k], end.spring)
				}
			case size > gap:
				for k := range 2 {
					push(end.at[k], -end.spring*(size-gap)*v[k]/size)
					for l := range 2 {
						h := gap / size * v[k] * v[l] / (size * size)
						if k == l {
							h += 1 - gap/size
						}
						put(end.at[k], end.at[l], end.spring*h)
					}
				}
			default: // inside the play: hold it softly, so that the matrix can be inverted; the gradient knows nothing of it
				for k := range 2 {
					put(end.at[k], end.at[k], end.spring*1e-6)
				}
			}
		}
		most := 0.0
		for _, v := range down {
			most = max(most, math.Abs(v))
		}
		if err := m.solve(down); err != nil {
			return err
		}
		// Line search: halves of the step until the energy falls. The first linear step is taken whole.
		u, step, moved := make([]float64, len(s.u)), 1.0, 0.0
		before := f.energy(s.u, play)
		for {
			moved = 0
			for i := range u {
				u[i] = s.u[i]
				if n := f.number[i]; n >= 0 {
					u[i] += step * down[n]
					moved = max(moved, math.Abs(step*down[n]))
				}
			}
			if all || f.energy(u, play) <= before+1e-9*math.Abs(before) || step < 1e-6 {
				break
			}
			step /= 2
		}
		s.u = u
		s.rounds++
		if !all && moved < 1e-11 && step == 1 {
			return nil
		}
	}
	return errors.New("frame: no balance found")
}

// frameMatrix is a symmetric positive definite matrix, the lower half by rows, each from its first element.
type frameMatrix [][]float64

func newFrameMatrix(n int) frameMatrix {
	m := make(frameMatrix, n)
	for i := range m {
		m[i] = make([]float64, 1, 64)
	}
	return m
}

// add adds to element i, j with j ≤ i. Row i ends at the diagonal.
func (m frameMatrix) add(i, j int, v float64) {
	if short := i - j + 1 - len(m[i]); short > 0 {
		m[i] = append(make([]float64, short, short+len(m[i])), m[i]...)
	}
	m[i][len(m[i])-1-(i-j)] += v
}

// solve factorises m by Cholesky and overwrites b with the solution.
func (m frameMatrix) solve(b []float64) error {
	for i, row := range m {
		first := i + 1 - len(row)
		for j := first; j <= i; j++ {
			other := m[j]
			start := max(first, j+1-len(other))
			sum := row[j-first]
			x, y := row[start-first:j-first], other[start-(j+1-len(other)):]
			for k, v := range x {
				sum -= v * y[k]
			}
			if j < i {
				row[j-first] = sum / other[len(other)-1]
				continue
			}
			if !(sum > 0) {
				return errors.New("frame: something is loose")
			}
			row[j-first] = math.Sqrt(sum)
		}
		for k, v := range row[:len(row)-1] {
			b[i] -= v * b[first+k]
		}
		b[i] /= row[len(row)-1]
	}
	for i := len(m) - 1; i >= 0; i-- {
		row := m[i]
		b[i] /= row[len(row)-1]
		for k, v := range row[:len(row)-1] {
			b[i+1-len(row)+k] -= v * b[i]
		}
	}
	return nil
}

// lineLoad is the load per mm of face of mesh m, N/mm.
func (s *frameSolution) lineLoad(m int) []float64 {
	q := make([]float64, len(s.load[m]))
	for i, w := range s.load[m] {
		q[i] = w / s.f.meshes[m][i].width
	}
	return q
}

// factor is the largest over the mean line load of mesh m.
func (s *frameSolution) factor(m int) float64 {
	sum, face := 0.0, 0.0
	for i, w := range s.load[m] {
		sum += w
		face += s.f.meshes[m][i].width
	}
	return slices.Max(s.lineLoad(m)) / (sum / face)
}
