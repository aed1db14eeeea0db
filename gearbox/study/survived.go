package study

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
)

// hair is by how much two strengths must differ to contradict each other, of their size: more than rounding leaves.
const hair = 1e-9

// A survivor that asks for more than any steel of its name has is put aside as a whole: neither its torque nor its passes are
// believed, also not for the strengths that could have borne them. But whoever survived a torque for some passes survived every lower
// torque, for as many passes and for fewer; if those counted less than had they been all that was told, then a better history would make
// a weaker box. So what counts in its place is what of it is possible: of all its lesser pieces (every torque held to a ceiling, some
// of the passes) those in which every strength could have borne all. Each of them counts as a whole, and the larger the history, the
// more of them there are: more survived never weakens a box.
//
// Of these pieces the two at the ends are worked out: the highest torque, with as many of the passes as are possible then, and all of
// the passes, with as much torque as is possible then. What lies between them bounds the strength that runs out at its high end, as
// the ends do.

func (n *narrowing) weighSurvivors() error {
	for i := range n.seen {
		s := &n.seen[i]
		if s.lesson.Evidence.Broke {
			continue
		}
		if !s.lesson.Evidence.Opened {
			s.lesson.Why = "That it was opened isn't given, so nothing follows for flanks and shafts."
		}
		pieces := []*gearbox.Borne{s.borne}
		if n.excess(s, s.borne, ofAny) > 1+hair {
			var err error
			if pieces, err = n.putAside(s); err != nil {
				return err
			}
		}
		all := n.asks(s, pieces...)
		for _, need := range all {
			n.count(s, need)
		}
		if len(all) == 0 && len(s.lesson.Bounds) == 0 {
			s.lesson.Why = "No strength follows from it: it loads nothing whose strength is judged."
		}
	}
	return nil
}

// asks are the largest needs of each strength of each steel in pieces of history that survived. A box that wasn't opened may have
// pitted flanks and bent shafts.
func (n *narrowing) asks(s *sighting, pieces ...*gearbox.Borne) []gearbox.Need {
	var needs []gearbox.Need
	for _, p := range pieces {
		needs = append(needs, p.Needs...)
	}
	return n.choices(s.box, needs, func(need gearbox.Need) bool {
		return s.lesson.Evidence.Opened || need.Strength.Failure() == gearbox.BrokenRoot
	}, func(need gearbox.Need) float64 { return need.Least })
}

// counted is what follows from a survivor for the strength that 99 of 100 parts have, MPa.
func counted(need gearbox.Need) float64 { return need.Least * Survivor(need.Strength) }

// reached is how close to its high end, as a share, a strength counts as being at it: as far as what is possible is sought.
const reached = 1e-10

// count raises the low end of a strength to what a survivor needed, which is possible but for rounding.
func (n *narrowing) count(s *sighting, need gearbox.Need) {
	c := n.know(s.box, need)
	low := counted(need)
	if low > c.was.High*(1-reached) {
		low = c.was.High
	}
	s.bound(need, n.keyOf(s.box, need), gearbox.StrengthBound{Needed: need.Least, Counted: low})
	if c.survivor == nil || low > c.most || low == c.most && before(s, c.survivor) {
		c.most, c.survivor = low, s
	}
	switch {
	case low > c.now.Low:
		c.now.Low, c.low = low, s
	case low == c.now.Low && c.low != nil && before(s, c.low):
		c.low = s
	}
}

// before keeps the choice between two that say the same apart from the order in which they were given.
func before(a, b *sighting) bool {
	return cmp.Or(cmp.Compare(a.lesson.Place.String(), b.lesson.Place.String()), cmp.Compare(a.lesson.Box, b.lesson.Box), cmp.Compare(a.lesson.Evidence.String(), b.lesson.Evidence.String())) < 0
}

func ofAny(gearbox.Strength) bool { return true }

// byPasses says of a strength whether passes bound it, byPeaks whether a single load does.
func byPasses(s gearbox.Strength) bool { _, yes := s.Static(); return yes }
func byPeaks(s gearbox.Strength) bool  { return !byPasses(s) }

// excess is by how many times, at most, a piece of history asks for more of some strengths than a steel of its name has; 0 when it asks for
// nothing.
func (n *narrowing) excess(s *sighting, b *gearbox.Borne, of func(gearbox.Strength) bool) (most float64) {
	for _, need := range n.asks(s, b) {
		if of(need.Strength) {
			most = max(most, counted(need)/n.know(s.box, need).was.High)
		}
	}
	return most
}

// putAside says why a survivor isn't counted, and finds what of it is possible.
func (n *narrowing) putAside(s *sighting) ([]*gearbox.Borne, error) {
	var why []string
	for _, need := range n.asks(s, s.borne) {
		c := n.know(s.box, need)
		if counted(need) <= c.was.High*(1+hair) {
			continue
		}
		s.bound(need, n.keyOf(s.box, need), gearbox.StrengthBound{Needed: need.Least, Counted: counted(need), Aside: true})
		why = append(why, fmt.Sprintf("For that, %s asks for a %s of at least %.4g MPa, and %s has %.4g MPa at most.", part(need), need.Strength, counted(need), need.Steel, c.was.High))
	}
	pieces, words, err := n.possible(s)
	if err != nil {
		return nil, err
	}
	rest := "It isn't counted"
	if len(words) > 0 {
		rest += ", but what of it is possible: " + strings.Join(words, "; ")
		s.lesson.Loads, s.guides = pieces[0].Loads, pieces[0].Guides
	}
	s.lesson.Why = strings.TrimSpace(s.lesson.Why + " " + strings.Join(why, " ") + " " + rest + ".")
	n.report(diag.Warning, s, "more than this steel can bear", strings.Join(why, " ")+
		" The steel is better than its name says, or something was measured wrong, or the limit is more careful than life. "+rest+": check the steel, the torque and the duty.")
	return pieces, nil
}

// possible finds the pieces of a survivor that are possible and not part of one another, the one of the highest torque first, with words
// for them.
func (n *narrowing) possible(s *sighting) (pieces []*gearbox.Borne, words []string, err error) {
	e := s.lesson.Evidence
	lesser := func(ceiling, passes float64) gearbox.Evidence {
		l := e
		l.Torque, l.Peak, l.Passes = min(e.Torque, ceiling), min(e.Peak, ceiling), passes
		return l
	}
	excess := func(l gearbox.Evidence, of func(gearbox.Strength) bool) float64 {
		if err != nil {
			return 0
		}
		var b *gearbox.Borne
		if b, err = gearbox.BorneBy(n.boxes[s.box], l, n.method); err != nil {
			return 0
		}
		return n.excess(s, b, of)
	}
	torque := most(func(x float64) float64 { return excess(lesser(x, 0), byPeaks) }, max(e.Torque, e.Peak))
	passes := 0.0
	if e.Passes > 0 {
		passes = most(func(x float64) float64 { return excess(lesser(torque, x), byPasses) }, e.Passes)
	}
	ends := []gearbox.Evidence{lesser(torque, passes)}
	if passes < e.Passes {
		ends = append(ends, lesser(most(func(x float64) float64 { return excess(lesser(x, e.Passes), ofAny) }, torque), e.Passes))
	}
	for _, l := range ends {
		if err != nil || l.Torque == 0 {
			continue
		}
		var b *gearbox.Borne
		if b, err = gearbox.BorneBy(n.boxes[s.box], l, n.method); err != nil {
			break
		}
		pieces, words = append(pieces, b), append(words, l.String())
	}
	return pieces, words, err
}

// most is the largest x up to a first one at which an excess that grows with it is no more than 1; 0 when it is more all the way down to a
// millionth. Both are taken on logarithmic scales, where they are all but straight: the secant through the last two finds the crossing, and
// halving what the secant misses.
func most(excess func(x float64) float64, first float64) float64 {
	at := func(x float64) float64 { return math.Log(excess(math.Exp(x))) }
	x, y := math.Log(first), math.Log(excess(first))
	if !(y > 0) {
		return first
	}
	least := x - math.Log(1e6)
	low, high := least, x
	slope := 0.5 // of the flank's stress against torque
	for range 100 {
		next := x - y/slope
		if !(next > low && next < high) {
			next = low + (high-low)/2
		}
		nextY := at(next)
		if rise := (nextY - y) / (next - x); rise > 0 && !math.IsInf(rise, 0) {
			slope = rise
		}
		if x, y = next, nextY; y > 0 {
			high = x
		} else {
			low = x
		}
		if math.Abs(y) < 1e-11 || high-low < 1e-13*math.Abs(x) {
			return math.Exp(x)
		}
	}
	if low == least {
		return 0
	}
	return math.Exp(low)
}
