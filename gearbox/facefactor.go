package gearbox

import (
	"fmt"
	"math"

	"layshaft/material"
)

// recalled is a K_Hβ that was worked out: of a mesh on the path, for one making.
type recalled struct {
	torque float64 // N·mm; 0 = nothing
	row    int     // of mesh and making
	factor float64 // K_Hβ
}

// recall is the memory of a speed for them. What comes to the place of another takes it.
type recall []recalled

// How many are kept; more on elements, where each is dear.
const (
	fewRecalled  = 1 << 10
	manyRecalled = 1 << 12
)

// at is the place for one of them.
func (r recall) at(torque float64, row int) *recalled {
	bits := (math.Float64bits(torque) + uint64(row)) * 0x9e3779b97f4a7c15 // spreads the bits (Knuth)
	return &r[bits>>32%uint64(len(r))]
}

// row numbers a mesh on the path and a making.
func (v *solver) row(step int, as making) int { return as.place()*len(v.fixed.steps) + step }

// factor is K_Hβ of a mesh on the path at a torque, as it counts at one end of the bands: with its flanks out of line from their making to the worse side, but not at the best end. The other meshes are in
// line: what they do to this one through the shafts is small.
func (v *solver) factor(step int, torque float64, level material.Level) (float64, error) {
	if err := v.ready(); err != nil {
		return 0, err
	}
	at, err := v.before(torque)
	if err != nil {
		return 0, err
	}
	if level == material.High || v.p.pairs[v.fixed.steps[step].mesh].deviation == 0 {
		return v.factorAs(step, at, making{})
	}
	worse := 0.0
	for _, sign := range v.worseSigns(step, at) {
		k, err := v.factorAs(step, at, making{step, sign})
		if err != nil {
			return 0, err
		}
		worse = max(worse, k)
	}
	return worse, nil
}

// factorAs is the same for one making, at a torque that is solved.
func (v *solver) factorAs(step int, torque float64, as making) (float64, error) {
	if v.recall == nil {
		v.recall = make(recall, fewRecalled)
		if v.footing != nil {
			v.recall = make(recall, manyRecalled)
		}
	}
	row := v.row(step, as)
	known := v.recall.at(torque, row)
	if known.torque == torque && known.row == row {
		return known.factor, nil
	}
	s, err := v.look(torque, as)
	if err != nil {
		if as.sign != 0 {
			return 0, fmt.Errorf("at an input torque of %.4g N·m, flanks out of line: %w", torque/1e3, err)
		}
		return 0, fmt.Errorf("at an input torque of %.4g N·m: %w", torque/1e3, err)
	}
	if v.p.rough {
		return v.fixed.factor(s, step), nil
	}
	if as.sign == 0 { // all meshes are as they count
		for m := range v.fixed.steps {
			row := v.row(m, as)
			*v.recall.at(torque, row) = recalled{torque, row, v.fixed.factor(s, m)}
		}
		return v.fixed.factor(s, step), nil
	}
	*known = recalled{torque, row, v.fixed.factor(s, step)}
	return known.factor, nil
}

// recalls reports whether that of a torque is known already.
func (v *solver) recalls(step int, torque float64, level material.Level) bool {
	if v.recall == nil {
		return false
	}
	known := func(as making) bool {
		row := v.row(step, as)
		k := v.recall.at(torque, row)
		return k.torque == torque && k.row == row
	}
	if level == material.High || v.p.pairs[v.fixed.steps[step].mesh].deviation == 0 {
		return known(making{})
	}
	return known(making{step, 1}) || known(making{step, -1})
}

// clearly is how far from the middle of the face its load must act, and its peak lie, as a share of the face, for it to be clear to which side flanks out of line are worse.
const clearly, clearlyPeak = 0.08, 0.35

var bothSigns, plus, minus = []float64{1, -1}, []float64{1}, []float64{-1}

// worseSigns are the signs of the deviation of a mesh that may be the worse at a torque: a gap that opens towards the end that carries less, where the same end does clearly
// at the rungs of the ladder below and above with flanks in line; else both.
func (v *solver) worseSigns(step int, torque float64) []float64 {
	n := rungBelow(torque)
	below, above := v.crowding(step, n), v.crowding(step, n+1)
	switch {
	case below != above || below == 0:
		return bothSigns
	case below > 0:
		return minus
	}
	return plus
}

// crowding is the end of a mesh towards which its load clearly lies at a rung, with flanks in line: 1 that at +x, −1 that at −x, 0 neither.
func (v *solver) crowding(step, n int) float64 {
	known, ok := v.crowded.get(n)
	if !ok {
		known = make([]float64, len(v.fixed.steps))
		if s, err := v.find(rungTorque(n), making{}); err == nil {
			for m := range known {
				known[m] = v.fixed.crowding(s, m)
			}
		}
		v.crowded.put(n, known)
	}
	return known[step]
}

// crowding is that of a spread.
func (c *coupling) crowding(s *spread, mesh int) float64 {
	q := &c.p.pairs[c.steps[mesh].mesh]
	face, sum, moment, most, peak := q.to-q.from, 0.0, 0.0, 0.0, 0.0
	for i, xi := range q.stations {
		w := s.load(mesh*strips + i)
		sum += w
		moment += w * xi
		if line := w / q.widths[i]; line > most {
			most, peak = line, xi
		}
	}
	switch at := moment / sum; {
	case at > clearly*face && peak > clearlyPeak*face:
		return 1
	case at < -clearly*face && peak < -clearlyPeak*face:
		return -1
	}
	return 0
}

// shelf keeps something for each of a run of whole numbers.
type shelf[T any] struct {
	first int
	all   []T
	known []bool
}

func (h *shelf[T]) get(n int) (x T, ok bool) {
	if i := n - h.first; i >= 0 && i < len(h.all) && h.known[i] {
		return h.all[i], true
	}
	return x, false
}

func (h *shelf[T]) put(n int, x T) {
	if len(h.all) == 0 {
		h.first = n
	}
	if less := h.first - n; less > 0 {
		h.all, h.known, h.first = append(make([]T, less), h.all...), append(make([]bool, less), h.known...), n
	}
	if more := n - h.first + 1 - len(h.all); more > 0 {
		h.all, h.known = append(h.all, make([]T, more)...), append(h.known, make([]bool, more)...)
	}
	h.all[n-h.first], h.known[n-h.first] = x, true
}
