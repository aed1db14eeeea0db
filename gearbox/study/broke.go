package study

import (
	"fmt"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
)

func (n *narrowing) weighBroken() {
	for i := range n.seen {
		s := &n.seen[i]
		e := s.lesson.Evidence
		if !e.Broke {
			continue
		}
		meant := func(need gearbox.Need) bool {
			return (e.Gear == "" || need.Gear == e.Gear) && (e.By == "" || need.Strength.Failure() == e.By)
		}
		all := n.choices(s.box, s.borne.Needs, meant, func(need gearbox.Need) float64 { return need.Most })
		var left []gearbox.Need // what may have been too weak
		for _, need := range all {
			if need.Most >= n.know(s.box, need).now.Low*(1-hair) {
				left = append(left, need)
			}
		}
		switch {
		case len(all) == 0:
			s.lesson.Why = "No strength follows from it: none of what may have broken is judged."
		case len(left) == 0:
			n.contradict(s, all)
		case n.sameTeeth(s.box, left):
			n.lower(s, left)
		default:
			var words []string
			for _, need := range left {
				words = append(words, fmt.Sprintf("%s (%s of %.4g MPa or less)", part(need), need.Strength, need.Most))
			}
			s.lesson.Why = "No single strength follows from it, since any of these may have been too weak: " + strings.Join(words, ", ") + ". Name what broke under gear and by."
		}
	}
}

// sameTeeth reports whether all of what may have been too weak is one strength of one steel, or the two of its roots or of its flanks.
func (n *narrowing) sameTeeth(box int, left []gearbox.Need) bool {
	for _, need := range left[1:] {
		if need.Strength.Failure() != left[0].Strength.Failure() || n.keyOf(box, need) != n.keyOf(box, left[0]) {
			return false
		}
	}
	return true
}

// lower takes the high end down to what something needed that broke. Of a root or flank that may have broken at once or have worn, the static
// strength was at most the one need or the limit of fatigue at most the other: as that limit is never above the static strength, it was at
// most the larger of both.
func (n *narrowing) lower(s *sighting, left []gearbox.Need) {
	need := left[0]
	for _, other := range left[1:] {
		if other.Most > need.Most {
			need.Kind, need.Item, need.Speed, need.Most = other.Kind, other.Item, other.Speed, other.Most
		}
	}
	c := n.know(s.box, need)
	most := max(need.Most, c.now.Low)
	s.bound(need, n.keyOf(s.box, need), gearbox.StrengthBound{Upper: true, Needed: need.Most, Counted: need.Most})
	switch {
	case most < c.now.High:
		c.now.High, c.high = most, s
	case most == c.now.High && c.high != nil && before(s, c.high):
		c.high = s
	}
}

// contradict reports something broken that ought to have held, as far as its steel or what survived is to be believed.
func (n *narrowing) contradict(s *sighting, all []gearbox.Need) {
	var against, too []string
	for _, need := range all {
		c := n.know(s.box, need)
		if c.survivor != nil && need.Most < c.most*(1-hair) {
			o := &c.survivor.lesson
			against = append(against, fmt.Sprintf("If %s broke, its %s was at most %.4g MPa; but %s %s (%s), which asks for at least %.4g MPa.",
				part(need), need.Strength, need.Most, o.Box, o.Evidence.String(), where(o.Place, "no file"), c.most))
			continue
		}
		too = append(too, fmt.Sprintf("If %s broke, its %s was at most %.4g MPa; but %s has %.4g MPa at least.", part(need), need.Strength, need.Most, need.Steel, c.was.Low))
	}
	const advice = "The load was higher than given (a peak beyond the shock factor), or the part was hurt before, or another thing broke, or something was measured wrong"
	if len(against) > 0 {
		n.report(diag.Error, s, "contradictory service history", strings.Join(append(against, too...), " ")+" Both can't be true of one steel. "+advice+". Correct or delete one of them; --without history shows the bands as they are.")
		return
	}
	n.report(diag.Error, s, "broke below what this steel bears", strings.Join(too, " ")+" "+advice+", or the steel is poorer than its name says: then nothing worked out with it can be relied on. Correct the steel or the history; --without history shows the bands as they are.")
}
