package study

import (
	"cmp"
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/material"
)

// Verdict is the answer about one box, from what decides down to what only warns. Every sentence that is made of it has its numbers here.
type Verdict struct {
	Box    *gearbox.Box
	Torque float64        // asked, N·mm; negative in coast
	Level  material.Level // of the steel bands that the box is judged by
	State  gearbox.State  // the answer: by what reaches the teeth where that is known; Clear where nothing could be judged
	Bears  [material.High + 1]End
	// Least is where least is left by what counts, and Asked where least is left if all of the asked torque arrived; nil where nothing could be judged. They are the same
	// where neither clutch nor tyres are known.
	Least, Asked *Standing
	Arrives      bool          // it is known what clutch or tyres let through
	Bad          *Standing     // the limit that is met, left and met again at the least torque; nil = there is none
	Guides       []PassedGuide // that are passed at the torque that arrives, the one passed first in front
	Endless      *End          // where the first part would reach endless life, where no duty is given; nil = a duty is
	NotJudged    []gearbox.NotJudged
}

// End is the limit that a box reaches first, over all its speeds, at one end of the steel bands.
type End struct {
	Speed string // "" where no limit is reached
	gearbox.FirstLimit
}

// Standing is how one limit of one speed stands.
type Standing struct {
	Speed  string
	Margin *gearbox.Margin
	Left   float64       // torque margin
	State  gearbox.State //
	Comes  float64       // input torque that arrives, N·mm; that of the question where it isn't known
	By     gearbox.Bound // what bounds it
}

// PassedGuide is a rule of thumb beyond whose careful end a box is loaded.
type PassedGuide struct {
	Speed    string // of those in which it is passed, the one in which it is passed at the least share of what arrives
	Margin   *gearbox.Margin
	Comes    float64 // input torque that arrives there, N·mm
	Generous bool    // beyond its generous end too
}

// share is at which share of what arrives the careful end of the guide is passed.
func (g *PassedGuide) share() float64 { return g.Margin.Allowable[material.Low] / g.Comes }

// pass adds a guide that is passed, each part once.
func (v *Verdict) pass(g PassedGuide) {
	for i := range v.Guides {
		if have := &v.Guides[i]; have.Margin.Kind == g.Margin.Kind && have.Margin.Item == g.Margin.Item {
			if g.share() < have.share() {
				*have = g
			}
			return
		}
	}
	v.Guides = append(v.Guides, g)
}

// Judge draws the verdict from a full solution.
func Judge(r *gearbox.Result) Verdict {
	v := Verdict{Box: r.Box, Torque: r.Torque, Level: r.Box.Limits.Strength, State: gearbox.Clear, NotJudged: r.NotJudged}
	for level := range v.Bears {
		v.Bears[level].Torque = math.Inf(1)
	}
	if r.Box.Duty == nil {
		v.Endless = &End{FirstLimit: gearbox.FirstLimit{Torque: math.Inf(1)}}
	}
	for i := range r.Speeds {
		v.take(&r.Speeds[i])
	}
	if v.Least != nil {
		v.State = v.Least.State
	}
	slices.SortStableFunc(v.Guides, func(a, b PassedGuide) int { return cmp.Compare(a.share(), b.share()) })
	return v
}

// take adds a speed.
func (v *Verdict) take(s *gearbox.SpeedResult) {
	for level, end := range s.Ends {
		if end.Torque < v.Bears[level].Torque {
			v.Bears[level] = End{s.Name, end}
		}
	}
	if m := s.Deciding(); m != nil {
		v.Arrives = v.Arrives || s.Reach != nil
		comes, by := math.Abs(v.Torque), gearbox.ByEngine
		if s.Reach != nil {
			comes, by = m.Comes, s.Reach.Bounding(m.Kind)
		}
		if v.Least == nil || m.Left() < v.Least.Left {
			v.Least = &Standing{s.Name, m, m.Left(), m.Judged(), comes, by}
		}
		first := s.Governing()
		if v.Asked == nil || first.Margin < v.Asked.Left {
			v.Asked = &Standing{s.Name, first, first.Margin, first.State, math.Abs(v.Torque), gearbox.ByEngine}
		}
	}
	for i := range s.Margins {
		if m := &s.Margins[i]; m.Bad[1] > 0 && (v.Bad == nil || m.Bad[0] < v.Bad.Margin.Bad[0]) {
			v.Bad = &Standing{Speed: s.Name, Margin: m, Left: m.Margin, State: m.State, Comes: math.Abs(v.Torque)}
		}
	}
	for i := range s.Guides {
		m := &s.Guides[i]
		comes := math.Abs(v.Torque)
		if s.Reach != nil {
			comes = s.Reach.Running.Torque
		}
		if m.Allowable[material.Low] < comes {
			v.pass(PassedGuide{s.Name, m, comes, m.Allowable[material.High] < comes})
		}
	}
	if v.Endless == nil {
		return
	}
	for i := range s.Endless {
		if m := &s.Endless[i]; m.Allowable[v.Level] < v.Endless.Torque {
			*v.Endless = End{s.Name, gearbox.FirstLimit{Kind: m.Kind, Item: m.Item, Torque: m.Allowable[v.Level]}}
		}
	}
}
