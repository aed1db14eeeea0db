package reports

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

var errNoRatios = errors.New("there is no ratio table to report: work out at least one box")

// Ratios writes the ratio tables of one or more boxes as text.
func Ratios(w io.Writer, tables []*study.RatioTable, o Options) error {
	if len(tables) == 0 {
		return errNoRatios
	}
	var b bytes.Buffer
	names := ratioNames(tables)
	paragraph(&b, o.width(), "", RatiosHeadline(tables, o))
	for i, t := range tables {
		b.WriteByte('\n')
		title(&b, o.width(), names[i], "")
		paragraph(&b, o.width(), indent, ratioInput(t, o))
		shiftTable(&b, t, o)
		pullTable(&b, t, o)
	}
	foot(&b, o)
	return write(w, &b)
}

// ratioNames are the names of the boxes for people, told apart.
func ratioNames(tables []*study.RatioTable) []string {
	var results []*gearbox.Result
	for _, t := range tables {
		results = append(results, &gearbox.Result{Box: t.Box})
	}
	return view.BoxNames(results)
}

// RatiosHeadline answers in one sentence for each box, or for several that are alike: how fast it is, and which shift costs most.
func RatiosHeadline(tables []*study.RatioTable, o Options) string {
	var said []string
	of := map[string][]string{}
	names := ratioNames(tables)
	for i, t := range tables {
		words := ratioWords(t, o)
		if of[words] == nil {
			said = append(said, words)
		}
		of[words] = append(of[words], names[i])
	}
	for i, words := range said {
		said[i] = joined(of[words]) + ": " + words + "."
	}
	return strings.Join(said, " ")
}

func ratioWords(t *study.RatioTable, o Options) string {
	var longest, widest *study.RatioRow
	for i := range t.Speeds {
		s := &t.Speeds[i]
		if s.Reverse {
			continue
		}
		longest = s
		if s.Next != "" && (widest == nil || s.Step > widest.Step) {
			widest = s
		}
	}
	var words []string
	switch {
	case longest == nil:
		return "no forward speed"
	case view.Finite(longest.Ground):
		words = append(words, fmt.Sprintf("%s in %s at %s", view.With(longest.Ground, quantity.Velocity, o.Units), view.Clean(longest.Name), view.With(t.Revs, quantity.RotationalSpeed, o.Units)))
	default:
		words = append(words, fmt.Sprintf("a ratio of %s in %s, the longest", view.Plain(longest.Total), view.Clean(longest.Name)))
	}
	if widest != nil {
		words = append(words, fmt.Sprintf("the largest drop is %.0f"+view.NoBreak+"%%, from %s to %s", 100*widest.Lost(), view.Clean(widest.Name), view.Clean(widest.Next)))
	}
	if spin := spinning(t); spin != "" {
		words = append(words, spin)
	}
	return strings.Join(words, "; ")
}

// spinning names the speeds in which the engine pulls more than the tyres hold; "" when that isn't known.
func spinning(t *study.RatioTable) string {
	var all []string
	for i := range t.Speeds {
		if t.Speeds[i].Used > 1 {
			all = append(all, view.Clean(t.Speeds[i].Name))
		}
	}
	switch {
	case !t.Grip:
		return ""
	case len(all) == 0:
		return "the tyres hold in every speed"
	}
	return "the engine pulls more than the tyres hold in " + joined(all)
}

func joined(words []string) (text string) {
	for i, w := range words {
		switch {
		case i == 0:
		case i == len(words)-1:
			text += " and "
		default:
			text += ", "
		}
		text += w
	}
	return text
}

func ratioInput(t *study.RatioTable, o Options) string {
	text := "Engine torque " + view.With(t.Torque, quantity.Torque, o.Units)
	if t.Revs > 0 {
		text += ", shifted up at " + view.With(t.Revs, quantity.RotationalSpeed, o.Units)
	}
	text += ". "
	if !t.Tyres {
		return text + "The file tells no car with its tyre radius, so there is no speed over ground and no pull."
	}
	return text + "Tyre radius " + view.With(t.Box.Car.TyreRadius, quantity.Length, o.Units) + ". The tyres are taken to roll without slip."
}

// shiftTable tells how fast each speed is and what each shift up costs.
func shiftTable(b *bytes.Buffer, t *study.RatioTable, o Options) {
	var ratios, totals, ground, thousand, after, drop []float64
	for _, s := range t.Speeds {
		ratios, totals = append(ratios, s.Box), append(totals, s.Total)
		ground, thousand = append(ground, s.Ground), append(thousand, s.Thousand)
		after, drop = append(after, s.After), append(drop, s.Drop)
	}
	velocity, revs := quantity.Unit(quantity.Velocity, o.Units), quantity.Unit(quantity.RotationalSpeed, o.Units)
	heads := []head{{text: "speed", least: 8}, {text: "ratio", right: true}}
	columns := [][]string{view.Alike(ratios)}
	add := func(text string, column []string) {
		heads, columns = append(heads, head{text: text, right: true}), append(columns, column)
	}
	if t.Tyres && t.Box.Car.AxleRatio > 0 && t.Box.Car.AxleRatio != 1 {
		add("with\naxle", view.Alike(totals))
	}
	if t.Tyres {
		add("at 1000\nrpm\n"+velocity, view.AlikeIn(thousand, quantity.Velocity, o.Units))
		if t.Revs > 0 {
			add("at "+view.Plain(quantity.Convert(t.Revs, quantity.RotationalSpeed, o.Units))+"\nrpm\n"+velocity, view.AlikeIn(ground, quantity.Velocity, o.Units))
		}
	}
	if t.Revs > 0 {
		add("after the\nshift up\n"+revs, view.AlikeIn(after, quantity.RotationalSpeed, o.Units))
		add("drop\n"+revs, view.AlikeIn(drop, quantity.RotationalSpeed, o.Units))
	}
	lost := make([]string, len(t.Speeds))
	for i := range t.Speeds {
		lost[i] = orNone(t.Speeds[i].Lost(), func(v float64) string { return view.Fixed(100*v, 1) })
	}
	add("drop\n%", lost)
	var rows [][]cell
	for i, s := range t.Speeds {
		row := texts(view.Clean(s.Name))
		for k, c := range columns {
			text := c[i]
			if text == "n/a" && k > 0 { // nobody shifts up from the longest speed, or from reverse
				text = view.Absent
			}
			row = append(row, cell{text: text})
		}
		rows = append(rows, row)
	}
	b.WriteString("\n  How fast it is, and what each shift up costs\n")
	table(b, o.width(), heads, rows)
}

// pullTable tells how hard each speed pulls; nothing without a tyre radius.
func pullTable(b *bytes.Buffer, t *study.RatioTable, o Options) {
	if !t.Tyres {
		return
	}
	var wheels, forces []float64
	for _, s := range t.Speeds {
		wheels, forces = append(wheels, s.Wheels), append(forces, s.Pull, s.Holds)
	}
	torque, force := view.AlikeIn(wheels, quantity.Torque, o.Units), view.AlikeIn(forces, quantity.Force, o.Units)
	heads := []head{{text: "speed", least: 8}, {text: "torque at\nthe wheels\n" + quantity.Unit(quantity.Torque, o.Units), right: true}, {text: "pull\n" + quantity.Unit(quantity.Force, o.Units), right: true}}
	if t.Grip {
		heads = append(heads, head{text: "tyres\nhold\n" + quantity.Unit(quantity.Force, o.Units), right: true}, head{text: "used\n%", right: true}, head{text: "so"})
	}
	var rows [][]cell
	for i, s := range t.Speeds {
		row := texts(view.Clean(s.Name), torque[i], force[2*i])
		if t.Grip {
			row = append(row, texts(force[2*i+1], view.Fixed(100*s.Used, 0), spins(s.Used))...)
		}
		rows = append(rows, row)
	}
	b.WriteString("\n  How hard it pulls\n")
	table(b, o.width(), heads, rows)
	if t.Grip {
		paragraph(b, o.width(), indent, "What the tyres hold counts the weight that moves between the axles as they pull: level ground, no downforce, straight ahead.")
	}
}

// spins says what a share of the grip means.
func spins(used float64) string {
	if used > 1 {
		return "the wheels spin"
	}
	return "the tyres hold"
}

func orNone(v float64, text func(float64) string) string {
	if math.IsNaN(v) {
		return view.Absent
	}
	return text(v)
}
