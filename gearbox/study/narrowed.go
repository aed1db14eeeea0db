package study

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/material"
)

// result makes the boxes with their bands narrowed.
func (n *narrowing) result() []*gearbox.Box {
	out := make([]*gearbox.Box, len(n.boxes))
	for i, b := range n.boxes {
		c := *b
		c.Steels = slices.Clone(b.Steels)
		c.Narrowed, c.Lessons, c.Survived, c.Alternatives, c.Tried = nil, nil, nil, nil, nil
		names := map[steelKey]string{}
		for _, name := range b.SteelNames() {
			steel, ok := b.Steel(name)
			if !ok {
				continue
			}
			key := keyOf(i, &steel)
			if _, twice := names[key]; !twice {
				names[key] = steel.Name
			}
			n.narrow(&c, steel, key)
		}
		for k := range n.seen {
			s := &n.seen[k]
			if s.box == i && !s.lesson.Evidence.Broke && s.lesson.Evidence.Opened {
				c.Survived = gearbox.MostSurvived(c.Survived, s.guides)
			}
			own := s.lesson
			own.Bounds = nil
			for j, bound := range s.lesson.Bounds {
				if name, ok := names[s.steels[j]]; ok {
					bound.Steel = name
					own.Bounds = append(own.Bounds, bound)
				}
			}
			if s.box == i || len(own.Bounds) > 0 {
				c.Lessons = append(c.Lessons, own)
			}
		}
		out[i] = &c
	}
	return out
}

// narrow puts a steel with narrowed bands into a box.
func (n *narrowing) narrow(b *gearbox.Box, steel material.Steel, key steelKey) {
	changed := false
	for _, strength := range gearbox.Strengths() {
		c := n.bands[claim{key, strength}]
		if c == nil {
			continue
		}
		now := c.end()
		if fatigue, static := strength.Fatigue(); static && sameEnds(now, n.bands[claim{key, fatigue}].end()) {
			continue // it follows from that of fatigue, as ever
		}
		switch rests := c.rests(); {
		case len(rests) > 0:
			now.Source = c.was.Source + "; narrowed by service history (" + strings.Join(rests, "; ") + ")"
			b.Narrowed = append(b.Narrowed, gearbox.Narrowed{Steel: steel.Name, Strength: strength, Was: c.was, Now: now, Rests: rests})
			changed = true
		case sameEnds(now, strength.Band(&steel)):
			continue
		}
		*strength.Of(&steel) = now // a static strength stays as it was where that of fatigue has moved
	}
	if !changed {
		return
	}
	if i := slices.IndexFunc(b.Steels, func(s material.Steel) bool { return s.Name == steel.Name }); i >= 0 {
		b.Steels[i] = steel
	} else {
		b.Steels = append(b.Steels, steel)
	}
}

// end is the band that is left, its typical value between its ends.
func (c *claimed) end() material.Band {
	now := c.now
	now.Typical = math.Min(math.Max(c.was.Typical, now.Low), now.High)
	return now
}

// rests is the history that sets the ends of the band, in words.
func (c *claimed) rests() (rests []string) {
	for _, end := range []struct {
		by   *sighting
		word string
	}{{c.low, "low"}, {c.high, "high"}} {
		if end.by != nil {
			rests = append(rests, fmt.Sprintf("%s: %s %s", end.word, end.by.lesson.Box, end.by.lesson.Evidence.String()))
		}
	}
	return rests
}

func sameEnds(a, b material.Band) bool {
	return a.Low == b.Low && a.Typical == b.Typical && a.High == b.High
}
