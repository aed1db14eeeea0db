package view

import (
	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// CarriedTable tells what every bearing carries in one speed. What only bearings of known elements show has columns where there
// are such.
func CarriedTable(s *gearbox.SpeedResult, o Options) *Table {
	elements, pairs := false, false
	for i := range s.Shafts {
		for _, br := range s.Shafts[i].Bearings {
			elements, pairs = elements || Finite(br.Heaviest), pairs || Finite(br.Preload)
		}
	}
	t := o.table("What each bearing puts on its shaft in "+Clean(s.Name), once("shaft", 5), words("bearing", 7),
		numbers("across", quantity.Force).rounded(0), numbers("along", quantity.Force).rounded(0))
	if elements {
		t.columns(numbers("heaviest\nelement", quantity.Force).rounded(0))
	}
	if pairs {
		t.columns(numbers("preload\nat rest", quantity.Force).rounded(0))
	}
	for i := range s.Shafts {
		for _, br := range s.Shafts[i].Bearings {
			row := []Cell{word(s.Shafts[i].Name), word(br.Name), number(br.Radial), number(br.Force[0])}
			if elements {
				row = append(row, known(br.Heaviest))
			}
			if pairs {
				row = append(row, known(br.Preload))
			}
			t.add(row...)
		}
	}
	t.say("Along: positive pushes the shaft to the right. Of two tapered bearings set against each other each pushes with what its radial force induces, and one of them takes the thrust of the gears on top.")
	return t.done()
}
