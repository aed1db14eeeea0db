package reports

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"

	"layshaft/gearbox/quantity"
	"layshaft/material"
	"layshaft/reports/view"
)

var errNoSteel = errors.New("there is no steel to report: give at least one")

// Materials writes the steels with their bands and where these come from.
func Materials(w io.Writer, steels []material.Steel, o Options) error {
	if len(steels) == 0 {
		return errNoSteel
	}
	var b bytes.Buffer
	paragraph(&b, o.width(), "", "A steel that is not known exactly is a band: from the low end, which is safe to count on, over a typical value to the high end. "+
		"Limits of ISO and of AGMA go with the stresses of their own standard and must not be mixed.")
	var stresses, hardnesses []float64
	for _, s := range steels {
		for _, band := range bands(&s) {
			if band.hardness {
				hardnesses = append(hardnesses, band.values(o.Units)...)
			} else {
				stresses = append(stresses, band.values(o.Units)...)
			}
		}
	}
	places := map[bool]int{false: view.Decimals(stresses), true: view.Decimals(hardnesses)}
	var rows [][]cell
	for _, s := range steels {
		name := view.Clean(s.Name)
		for _, band := range bands(&s) {
			row := texts(name, band.title)
			for _, v := range band.values(o.Units) {
				row = append(row, cell{text: view.Fixed(v, places[band.hardness])})
			}
			rows = append(rows, append(row, cell{text: band.unit(o.Units)}))
			name = ""
		}
	}
	b.WriteByte('\n')
	table(&b, o.width(), []head{
		{text: "steel", least: 12},
		{text: "strength or hardness"},
		{text: "low", right: true},
		{text: "typical", right: true},
		{text: "high", right: true},
		{text: "unit"},
	}, rows)
	elastic := each(steels, func(s material.Steel) string { return elasticity(&s, o) })
	if same := slices.Compact(slices.Clone(elastic)); len(same) == 1 && len(steels) > 1 {
		b.WriteByte('\n')
		paragraph(&b, o.width(), indent, "All of them: "+same[0])
		clear(elastic)
	}
	for i, s := range steels {
		b.WriteByte('\n')
		title(&b, o.width(), view.Clean(s.Name), "")
		paragraph(&b, o.width(), indent, s.Title)
		paragraph(&b, o.width(), indent, s.About)
		if s.Group != material.GroupUnknown {
			paragraph(&b, o.width(), indent, "Group of ISO 6336-5: "+s.Group.String()+" ("+s.Group.Symbol()+").")
		}
		for _, line := range bandSources(&s) {
			paragraph(&b, o.width(), indent, line)
		}
		paragraph(&b, o.width(), indent, elastic[i])
	}
	foot(&b, o)
	return write(w, &b)
}

// elasticity is how stiff and how heavy a steel is, in words.
func elasticity(s *material.Steel, o Options) string {
	return fmt.Sprintf("Young's modulus (E) %s, Poisson's ratio (ν) %s, density %s, from: %s", view.With(s.Young, quantity.Stress, o.Units),
		view.Plain(s.Poisson), view.With(s.Density, quantity.Density, o.Units), sourceOf(s.ElasticSource))
}

// bandSources says where the strengths of a steel come from; those that share a source share a line.
func bandSources(s *material.Steel) []string {
	var lines []string
	all := bands(s)
	for i := 0; i < len(all); {
		titles := []string{}
		source := all[i].Source
		for ; i < len(all) && all[i].Source == source; i++ {
			titles = append(titles, all[i].title)
		}
		lines = append(lines, view.List(titles)+": "+sourceOf(source))
	}
	return lines
}

// band is one strength or hardness of a steel with its name for people and for programs.
type band struct {
	title, key string
	hardness   bool // HV, not a stress
	material.Band
}

// unit is the unit that the band is shown in. Hardness has its own scale in every system.
func (b band) unit(s quantity.System) string {
	if b.hardness {
		return "HV"
	}
	return quantity.Unit(quantity.Stress, s)
}

func (b band) values(s quantity.System) []float64 {
	v := []float64{b.Low, b.Typical, b.High}
	if b.hardness {
		return v
	}
	return view.Converted(v, quantity.Stress, s)
}

// bands are all that is known of a steel.
func bands(s *material.Steel) []band {
	all := []band{
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
	return slices.DeleteFunc(all, func(b band) bool { return b.Low == 0 && b.Typical == 0 && b.High == 0 })
}
