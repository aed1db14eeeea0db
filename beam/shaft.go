package beam

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Section is a piece of shaft of constant outer diameter and bore. Sections
// are laid end to end from x = 0.
type Section struct {
	Length float64 // mm, greater than 0
	Outer  float64 // outer diameter, mm
	Bore   float64 // bore diameter, mm, 0 for a solid section
}

// Support is a spring between the shaft and its seat, the same in both planes.
// math.Inf(1) is rigid, 0 is free. Radial and tilting stiffness act on the
// deflection and on the slope of the section at X.
type Support struct {
	X      float64 // place, mm from the left end
	Radial float64 // N/mm, in each plane
	Tilt   float64 // N·mm/rad, in each plane
	Axial  float64 // N/mm
	// Width is the width of the seat, mm, on which the radial reaction is
	// spread: the load then bends the shaft less under the support, and the
	// deflection that counts is the mean over the seat. 0: at a point, as for
	// a seat of unknown width; that is as printed tables have it, and makes a
	// shaft with a short overhang up to 16 % too stiff there.
	Width float64
}

// half is how far from its middle the two halves of a spread reaction act, mm:
// an even spread has the second moment width²/12.
func (p *Support) half() float64 { return p.Width / math.Sqrt(12) }

// Shaft is a stepped shaft on its supports.
type Shaft struct {
	Sections []Section
	Young    float64 // modulus of elasticity, MPa
	Poisson  float64 // Poisson's ratio, 0 to 0.5
	Supports []Support
	// NoShear leaves shear deformation out, as many printed tables do.
	NoShear bool
	// NoShoulder leaves the softening of sharp shoulders out, and with it
	// Hutchinson's shear coefficient: the plain beam of printed tables.
	NoShoulder bool
	// Cowper takes Cowper's shear coefficient with softened shoulders too.
	Cowper bool
}

// shearCoefficient is κ of a section of the shaft.
func (s *Shaft) shearCoefficient(boreRatio float64) float64 {
	if s.NoShoulder || s.Cowper {
		return ShearCoefficient(s.Poisson, boreRatio)
	}
	return HutchinsonCoefficient(s.Poisson, boreRatio)
}

// length is the sum of the section lengths, mm.
func (s Shaft) length() float64 {
	var sum float64
	for _, c := range s.Sections {
		sum += c.Length
	}
	return sum
}

// clone is a copy that shares no memory with s.
func (s Shaft) clone() Shaft {
	s.Sections = slices.Clone(s.Sections)
	s.Supports = slices.Clone(s.Supports)
	return s
}

// validate reports everything that is wrong with the data, all at once.
func (s Shaft) validate() error {
	errs := slices.Concat(s.sectionErrors(), s.supportErrors())
	if !(s.Young > 0) || math.IsInf(s.Young, 0) {
		errs = append(errs, fmt.Errorf("modulus of elasticity is %g MPa: it must be a number above 0 (steel: about 206000 MPa)", s.Young))
	}
	if !(s.Poisson >= 0 && s.Poisson <= 0.5) {
		errs = append(errs, fmt.Errorf("the lateral contraction (Poisson's ratio) is %g: it must lie between 0 and 0.5 (steel: 0.3)", s.Poisson))
	}
	return errors.Join(errs...)
}

func (s Shaft) sectionErrors() (errs []error) {
	if len(s.Sections) == 0 {
		return []error{errors.New("the shaft has no sections: give at least one length and diameter")}
	}
	for i, c := range s.Sections {
		if !(c.Length > 0) || math.IsInf(c.Length, 0) {
			errs = append(errs, fmt.Errorf("section %d: length is %g mm: it must be a number above 0", i+1, c.Length))
		}
		if !(c.Outer > 0) || math.IsInf(c.Outer, 0) {
			errs = append(errs, fmt.Errorf("section %d: outer diameter is %g mm: it must be a number above 0", i+1, c.Outer))
			continue
		}
		if !(c.Bore >= 0) || c.Bore >= c.Outer {
			errs = append(errs, fmt.Errorf("section %d: bore is %g mm with an outer diameter of %g mm: it must be 0 or more and smaller than the outer diameter", i+1, c.Bore, c.Outer))
			continue
		}
		if i == 0 {
			continue
		}
		p := s.Sections[i-1]
		if p.Bore >= p.Outer {
			continue // already told
		}
		if c.Bore >= p.Outer || p.Bore >= c.Outer {
			errs = append(errs, fmt.Errorf("sections %d and %d do not touch: %g mm outer with %g mm bore meets %g mm outer with %g mm bore: give a bore smaller than the neighbour's outer diameter",
				i, i+1, p.Outer, p.Bore, c.Outer, c.Bore))
		}
	}
	return errs
}

func (s Shaft) supportErrors() (errs []error) {
	length := s.length()
	tol := length * coincident
	for i, p := range s.Supports {
		if !(p.X >= -tol && p.X <= length+tol) {
			errs = append(errs, fmt.Errorf("support %d: x is %g mm: the shaft runs from 0 to %g mm", i+1, p.X, length))
		} else if !(p.Width >= 0 && p.Width/2 <= p.X+tol && p.Width/2 <= length-p.X+tol) {
			errs = append(errs, fmt.Errorf("support %d: the width of the seat is %g mm at x = %g mm: it must be 0 or more and lie on the shaft, which runs from 0 to %g mm",
				i+1, p.Width, p.X, length))
		}
		for _, k := range []struct {
			name, unit string
			value      float64
		}{{"radial", "N/mm", p.Radial}, {"tilting", "N·mm/rad", p.Tilt}, {"axial", "N/mm", p.Axial}} {
			if !(k.value >= 0) {
				errs = append(errs, fmt.Errorf("support %d: %s stiffness is %g %s: it must be 0 (free) or more", i+1, k.name, k.value, k.unit))
			}
		}
		for j, o := range s.Supports[:i] {
			if !(math.Abs(o.X-p.X) < length*tooClose) {
				continue
			}
			for _, k := range []struct {
				name string
				a, b float64
			}{{"radially", o.Radial, p.Radial}, {"against tilting", o.Tilt, p.Tilt}, {"axially", o.Axial, p.Axial}} {
				if math.IsInf(k.a, 1) && math.IsInf(k.b, 1) {
					errs = append(errs, fmt.Errorf("supports %d and %d both hold the shaft rigidly %s at x = %g mm: leave one out or give it a stiffness", j+1, i+1, k.name, p.X))
				}
			}
		}
	}
	return errs
}

const (
	// coincident is the part of the shaft's length within which two places
	// are one: more than the rounding of a sum of section lengths, far less
	// than anything that can be measured.
	coincident = 1e-12
	// tooClose is the part of the length within which two rigid supports of
	// the same kind cannot be told apart.
	tooClose = 1e-6
)
