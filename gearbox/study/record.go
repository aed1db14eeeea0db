package study

import (
	"slices"

	"layshaft/gearbox"
)

// Record is what a box's own history says of an asked torque at once, before any strength is worked out from it.
type Record struct {
	Survived *gearbox.Evidence // the one of the largest torque that the box survived, the most passes of those; nil = none
	Ratio    float64           // asked torque over that torque, –; 0 = none
	BrokeAt  *gearbox.Evidence // the one of the lowest torque, not above the asked one, at which it broke; nil = none
}

// RecordOf is the record of a box against an input torque, N·mm, in some of its speeds; none named = all. A torque of coast (< 0) has none:
// the history is one of drive. What was survived in one speed alone says nothing of the others, and counts where that speed alone is asked; what
// broke in one speed counts wherever that speed is among the asked.
func RecordOf(b *gearbox.Box, torque float64, speeds ...string) (r Record) {
	if !(torque > 0) {
		return r
	}
	if len(speeds) == 0 {
		for _, s := range b.Speeds {
			speeds = append(speeds, s.Name)
		}
	}
	for i := range b.Evidence {
		e := &b.Evidence[i]
		switch {
		case e.Broke:
			meant := e.Speed == "" || slices.Contains(speeds, e.Speed)
			if meant && e.Torque <= torque && (r.BrokeAt == nil || e.Torque < r.BrokeAt.Torque) {
				r.BrokeAt = e
			}
		case e.Speed == "" || len(speeds) == 1 && speeds[0] == e.Speed:
			if s := r.Survived; s == nil || e.Torque > s.Torque || e.Torque == s.Torque && e.Passes > s.Passes {
				r.Survived, r.Ratio = e, torque/e.Torque
			}
		}
	}
	return r
}
