package boxfile

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearstress/gauge"

	"gopkg.in/yaml.v3"
)

// Box makes a box file of a sheet and of what the gauge found, with the best label of each group of gears. Every
// derived value has its ±, and says behind a # where it comes from. The findings are
// those of the box file, shown where the sheet says what is wrong; with errors among them there is no file.
func (s *Sheet) Box(r *gauge.Result) ([]byte, diag.List) {
	if list := s.boxable(r); list != nil {
		return nil, list
	}
	w := boxWriter{sheet: s, result: r}
	w.line(0, "# Made from the bench sheet of "+oneLine(s.Name)+". Behind each # stands where a value comes from; a ± is what 95 of 100 such readings keep within.")
	w.line(0, fmt.Sprintf("layshaft: %d", Version))
	w.line(0, "name: "+yamlText(s.Name))
	w.map0(s.rest)
	w.centres()
	w.gears()
	w.meshes()
	text := w.b.Bytes()
	_, list := Read("box", text)
	for i := range list {
		list[i].Place, list[i].Path = s.place(list[i].Path), ""
	}
	list.Sort()
	if list.HasErrors() {
		return nil, list
	}
	return text, list
}

// boxable says what keeps a sheet from becoming a box file.
func (s *Sheet) boxable(r *gauge.Result) (list diag.List) {
	fault := func(path, summary, format string, args ...any) {
		list = append(list, diag.Diagnostic{Place: s.nearest(path), Path: path, Summary: summary, Detail: fmt.Sprintf(format, args...)})
	}
	if s.rest == nil {
		fault("", `missing key "box"`,
			"A box file needs shafts, bearings, places and speeds too: write them under box, with the keys of a box file.")
		return list
	}
	taken := func(node *yaml.Node, path string, keys ...string) {
		for i := 0; node != nil && i < len(node.Content); i += 2 {
			if key := node.Content[i].Value; slices.Contains(keys, key) {
				fault(join(path, key), "said twice",
					"%s follows from the readings, or has its own key in the sheet: leave it out here.", key)
			}
		}
	}
	taken(s.rest, "box", "layshaft", "name", "gears", "meshes", "centres")
	for _, g := range s.gears {
		taken(g.rest, "gears."+g.Name+".box", "shaft", "teeth", "face", "shift", "tip_diameter", "root_diameter", "spans", "thinning")
		if g.shaft == "" {
			fault("gears."+g.Name, `missing key "shaft"`, "A box file needs to know on which shaft each gear sits.")
		}
	}
	for _, p := range s.pairs {
		taken(p.rest, "pairs."+p.Name+".box", "driver", "driven", "module", "diametral_pitch", "pressure_angle", "helix", "hand")
	}
	for _, g := range r.Groups {
		if len(g.Labels) == 0 {
			fault("gears."+s.gears[g.Gears[0]].Name, "no tool fits",
				"No module and pressure angle were found for this gear and those it meshes with: see what layshaft gauge says of it without --write.")
		}
	}
	return list
}

// place is where a sheet says what stands under a path of the box file that is made of it.
func (s *Sheet) place(path string) diag.Place {
	parts := strings.SplitN(path, ".", 3)
	tries := []string{"box." + path}
	if len(parts) > 1 {
		first := map[string]string{"gears": "gears", "meshes": "pairs", "centres": "centres"}[parts[0]]
		if first != "" {
			of := first + "." + parts[1]
			if len(parts) == 3 {
				tries = append(tries, of+".box."+parts[2], of+"."+parts[2])
			}
			tries = append(tries, of)
		}
	}
	for _, t := range tries {
		if p, ok := s.places[t]; ok {
			return p
		}
	}
	return s.nearest(tries[len(tries)-1])
}

// nearest is the place of a path of the sheet, or of the nearest thing around it that the sheet has.
func (s *Sheet) nearest(path string) diag.Place {
	for path != "" {
		if p, ok := s.places[path]; ok {
			return p
		}
		path = path[:max(0, strings.LastIndexByte(path, '.'))]
	}
	return s.places[""]
}

// boxWriter writes a box file line by line.
type boxWriter struct {
	b      bytes.Buffer
	sheet  *Sheet
	result *gauge.Result
}

func (w *boxWriter) line(depth int, text string) {
	w.b.WriteString(strings.Repeat("  ", depth) + text + "\n")
}

// noted writes a value with where it comes from.
func (w *boxWriter) noted(depth int, key, value, from string) {
	text := key + ": " + value
	const column = 44
	if from != "" {
		text += strings.Repeat(" ", max(1, column-2*depth-len([]rune(text)))) + "# " + from
	}
	w.line(depth, text)
}

// map0 writes the keys of a map as they were given.
func (w *boxWriter) map0(n *yaml.Node) { w.mapAt(0, n) }

func (w *boxWriter) mapAt(depth int, n *yaml.Node) {
	if n == nil || len(n.Content) == 0 {
		return
	}
	plain := *n
	plain.Style &^= yaml.FlowStyle
	var out bytes.Buffer
	e := yaml.NewEncoder(&out)
	e.SetIndent(2)
	if e.Encode(&plain) != nil || e.Close() != nil {
		return // cannot be: the node was read from text
	}
	for line := range strings.SplitSeq(strings.TrimRight(out.String(), "\n"), "\n") {
		if line == "" {
			w.line(0, "")
		} else {
			w.line(depth, line)
		}
	}
}

func (w *boxWriter) centres() {
	if len(w.sheet.Set.Centres) == 0 {
		return
	}
	w.line(0, "\ncentres:")
	for i, c := range w.sheet.Set.Centres {
		between := w.sheet.shafts[i]
		w.line(1, fmt.Sprintf("- between: [%s, %s]", flowText(between[0]), flowText(between[1])))
		w.noted(2, "distance", length(c.Reading.Value, c.Reading.Width()), "read"+taken(c.Reading))
	}
}

func (w *boxWriter) gears() {
	w.line(0, "\ngears:")
	for i, g := range w.sheet.gears {
		w.line(1, yamlText(g.Name)+":")
		w.noted(2, "shaft", yamlText(g.shaft), "")
		w.noted(2, "teeth", strconv.Itoa(g.Teeth), "counted")
		if g.Face > 0 {
			w.noted(2, "face", length(g.Face, w.sheet.tolerances["gears."+g.Name+".face"]), "read")
		}
		group, k := w.group(i)
		w.shift(i, group.Labels[0], group.Labels[0].Gears[k])
		if len(group.Flanks) > 0 && group.Flanks[k].Tip.Value > 0 {
			from := "read"
			if g.Teeth%2 == 1 && g.Across != gauge.Round {
				from += ", put right for the odd count"
			}
			tip := group.Flanks[k].Tip
			w.noted(2, "tip_diameter", length(tip.Value, tip.Tolerance), from)
		}
		w.sizes(i)
		w.mapAt(2, g.rest)
	}
}

// sizes writes root and spans as they were read, for check to hold them against what the data make.
func (w *boxWriter) sizes(i int) {
	var spans []string
	for _, r := range w.result.Set.Gears[i].Readings {
		switch {
		case r.Aside != "":
		case r.Kind == gauge.Root:
			w.noted(2, "root_diameter", length(r.Value, r.Width()), "read"+taken(r))
		case r.Kind == gauge.Span:
			spans = append(spans, fmt.Sprintf("%d: %s", r.Teeth, length(r.Value, r.Width())))
		}
	}
	if len(spans) > 0 {
		w.noted(2, "spans", "{"+strings.Join(spans, ", ")+"}", "read")
	}
}

// shift writes profile shift and thinning of a gear.
func (w *boxWriter) shift(i int, l gauge.Label, g gauge.Labelled) {
	if g.Bare {
		return
	}
	var from []string
	for _, r := range w.sheet.gears[i].Readings {
		if r.Kind == gauge.Span || r.Kind == gauge.OverBalls || r.Kind == gauge.Chord {
			from = append(from, r.Name())
		}
	}
	of, driven := -1, false
	for k, p := range w.sheet.Set.Pairs {
		if of < 0 && p.Centre >= 0 && (p.Gears[0] == i || p.Gears[1] == i) {
			of, driven = k, p.Gears[1] == i
		}
	}
	value := pm(g.Shift.Value, g.Shift.Tolerance, 4)
	switch {
	case of >= 0 && driven && g.Thinning.Value == 0 && !w.bare(w.sheet.Set.Pairs[of].Gears[0]):
		// The teeth as read would be too thick for the distance: the driver's shift and the distance settle it.
		w.line(2, "# no shift: the centre distance settles it. By "+strings.Join(from, ", ")+" it is "+value+", which leaves no backlash.")
		return
	case of >= 0 && g.Thinning.Value > 0:
		from = append(from, "backlash of "+oneLine(w.sheet.Set.Pairs[of].Name))
	}
	w.noted(2, "shift", value, strings.Join(from, ", "))
	if t := g.Thinning; t.Value > 0 {
		w.noted(2, "thinning", length(t.Value, t.Tolerance), "half of that backlash; how the two gears share it is not known")
	}
}

func (w *boxWriter) bare(i int) bool {
	group, k := w.group(i)
	return group.Labels[0].Gears[k].Bare
}

// group is the group of gear i, and its place there.
func (w *boxWriter) group(i int) (*gauge.Group, int) {
	for g := range w.result.Groups {
		if k := slices.Index(w.result.Groups[g].Gears, i); k >= 0 {
			return &w.result.Groups[g], k
		}
	}
	return nil, -1 // cannot be: every gear is in a group
}

func (w *boxWriter) meshes() {
	if len(w.sheet.pairs) == 0 {
		return
	}
	w.line(0, "\nmeshes:")
	for _, p := range w.sheet.pairs {
		group, _ := w.group(p.Gears[0])
		l := group.Labels[0]
		w.line(1, yamlText(p.Name)+":")
		w.noted(2, "driver", yamlText(p.names[0]), "")
		w.noted(2, "driven", yamlText(p.names[1]), "")
		fits := "best of " + strconv.Itoa(len(group.Labels)) + " that fit"
		if len(group.Labels) == 1 {
			fits = "the only one of the series that fits"
		}
		if group.Fixed {
			fits += fmt.Sprintf("; base pitch read %s", length(group.BasePitch.Value, group.BasePitch.Tolerance))
		}
		if l.Pitch > 0 {
			w.noted(2, "diametral_pitch", fmt.Sprintf("%.6g /in", l.Pitch), fits)
		} else {
			w.noted(2, "module", fmt.Sprintf("%.6g mm", l.Module), fits)
		}
		w.noted(2, "pressure_angle", fmt.Sprintf("%.6g°", l.PressureAngle/degree), "")
		if l.Helix.Value > 0 {
			from := ""
			if l.Snapped {
				from = "to the half degree; the readings alone make " + pm(l.Around.Value/degree, l.Around.Tolerance/degree, 2) + "°"
			}
			w.noted(2, "helix", pm(l.Helix.Value/degree, l.Around.Tolerance/degree, 2)+"°", from)
			w.noted(2, "hand", string(w.hand(p)), "of the driver")
		}
		w.mapAt(2, p.rest)
	}
}

// hand is that of the driver of a pair.
func (w *boxWriter) hand(p sheetPair) gearbox.Hand {
	driver, driven := w.sheet.gears[p.Gears[0]].hand, w.sheet.gears[p.Gears[1]].hand
	switch {
	case driver != gearbox.Spur:
		return driver
	case driven != gearbox.Spur:
		return driven.Opposite()
	default:
		return unknown
	}
}

// taken names the instrument of a reading.
func taken(r gauge.Reading) string {
	if r.By == "" {
		return ""
	}
	return by + string(r.By)
}

// length is a length with its ±, mm.
func length(v, tolerance float64) string { return pm(v, tolerance, 3) + " mm" }

// pm is a number with its ±: two digits of that count, and the number has as many decimals, at most so many.
func pm(v, tolerance float64, most int) string {
	if !(tolerance > 0) {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	decimals := min(max(most, 0), max(0, 1-int(math.Floor(math.Log10(tolerance)))))
	return fmt.Sprintf("%.*f ± %.*f", decimals, v, decimals, max(tolerance, math.Pow10(-decimals)))
}

// yamlText is a name as YAML has it.
func yamlText(name string) string {
	out, err := yaml.Marshal(name)
	if err != nil {
		return strconv.Quote(name)
	}
	return strings.TrimRight(string(out), "\n")
}

// flowText is a name within brackets.
func flowText(name string) string {
	if text := yamlText(name); !strings.ContainsAny(text, ",[]{}#:") {
		return text
	}
	return strconv.Quote(name)
}

// oneLine is text that can stand behind a #.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }
