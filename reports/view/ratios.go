package view

import (
	"errors"
	"fmt"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// ErrNoRatios is said where there is no ratio table to report.
var ErrNoRatios = errors.New("there is no ratio table to report: work out at least one box")

// RatioNames are the names of the boxes for people, told apart.
func RatioNames(tables []*study.RatioTable) []string {
	var results []*gearbox.Result
	for _, t := range tables {
		results = append(results, &gearbox.Result{Box: t.Box})
	}
	return BoxNames(results)
}

// RatiosHeadline answers in one sentence for each box, or for several that are alike: how fast it is, and which shift costs most.
func RatiosHeadline(tables []*study.RatioTable, o Options) string {
	var said []string
	of := map[string][]string{}
	names := RatioNames(tables)
	for i, t := range tables {
		words := ratioWords(t, o)
		if of[words] == nil {
			said = append(said, words)
		}
		of[words] = append(of[words], names[i])
	}
	for i, words := range said {
		said[i] = List(of[words]) + ": " + words + "."
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
	case Finite(longest.Ground):
		words = append(words, fmt.Sprintf("%s in %s at %s", With(longest.Ground, quantity.Velocity, o.Units), Clean(longest.Name), With(t.Revs, quantity.RotationalSpeed, o.Units)))
	default:
		words = append(words, fmt.Sprintf("a ratio of %s in %s, the longest", Plain(longest.Total), Clean(longest.Name)))
	}
	if widest != nil {
		words = append(words, fmt.Sprintf("the largest drop is %.0f"+NoBreak+"%%, from %s to %s", 100*widest.Lost(), Clean(widest.Name), Clean(widest.Next)))
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
			all = append(all, Clean(t.Speeds[i].Name))
		}
	}
	switch {
	case !t.Grip:
		return ""
	case len(all) == 0:
		return "the tyres hold in every speed"
	}
	return "the engine pulls more than the tyres hold in " + List(all)
}

// RatioAsked says what a ratio table rests on.
func RatioAsked(t *study.RatioTable, o Options) string {
	text := "Engine torque " + With(t.Torque, quantity.Torque, o.Units)
	if t.Revs > 0 {
		text += ", shifted up at " + With(t.Revs, quantity.RotationalSpeed, o.Units)
	}
	text += ". "
	if !t.Tyres {
		return text + "The file tells no car with its tyre radius, so there is no speed over ground and no pull."
	}
	return text + "Tyre radius " + With(t.Box.Car.TyreRadius, quantity.Length, o.Units) + ". The tyres are taken to roll without slip."
}

// RatioTables tell how fast each speed is and what each shift up costs, and how hard each pulls.
func RatioTables(t *study.RatioTable, o Options) []*Table {
	return []*Table{shiftTable(t, o), pullTable(t, o)}
}

// shiftTable tells how fast each speed is and what each shift up costs. Nobody shifts up from the longest speed, or from reverse.
func shiftTable(of *study.RatioTable, o Options) *Table {
	axle := of.Tyres && of.Box.Car.AxleRatio > 0 && of.Box.Car.AxleRatio != 1
	columns := []struct {
		Column
		show bool
		cell func(s *study.RatioRow) Cell
	}{
		{numbers("ratio", quantity.Number), true, func(s *study.RatioRow) Cell { return number(s.Box) }},
		{numbers("with\naxle", quantity.Number), axle, func(s *study.RatioRow) Cell { return known(s.Total) }},
		{numbers("at 1000\nrpm", quantity.Velocity), of.Tyres, func(s *study.RatioRow) Cell { return known(s.Thousand) }},
		{numbers("at "+Plain(quantity.Convert(of.Revs, quantity.RotationalSpeed, o.Units))+"\nrpm", quantity.Velocity), of.Tyres && of.Revs > 0, func(s *study.RatioRow) Cell { return known(s.Ground) }},
		{numbers("after the\nshift up", quantity.RotationalSpeed), of.Revs > 0, func(s *study.RatioRow) Cell { return known(s.After) }},
		{numbers("drop", quantity.RotationalSpeed), of.Revs > 0, func(s *study.RatioRow) Cell { return known(s.Drop) }},
		{numbers("drop\n%", quantity.Number).rounded(1), true, func(s *study.RatioRow) Cell { return known(100 * s.Lost()) }},
	}
	t := o.table("How fast it is, and what each shift up costs", words("speed", 8))
	for _, c := range columns {
		if c.show {
			t.columns(c.Column)
		}
	}
	for i := range of.Speeds {
		row := []Cell{word(of.Speeds[i].Name)}
		for _, c := range columns {
			if c.show {
				row = append(row, c.cell(&of.Speeds[i]))
			}
		}
		t.add(row...)
	}
	return t.done()
}

// pullTable tells how hard each speed pulls; nothing without a tyre radius.
func pullTable(of *study.RatioTable, o Options) *Table {
	if !of.Tyres {
		return nil
	}
	t := o.table("How hard it pulls", words("speed", 8), numbers("torque at\nthe wheels", quantity.Torque), numbers("pull", quantity.Force).alike(1))
	if of.Grip {
		t.columns(numbers("tyres\nhold", quantity.Force).alike(1), right("used", "%"), words("so", 0))
		t.say("What the tyres hold counts the weight that moves between the axles as they pull: level ground, no downforce, straight ahead.")
	}
	for _, s := range of.Speeds {
		row := []Cell{word(s.Name), number(s.Wheels), number(s.Pull)}
		if of.Grip {
			row = append(row, number(s.Holds), word(Fixed(100*s.Used, 0)), word(spins(s.Used)))
		}
		t.add(row...)
	}
	return t.done()
}

// spins says what a share of the grip means.
func spins(used float64) string {
	if used > 1 {
		return "the wheels spin"
	}
	return "the tyres hold"
}
