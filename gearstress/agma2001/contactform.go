package agma2001

import (
	"fmt"
	"math"

	"layshaft/gearstress/involute"
)

// Contact is how I came about.
type Contact struct {
	I        float64    // geometry factor I, –
	Radius   [2]float64 // transverse radii of curvature ρ at the point of contact that counts, mm; [0] driver
	Diameter float64    // operating pitch diameter d of the pinion, mm
	Sharing  float64    // load sharing ratio m_N = F/L_min; 1 where m_F ≤ 1, –
	Overlap  float64    // helical overlap factor C_ψ, –
	MeanUsed bool       // whether ρ is that of the mean radius (m_F > 1), not that of the lowest point of single contact
}

// contact finds the geometry factor I:
//
//	I = cos φ_r C_ψ² / ((1/ρ1 + 1/ρ2) d m_N)
//
// Spur and m_F ≤ 1: ρ1 = C2, the lowest point of single tooth contact of the pinion,
// ρ2 = C6 − ρ1. m_F > 1: the middle of the pinion's tooth height, R_m1 = ½ [R_o1 + (C −
// R_o2)], ρ1 = √(R_m1² − R_b1²). Source: AGMA 908-B89, clause 4 (from memory, checked
// against its tables).
func (f *Form) contact() error {
	p, one := f.Pair, f.pinion
	two := 1 - one
	line := p.Centre * math.Sin(p.WorkingPressureAngle) // C6
	curvature := func(i int, d float64) float64 { return math.Sqrt(max(0, (d-p.Base[i])*(d+p.Base[i]))) / 2 }
	first := curvature(one, p.Start[one])                  // C1
	last := line - curvature(two, p.Start[two])            // C5
	pitch := math.Pi * p.Base[one] / float64(p.Teeth[one]) // p_b

	middle := (p.Tip[one]/2 + p.Centre - p.Tip[two]/2) / 2 // R_m1
	meanOne := curvature(one, 2*middle)
	meanTwo := line - meanOne
	single := last - pitch // C2
	c := Contact{Diameter: p.Working[one], Sharing: 1, Overlap: 1, MeanUsed: p.OverlapRatio > 1}
	rhoOne := single
	if c.MeanUsed {
		rhoOne = meanOne
		c.Sharing = sharing(p)
	}
	rhoTwo := line - rhoOne
	if !(rhoOne > 0 && rhoTwo > 0) || (p.OverlapRatio > 0 && !(meanOne > 0 && meanTwo > 0)) {
		return fmt.Errorf("the point of contact that counts for I lies at or beyond a base circle (radii of curvature %.4g and %.4g mm), where the contact stress has no limit: check tip diameters and profile shifts", rhoOne, rhoTwo)
	}
	if !c.MeanUsed && p.OverlapRatio > 0 {
		normal := pitch * math.Cos(p.BaseHelix) // p_N
		c.Overlap = overlap(p.OverlapRatio, meanOne*meanTwo/(rhoOne*rhoTwo), (last-first)/normal)
	}
	c.I = math.Cos(p.WorkingPressureAngle) * c.Overlap * c.Overlap / ((1/rhoOne + 1/rhoTwo) * c.Diameter * c.Sharing)
	c.Radius[one], c.Radius[two] = rhoOne, rhoTwo
	f.Contact = c
	return nil
}

// overlap is the helical overlap factor C_ψ of teeth with m_F ≤ 1, –: it leads from spur
// (1) to the value that makes I that of m_F > 1 at m_F = 1.
//
//	C_ψ = √(1 − m_F (1 − ρ_m1 ρ_m2 Z/(ρ1 ρ2 p_N)))
//
// curves is ρ_m1 ρ_m2/(ρ1 ρ2), path is Z/p_N. Source: AGMA 908-B89, clause 4 (from memory).
func overlap(mF, curves, path float64) float64 { return math.Sqrt(1 - mF*(1-curves*path)) }

// sharing is the load sharing ratio m_N = F/L_min of teeth with m_F > 1, –, from the
// shortest sum of lines of contact:
//
//	L_min cos ψ_b = m_p F − n_a n_r p_x              for n_a ≤ 1 − n_r
//	              = m_p F − (1 − n_a)(1 − n_r) p_x   otherwise
//
// with n_r and n_a what m_p and m_F have beyond whole numbers, p_x = F/m_F. Source:
// AGMA 908-B89, clause 4 (from memory).
func sharing(p *involute.Pair) float64 {
	_, nR := math.Modf(p.TransverseContactRatio)
	_, nA := math.Modf(p.OverlapRatio)
	lost := nA * nR
	if nA > 1-nR {
		lost = (1 - nA) * (1 - nR)
	}
	return math.Cos(p.BaseHelix) / (p.TransverseContactRatio - lost/p.OverlapRatio)
}
