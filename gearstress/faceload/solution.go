package faceload

// Solution is how the load lies on the faces. The outer index is the mesh, the inner one the station.
type Solution struct {
	Load       [][]float64 // load on each strip along the line of action, N, ≥ 0
	LineLoad   [][]float64 // load per mm of face at each station, N/mm, ≥ 0
	Separation [][]float64 // what is left of the gap under load, mm, 0 where flanks carry load
	Approach   []float64   // approach δ of each pair of gears: spring of the teeth + give of the shafts + gap, mm
	Steps      int         // factorisations that were needed
	Residual   float64     // largest relative miss of the contact conditions, –, at most 1e-9

	face []float64 // mm
	gear []float64 // mesh stiffness, N/mm²
}

func (s *Solver) solution(p *Problem, residual float64) *Solution {
	meshes, n := len(p.Meshes), s.n
	rows, values := make([][]float64, 3*meshes), make([]float64, 3*n+3*meshes)
	take := func(k int) []float64 {
		v := values[:k:k]
		values = values[k:]
		return v
	}
	r := &Solution{
		Load: rows[:meshes:meshes], LineLoad: rows[meshes : 2*meshes : 2*meshes], Separation: rows[2*meshes:],
		Approach: take(meshes), Steps: s.steps, Residual: residual, face: take(meshes), gear: take(meshes),
	}
	for m := range p.Meshes {
		q := &p.Meshes[m]
		r.face[m], r.gear[m] = q.Face, q.Stiffness
		r.Approach[m] = s.level[m] + s.least[m]
		r.Load[m], r.LineLoad[m], r.Separation[m] = take(q.Slices), take(q.Slices), take(q.Slices)
		for i := range q.Slices {
			k := s.first[m] + i
			r.Load[m][i] = s.load[k]
			r.LineLoad[m][i] = s.load[k] / width(i, q.Slices, q.Face)
			if s.load[k] == 0 {
				r.Separation[m][i] = max(s.slack[k], 0)
			}
		}
	}
	return r
}

// FaceLoadFactor is K_Hβ of mesh m: the largest line load over the mean one (ISO 6336-1:2006, clause 7). The largest is
// read at the stations; the ends of the face are stations, so nothing is extrapolated.
func (s *Solution) FaceLoadFactor(m int) float64 {
	top, sum := 0.0, 0.0
	for i, q := range s.LineLoad[m] {
		top = max(top, q)
		sum += s.Load[m][i]
	}
	return max(1, top/(sum/s.face[m])) // rounding may leave an even load just below 1
}

// ContactFraction is the share of the face of mesh m that carries load, 0 to 1. Between a loaded and an unloaded
// station the edge lies where a straight line from the spring of the teeth to the separation passes zero.
func (s *Solution) ContactFraction(m int) float64 {
	q, open := s.LineLoad[m], s.Separation[m]
	sum := 0.0
	for i := 1; i < len(q); i++ {
		switch a, b := q[i-1], q[i]; {
		case a > 0 && b > 0:
			sum++
		case a > 0:
			sum += a / (a + s.gear[m]*open[i])
		case b > 0:
			sum += b / (b + s.gear[m]*open[i-1])
		}
	}
	return sum / float64(len(q)-1)
}

// Centroid is where the load of mesh m acts, mm from the middle of the face.
func (s *Solution) Centroid(m int) float64 {
	moment, sum := 0.0, 0.0
	for i, w := range s.Load[m] {
		moment += w * station(i, len(s.Load[m]), s.face[m])
		sum += w
	}
	return moment / sum
}
