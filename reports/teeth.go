package reports

import (
	"bytes"
	"strconv"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/reports/view"
)

// derivedMark stands behind a measure that the box file doesn't give.
const derivedMark = "*"

// teethTable has two rows for each mesh that the solved speeds load, the driver's first: what a micrometer and a count of teeth can be held against.
func teethTable(b *bytes.Buffer, r *gearbox.Result, o Options) {
	var meshes []*gearbox.MeshResult
	for _, m := range meshesOf(r) {
		if g := m.Geometry; g != nil {
			meshes = append(meshes, m)
		}
	}
	if len(meshes) == 0 {
		return
	}
	places := lengthDecimals(o.Units)
	length := func(mm float64) string { return view.Fixed(quantity.Convert(mm, quantity.Length, o.Units), places) }
	derived, any := map[bool]string{true: " ", false: derivedMark}, false
	var rows [][]cell
	for _, m := range meshes {
		g := m.Geometry
		for k := range g.Teeth {
			row := []cell{{}, {text: view.Clean(m.Gears[k])}, {text: strconv.Itoa(g.Teeth[k])}, {}, {}, {}}
			if k == 0 {
				row[0].text, row[3].text = view.Clean(m.Name), view.Trimmed(g.Module)
				row[4].text, row[5].text = view.Fixed(g.Helix*toDegrees, 2), length(g.Centre)
			}
			known := g.TipDiameter[k] > 0
			any = any || !known || !g.ShiftKnown[k]
			rows = append(rows, append(row, cell{text: view.Fixed(g.X[k], 3), mark: derived[g.ShiftKnown[k]]}, cell{text: length(g.Tip[k]), mark: derived[known]}, cell{text: length(g.Root[k])}))
		}
	}
	unit := quantity.Unit(quantity.Length, o.Units)
	b.WriteString("\n  The teeth of each loaded mesh\n")
	table(b, o.width(), []head{
		{text: "mesh", least: 5},
		{text: "gear", least: 8},
		{text: "teeth\nz", right: true},
		{text: "module\nm_n\nmm", right: true},
		{text: "helix\nβ\n°", right: true},
		{text: "centres\na\n" + unit, right: true},
		{text: "profile \nshift \nx ", right: true},
		{text: "tip \nd_a \n" + unit + " ", right: true},
		{text: "root\nd_f\n" + unit, right: true},
	}, rows)
	if any {
		paragraph(b, o.width(), indent, derivedMark+" isn't given in the file and follows from the rest. The root diameter follows from the rack. Hold a micrometer against them: a shift or a rack that was guessed wrong shows here first.")
	}
}

// lengthDecimals is how many decimals show a length to about what a micrometer reads.
func lengthDecimals(s quantity.System) int {
	if s == quantity.US {
		return 4
	}
	return 2
}
