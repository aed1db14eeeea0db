package view

import (
	"math"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// GrowthTable tells how the load lies along the faces of a speed's meshes at other input torques. All meshes of a speed are looked at at
// the same torques.
func GrowthTable(s *gearbox.SpeedResult, o Options) *Table {
	t := o.table("How the load moves as the torque grows, in "+Shorten(Clean(s.Name), 40), numbers("input\ntorque", quantity.Torque))
	t.Together = 4
	for i := range s.Meshes {
		m := &s.Meshes[i]
		if len(m.Growth) == 0 {
			continue
		}
		for k, g := range m.Growth {
			if k == len(t.Rows) {
				t.add(append([]Cell{number(g.Torque)}, absents(len(t.Columns)-1)...)...)
			}
			t.Rows[k] = append(t.Rows[k], number(g.FaceFactor), number(100*g.InContact), number(math.Abs(g.Middle)), word(sideOf(g.Middle)))
		}
		t.columns(numbers(Shorten(Clean(m.Name), 9)+"\npeak\nK_Hβ", quantity.Number), numbers("face in\ncontact\n%", quantity.Number),
			numbers("acts off\nmiddle", quantity.Length).roughly(), words("to the", 0))
		for k, row := range t.Rows {
			t.Rows[k] = append(row, absents(len(t.Columns)-len(row))...)
		}
	}
	t.say("The load as a whole acts so far off the middle of the face, to the left or to the right. A print of marking compound " +
		"is taken at little torque: hold it beside the first lines, and see from the others where the load goes when the engine pulls.")
	return t.done()
}

// sideOf is the side of the middle of the face on which the load acts.
func sideOf(middle float64) string {
	const nothing = 0.005 // mm; what the table would show as 0.00
	switch {
	case math.IsNaN(middle):
		return Absent
	case middle > nothing:
		return "right"
	case middle < -nothing:
		return "left"
	}
	return "neither"
}
