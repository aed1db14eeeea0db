package iso6336

import (
	"fmt"
	"math"

	"layshaft/gearstress/involute"
)

// Body is the shape of a gear under its teeth.
type Body struct {
	Rim float64 // s_R, thickness of the rim under the root circle, mm; 0 = solid
	Web float64 // b_s, thickness of the web that carries the rim, mm; 0 = as wide as the face
}

// Stiffness is the mesh stiffness per mm of face.
type Stiffness struct {
	Theoretical float64  // c'_th = 1/q', of one pair of teeth on solid discs, N/mm²
	Body        float64  // C_R, gear blank factor, –
	Rack        float64  // C_B, basic rack factor, –
	Single      float64  // c', of one pair of teeth, N/mm²
	Mean        float64  // c_γα, mean over the mesh, for K_v and K_Hα, N/mm²
	Face        float64  // c_γβ = 0.85 c_γα, for the load along the face, N/mm²
	Notes       []string // where the range of the formula is left
}

// steelYoung is the modulus the stiffness formula was made for, MPa.
// Source: ISO 6336-1:2006, clause 9.
const steelYoung = 206000.0

// softLoad is the specific load, N/mm, below which c' and N_S fall. Source: ISO 6336-1:2006 and 2019, clauses 6.5 and
// 9.
const softLoad = 100

// MeshStiffness is the stiffness of the mesh by method B. young holds the moduli of
// both gears, MPa; specificLoad is K_A K_γ F_t/b, N/mm.
//
//	q' = 0.04723 + 0.15551/z_n1 + 0.25791/z_n2 − 0.00635 x1 − 0.11654 x1/z_n1
//	     − 0.00193 x2 − 0.24188 x2/z_n2 + 0.00529 x1² + 0.00182 x2²       mm·µm/N
//	C_B = (1 + 0.5 (1.2 − h_fP)) (1 − 0.02 (20 − α_Pn))                    h_fP in modules, α in degrees
//	C_R = 1 + ln(b_s/b)/(5 e^{s_R/(5 m_n)})                                0.2 ≤ b_s/b ≤ 1.2, s_R ≥ m_n
//	c' = 0.8 C_R C_B cos β/q' · E/206000, E = 2 E1 E2/(E1 + E2)
//	c_γα = c' (0.75 ε_α + 0.25), c_γβ = 0.85 c_γα
//
// Below 100 N/mm c' falls with the fourth root of the load. C_R is the mean of
// both gears. Index 1 of the formula is the pinion. Source: ISO 6336-1:2006 and 2019,
// clause 9; coefficients and the mean of C_R from memory.
func MeshStiffness(p *involute.Pair, young [2]float64, bodies [2]Body, specificLoad float64) Stiffness {
	s := fullStiffness(p, young, bodies).scaled(softening(specificLoad))
	s.Notes = stiffnessNotes(p)
	return s
}

// fullStiffness is that from 100 N/mm on.
func fullStiffness(p *involute.Pair, young [2]float64, bodies [2]Body) Stiffness {
	a, b := 0, 1
	if p.Teeth[1] < p.Teeth[0] {
		a, b = 1, 0
	}
	cosBb := math.Cos(p.BaseHelix)
	virtual := 1 / (cosBb * cosBb * math.Cos(p.Helix))
	z1, z2 := float64(p.Teeth[a])*virtual, float64(p.Teeth[b])*virtual
	x1, x2 := p.X[a], p.X[b]
	q := 0.04723 + 0.15551/z1 + 0.25791/z2 -
		0.00635*x1 - 0.11654*x1/z1 - 0.00193*x2 - 0.24188*x2/z2 +
		0.00529*x1*x1 + 0.00182*x2*x2
	s := Stiffness{
		Theoretical: 1000 / q, // from N/(mm·µm)
		Body:        (blankFactor(p, bodies[0]) + blankFactor(p, bodies[1])) / 2,
		Rack:        (1 + 0.5*(1.2-p.Rack.Dedendum)) * (1 - 0.02*(20-degrees(p.Rack.PressureAngle))),
	}
	s.Single = 0.8 * s.Theoretical * s.Body * s.Rack * math.Cos(p.Helix) * 2 * young[0] * young[1] / (young[0] + young[1]) / steelYoung
	s.Mean = s.Single * (0.75*p.TransverseContactRatio + 0.25)
	s.Face = 0.85 * s.Mean
	return s
}

// softening is what c' falls to under a specific load of less than 100 N/mm, –.
func softening(specificLoad float64) float64 {
	if specificLoad >= softLoad {
		return 1
	}
	return math.Sqrt(math.Sqrt(specificLoad / softLoad))
}

// scaled is the stiffness with c' changed by a factor.
func (s Stiffness) scaled(by float64) Stiffness {
	s.Single, s.Mean, s.Face = by*s.Single, by*s.Mean, by*s.Face
	return s
}

// stiffnessNotes says where a pair leaves the range of the formula.
func stiffnessNotes(p *involute.Pair) (notes []string) {
	a, b := 0, 1
	if p.Teeth[1] < p.Teeth[0] {
		a, b = 1, 0
	}
	x1, x2 := p.X[a], p.X[b]
	if sum := x1 + x2; x1 < x2 || sum < -0.5 || sum > 2 {
		notes = append(notes, fmt.Sprintf("mesh stiffness: profile shifts %.3f (pinion) and %.3f (wheel) are outside x1 ≥ x2 and −0.5 ≤ x1 + x2 ≤ 2, where ISO 6336-1 gives c'", x1, x2))
	}
	if degrees(p.Helix) > 30+1e-9 {
		notes = append(notes, fmt.Sprintf("mesh stiffness: helix angle %.2f° is above the 30° up to which ISO 6336-1 gives c_γ", degrees(p.Helix)))
	}
	if p.TransverseContactRatio < 1.2 {
		notes = append(notes, fmt.Sprintf("mesh stiffness: contact ratio ε_α = %.3f is below 1.2; c_γ may be up to a tenth lower (ISO 6336-1)", p.TransverseContactRatio))
	}
	return notes
}

// blankFactor is C_R of one gear, –.
func blankFactor(p *involute.Pair, b Body) float64 {
	if b.Rim == 0 || b.Web == 0 {
		return 1
	}
	web := min(max(b.Web/p.Face, 0.2), 1.2)
	rim := max(b.Rim/p.Module, 1)
	return 1 + math.Log(web)/(5*math.Exp(rim/5))
}
