package gearbox

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"layshaft/gearbox/diag"
	"layshaft/material"
)

// Evidence is one piece of a box's service history: what all of it survived, or what broke in it.
type Evidence struct {
	Torque float64 // input torque it was driven with, N·mm, > 0
	Broke  bool    // whether something gave way; else all of it survived
	// Peak is the largest input torque that surely came for a moment, in each speed that is meant, N·mm ≥ Torque; 0 = not given:
	// then Torque counts for what survived, and Torque with the shock of the box for what broke.
	Peak   float64
	Passes float64 // of the duty that it had behind it, all with that torque; 0 = not given
	Speed  string  // it was driven in, or broke in; "" = all of the duty, or of the box
	Gear   string  // that broke; "" = not given
	By     Failure // how it gave way; "" = not given
	Opened bool    // whether it was opened after it survived and no pit and no bent shaft was found; else nothing is known of flanks and shafts
	Note   string  // where and when
}

// String is the history in words that follow the name of the box: "survived 300 N·m for 200 passes".
func (e Evidence) String() string {
	s := fmt.Sprintf("survived %.4g N·m", e.Torque/1e3)
	if e.Broke {
		what := ""
		switch {
		case e.Gear != "" && e.By != "":
			what = e.Gear + " by " + string(e.By) + " "
		case e.Gear != "":
			what = e.Gear + " "
		case e.By != "":
			what = "by " + string(e.By) + " "
		}
		s = fmt.Sprintf("broke %sat %.4g N·m", what, e.Torque/1e3)
	}
	if e.Peak > 0 {
		s += fmt.Sprintf(" with a peak of %.4g N·m", e.Peak/1e3)
	}
	if e.Passes > 0 {
		joint := " for"
		if e.Broke {
			joint = " after"
		}
		s += joint + " " + e.PassWords()
	}
	if e.Speed != "" {
		s += " in " + e.Speed
	}
	return s
}

// PassWords is how many passes it had behind it, in words: "1 pass", "40 passes".
func (e Evidence) PassWords() string {
	if e.Passes == 1 {
		return "1 pass"
	}
	return fmt.Sprintf("%.6g passes", e.Passes)
}

// Failure is a way in which a part gives way.
type Failure string

// The failures that a strength can be found from. A shaft that cracked is none of them: no strength is sought from fatigue of shafts.
const (
	BrokenRoot  Failure = "tooth root"
	PittedFlank Failure = "flank"
	BentShaft   Failure = "shaft yield" // it stayed bent or twisted
)

// Failures lists them in the order shown to people.
func Failures() []Failure { return []Failure{BrokenRoot, PittedFlank, BentShaft} }

// Strength is a strength of a steel that service history can bound.
//
// Roots and flanks have two each, since a load that came once proves nothing of one that comes a million times: the limit of
// fatigue, which cycles bound, and the strength against a single load, which peaks bound. Both are counted as the limit of
// ISO 6336-5 from which the standard derives them, so the static one is never below that of fatigue.
type Strength int

// The strengths. What stands beside ISO 6336 as a second opinion is left alone.
const (
	RootStrength  Strength = iota // σ_Flim of ISO 6336-5
	RootStatic                    // the σ_Flim from which the static strength of roots follows
	FlankStrength                 // σ_Hlim of ISO 6336-5
	FlankStatic                   // the σ_Hlim from which the static strength of flanks follows
	YieldStrength                 // of the core
)

// Strengths lists them in the order shown to people.
func Strengths() []Strength {
	return []Strength{RootStrength, RootStatic, FlankStrength, FlankStatic, YieldStrength}
}

// String is the name for people.
func (s Strength) String() string {
	return [...]string{
		"root limit (σ_Flim)", "static root strength", "flank limit (σ_Hlim)", "static flank strength", "yield strength",
	}[s]
}

// Key is the name for machines; those of limits are as box files have them.
func (s Strength) Key() string {
	return [...]string{"root_limit", "root_static", "flank_limit", "flank_static", "yield"}[s]
}

// Failure is the way in which a part gives way that has too little of it.
func (s Strength) Failure() Failure {
	return [...]Failure{BrokenRoot, BrokenRoot, PittedFlank, PittedFlank, BentShaft}[s]
}

// Fatigue is the strength against many loads that a static strength of teeth is never below; ok is false for all others.
func (s Strength) Fatigue() (fatigue Strength, ok bool) {
	switch s {
	case RootStatic:
		return RootStrength, true
	case FlankStatic:
		return FlankStrength, true
	}
	return s, false
}

// Static is the strength against a single load of the teeth whose limit of fatigue this is; ok is false for all others.
func (s Strength) Static() (static Strength, ok bool) {
	switch s {
	case RootStrength:
		return RootStatic, true
	case FlankStrength:
		return FlankStatic, true
	}
	return s, false
}

// Of is where a steel keeps the band of this strength; that of a static strength is empty where it follows from fatigue.
func (s Strength) Of(steel *material.Steel) *material.Band {
	return [...]*material.Band{&steel.RootLimit, &steel.RootStatic, &steel.FlankLimit, &steel.FlankStatic, &steel.Yield}[s]
}

// Band is the band of this strength that holds for a steel.
func (s Strength) Band(steel *material.Steel) material.Band {
	switch s {
	case RootStatic:
		return steel.StaticRoot()
	case FlankStatic:
		return steel.StaticFlank()
	}
	return *s.Of(steel)
}

// Lesson is what one piece of service history says of the steels of a box.
type Lesson struct {
	Box      string // name of the box it was seen in
	Evidence Evidence
	Place    diag.Place      // of the torque in its file
	Loads    []CountedLoad   // the load that counts, by speed; of what was put aside in part, that of the rest
	Bounds   []StrengthBound // none when no single strength follows
	Why      string          // then, why none does; also what was put aside, and why
}

// CountedLoad is the load of one speed that counts of a piece of service history, both as input torque that reaches the teeth, with
// what bounds it; a torque of 0 = none.
type CountedLoad struct {
	Speed   string
	Peak    Reached // the largest, once
	Running Reached // the largest that came for as long as it was pulled
}

// StrengthBound is the least or the most that a strength of a steel must have had.
type StrengthBound struct {
	Steel    string // as the box names it that the lesson is for
	Strength Strength
	Upper    bool    // at most so much; else at least
	Kind     Kind    // of the limit that decides
	Item     string  // its part: "third pinion"
	Speed    string  // in which it was loaded
	Needed   float64 // strength with which that limit is just held, MPa
	Counted  float64 // what follows from it for the strength that 99 of 100 parts have, MPa
	Aside    bool    // beyond what a steel of this name can have, so that it isn't counted: a lesser part of the history is
}

// Survived is the most of what a guide warns of that a box has lived with and was sound when it was opened.
type Survived struct {
	Kind   Kind    // BearingSlope, MeshTilt or MeshSeparation
	Item   string  // as Margin.Item
	Demand float64 // rad or mm, as Margin.Demand
	Speed  string  // in which it came
	Torque float64 // input torque at which it came, N·mm
}

// SurvivedOf is what a box has lived with of a guide; ok is false when nothing is known of it.
func (b *Box) SurvivedOf(k Kind, item string) (s Survived, ok bool) {
	i := slices.IndexFunc(b.Survived, func(s Survived) bool { return s.Kind == k && s.Item == item })
	if i < 0 {
		return s, false
	}
	return b.Survived[i], true
}

// Narrowed is a band of a steel that was narrowed by service history.
type Narrowed struct {
	Steel    string
	Strength Strength
	Was, Now material.Band
	Rests    []string // the history that sets its ends, in words
}

// Moved reports whether the typical value had to give way to an end.
func (n *Narrowed) Moved() bool { return n.Now.Typical != n.Was.Typical }

// String is what happened to the band, in words.
func (n *Narrowed) String() string {
	s := fmt.Sprintf("The %s of %s rests on service history (%s): %s in place of %s MPa, low, typical and high.", n.Strength, n.Steel, strings.Join(n.Rests, "; "), bandWords(n.Now), bandWords(n.Was))
	if n.Moved() {
		s += " Its typical value was moved to the new end."
	}
	return s
}

func bandWords(b material.Band) string {
	return fmt.Sprintf("%.0f, %.0f, %.0f", b.Low, b.Typical, b.High)
}

// Steel is the steel of a name, of the box itself or of those known; "" is the default.
func (b *Box) Steel(name string) (material.Steel, bool) {
	name = cmp.Or(name, DefaultSteel)
	if i := slices.IndexFunc(b.Steels, func(s material.Steel) bool { return s.Name == name }); i >= 0 {
		return b.Steels[i], true
	}
	return material.Find(name)
}

// SteelNames lists the steels of its shafts and gears, each once, in the order of the box.
func (b *Box) SteelNames() (names []string) {
	add := func(name string) {
		if name = cmp.Or(name, DefaultSteel); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, s := range b.Shafts {
		add(s.Steel)
	}
	for _, g := range b.Gears {
		add(g.Steel)
	}
	return names
}

// rests are the notes of a limit whose strength was narrowed by service history. A static strength without a band of its own is that
// of fatigue, and rests on what that rests on.
func (b *Box) rests(k Kind, steel string) []string {
	strength, ok := k.strength()
	for ok {
		for i := range b.Narrowed {
			if n := &b.Narrowed[i]; n.Steel == steel && n.Strength == strength {
				return []string{n.String()}
			}
		}
		strength, ok = strength.Fatigue()
	}
	return nil
}
