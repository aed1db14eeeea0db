package view

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox/study"
	"layshaft/material"
)

// RankingWords says of each other box by how much more or less it bears than the first whatever the steel, or where the
// order turns.
func RankingWords(c *study.Comparison) (words []string) {
	names := BoxNames(c.Results)
	for i := range c.Ranking {
		if r := &c.Ranking[i]; len(r.Speeds) > 0 {
			text := rankWords(r, Shorten(names[0], 40), Shorten(names[r.Box], 40))
			if c.Equal != nil {
				text = "at equal steel: " + text
			}
			words = append(words, Capital(text))
		}
	}
	return words
}

// rankWords are the sentences about one box against the first.
func rankWords(r *study.Ranking, first, name string) string {
	var more, less, same, turns []study.RankedSpeed
	for _, s := range r.Speeds {
		switch {
		case !s.Holds:
			turns = append(turns, s)
		case s.Same():
			same = append(same, s)
		case s.Least+s.Most > 2:
			more = append(more, s)
		default:
			less = append(less, s)
		}
	}
	whatever := ", whatever the steel"
	switch {
	case r.Guides && !r.Steel:
		whatever = ", at the careful and at the generous end of the guides alike"
	case !r.Common:
		whatever = ", each of them of poor or of good steel"
	case r.Guides:
		whatever += " and whichever end of the guides is meant"
	}
	in := func(of []study.RankedSpeed) string {
		switch {
		case len(of) != len(r.Speeds) || len(of) < 2:
		case len(r.Alone[0])+len(r.Alone[1]) > 0:
			return "in every speed that both have "
		default:
			return "in every speed "
		}
		return "in " + List(Each(of, func(s study.RankedSpeed) string { return Clean(s.Name) })) + " "
	}
	var parts []string
	add := func(of []study.RankedSpeed, how string) {
		if len(of) > 0 {
			parts = append(parts, in(of)+name+" bears "+how+" "+first+whatever)
		}
	}
	add(more, offRange(more)+NoBreak+"% more than")
	add(less, offRange(less)+NoBreak+"% less than")
	as := ""
	if slices.ContainsFunc(same, func(s study.RankedSpeed) bool { return s.Least != 1 || s.Most != 1 }) {
		as = " within 0.5" + NoBreak + "%"
	}
	if len(same) > 0 {
		parts = append(parts, in(same)+name+" bears the same as "+first+as+whatever)
	}
	apart := !r.Common && (r.Steel || !r.Guides)
	if apart && len(turns) > 0 {
		parts = append(parts, in(turns)+openWords(turns, first, name))
	} else {
		for _, s := range turns {
			parts = append(parts, in([]study.RankedSpeed{s})+turnWords(r, &s, first, name))
		}
	}
	text := strings.Join(parts, "; ") + "."
	for i, box := range []string{first, name} {
		if alone := r.Alone[i]; len(alone) > 0 {
			text += " Only " + box + " has " + List(Each(alone, Clean)) + "."
		}
	}
	switch {
	case apart && len(r.Steels) > 0:
		text += " The batches of their steel differ, so the one may be poor and the other good."
	case apart:
		text += " Their steels have different names, so the one may be poor and the other good."
	}
	if r.Common && !r.Batch && (r.Steel || !r.Guides) {
		text += " " + Capital(List(Each(r.Steels, Clean))) + " counts as one steel in both boxes, as no batch is given."
	}
	return text
}

// openWords says how far apart boxes of unlike steel may be in speeds in which either may allow more.
func openWords(turns []study.RankedSpeed, first, name string) string {
	least, most := math.Inf(1), math.Inf(-1)
	for _, s := range turns {
		least, most = min(least, s.Least), max(most, s.Most)
	}
	return fmt.Sprintf("the order isn't settled: %s bears from %s to %s than %s, each of them of poor or of good steel", name, offWords(least), offWords(most), first)
}

// turnWords says how the order turns.
func turnWords(r *study.Ranking, s *study.RankedSpeed, first, name string) string {
	// The steels at which one of the boxes leads by most, the poorer first.
	a, b := 0, 0
	for l, ratio := range s.Ratio {
		if ratio < s.Ratio[a] {
			a = l
		}
		if ratio > s.Ratio[b] {
			b = l
		}
	}
	a, b = min(a, b), max(a, b)
	ends := [...]string{material.Low: "with the poorest steel", material.Typical: "with the typical steel", material.High: "with the best steel"}
	if r.Guides && !r.Steel {
		ends = [...]string{material.Low: "at the careful end of the guides", material.Typical: "in the middle of the guides", material.High: "at the generous end of the guides"}
	}
	again := ends[b] // the second time it is shorter
	for _, tail := range []string{" steel", " of the guides"} {
		again = strings.TrimSuffix(again, tail)
	}
	return fmt.Sprintf("the order turns: %s %s bears %s than %s, %s %s", ends[a], name, offWords(s.Ratio[a]), first, again, offWords(s.Ratio[b]))
}

// offWords is a ratio as "4.2 % more".
func offWords(ratio float64) string {
	switch off := percentOff(ratio); {
	case off == "0":
		return "no more"
	case ratio > 1:
		return off + NoBreak + "% more"
	default:
		return off + NoBreak + "% less"
	}
}

// percentOff is by how many per cent a ratio is off one, without a sign.
func percentOff(ratio float64) string {
	if math.IsInf(ratio, 0) {
		return "endlessly many"
	}
	text := Fixed(100*math.Abs(ratio-1), 1)
	if text == "0.0" {
		return "0"
	}
	return text
}

// offRange is by how many per cent ratios are off one, from the least to the most.
func offRange(of []study.RankedSpeed) string {
	var all []float64
	for _, s := range of {
		least, most := s.Least, s.Most
		if least+most > 2 { // what lies on the other side is less than anybody measures
			least = max(least, 1)
		} else {
			most = min(most, 1)
		}
		all = append(all, least, most)
	}
	if len(all) == 0 {
		return ""
	}
	slices.SortFunc(all, func(a, b float64) int { return int(math.Copysign(1, math.Abs(a-1)-math.Abs(b-1))) })
	low, high := percentOff(all[0]), percentOff(all[len(all)-1])
	switch low {
	case high:
		return low
	case "0":
		return "up to " + high
	}
	return low + " to " + high
}
