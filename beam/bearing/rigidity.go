package bearing

import "math"

// CatalogueDeflection is the radial deflection, mm, of a roller bearing from a maker's rigidity
// factor K_c, for want of rolling element data: with the bore d in mm, the radial force F in N and
// the radial clearance s (across the diameter) in mm
//
//	δ = F^0.84 / (K_c d^0.65) + s/2     the first part in µm
//
// K_c has a value for each design: 12.8 and 16 are printed for full complement cylindrical rollers.
// Source: bearing maker's technical principles, chapter on rigidity: symbols and factors seen, form
// of the equation from memory.
func CatalogueDeflection(factor, bore, force, clearance float64) float64 {
	return math.Pow(force, 0.84)/(factor*math.Pow(bore, 0.65))/1000 + clearance/2
}
