package view

import (
	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// ReachWords says what the transmitted torque leaves out.
func ReachWords() string {
	return "The tyres are those of a car on level ground without downforce, pulling straight ahead. The inertia of wheels that are spun up, and of a clutch plate that is stopped, adds its own for a moment."
}

// ReachTable tells, speed by speed, what engine, clutch and tyres let through to the teeth; nothing when neither clutch nor tyres are given.
func ReachTable(r *gearbox.Result, o Options) *Table {
	torque := func(head string) Column { return numbers(head, quantity.Torque).alike(1) }
	t := o.table("Torque transmitted, as input torque", words("speed", 3), torque("engine\npeak"), torque("clutch\nholds"),
		torque("tyres\nhold"), torque("peak"), words("limited by", 0), torque("continuous"), words("limited by", 0))
	for i := range r.Speeds {
		s := &r.Speeds[i]
		if reach := s.Reach; reach != nil {
			t.add(word(s.Name).noting(remarks("", nil, s.Notes)), number(reach.Shocked), number(reach.Clutch), number(reach.Tyres),
				number(reach.Peak.Torque), word(string(reach.Peak.By)), number(reach.Running.Torque), word(string(reach.Running.By)))
		}
	}
	t.say("What breaks at once is held against the peak, all else against the continuous torque.", ReachWords())
	return t.done()
}
