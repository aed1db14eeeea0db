package view

import (
	"errors"
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// ReportableWeights refuses results that don't tell what their boxes weigh.
func ReportableWeights(boxes []study.WeighedBox) error {
	if len(boxes) == 0 {
		return errors.New("the results don't tell what the boxes weigh: report only what was solved")
	}
	return Reportable(WeighedResults(boxes))
}

// WeighedResults are the solved boxes.
func WeighedResults(boxes []study.WeighedBox) []*gearbox.Result {
	return Each(boxes, func(box study.WeighedBox) *gearbox.Result { return box.Result })
}

// PartTables tell what the parts of a box weigh and how hard they are to spin, and what the scales say beside it.
func PartTables(w *gearbox.Weights, o Options) []*Table {
	return []*Table{partTable(w, o), scalesTable(w, o)}
}

// partTable has one row per part.
func partTable(w *gearbox.Weights, o Options) *Table {
	t := o.table("", words("part", 12), words("on", 12), numbers("mass", quantity.Mass), words("by", 0), numbers("inertia", quantity.MomentOfInertia))
	for _, p := range w.Parts {
		on, by, name := Absent, "dimensions", p.Name
		switch title := gearbox.ShaftTitle(p.On); {
		case p.On == "":
		case p.Kind == gearbox.OtherPart:
			on = "turns with " + title
		case p.Cut:
			on = "cut into " + title
		default:
			on = title
		}
		switch {
		case p.Weighed:
			by = "scales"
		case p.Kind == gearbox.OtherPart:
			by = "given"
		}
		if p.Kind == gearbox.ShaftPart {
			name = gearbox.ShaftTitle(p.Name)
		}
		t.add(word(name), word(on), known(p.Mass), word(by), known(p.Inertia))
	}
	return t.done()
}

// scalesTable has one row per reading of the scales, beside what the same parts weigh by their dimensions: a check of both.
func scalesTable(w *gearbox.Weights, o Options) *Table {
	t := o.table("On the scales", words("what", 20), numbers("weighed", quantity.Mass).alike(1), numbers("by dimensions", quantity.Mass).alike(1), right("difference", "%"))
	for _, p := range w.Pieces {
		row := []Cell{word(List(p.Names)), number(p.Weighed), absent(), absent()}
		if p.Computed > 0 {
			row[2], row[3] = number(p.Computed), percent(p.Difference())
		}
		t.add(row...)
	}
	return t.done()
}

// MassTables set masses side by side, and the torque that is borne for them.
func MassTables(boxes []study.WeighedBox, o Options) []*Table {
	return []*Table{massTable(boxes, o), borneTable(boxes, o)}
}

// massTable has one row per box.
func massTable(boxes []study.WeighedBox, o Options) *Table {
	names := BoxNames(WeighedResults(boxes))
	kg := func(head string) Column { return numbers(head, quantity.Mass).alike(1) }
	t := o.table("What it weighs", words("box", 3), kg("shafts"), kg("gears"), kg("together"), kg("other parts\ngiven"), kg("whole box\nweighed"), kg("not\nitemised"))
	given := func(v float64) Cell {
		if v == 0 {
			return absent()
		}
		return known(v)
	}
	for i, box := range boxes {
		w := box.Result.Weights
		t.add(word(names[i]).noting(remarks("", nil, w.Notes)), number(w.Shafts), number(w.Gears), number(w.Turning()), given(w.Others), given(w.Box.Weighed.Box), known(w.Rest()))
	}
	return t.done()
}

// pull is one speed of one box: its torque per mass, and what its synchroniser has to match. What isn't known is NaN.
type pull struct {
	speed            string
	box              int
	result           *gearbox.SpeedResult
	perMass, inertia float64
	up, down, heat   float64
	unknown          []string // why the synchroniser isn't known
}

// pulls lists every speed of every box, speed by speed.
func pulls(boxes []study.WeighedBox) (all []pull) {
	speeds := []string{}
	for _, box := range boxes {
		for i := range box.Result.Speeds {
			if name := box.Result.Speeds[i].Name; !slices.Contains(speeds, name) {
				speeds = append(speeds, name)
			}
		}
	}
	for _, speed := range speeds {
		for i := range boxes {
			for k := range boxes[i].Result.Speeds {
				if s := &boxes[i].Result.Speeds[k]; s.Name == speed {
					all = append(all, newPull(&boxes[i], i, s))
				}
			}
		}
	}
	return all
}

func newPull(box *study.WeighedBox, i int, s *gearbox.SpeedResult) pull {
	nan := math.NaN()
	p := pull{speed: s.Name, box: i, result: s, perMass: box.PerMassOf(s.Name), inertia: nan, up: nan, down: nan, heat: nan}
	y := box.Synchroniser(s.Name)
	if y == nil {
		return p
	}
	p.inertia = y.Inertia
	if y.Unknown != "" {
		p.unknown = append(p.unknown, "Not known at the synchroniser of "+Clean(p.speed)+": "+y.Unknown+".")
	}
	if y.Up != nil {
		p.up, p.heat = y.Up.TorqueTime, y.Up.Heat
	}
	if y.Down != nil {
		p.down = y.Down.TorqueTime
		if !(p.heat >= y.Down.Heat) {
			p.heat = y.Down.Heat
		}
	}
	return p
}

// borneTable has one row per speed and box.
func borneTable(boxes []study.WeighedBox, o Options) *Table {
	names := BoxNames(WeighedResults(boxes))
	of := "shafts and gears"
	if boxes[0].Whole {
		of = "the whole box"
	}
	t := o.table("Torque per mass ("+of+"), and what its synchronisers have to match", once("speed", 5), words("box", 3), numbers("allowable", quantity.Torque),
		numbers("per mass", quantity.TorquePerMass), right("margin", "%"), words("state", 0), numbers("inertia", quantity.MomentOfInertia),
		numbers("up", quantity.TorqueTime), numbers("down", quantity.TorqueTime), numbers("heat", quantity.Energy))
	t.Lead = 2
	shifts := false
	for _, p := range pulls(boxes) {
		margin, stands := absent(), absent()
		if len(p.result.Margins) > 0 {
			m := p.result.Governing()
			margin, stands = percent(m.Margin), state(m.State)
		}
		shifts = shifts || p.up > 0 || p.down > 0
		t.add(word(p.speed), word(names[p.box]).noting(remarks("", nil, p.unknown)), known(p.result.First.Torque), known(p.perMass), margin, stands,
			known(p.inertia), known(p.up), known(p.down), known(p.heat))
	}
	if shifts {
		t.say("Up: torque × time that slows it down in a shift into this speed from the one below, begun at the revs of the file. Down: the same, to speed it up from the one above, ended at them. " +
			"Heat: what the worse of both leaves in the cones. Oil drag is left out.")
	}
	return t.done()
}
