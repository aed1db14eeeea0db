package reports

import (
	"bytes"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/reports/view"
)

// ReachWords says what the transmitted torque leaves out.
func ReachWords() string {
	return "The tyres are those of a car on level ground without downforce, pulling straight ahead. The inertia of wheels that are spun up, and of a clutch plate that is stopped, adds its own for a moment."
}

// reachTable tells, speed by speed, what engine, clutch and tyres let through to the teeth; nothing when neither clutch nor tyres are given.
func reachTable(b *bytes.Buffer, r *gearbox.Result, o Options, notes *footnotes) {
	var torques []float64
	for i := range r.Speeds {
		if reach := r.Speeds[i].Reach; reach != nil {
			torques = append(torques, reach.Shocked, reach.Clutch, reach.Tyres, reach.Peak.Torque, reach.Running.Torque)
		}
	}
	if len(torques) == 0 {
		return
	}
	torque := view.AlikeIn(torques, quantity.Torque, o.Units)
	var rows [][]cell
	for i := range r.Speeds {
		s := &r.Speeds[i]
		reach := s.Reach
		if reach == nil {
			continue
		}
		n := 5 * len(rows)
		rows = append(rows, append([]cell{{text: view.Clean(s.Name), mark: notes.mark(remarks("", nil, s.Notes))}},
			texts(torque[n], torque[n+1], torque[n+2], torque[n+3], string(reach.Peak.By), torque[n+4], string(reach.Running.By))...))
	}
	b.WriteString("\n  Torque transmitted, as input torque, " + quantity.Unit(quantity.Torque, o.Units) + "\n")
	table(b, o.width(), []head{
		{text: "speed", least: 3 + o.widestMark()},
		{text: "engine\npeak", right: true},
		{text: "clutch\nholds", right: true},
		{text: "tyres\nhold", right: true},
		{text: "peak", right: true},
		{text: "limited by"},
		{text: "continuous", right: true},
		{text: "limited by"},
	}, rows)
	paragraph(b, o.width(), indent, "What breaks at once is held against the peak, all else against the continuous torque.")
	paragraph(b, o.width(), indent, ReachWords())
}
