package gearbox

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"layshaft/gearbox/diag"
	"layshaft/material"
)

// Evidence is one thing that a box has lived through, or that broke in it.
type Evidence struct {
	Torque float64 // input torque it was driven with, N·mm, > 0; the shock of the box comes on top of it
	Broke  bool    // whether something gave way; else all of it lived
	Passes float64 // of the duty that it had behind it, all with that torque; 0 = not told
	Speed  string  // it was driven in, or broke in; "" = all of the duty, or of the box
	Gear   string  // that broke; "" = not told
	By     Failure // how it gave way; "" = not told
	Opened bool    // whether it was opened after it survived and no pit and no bent shaft was found; else nothing is known of flanks and shafts
	Note   string  // where and when
}

// String is the evidence in words that follow the name of the box: "survived 300 N·m for 200 passes".
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

// The failures that a strength can be found from. A shaft that cracked is none of them: fatigue of shafts isn't judged.
const (
	BrokenRoot  Failure = "tooth root"
	PittedFlank Failure = "flank"
	BentShaft   Failure = "shaft yield" // it stayed bent or twisted
)

// Failures lists them in the order shown to people.
func Failures() []Failure { return []Failure{BrokenRoot, PittedFlank, BentShaft} }

// Strength is a strength of a steel that evidence can bound.
type Strength int

// The strengths. What stands beside ISO 6336 as a second opinion is left alone.
const (
	RootStrength  Strength = iota // σ_Flim of ISO 6336-5
	FlankStrength                 // σ_Hlim of ISO 6336-5
	YieldStrength                 // of the core
)

// Strengths lists them in the order shown to people.
func Strengths() []Strength { return []Strength{RootStrength, FlankStrength, YieldStrength} }

// String is the name for people.
func (s Strength) String() string {
	return [...]string{"root limit (σ_Flim)", "flank limit (σ_Hlim)", "yield strength"}[s]
}

// Key is the name for machines, as box files have it.
func (s Strength) Key() string { return [...]string{"root_limit", "flank_limit", "yield"}[s] }

// Failure is the way in which a part gives way that has too little of it.
func (s Strength) Failure() Failure { return Failures()[s] }

// Of is the band of this strength in a steel.
func (s Strength) Of(steel *material.Steel) *material.Band {
	return [...]*material.Band{&steel.RootLimit, &steel.FlankLimit, &steel.Yield}[s]
}

// Lesson is what one piece of evidence says of the steels of a box.
type Lesson struct {
	Box      string // name of the box it was seen in
	Evidence Evidence
	Place    diag.Place      // of the torque in its file
	Bounds   []StrengthBound // none when no single strength follows
	Why      string          // then, why none does; also what speaks against a bound that was put aside
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
	Aside    bool    // beyond what a steel of this name can have, so that it isn't counted
}

// Narrowed is a band of a steel that was narrowed by evidence.
type Narrowed struct {
	Steel    string
	Strength Strength
	Was, Now material.Band
	Rests    []string // the evidence that sets its ends, in words
}

// Moved reports whether the typical value had to give way to an end.
func (n *Narrowed) Moved() bool { return n.Now.Typical != n.Was.Typical }

// String is what happened to the band, in words.
func (n *Narrowed) String() string {
	s := fmt.Sprintf("The %s of %s rests on evidence (%s): %s in place of %s MPa, low, typical and high.", n.Strength, n.Steel, strings.Join(n.Rests, "; "), bandWords(n.Now), bandWords(n.Was))
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

// rests are the notes of a limit whose strength was narrowed by evidence.
func (b *Box) rests(k Kind, steel string) []string {
	strength, ok := k.strength()
	if !ok {
		return nil
	}
	i := slices.IndexFunc(b.Narrowed, func(n Narrowed) bool { return n.Steel == steel && n.Strength == strength })
	if i < 0 {
		return nil
	}
	return []string{b.Narrowed[i].String()}
}
