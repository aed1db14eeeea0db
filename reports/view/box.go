package view

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// Intro says what was asked of a box, and what is given of its work and its steel; empty sentences are left out.
func Intro(r *gearbox.Result, o Options) []string {
	return slices.DeleteFunc([]string{Asked(r, o), service(r.Box, o), madeOf(r.Box), SenseWords(r)}, func(s string) bool { return s == "" })
}

// Asked says which torque is asked for, and how the limits are judged.
func Asked(r *gearbox.Result, o Options) string { return judgedAt(r, "", o) }

// judgedAt is Asked, with what the torque is made of.
func judgedAt(r *gearbox.Result, made string, o Options) string {
	sense := "in drive"
	if r.Torque < 0 {
		sense = "in coast: the engine brakes"
	}
	return fmt.Sprintf("Input torque %s, %s%s. Wanted reserve %s. Judged by %s.", With(math.Abs(r.Torque), quantity.Torque, o.Units), sense, made,
		reserveWords(r.Box), levelName(r.Box.Limits.Strength))
}

// reserveWords is the wanted reserve of a box.
func reserveWords(b *gearbox.Box) string {
	return fmt.Sprintf("%.3g"+NoBreak+"%%", 100*b.Limits.Reserve)
}

// Made says what is given of the steel and the work of a box.
func Made(b *gearbox.Box, o Options) string {
	return strings.TrimSpace(madeOf(b) + " " + service(b, o))
}

// madeOf names the file and the steel of a box.
func madeOf(b *gearbox.Box) string {
	text := ""
	if origin := originWords(b.Origin, false); origin != "" {
		text = "Read from " + origin + ". "
	}
	if steel := SteelWords(b, true); steel != "" {
		text += "Steel: " + steel + "."
	}
	return text
}

// service is what is given of the work of a box, in words.
func service(b *gearbox.Box, o Options) string {
	var given []string
	if b.Revs > 0 {
		given = append(given, "The input shaft turns at "+With(b.Revs, quantity.RotationalSpeed, o.Units)+".")
	}
	if b.Shock > 1 {
		given = append(given, "The peak is "+Plain(b.Shock)+" times the input torque.")
	}
	if b.Oil.Viscosity > 0 {
		given = append(given, "Oil of "+With(b.Oil.Viscosity, quantity.Viscosity, o.Units)+" at 40"+NoBreak+"°C.")
	}
	if d := b.Duty; d != nil {
		pass := "a pass of one step"
		if n := len(d.Steps); n != 1 {
			pass = fmt.Sprintf("a pass of %d steps", n)
		}
		given = append(given, fmt.Sprintf("Fatigue is judged for the duty: %.6g times %s.", d.Passes, pass))
	} else {
		given = append(given, "No duty is given, so wear isn't judged.")
	}
	return strings.Join(given, " ")
}

// FewSpeeds is up to how many speeds a report tells everything of each; of more it would be too long to read.
const FewSpeeds = 2

// Explained are the speeds whose meshes are looked into: all when they are few, else the one that is limited first.
func Explained(r *gearbox.Result) []*gearbox.SpeedResult {
	var all []*gearbox.SpeedResult
	var tightest *gearbox.SpeedResult
	for i := range r.Speeds {
		s := &r.Speeds[i]
		all = append(all, s)
		if len(s.Margins) > 0 && (tightest == nil || sooner(s.Governing(), tightest.Governing())) {
			tightest = s
		}
	}
	switch {
	case len(all) <= FewSpeeds:
		return all
	case tightest == nil:
		return nil
	}
	return []*gearbox.SpeedResult{tightest}
}
