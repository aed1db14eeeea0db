package gauge

import (
	"math"

	"layshaft/gearstress/involute"
)

// Twin is a label of another tool, or the nearest other helix of the best one, that the readings can't exclude, and
// the further reading that would tell it from the best.
type Twin struct {
	Label  int     // place in Group.Labels
	Pitch  float64 // by how much its base pitch is larger, mm
	Gear   int     // of the whole set
	Next   Reading // the reading that tells them apart best, its Value as the best label makes it
	Other  float64 // what the twin makes of it, mm or rad
	Tells  bool    // Next would tell them apart; otherwise no reading at hand does
	Assume bool    // Next does so only if the tool makes full teeth
}

// mostTwins is how many twins are listed.
const mostTwins = 6

// tells is how many ± of the further reading the twins must lie apart.
const tells = 1.5

// twins are the other labels that can't be excluded.
func twins(all []Label, s Set, members []int) (list []Twin) {
	best := all[0]
	tools := map[Tool]bool{best.Tool: true}
	helix := false
	for i, l := range all[1:] {
		if len(list) == mostTwins {
			break
		}
		if l.Tool == best.Tool {
			if helix || !l.Snapped || !best.Snapped {
				continue
			}
			helix = true
		} else if tools[l.Tool] {
			continue
		}
		tools[l.Tool] = true
		t := Twin{Label: i + 1, Pitch: l.basePitch() - best.basePitch()}
		t.look(best, l, s, members)
		list = append(list, t)
	}
	return list
}

// look finds the further reading that tells two labels apart best.
func (t *Twin) look(best, other Label, s Set, members []int) {
	most := 0.0
	try := func(i int, r Reading, made, makes, sure float64, assume bool) {
		share := math.Abs(makes-made) / math.Hypot(r.Width(), sure)
		if assume {
			share *= 0.7 // what hangs on the tool is asked for last
		}
		if share > most {
			most = share
			r.Value = made
			t.Gear, t.Next, t.Other, t.Assume, t.Tells = members[i], r, makes, assume, share > tells
		}
	}
	for i, g := range s.Gears {
		if best.u.bare[i] {
			continue
		}
		for _, r := range further(best, g, i) {
			of, f := best.u.reads(i, r)
			made := best.fit.value(f, of, best.u.scale)
			_, f = other.u.reads(i, r)
			try(i, r, made.Value, f(other.fit.v), made.Tolerance, false)
		}
		if best.u.tip[i] < 0 {
			a, b := best.reference(i), other.reference(i)
			try(i, Reading{Kind: Tip}, a+2*best.Module*(fullAddendum+best.Gears[i].Shift.Value),
				b+2*other.Module*(fullAddendum+other.Gears[i].Shift.Value), wide*usualAddendum*2*best.Module, true)
		}
		if best.u.root[i] < 0 {
			a, b := best.reference(i), other.reference(i)
			try(i, Reading{Kind: Root}, a-2*best.Module*(fullDedendum-best.Gears[i].Shift.Value),
				b-2*other.Module*(fullDedendum-other.Gears[i].Shift.Value), wide*usualDedendum*2*best.Module, true)
		}
	}
}

func (l Label) gauge(i int) involute.Gauge {
	return involute.Gauge{Module: l.Module, PressureAngle: l.PressureAngle, Helix: l.Helix.Value, Teeth: l.u.gears[i].Teeth}
}

// reference is the reference diameter of gear i, mm.
func (l Label) reference(i int) float64 {
	return float64(l.u.gears[i].Teeth) * l.Module / math.Cos(l.Helix.Value)
}

// further are the readings of gear i that could still be taken: the widest span that its face and tips allow, two
// balls, the lead. All by micrometer where it can be.
func further(l Label, g Gear, i int) (all []Reading) {
	f := l.u.flank(l.fit.v, i)
	tip := l.reference(i) + 2*l.Module*(fullAddendum+l.Gears[i].Cut.Value)
	if l.u.tip[i] >= 0 {
		tip = l.fit.v[l.u.tip[i]]
	}
	for k := g.Teeth / 2; k >= 2; k-- {
		w := f.span(k)
		fits := math.Hypot(f.base(), w*math.Cos(f.helix)) < tip-0.2*l.Module && (g.Face == 0 || w*math.Sin(f.helix) < g.Face)
		if fits && !g.has(Reading{Kind: Span, Teeth: k, By: Micrometer}) {
			all = append(all, Reading{Kind: Span, Teeth: k, By: Micrometer})
			break
		}
	}
	if ball, err := l.gauge(i).BestBall(l.Gears[i].Cut.Value); err == nil {
		ball = math.Ceil(2*ball) / 2 // to the half millimetre
		if size := f.overBalls(ball); size > tip && !g.has(Reading{Kind: OverBalls, Size: ball, By: Micrometer}) {
			all = append(all, Reading{Kind: OverBalls, Size: ball, By: Micrometer})
		}
	}
	if lead := (Reading{Kind: Lead, By: LeadTest, Tolerance: LeadTest.Tolerance(f.lead())}); f.helix > 0 && !g.has(lead) {
		all = append(all, lead)
	}
	return all
}

// has reports whether a reading like this was taken, as well as this one would be, and counts.
func (g Gear) has(like Reading) bool {
	for _, r := range g.Readings {
		if r.Kind == like.Kind && r.Teeth == like.Teeth && math.Abs(r.Size-like.Size) < 0.3 && r.Aside == "" && r.Width() <= like.Width() {
			return true
		}
	}
	return false
}
