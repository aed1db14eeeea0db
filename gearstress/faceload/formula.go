package faceload

import "math"

// FromMisalignment is the closed form for two gears on rigid shafts that lean by a straight misalignment F_βy, mm over
// the face, with mesh stiffness c_γβ, N/mm per mm of face, and mean line load F_m/b, N/mm (ISO 6336-1:2006,
// clause 7, method C; formulas from memory, they also follow from a straight load profile that never pulls):
//
//	q = F_βy c_γβ / (2 F_m/b)
//	q < 1: K_Hβ = 1 + q,   whole face in contact
//	q ≥ 1: K_Hβ = √(4 q),  share of the face in contact 1/√q
//
// The sign of the misalignment doesn't matter. Stiffness and line load must be positive.
func FromMisalignment(misalignment, stiffness, lineLoad float64) (factor, contact float64) {
	q := math.Abs(misalignment) * stiffness / (2 * lineLoad)
	if q < 1 {
		return 1 + q, 1
	}
	return 2 * math.Sqrt(q), 1 / math.Sqrt(q)
}
