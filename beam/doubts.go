package beam

import (
	"fmt"
	"math"
)

const (
	stout      = 2.0 // length over largest diameter below which a shaft is doubted
	flange     = 2.0 // diameter over that of the seat beside it
	thinWalled = 0.7 // bore over outer diameter
)

// Doubts says in words where the rule for sharp shoulders is less sure of this
// shaft than elsewhere, with the error found on solids; a clause each, none
// if all is well or the rule is left out. Of loads it knows nothing: couples
// alone are followed less well than forces, too.
func (m *Model) Doubts() []string {
	if m.shaft.NoShoulder {
		return nil
	}
	var all []string
	say := func(format string, values ...any) { all = append(all, fmt.Sprintf(format, values...)) }
	stretches := m.shaft.stretches(nil)
	var thickest, ratio float64
	for i := range stretches {
		thickest = max(thickest, 2*stretches[i].outer)
		ratio = max(ratio, stretches[i].bore/stretches[i].outer)
	}
	if m.length < stout*thickest {
		say("the shaft is %.3g mm long, less than twice its largest diameter of %.3g mm: deflections may be up to 18 %% larger", m.length, thickest)
	}
	if i, seat := m.besideFlange(stretches); i >= 0 {
		say("the seat of %.3g mm at x = %.4g mm stands close to a part more than twice as thick: its slope may differ by up to 16 %%", 2*stretches[i].outer, seat)
	}
	if ratio > thinWalled {
		say("the bore is %.2f of the outer diameter: above %.1f, deflections may differ by some 3 %%", ratio, thinWalled)
	}
	if x, found := boreUnderShoulder(stretches); found {
		say("a bore widens under a shoulder at x = %.4g mm: deflections may be up to 7 %% larger", x)
	}
	return all
}

// besideFlange is a support closer to a part more than twice as thick than the
// diameter of its own seat, and the stretch of the seat; −1 if there is none.
func (m *Model) besideFlange(all []stretch) (seat int, x float64) {
	for i := range all {
		c := &all[i]
		for _, p := range m.shaft.Supports {
			if p.X < c.from || p.X > c.to {
				continue
			}
			left := i > 0 && all[i-1].outer > flange*c.outer && p.X-c.from < 2*c.outer
			right := i+1 < len(all) && all[i+1].outer > flange*c.outer && c.to-p.X < 2*c.outer
			if left || right {
				return i, p.X
			}
		}
	}
	return -1, 0
}

// boreUnderShoulder is a place where outside and bore widen the same way, no
// farther apart than half the radius of the thinner side.
func boreUnderShoulder(all []stretch) (x float64, found bool) {
	for i := 1; i < len(all); i++ {
		outer := all[i].outer - all[i-1].outer
		if outer == 0 {
			continue
		}
		for j := 1; j < len(all); j++ {
			apart := math.Abs(all[j].from - all[i].from)
			if bore := all[j].bore - all[j-1].bore; outer*bore > 0 && apart < min(all[i].outer, all[i-1].outer)/2 {
				return all[j].from, true
			}
		}
	}
	return 0, false
}
