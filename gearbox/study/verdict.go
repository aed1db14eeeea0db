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
	Record       Record // what its own service history says of the asked torque
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

// PassedGuide is how a rule of thumb about one part stands: is its careful end passed, and the generous one?
type PassedGuide struct {
	Speed    string // of all, the one in which it is passed at the least share of what arrives
	Margin   *gearbox.Margin
	Comes    float64 // input torque that arrives there, N·mm
	Careful  bool    // beyond its careful end
	Generous bool    // beyond its generous end too
}

// Share is at which share of what arrives the careful end of the guide is passed.
func (g *PassedGuide) Share() float64 { return g.Margin.Allowable[material.Low] / g.Comes }

// Guides are the rules of thumb of a full solution, each part once, the one that is passed first in front.
func Guides(r *gearbox.Result) (all []PassedGuide) {
	for i := range r.Speeds {
		s := &r.Speeds[i]
		comes := math.Abs(r.Torque)
		if s.Reach != nil {
			comes = s.Reach.Running.Torque
		}
		for k := range s.Guides {
			m := &s.Guides[k]
			g := PassedGuide{s.Name, m, comes, m.Allowable[material.Low] < comes, m.Allowable[material.High] < comes}
			n := slices.IndexFunc(all, func(have PassedGuide) bool { return have.Margin.Kind == m.Kind && have.Margin.Item == m.Item })
			switch {
			case n < 0:
				all = append(all, g)
			case g.Share() < all[n].Share():
				all[n] = g
			}
		}
	}
	slices.SortStableFunc(all, func(a, b PassedGuide) int { return cmp.Compare(a.Share(), b.Share()) })
	return all
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
	var speeds []string
	for i := range r.Speeds {
		speeds = append(speeds, r.Speeds[i].Name)
	}
	if v.Record = RecordOf(r.Box, r.Torque, speeds...); v.Record.BrokeAt != nil {
		v.State = gearbox.Over
	}
	for _, g := range Guides(r) {
		if g.Careful {
			v.Guides = append(v.Guides, g)
		}
	}
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
	if v.Endless == nil {
		return
	}
	for i := range s.Endless {
		if m := &s.Endless[i]; m.Allowable[v.Level] < v.Endless.Torque {
			*v.Endless = End{s.Name, m.First()}
		}
	}
}
