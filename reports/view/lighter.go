package view

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// Case is the case for and against a lighter box in plain sentences.
type Case struct {
	Lighter, Other string
	Head           string   // how much lighter it is, and whether it holds
	For, Against   []string // what speaks for the lighter box, and against it
	Shared         []string // what is the same in both
	Unknown        []string // what the case lacks
}

// CaseOf puts a case into words.
func CaseOf(c *study.Comparison, k *study.LighterCase, o Options) Case {
	names := BoxNames(c.Results)
	ends := [2]string{names[k.Lighter], names[k.Other]}
	reasons := func(all []study.Reason) []string {
		return Each(all, func(r study.Reason) string { return reasonWords(&r, k, ends[1], o) })
	}
	return Case{
		Lighter: ends[0], Other: ends[1], Head: caseHead(c, k, ends, o), For: reasons(k.For), Against: reasons(k.Against), Shared: reasons(k.Shared),
		Unknown: Each(k.Gaps, func(g study.Gap) string { return gapWords(&g, names) }),
	}
}

// Title is the boxes of the case.
func (c *Case) Title() string { return c.Lighter + " against " + c.Other }

// Lists are what there is to say of the case, each list with its heading and its sign.
func (c *Case) Lists() [4]struct {
	Heading, Sign string
	Said          []string
} {
	return [4]struct {
		Heading, Sign string
		Said          []string
	}{{"What speaks for " + c.Lighter, "+", c.For}, {"What speaks against " + c.Lighter, "−", c.Against}, {"The same in both", "=", c.Shared}, {"Not known", "?", c.Unknown}}
}

// caseHead says whether either box holds.
func caseHead(c *study.Comparison, k *study.LighterCase, ends [2]string, o Options) string {
	verdicts := [2]study.Verdict{study.Judge(c.Results[k.Lighter]), study.Judge(c.Results[k.Other])}
	words := func(of func(v *study.Verdict) *study.Standing) string {
		var parts []string
		for i := range verdicts {
			s := of(&verdicts[i])
			if s == nil {
				parts = append(parts, ends[i]+" has no limit that could be checked")
				continue
			}
			state := map[gearbox.State]string{
				gearbox.Over: "is over a limit", gearbox.Thin: "holds by less than the wanted reserve", gearbox.Clear: "holds with the wanted reserve",
			}[s.State]
			parts = append(parts, fmt.Sprintf("%s %s (%s in %s)", ends[i], state, stands(s), Shorten(Clean(s.Speed), 20)))
		}
		return strings.Join(parts, "; ") + "."
	}
	at := "at " + asked(verdicts[0].Torque, o)
	if verdicts[0].Torque != verdicts[1].Torque {
		at = "each at the torque asked of it"
	}
	least := words(func(v *study.Verdict) *study.Standing { return v.Least })
	all := ""
	if verdicts[0].Arrives && verdicts[1].Arrives {
		all = " If all of the torque arrived, " + at + ", " + words(func(v *study.Verdict) *study.Standing { return v.Asked })
		at = "with what clutch and tyres let through"
	}
	less := k.Mass[1].Value - k.Mass[0].Value
	share := plainTenths(100*less/k.Mass[1].Value) + NoBreak + "%"
	return fmt.Sprintf("%s is %s (%s) lighter than %s; %s, %s%s", ends[0], With(less, quantity.Mass, o.Units), share, ends[1], at, least, all)
}

// massWords is what a mass is of.
func massWords(m study.Mass) string {
	if m.Whole {
		return "as a whole box, as weighed"
	}
	return "in its shafts and gears"
}

// reasonWords is one fact.
func reasonWords(r *study.Reason, k *study.LighterCase, other string, o Options) string {
	less := "more"
	if len(r.Values) > 0 && r.Values[0][0] < r.Values[0][1] {
		less = "less"
	}
	in := inSpeeds(r)
	switch r.Kind {
	case study.ByMass:
		v := r.Values[0]
		return fmt.Sprintf("%s (%s) lighter %s: %s against %s.", With(v[1]-v[0], r.Dimension, o.Units), spread(r), massWords(k.Mass[0]), With(v[0], r.Dimension, o.Units), With(v[1], r.Dimension, o.Units))
	case study.ByTorque:
		var steps []float64
		for _, v := range r.Values {
			steps = append(steps, math.Abs(v[1]-v[0]))
		}
		limits := limitOf(r.Limits[0][0]) + " in both"
		if a, b := r.Limits[0][0], r.Limits[0][1]; a.Kind != b.Kind || a.Item != b.Item {
			limits = limitOf(a) + "; " + other + ": " + limitOf(b)
		}
		return fmt.Sprintf("%s (%s) %s allowable torque %s: %s.", rangeOf(steps, r.Dimension, o), spread(r), less, in, limits)
	case study.ByState:
		a, b := gearbox.State(r.Values[0][0]), gearbox.State(r.Values[0][1])
		return fmt.Sprintf("%s %s, where %s is %s.", Capital(a.String()), in, other, b)
	case study.ByPerMass:
		of := "of shafts and gears"
		if k.Mass[0].Whole {
			of = "of the whole box"
		}
		part := func(i int) string {
			return With(r.Limits[0][i].Torque, quantity.Torque, o.Units) + " on " + With(k.Mass[i].Value, quantity.Mass, o.Units)
		}
		return fmt.Sprintf("%s %s allowable torque per kilogram %s: %s against %s.", spread(r), less, of, part(0), part(1))
	case study.ByTransmitted:
		return fmt.Sprintf("%s %s allowable torque over the torque transmitted %s.", spread(r), less, in)
	case study.ByWheels:
		return fmt.Sprintf("%s %s allowable torque at the wheels %s, as the ratios differ.", spread(r), less, in)
	case study.ByLife:
		v, l := r.Values[0], r.Limits[0]
		return fmt.Sprintf("Wears out after %s repeats of the duty (%s), %s after %s (%s).",
			repeats(v[0]), limitOf(l[0]), other, repeats(v[1]), limitOf(l[1]))
	case study.BySpin:
		return fmt.Sprintf("%s %s inertia for the synchroniser to match %s.", spread(r), less, in)
	case study.ByDeflection:
		return fmt.Sprintf("The shaft that bends most bends %s %s %s.", spread(r), less, in)
	case study.ByRoot:
		return fmt.Sprintf("%s %s stress at the most stressed tooth root (σ_F) %s.", spread(r), less, in)
	case study.ByFlank:
		return fmt.Sprintf("%s %s stress on the most stressed flank (σ_H) %s.", spread(r), less, in)
	case study.SameLimit:
		return sameLimits(r)
	}
	return string(r.Kind) + " " + in
}

// repeats is a number of repeats of the duty in words.
func repeats(v float64) string {
	if Repeats(v) == Endless {
		return "endlessly many"
	}
	return Repeats(v)
}

// sameLimits says where the same limit decides in both boxes.
func sameLimits(r *study.Reason) string {
	var parts []string
	for i := 0; i < len(r.Limits); {
		j := i
		for j < len(r.Limits) && r.Limits[j][0].Kind == r.Limits[i][0].Kind && r.Limits[j][0].Item == r.Limits[i][0].Item {
			j++
		}
		parts = append(parts, "in "+List(Each(r.Speeds[i:j], Clean))+" "+limitOf(r.Limits[i][0]))
		i = j
	}
	return "Limited by the same: " + strings.Join(parts, "; ") + "."
}

// limitOf names a first limit in words.
func limitOf(f gearbox.FirstLimit) string {
	return Clean(f.Kind.Of(f.Item))
}

// inSpeeds says in which speeds a reason holds.
func inSpeeds(r *study.Reason) string {
	if r.Every {
		return "in every speed"
	}
	return "in " + List(Each(r.Speeds, Clean))
}

// spread is by how much the lighter box differs, in per cent of the other, from the least to the most.
func spread(r *study.Reason) string {
	var all []float64
	for _, v := range r.Values {
		all = append(all, 100*math.Abs(v[0]-v[1])/math.Abs(v[1]))
	}
	low, high := plainTenths(slices.Min(all)), plainTenths(slices.Max(all))
	if low == high {
		return low + NoBreak + "%"
	}
	return low + " to " + high + NoBreak + "%"
}

func plainTenths(v float64) string {
	if v >= 100 {
		return Fixed(v, 0)
	}
	return Fixed(v, 1)
}

// rangeOf is sizes of one dimension from the least to the most.
func rangeOf(all []float64, d quantity.Dimension, o Options) string {
	low, high := With(slices.Min(all), d, o.Units), With(slices.Max(all), d, o.Units)
	if low == high {
		return low
	}
	return strings.TrimSuffix(low, NoBreak+quantity.Unit(d, o.Units)) + " to " + high
}

// gapWords is one thing that isn't known.
func gapWords(g *study.Gap, names []string) string {
	of := List(Each(g.Boxes, func(i int) string { return names[i] }))
	speeds := List(Each(g.Names, Clean))
	switch g.Kind {
	case study.NotWeighed:
		return "The mass of the whole box is not given for " + of + " (weighed: box). Case, bearings, synchronisers and forks aren't counted."
	case study.NoSynchroniser:
		return fmt.Sprintf("%s: the inertia at the synchroniser of %s. layshaft weigh says which key of the file would give it.", of, speeds)
	case study.NoClutchDisc:
		return "No clutch disc is given for " + of + " (parts: inertia, turns_with). It adds to the inertia at every synchroniser, so that the difference in per cent is less there than it looks."
	case study.MissingSpeed:
		return fmt.Sprintf("%s has no %s to set against the other's.", of, speeds)
	case study.OtherTorque:
		return "The boxes are asked for different torques, so bending and stresses are not set against each other."
	case study.OtherDuty:
		return "The boxes have different duties, so lives are not set against each other, and a part of what differs is due to that."
	case study.OtherSteel:
		return "Parts of the same name are of different steels: a part of what differs is due to them."
	case study.OtherLevel:
		return "The boxes are judged by different ends of their steel bands: a part of what differs is due to that."
	}
	return string(g.Kind)
}
