package reports

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"

	"layshaft/gearbox/quantity"
	"layshaft/material"
)

var errNoSteel = errors.New("there is no steel to report: give at least one")

// Materials writes the steels with their bands and where these come from.
func Materials(w io.Writer, steels []material.Steel, o Options) error {
	if len(steels) == 0 {
		return errNoSteel
	}
	var b bytes.Buffer
	unit := quantity.Unit(quantity.Stress, o.Units)
	paragraph(&b, o.width(), "", "A steel that is not known exactly is a band: from the low end, which is safe to count on, over a typical value to the high end.")
	var values []float64
	for _, s := range steels {
		for _, band := range bands(&s) {
			values = append(values, band.Low, band.Typical, band.High)
		}
	}
	text := column(values, quantity.Stress, o.Units)
	var rows [][]cell
	for i, s := range steels {
		for k, band := range bands(&s) {
			name := ""
			if k == 0 {
				name = harmless(s.Name)
			}
			at := 3 * (len(bands(&s))*i + k)
			rows = append(rows, texts(name, band.title, text[at], text[at+1], text[at+2]))
		}
	}
	b.WriteByte('\n')
	table(&b, o.width(), []head{
		{text: "steel", least: 12},
		{text: "strength"},
		{text: "low\n" + unit, right: true},
		{text: "typical\n" + unit, right: true},
		{text: "high\n" + unit, right: true},
	}, rows)
	elastic := each(steels, func(s material.Steel) string { return elasticity(&s, o) })
	if same := slices.Compact(slices.Clone(elastic)); len(same) == 1 && len(steels) > 1 {
		b.WriteByte('\n')
		paragraph(&b, o.width(), indent, "All of them: "+same[0])
		clear(elastic)
	}
	for i, s := range steels {
		b.WriteByte('\n')
		title(&b, o.width(), harmless(s.Name), "")
		paragraph(&b, o.width(), indent, s.Title)
		paragraph(&b, o.width(), indent, s.About)
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
	return fmt.Sprintf("Young's modulus (E) %s, Poisson's ratio (ν) %s, density %s, from: %s", with(s.Young, quantity.Stress, o.Units),
		plain(s.Poisson), with(s.Density, quantity.Density, o.Units), sourceOf(s.ElasticSource))
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
		lines = append(lines, list(titles)+" from: "+sourceOf(source))
	}
	return lines
}

// band is one strength of a steel with its name for people and for programs.
type band struct {
	title, key string
	material.Band
}

func bands(s *material.Steel) []band {
	return []band{
		{"yield of the core", "yield", s.Yield},
		{"tensile strength of the core", "tensile", s.Tensile},
		{"contact of the flank", "contact", s.Contact},
	}
}
