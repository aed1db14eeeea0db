package boxfile

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/chance"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/gauge"

	"gopkg.in/yaml.v3"
)

var uncertaintyFields = []field[gearbox.Uncertainty]{
	{key: "readings", about: "how a number spreads within its ±: normal, with 95 of 100 within, or even, with all of them", fallback: "normal",
		value: word("law", []chance.Law{chance.Normal, chance.Even}, func(u *gearbox.Uncertainty, l chance.Law) { u.Readings = l })},
	{key: "instrument", about: "what lengths of shafts, gears and centres were measured with that carry no ± of their own", fallback: "none: those are taken as exact",
		value: word("instrument", gearbox.Instruments(), func(u *gearbox.Uncertainty, i gauge.Instrument) { u.Instrument = i })},
	{key: "steel", about: "how strengths spread between the poorest and the best steel: triangular, with the typical one likeliest, even, or normal, with 95 of 100 between the ends", fallback: "triangular",
		value: word("law", []chance.Law{chance.Triangular, chance.Even, chance.Normal}, func(u *gearbox.Uncertainty, l chance.Law) { u.Steel = l })},
	{key: "flanks", about: "how flanks are out of line from their making within the tolerance of their grade, to either side: normal or even", fallback: "normal",
		value: word("law", []chance.Law{chance.Normal, chance.Even}, func(u *gearbox.Uncertainty, l chance.Law) { u.Flanks = l })},
}

func newUncertainty(b *boxDraft) *gearbox.Uncertainty {
	usual := gearbox.Usually()
	b.Uncertainty = &usual
	return b.Uncertainty
}

func instrumentNames() (names []string) {
	for _, i := range gearbox.Instruments() {
		names = append(names, string(i))
	}
	return names
}

// measured is a length with the instrument it was measured with behind it: "34 mm by caliper".
var measured = regexp.MustCompile(`^(.*\S)\s*(?:by|±|\+/-)\s*(` + strings.Join(instrumentNames(), "|") + `)\s*$`)

// byInstrument takes the name of an instrument from behind a length and gives its ±; 0 where there is none.
func byInstrument(text string, d quantity.Dimension) (rest string, plus float64) {
	if d != quantity.Length && d != quantity.Deflection {
		return text, 0
	}
	m := measured.FindStringSubmatch(text)
	if m == nil {
		return text, 0
	}
	return m[1], gauge.Instrument(m[2]).Tolerance(0)
}

// applyInstrument gives every length of shafts, gears and centres that carries no ± that of the instrument of the file.
func (r *reader) applyInstrument() {
	if r.box.Uncertainty == nil || r.box.Uncertainty.Instrument == "" {
		return
	}
	plus := r.box.Uncertainty.Instrument.Tolerance(0)
	for path, d := range r.dimensions {
		whole, _, _ := strings.Cut(path, ".")
		_, own := r.box.Tolerances[path]
		if !own && d == quantity.Length && slices.Contains([]string{"shafts", "gears", "centres"}, whole) && !strings.HasSuffix(path, ".start") {
			r.box.Tolerances[path] = plus
		}
	}
}

// Reading is a number of the file that is known within a ±.
type Reading struct {
	Path        string // as people write it, lists counted from 1: "shafts.output.sections.3.outer"
	Value, Plus float64
	Dimension   quantity.Dimension

	change Change
}

// Readings are the numbers of the file that are known within a ±, in the order of their paths. Hardnesses are none: they are converted from their own scale.
func (f *File) Readings() []Reading { return slices.Clone(f.readings) }

// uncertain looks the readings of a box up in its file.
func (f *File) uncertain(b *gearbox.Box, dimensions map[string]quantity.Dimension) (all []Reading) {
	for _, path := range slices.Sorted(maps.Keys(b.Tolerances)) {
		d, read := dimensions[path]
		if !read || d == quantity.Hardness {
			continue // it follows from another number, which is among them too
		}
		steps, people, node := f.follow(path)
		if node == nil {
			continue
		}
		text, _ := byInstrument(node.Value, d)
		q, err := quantity.Parse(text, d)
		if err != nil {
			continue
		}
		place := b.Places[path]
		all = append(all, Reading{people, q.Value, b.Tolerances[path], d, Change{Path: people, steps: steps, key: place, place: place}})
	}
	return all
}

// follow leads from the root of the file to the value of a path as the box has it, lists counted from 0. The node is nil where there is no such value.
func (f *File) follow(path string) (steps []step, people string, node *yaml.Node) {
	node = resolved(f.root)
	for rest := path; rest != ""; {
		switch node.Kind {
		case yaml.SequenceNode:
			word, _, _ := strings.Cut(rest, ".")
			i, err := strconv.Atoi(word)
			if err != nil || i >= len(node.Content) {
				return nil, "", nil
			}
			steps, people, rest = append(steps, step{index: i}), join(people, strconv.Itoa(i+1)), behind(rest, word)
			node = resolved(node.Content[i])
		case yaml.MappingNode:
			at := -1
			for i := 0; i+1 < len(node.Content); i += 2 { // names may hold points: the longest key that fits
				k := node.Content[i].Value
				if (rest == k || strings.HasPrefix(rest, k+".")) && (at < 0 || len(k) > len(node.Content[at].Value)) {
					at = i
				}
			}
			if at < 0 {
				return nil, "", nil
			}
			key := node.Content[at].Value
			steps, people, rest = append(steps, step{key: key, index: -1}), join(people, key), behind(rest, key)
			node = resolved(node.Content[at+1])
		default:
			return nil, "", nil
		}
	}
	return steps, people, node
}

// WithReadings reads the file anew with other values for its Readings, one for each, in inner units. As with Read, the box is nil when there are errors.
func (f *File) WithReadings(values []float64) (*gearbox.Box, diag.List) {
	changes := make([]Change, len(values))
	for i, v := range values {
		r := &f.readings[i]
		number := strconv.FormatFloat(quantity.Convert(v, r.Dimension, quantity.Metric), 'g', -1, 64)
		changes[i] = r.change.WithValue(strings.TrimSpace(number + " " + quantity.Unit(r.Dimension, quantity.Metric)))
	}
	return f.With(changes...)
}

// String is a reading in words: "shafts.output.sections.3.outer, 50 mm ± 0.03 mm".
func (r *Reading) String() string {
	return fmt.Sprintf("%s, %s ± %s", r.Path, r.words(r.Value), r.Bounds())
}

// Bounds is its ± in words: "0.03 mm".
func (r *Reading) Bounds() string { return r.words(r.Plus) }

func (r *Reading) words(v float64) string {
	number := strconv.FormatFloat(quantity.Convert(v, r.Dimension, quantity.Metric), 'g', 6, 64)
	return strings.TrimSpace(number + " " + quantity.Unit(r.Dimension, quantity.Metric))
}
