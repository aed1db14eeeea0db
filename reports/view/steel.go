package view

import (
	"errors"
	"fmt"
	"slices"

	"layshaft/gearbox/quantity"
	"layshaft/material"
)

// ErrNoSteel is said where there is no steel to report.
var ErrNoSteel = errors.New("there is no steel to report: give at least one")

// SteelIntro says what a band is.
const SteelIntro = "A steel that is not known exactly is a band: from the low end, which is safe to count on, over a typical value to the high end. " +
	"Limits of ISO and of AGMA go with the stresses of their own standard and must not be mixed."

// SteelTable has the bands of some steels.
func SteelTable(steels []material.Steel, o Options) *Table {
	var values [2][]float64 // stresses, hardnesses
	sort := map[bool]int{true: 1}
	for _, s := range steels {
		for _, b := range Bands(&s) {
			values[sort[b.Hardness]] = append(values[sort[b.Hardness]], b.values(o.Units)...)
		}
	}
	t := o.table("", once("steel", 12), words("strength or hardness", 0), right("low", ""), right("typical", ""), right("high", ""), words("unit", 0))
	for _, s := range steels {
		for _, b := range Bands(&s) {
			row := wordsOf(s.Name, b.Title)
			for _, v := range b.values(o.Units) {
				row = append(row, word(Fixed(v, Decimals(values[sort[b.Hardness]]))))
			}
			t.add(append(row, word(b.Unit(o.Units)))...)
		}
	}
	return t.done()
}

// SteelParagraphs are a paragraph for all steels, where something is the same in all, and those about each of them.
func SteelParagraphs(steels []material.Steel, o Options) (shared string, own [][]string) {
	elastic := Each(steels, func(s material.Steel) string { return elasticity(&s, o) })
	if same := slices.Compact(slices.Clone(elastic)); len(same) == 1 && len(steels) > 1 {
		shared = "All of them: " + same[0]
		clear(elastic)
	}
	for i, s := range steels {
		said := []string{s.Title, s.About}
		if s.Group != material.GroupUnknown {
			said = append(said, "Group of ISO 6336-5: "+s.Group.String()+" ("+s.Group.Symbol()+").")
		}
		own = append(own, append(append(said, bandSources(&s)...), elastic[i]))
	}
	return shared, own
}

// elasticity is how stiff and how heavy a steel is, in words.
func elasticity(s *material.Steel, o Options) string {
	return fmt.Sprintf("Young's modulus (E) %s, Poisson's ratio (ν) %s, density %s, from: %s", With(s.Young, quantity.Stress, o.Units),
		Plain(s.Poisson), With(s.Density, quantity.Density, o.Units), SourceOf(s.ElasticSource))
}

// bandSources says where the strengths of a steel come from; those that share a source share a line.
func bandSources(s *material.Steel) []string {
	var lines []string
	all := Bands(s)
	for i := 0; i < len(all); {
		titles := []string{}
		source := all[i].Source
		for ; i < len(all) && all[i].Source == source; i++ {
			titles = append(titles, all[i].Title)
		}
		lines = append(lines, List(titles)+": "+SourceOf(source))
	}
	return lines
}

// Band is one strength or hardness of a steel with its name for people and for programs.
type Band struct {
	Title, Key string
	Hardness   bool // HV, not a stress
	material.Band
}

// Unit is the unit that the band is shown in. Hardness has its own scale in every system.
func (b Band) Unit(s quantity.System) string {
	if b.Hardness {
		return "HV"
	}
	return quantity.Unit(quantity.Stress, s)
}

func (b Band) values(s quantity.System) []float64 {
	v := []float64{b.Low, b.Typical, b.High}
	if b.Hardness {
		return v
	}
	return Converted(v, quantity.Stress, s)
}

// Bands are all that is known of a steel.
func Bands(s *material.Steel) []Band {
	all := []Band{
		{"yield of the core", "yield", false, s.Yield},
		{"tensile strength of the core", "tensile", false, s.Tensile},
		{"hardness of the core", "core_hardness", true, s.CoreHardness},
		{"hardness of the surface", "surface_hardness", true, s.SurfaceHardness},
		{"tooth root, ISO (σ_Flim)", "root_iso", false, s.RootLimit},
		{"flank, ISO (σ_Hlim)", "flank_iso", false, s.FlankLimit},
		{"tooth root, AGMA (s_at)", "root_agma", false, s.AGMARoot},
		{"flank, AGMA (s_ac)", "flank_agma", false, s.AGMAFlank},
		{"flank, Hertz", "flank_hertz", false, s.Contact},
	}
	return slices.DeleteFunc(all, func(b Band) bool { return b.Low == 0 && b.Typical == 0 && b.High == 0 })
}
