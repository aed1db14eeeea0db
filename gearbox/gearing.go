package gearbox

import "math"

// Gearing is the gearing of one speed as it stands, with nothing bent.
type Gearing struct {
	Name       string
	Ratio      float64 // turns of the input shaft per turn of the output shaft; negative when they turn opposite ways
	Efficiency float64 // of the box in drive, power out / power in
	Total      float64 // turns of the input shaft per turn of the driven wheels, > 0; Ratio where no car is told
	ToWheels   float64 // efficiency from the input shaft to the wheels in drive, 0 to 1
	Reverse    bool    // the car goes backwards
	Reach      *Reach  // what clutch and tyres let through; nil when neither is told
}

// Gearings lists the gearing of every speed of a box in the order of its file. torque is that of the engine, N·mm, which is held against clutch and tyres; 0 = the box's own. The error is a
// diag.List when the box itself is at fault.
func Gearings(b *Box, torque float64) ([]Gearing, error) {
	if torque == 0 {
		torque = b.Torque
	}
	p := prepare(b, Method{})
	if p.found.HasErrors() {
		p.found.Sort()
		return nil, p.found
	}
	axle, efficiency := 1.0, 1.0
	if b.Car != nil {
		axle, efficiency = b.Car.axle()
	}
	var all []Gearing
	for _, s := range b.Speeds {
		f := p.follow(s, float64(b.Turns))
		all = append(all, Gearing{
			Name: s.Name, Ratio: f.ratio, Efficiency: f.efficiency, Total: math.Abs(f.ratio) * axle, ToWheels: f.efficiency * efficiency,
			Reverse: p.backwards(s), Reach: p.reach(s, torque),
		})
	}
	return all, nil
}
