package view

import (
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/material"
)

// LimitTables have one row per speed: what limits it, and how that stands. Where it is known what clutch and tyres let through, that
// comes first, and what would be if all arrived second.
func LimitTables(r *gearbox.Result, o Options) []*Table {
	if !transmits(r) {
		return []*Table{inputTable("What each speed is limited by, and how it stands", r, o)}
	}
	return []*Table{
		TransmittedTable("What each speed is limited by at the torque transmitted, and how it stands", r, o),
		inputTable("What each speed bears at the input, if all of it arrived", r, o),
	}
}

// transmits reports whether it is known of any speed what clutch or tyres let through.
func transmits(r *gearbox.Result) bool {
	return slices.ContainsFunc(r.Speeds, func(s gearbox.SpeedResult) bool { return s.Reach != nil })
}

// Bounded is what bounds the torque that comes to a limit of a speed; absent where that isn't known.
func Bounded(s *gearbox.SpeedResult, m *gearbox.Margin) string {
	if s.Reach == nil {
		return Absent
	}
	by := string(s.Reach.Bounding(m.Kind))
	if m.Kind.Static() {
		by = "peak, " + by
	}
	return by
}

// comes is the torque that comes to a limit of a speed.
func comes(s *gearbox.SpeedResult, m *gearbox.Margin) Cell {
	if s.Reach == nil {
		return absent()
	}
	return number(m.Comes)
}

// unlimited are the cells behind the name of a speed of which no limit could be checked.
func unlimited(columns int) []Cell {
	return append([]Cell{word("no limit could be checked")}, absents(columns-1)...)
}

// TransmittedTable has one row per speed: the limit with the least left at the torque transmitted; nil where nothing is known of that.
func TransmittedTable(caption string, r *gearbox.Result, o Options) *Table {
	if !transmits(r) {
		return nil
	}
	t := o.table(caption, words("speed", 3), wrapped("limited by", 5), numbers("arrives", quantity.Torque), words("bounded by", 0),
		right("left", "%"), words("state", 0))
	for i := range r.Speeds {
		s := &r.Speeds[i]
		row := []Cell{word(s.Name).noting(remarks("", nil, s.Notes))}
		if m := s.Deciding(); m != nil {
			row = append(row, firstLimit(m, m.Left(), s.Name), comes(s, m), word(Bounded(s, m)), percent(m.Left()), state(m.Judged()))
		} else {
			row = append(row, unlimited(5)...)
		}
		t.add(row...)
	}
	return t.done()
}

// inputTable has one row per speed: what it is limited by at the input, at what torque, and how that stands against the asked one.
func inputTable(caption string, r *gearbox.Result, o Options) *Table {
	t := o.table(caption, words("speed", 3), numbers("ratio", quantity.Number), wrapped("limited by", 5), numbers("allowable", quantity.Torque).alike(1),
		numbers("poorest … best", quantity.Torque).alike(1), right("left", "%"), words("state", 0))
	doubtful := false
	worst := worstOfKind(r)
	for i := range r.Speeds {
		s := &r.Speeds[i]
		// Which way the shafts turn stands in JSON.
		row := []Cell{word(s.Name).noting(remarks("", s.Checks, s.Notes), remarks("", nil, hiddenNotes(s, worst))), number(math.Abs(s.Ratio))}
		if len(s.Margins) == 0 {
			t.add(append(row, unlimited(5)...)...)
			continue
		}
		m := s.Governing()
		stands := state(m.State)
		if Doubtful(m.State, s.Allowable(material.Low), r.Torque) {
			stands.Text, doubtful = stands.Text+doubt, true
		}
		t.add(append(row, firstLimit(m, m.Margin, s.Name), number(m.Allowable[m.Level]), poorestToBest(s.Allowable(material.Low), s.Allowable(material.High)),
			percent(m.Margin), stands)...)
	}
	t.say(rangeWords(doubtful), SumWords(r))
	return t.done()
}

// Doubtful reports whether a limit holds only because not everything that is a range sits at its low end; low is what would be
// allowed then.
func Doubtful(s gearbox.State, low, asked float64) bool {
	return s != gearbox.Over && low < math.Abs(asked)
}

// poorestToBest is the range of allowable torques from the poorest to the best steel; nothing when they are the same.
func poorestToBest(low, high float64) Cell {
	if low == high {
		return absent()
	}
	return between(low, high)
}

// SumWords says why several speeds show the same margin of fatigue; "" without a duty or with one speed.
func SumWords(r *gearbox.Result) string {
	if r.Box.Duty == nil || len(r.Speeds) < 2 {
		return ""
	}
	return "Fatigue is one sum over the whole duty (Miner's rule), not one for each speed: a gear that several speeds load shows the same margin in all of them."
}

// rangeWords explains the columns of allowable torque.
func rangeWords(doubtful bool) string {
	text := "Poorest and best: what is allowed with the poorest and with the best steel that the file allows; another limit may come first there."
	if doubtful {
		text += " ▾: with the poorest that is less than was asked."
	}
	return text
}

// firstLimit names what limits a speed: nothing when its limit is never reached.
func firstLimit(m *gearbox.Margin, left float64, speed string) Cell {
	return word(FirstName(m, left, speed)).of(m)
}

// FirstName is firstLimit in words.
func FirstName(m *gearbox.Margin, left float64, speed string) string {
	if math.IsInf(left, 1) {
		return NotReached
	}
	return limitIn(m, speed)
}
