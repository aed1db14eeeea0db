package faceload

import (
	"errors"
	"fmt"
	"math"
)

// Mesh is one pair of gears in contact, cut into strips across its face.
type Mesh struct {
	Slices    int       // number of strips, at least 4, usually 21; their stations are at Stations(Slices, Face)
	Face      float64   // common face width b, mm
	Stiffness float64   // mesh stiffness c_γ in the transverse plane, N/mm of approach per mm of face
	Force     float64   // whole load F_m along the transverse line of action, N, positive
	Gap       []float64 // initial gap at the stations along the line of action, mm, positive where flanks stand apart; nil means none
}

// Problem is the set of meshes that share shafts.
type Problem struct {
	Meshes []Mesh

	// Compliance says how the shafts give way: row i, column j is by how much the two gears at station i move
	// apart along the line of action, mm, for 1 N pressing them apart at station j. It is square, symmetric and
	// stored row by row; the stations of all meshes follow one another. Nil means rigid shafts.
	Compliance []float64
}

// Stations are the places on the face where load and gap are counted, mm from the middle of the face (ξ).
// They are evenly spaced from end to end, so the first and the last lie on the ends of the face.
func Stations(slices int, face float64) []float64 {
	x := make([]float64, slices)
	for i := range x {
		x[i] = station(i, slices, face)
	}
	return x
}

// Widths are the shares of the face that belong to the stations, mm. They add up to the face width.
func Widths(slices int, face float64) []float64 {
	w := make([]float64, slices)
	for i := range w {
		w[i] = width(i, slices, face)
	}
	return w
}

func station(i, slices int, face float64) float64 {
	return face * (float64(i)/float64(slices-1) - 0.5)
}

// width holds the weights of the trapezoidal rule with one end correction (Gregory's rule, from memory): 5/12, 13/12,
// 1, … 1, 13/12, 5/12 of the spacing h. Its error falls with the cube of the spacing, see TestStripsIntegrate.
func width(i, slices int, face float64) float64 {
	spacing := face / float64(slices-1)
	switch i {
	case 0, slices - 1:
		return spacing * 5 / 12
	case 1, slices - 2:
		return spacing * 13 / 12
	}
	return spacing
}

// fewest is the smallest number of strips for which the weights hold.
const fewest = 4

// validate returns everything that is wrong with p, joined, and the number of stations.
func (p *Problem) validate() (int, error) {
	if len(p.Meshes) == 0 {
		return 0, errors.New("no mesh given: a problem needs at least one")
	}
	var found []error
	complain := func(format string, a ...any) { found = append(found, fmt.Errorf(format, a...)) }
	n := 0
	for i := range p.Meshes {
		m := &p.Meshes[i]
		if m.Slices < fewest {
			complain("mesh %d is cut into %d slices: give at least %d", i+1, m.Slices, fewest)
		}
		n += max(m.Slices, 0)
		for _, q := range [...]struct {
			name, unit string
			value      float64
		}{{"face width", "mm", m.Face}, {"mesh stiffness", "N/mm²", m.Stiffness}, {"force", "N", m.Force}} {
			if !(q.value > 0) || math.IsInf(q.value, 1) {
				complain("mesh %d: %s is %v %s: it must be a positive number", i+1, q.name, q.value, q.unit)
			}
		}
		if m.Gap != nil && len(m.Gap) != m.Slices {
			complain("mesh %d has %d gap values for %d slices: give one for each station, or none", i+1, len(m.Gap), m.Slices)
		}
		for k, g := range m.Gap {
			if math.IsNaN(g) || math.IsInf(g, 0) {
				complain("mesh %d: the gap at station %d is %v mm: it must be a finite number", i+1, k+1, g)
			}
		}
	}
	if p.Compliance == nil {
		return n, errors.Join(found...)
	}
	if len(p.Compliance) != n*n {
		complain("the compliance has %d values: %d stations in all need %d × %d = %d", len(p.Compliance), n, n, n, n*n)
	} else if err := checkCompliance(p.Compliance, n); err != nil {
		found = append(found, err)
	}
	return n, errors.Join(found...)
}

// asymmetry is how far two mirrored entries of the compliance may differ, as a share of the largest on the diagonal.
const asymmetry = 1e-8

func checkCompliance(c []float64, n int) error {
	top := 0.0
	for i := range n {
		d := c[i*n+i]
		if !(d >= 0) || math.IsInf(d, 1) {
			return fmt.Errorf("the compliance at station %d of all is %v mm/N: a load can't pull its own place towards it; check the sign of the displacements", i+1, d)
		}
		top = max(top, d)
	}
	for i := range n {
		row := c[i*n : i*n+n]
		for j := range i {
			if a, b := row[j], c[j*n+i]; !(math.Abs(a-b) <= asymmetry*top) {
				return fmt.Errorf("the compliance is not symmetric: row %d column %d is %v mm/N, mirrored %v; load and displacement must be counted along the same line", i+1, j+1, a, b)
			}
		}
	}
	return nil
}
