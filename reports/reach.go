package reports

import (
	"bytes"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// ReachWords says what the torque that reaches the teeth leaves out.
func ReachWords() string {
	return "The tyres are those of a car on level ground without downforce, pulling straight ahead. The inertia of wheels that are spun up, and of a clutch plate that is stopped, adds its own for a moment."
}

// reachTable tells, speed by speed, what engine, clutch and tyres let through to the teeth, and what runs out first at that; nothing when neither clutch nor tyres are told.
func reachTable(b *bytes.Buffer, r *gearbox.Result, o Options, notes *footnotes) {
	var reaches []*gearbox.Reach
	var torques []float64
	for i := range r.Speeds {
		if reach := r.Speeds[i].Reach; reach != nil {
			reaches = append(reaches, reach)
			torques = append(torques, reach.Shocked, reach.Clutch, reach.Tyres, reach.Peak.Torque, reach.Running.Torque)
		}
	}
	if len(reaches) == 0 {
		return
	}
	torque := column(torques, quantity.Torque, o.Units)
	var bounds, limits [][]cell
	for i := range r.Speeds {
		s := &r.Speeds[i]
		reach := s.Reach
		if reach == nil {
			continue
		}
		n := 5 * len(bounds)
		speed := cell{text: harmless(s.Name), mark: notes.mark(remarks("", nil, s.Notes))}
		bounds = append(bounds, append([]cell{speed},
			texts(torque[n], torque[n+1], torque[n+2], torque[n+3], string(reach.Peak.By), torque[n+4], string(reach.Running.By))...))
		if reach.First >= 0 && reach.First < len(s.Margins) {
			m := &s.Margins[reach.First]
			limits = append(limits, []cell{speed, {text: limitName(m), mark: notes.mark(remarks("", nil, m.Notes))}, stateCell(m.ReachedState, o.Colour), {text: percent(m.Reached)}, {text: percent(s.Governing().Margin)}})
		}
	}
	b.WriteString("\n  What really reaches the teeth: input torque, " + quantity.Unit(quantity.Torque, o.Units) + "\n")
	table(b, o.width(), []head{
		{text: "speed", least: 3 + o.widestMark()},
		{text: "engine\npeak", right: true},
		{text: "clutch\nholds", right: true},
		{text: "tyres\nhold", right: true},
		{text: "so the\npeak is", right: true},
		{text: "by"},
		{text: "and what\nruns", right: true},
		{text: "by"},
	}, bounds)
	if len(limits) == 0 {
		return
	}
	b.WriteString("\n  What runs out first with that\n")
	table(b, o.width(), []head{
		{text: "speed", least: 3 + o.widestMark()},
		{text: "runs out first", least: 12},
		{text: "state"},
		{text: "margin\n%", right: true},
		{text: "as asked\n%", right: true},
	}, limits)
	paragraph(b, o.width(), indent, "What breaks or yields at once is held against the peak, all else against what runs. The other tables, and the verdict, are for the torque asked about, whatever clutch and tyres let through.")
	paragraph(b, o.width(), indent, ReachWords())
}
