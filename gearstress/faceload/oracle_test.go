package faceload

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// plain is a problem in the form of the mathematics: A = C + D, gap, mesh of each station, force of each mesh.
type plain struct {
	a     [][]float64
	g     []float64
	owner []int
	force []float64
}

func (p *Problem) plain() plain {
	var q plain
	var spring []float64
	for m, mesh := range p.Meshes {
		q.force = append(q.force, mesh.Force)
		for i, w := range Widths(mesh.Slices, mesh.Face) {
			spring = append(spring, 1/(mesh.Stiffness*w))
			q.owner = append(q.owner, m)
			if mesh.Gap == nil {
				q.g = append(q.g, 0)
			} else {
				q.g = append(q.g, mesh.Gap[i])
			}
		}
	}
	n := len(spring)
	for i := range n {
		row := make([]float64, n)
		if p.Compliance != nil {
			copy(row, p.Compliance[i*n:])
		}
		row[i] += spring[i]
		q.a = append(q.a, row)
	}
	return q
}

// gauss solves a small system by elimination with row exchange; it spoils a and b.
func gauss(a [][]float64, b []float64) ([]float64, bool) {
	n := len(b)
	for k := range n {
		top := k
		for i := k; i < n; i++ {
			if math.Abs(a[i][k]) > math.Abs(a[top][k]) {
				top = i
			}
		}
		if a[top][k] == 0 {
			return nil, false
		}
		a[k], a[top], b[k], b[top] = a[top], a[k], b[top], b[k]
		for i := k + 1; i < n; i++ {
			f := a[i][k] / a[k][k]
			for j := k; j < n; j++ {
				a[i][j] -= f * a[k][j]
			}
			b[i] -= f * b[k]
		}
	}
	for k := n - 1; k >= 0; k-- {
		for j := k + 1; j < n; j++ {
			b[k] -= a[k][j] * b[j]
		}
		b[k] /= a[k][k]
	}
	return b, true
}

// everySet tries all sets of loaded stations and returns the loads and approaches of the one that misses the
// conditions least.
func (q plain) everySet() (load, approach []float64) {
	n, meshes := len(q.g), len(q.force)
	best := math.Inf(1)
	for set := 1; set < 1<<n; set++ {
		var in []int
		seen := make([]bool, meshes)
		for k := range n {
			if set>>k&1 == 1 {
				in = append(in, k)
				seen[q.owner[k]] = true
			}
		}
		if slices.Contains(seen, false) {
			continue
		}
		p := len(in)
		a, b := make([][]float64, p+meshes), make([]float64, p+meshes)
		for i := range a {
			a[i] = make([]float64, p+meshes)
		}
		for i, k := range in {
			for j, l := range in {
				a[i][j] = q.a[k][l]
			}
			a[i][p+q.owner[k]] = -1
			a[p+q.owner[k]][i] = 1
			b[i] = -q.g[k]
		}
		copy(b[p:], q.force)
		x, ok := gauss(a, b)
		if !ok {
			continue
		}
		w := make([]float64, n)
		for i, k := range in {
			w[k] = x[i]
		}
		miss := 0.0
		for k := range n {
			slack := q.g[k] - x[p+q.owner[k]]
			for l := range n {
				slack += q.a[k][l] * w[l]
			}
			miss = max(miss, -w[k]*q.a[k][k], -slack)
		}
		if miss < best {
			best, load, approach = miss, w, slices.Clone(x[p:])
		}
	}
	return load, approach
}

// descend is an algorithm of another kind: steepest descent with momentum, each step projected on the loads that are
// not negative and add up to the forces.
func (q plain) descend(steps int) []float64 {
	n := len(q.g)
	bound := 0.0 // of the largest eigenvalue: largest sum of a row
	for _, row := range q.a {
		sum := 0.0
		for _, v := range row {
			sum += math.Abs(v)
		}
		bound = max(bound, sum)
	}
	w := make([]float64, n)
	for k := range w {
		w[k] = q.force[q.owner[k]]
	}
	q.project(w)
	ahead, t := slices.Clone(w), 1.0
	for range steps {
		next := slices.Clone(ahead)
		for k := range n {
			slope := q.g[k]
			for l := range n {
				slope += q.a[k][l] * ahead[l]
			}
			next[k] -= slope / bound
		}
		q.project(next)
		turn := 0.0
		for k := range n {
			turn += (ahead[k] - next[k]) * (next[k] - w[k])
		}
		grown := (1 + math.Sqrt(1+4*t*t)) / 2
		if turn > 0 {
			t, grown = 1, 1 // momentum points uphill: start it anew
		}
		for k := range n {
			ahead[k] = next[k] + (t-1)/grown*(next[k]-w[k])
		}
		w, t = next, grown
	}
	return w
}

// project moves w to the nearest loads that are ≥ 0 and add up to the force, mesh by mesh.
func (q plain) project(w []float64) {
	for m, force := range q.force {
		var v []float64
		for k := range w {
			if q.owner[k] == m {
				v = append(v, w[k])
			}
		}
		slices.Sort(v)
		slices.Reverse(v)
		sum, shift := 0.0, 0.0
		for i, x := range v {
			sum += x
			if s := (sum - force) / float64(i+1); s < x {
				shift = s
			}
		}
		for k := range w {
			if q.owner[k] == m {
				w[k] = max(0, w[k]-shift)
			}
		}
	}
}

// problems draws problems whose shafts have a few random ways to give, so that partial contact is common.
func problems(counts [][]int, gapped bool) *rapid.Generator[*Problem] {
	return rapid.Custom(func(t *rapid.T) *Problem {
		count := rapid.SampledFrom(counts).Draw(t, "slices")
		p := &Problem{}
		n := 0
		for _, c := range count {
			m := Mesh{Slices: c, Face: rapid.Float64Range(5, 60).Draw(t, "face"), Stiffness: rapid.Float64Range(5e3, 5e4).Draw(t, "stiffness"),
				Force: rapid.Float64Range(1, 3e4).Draw(t, "force")}
			if gapped {
				m.Gap = rapid.SliceOfN(rapid.Float64Range(-0.03, 0.05), c, c).Draw(t, "gap")
			}
			p.Meshes = append(p.Meshes, m)
			n += c
		}
		ways := rapid.IntRange(0, 5).Draw(t, "ways")
		if ways == 0 {
			return p
		}
		give := math.Pow(10, rapid.Float64Range(-7, -4).Draw(t, "give"))
		p.Compliance = make([]float64, n*n)
		for range ways {
			v := rapid.SliceOfN(rapid.Float64Range(-1, 1), n, n).Draw(t, "way")
			for i := range n {
				for j := range n {
					p.Compliance[i*n+j] += give * v[i] * v[j]
				}
			}
		}
		return p
	})
}

func flat(s *Solution) []float64 { return slices.Concat(s.Load...) }

// compare fails unless loads agree to a share of the force of their mesh.
func compare(t *rapid.T, p *Problem, got *Solution, want []float64, tolerance float64) {
	k := 0
	for m := range p.Meshes {
		for i, w := range got.Load[m] {
			if !(math.Abs(w-want[k]) <= tolerance*p.Meshes[m].Force) {
				t.Fatalf("mesh %d station %d: %.12g N, want %.12g N\nall %v\nwant %v", m+1, i+1, w, want[k], got.Load, want)
			}
			k++
		}
	}
}

func TestSolutionIsTheBestOfAllSets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := problems([][]int{{4}, {5}, {8}, {4, 4}, {5, 4}}, true).Draw(t, "problem")
		got := solve(t, p)
		load, approach := p.plain().everySet()
		compare(t, p, got, load, 1e-8)
		for m := range approach {
			if !(math.Abs(got.Approach[m]-approach[m]) <= 1e-9) {
				t.Fatalf("approach of mesh %d: %v, want %v", m+1, got.Approach[m], approach[m])
			}
		}
	})
}

func TestSolutionAgreesWithAnotherAlgorithm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := problems([][]int{{40}, {25, 15}, {12, 8, 20}}, true).Draw(t, "problem")
		compare(t, p, solve(t, p), p.plain().descend(2000), 1e-6)
	})
}
