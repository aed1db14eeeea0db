package iso6336

import "math"

// LoadFactors are the factors between nominal and actual load.
type LoadFactors struct {
	A           float64 // K_A, application factor, as given, –
	Gamma       float64 // K_γ, mesh load factor of divided power paths, –
	V           float64 // K_v, dynamic factor, –
	HBeta       float64 // K_Hβ, face load factor of the flank, as given, –
	FBeta       float64 // K_Fβ, of the root, –
	HAlpha      float64 // K_Hα, transverse load factor of the flank, –
	FAlpha      float64 // K_Fα, of the root, –
	HBetaOrigin string  // where K_Hβ comes from, in the caller's words
}

func (k LoadFactors) flank() float64 { return k.A * k.Gamma * k.V * k.HBeta * k.HAlpha }
func (k LoadFactors) root() float64  { return k.A * k.Gamma * k.V * k.FBeta * k.FAlpha }

// rootFaceFactor is K_Fβ, –, from K_Hβ and N_F: the root feels less of a concentrated load than the flank.
// It takes half the time of math.Pow, which guards against what can't come here.
func rootFaceFactor(kHb, exponent float64) float64 { return math.Exp(exponent * math.Log(kHb)) }

// rootFaceExponent is N_F of K_Fβ = K_Hβ^{N_F}, –, from face width and tooth height, both mm:
//
//	N_F = (b/h)²/(1 + b/h + (b/h)²), b/h at least 3
//
// Source: ISO 6336-1:2006 and 2019, 7.7 (relation of K_Fβ to K_Hβ).
func rootFaceExponent(face, height float64) float64 {
	r := max(3, face/height)
	return r * r / (1 + r + r*r)
}

// transverse finds K_Hα and K_Fα by method B.
//
//	ε_γ ≤ 2: K = ε_γ/2 (0.9 + 0.4 c_γα f_pb eff/(F_tH/b))
//	ε_γ > 2: K = 0.9 + 0.4 √(2 (ε_γ − 1)/ε_γ) c_γα f_pb eff/(F_tH/b)
//	1 ≤ K_Hα ≤ ε_γ/(ε_α Z_ε²), 1 ≤ K_Fα ≤ ε_γ/(0.25 ε_α + 0.75)
//
// with F_tH/b the line load that K_A, K_γ, K_v and K_Hβ make, N/mm, held at leastLoad as in K_v, and f_pb eff in mm.
// Source: ISO 6336-1:2006 and 2019, 8.3.
func (f *Form) transverse(c *Stiffness, dev Deviation, lineLoad float64) (hAlpha, fAlpha float64) {
	p := f.Pair
	epsA := p.TransverseContactRatio
	eps := epsA + p.OverlapRatio
	uneven := 0.4 * c.Mean * dev.Pitch / max(lineLoad, leastLoad)
	k := eps / 2 * (0.9 + uneven)
	if eps > 2 {
		k = 0.9 + math.Sqrt(2*(eps-1)/eps)*uneven
	}
	hAlpha = max(1, min(k, eps/(epsA*f.ZEps*f.ZEps)))
	fAlpha = max(1, min(k, eps/(0.25*epsA+0.75)))
	return hAlpha, fAlpha
}
