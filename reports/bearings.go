package reports

import (
	"bytes"
	"math"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// bearingTable tells what every bearing carries in one speed. What only bearings of known elements show has columns where
// there are such.
func bearingTable(b *bytes.Buffer, s *gearbox.SpeedResult, o Options) {
	var along, across, heaviest, preload []float64
	known, paired := false, false
	for i := range s.Shafts {
		for _, br := range s.Shafts[i].Bearings {
			along, across = append(along, br.Force[0]), append(across, br.Radial)
			heaviest, preload = append(heaviest, br.Heaviest), append(preload, br.Preload)
			known, paired = known || finite(br.Heaviest), paired || finite(br.Preload)
		}
	}
	if len(along) == 0 {
		return
	}
	forces := func(values []float64) []string {
		shown := make([]string, len(values))
		for i, v := range values {
			shown[i] = none
			if !math.IsNaN(v) {
				shown[i] = fixed(quantity.Convert(v, quantity.Force, o.Units), 0)
			}
		}
		return shown
	}
	unit := quantity.Unit(quantity.Force, o.Units)
	heads := []head{
		{text: "shaft", least: 5}, {text: "bearing", least: 7}, {text: "across\n" + unit, right: true}, {text: "along\n" + unit, right: true},
	}
	columns := [][]string{forces(across), forces(along)}
	if known {
		heads = append(heads, head{text: "heaviest\nelement\n" + unit, right: true})
		columns = append(columns, forces(heaviest))
	}
	if paired {
		heads = append(heads, head{text: "preload\nat rest\n" + unit, right: true})
		columns = append(columns, forces(preload))
	}
	var rows [][]cell
	for i := range s.Shafts {
		name := harmless(s.Shafts[i].Name)
		for _, br := range s.Shafts[i].Bearings {
			row := []cell{{text: name}, {text: harmless(br.Name)}}
			for _, c := range columns {
				row = append(row, cell{text: c[len(rows)]})
			}
			rows = append(rows, row)
			name = ""
		}
	}
	b.WriteString("\n  What each bearing puts on its shaft in " + harmless(s.Name) + "\n")
	table(b, o.width(), heads, rows)
	paragraph(b, o.width(), indent, "Along: positive pushes the shaft to the right. Of two tapered bearings set against each other each pushes with what its "+
		"radial force induces, and one of them takes the thrust of the gears on top.")
}
