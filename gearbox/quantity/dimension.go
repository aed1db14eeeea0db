package quantity

// Dimension says what kind of quantity a number is.
type Dimension int

// The dimensions, with the inner unit of each.
const (
	Number          Dimension = iota // without a unit; "98.5 %" is read as 0.985
	Length                           // mm
	Force                            // N
	Torque                           // N·mm
	Stress                           // MPa
	RotationalSpeed                  // rad/s
	Angle                            // rad
	Mass                             // kg
	Density                          // kg/mm³
	Hardness                         // the number on its own scale, see Quantity.Scale
	RadialStiffness                  // N/mm, across the shaft or along it
	TiltStiffness                    // N·mm/rad
	Temperature                      // °C
	PitchPerInch                     // diametral pitch, teeth per inch of reference diameter
	Viscosity                        // kinematic, mm²/s
	MeshStiffness                    // N/mm per mm of face width
	Deflection                       // mm, shown as µm or thou; read as a Length
	Slope                            // rad, shown as mrad; read as an Angle
	Time                             // s
	Velocity                         // mm/s
	MomentOfInertia                  // kg·mm²
	TorqueTime                       // torque × time that changes a speed, N·mm·s
	Energy                           // N·mm, shown as J
	TorquePerMass                    // N·mm/kg
)

// String is the dimension in words, "rotational speed".
func (d Dimension) String() string { return dimensions[d].noun }

// A dimension as people meet it: what it is called, how a value is written, and the unit it is shown in.
type dimension struct {
	article, noun string
	example       string
	shown         [2]string // by System
}

var dimensions = [...]dimension{
	Number:          {"a", "plain number", "0.35", [2]string{"", ""}},
	Length:          {"a", "length", "25.4 mm", [2]string{"mm", "in"}},
	Force:           {"a", "force", "300 N", [2]string{"N", "lbf"}},
	Torque:          {"a", "torque", "170 N·m", [2]string{"N·m", "lbf·ft"}},
	Stress:          {"a", "stress", "700 MPa", [2]string{"MPa", "ksi"}},
	RotationalSpeed: {"a", "rotational speed", "9000 rpm", [2]string{"rpm", "rpm"}},
	Angle:           {"an", "angle", "20°", [2]string{"°", "°"}},
	Mass:            {"a", "mass", "1.2 kg", [2]string{"kg", "lb"}},
	Density:         {"a", "density", "7.85 g/cm³", [2]string{"g/cm³", "lb/in³"}},
	Hardness:        {"a", "hardness", "58 HRC", [2]string{"", ""}},
	RadialStiffness: {"a", "stiffness", "250 N/µm", [2]string{"N/µm", "lbf/in"}},
	TiltStiffness:   {"a", "tilt stiffness", "15 kN·m/rad", [2]string{"kN·m/rad", "lbf·ft/rad"}},
	Temperature:     {"a", "temperature", "80 °C", [2]string{"°C", "°F"}},
	PitchPerInch:    {"a", "diametral pitch", "10 /in", [2]string{"/in", "/in"}},
	Viscosity:       {"a", "viscosity", "100 mm²/s", [2]string{"mm²/s", "mm²/s"}},
	MeshStiffness:   {"a", "mesh stiffness", "16 N/(mm·µm)", [2]string{"N/(mm·µm)", "psi"}},
	Deflection:      {"a", "length", "20 µm", [2]string{"µm", "thou"}},
	Slope:           {"an", "angle", "0.5 mrad", [2]string{"mrad", "mrad"}},
	Time:            {"a", "time", "12 s", [2]string{"s", "s"}},
	Velocity:        {"a", "speed over ground", "120 km/h", [2]string{"km/h", "mph"}},
	MomentOfInertia: {"a", "moment of inertia", "0.0042 kg·m²", [2]string{"kg·cm²", "lb·in²"}},
	TorqueTime:      {"a", "torque × time", "2.5 N·m·s", [2]string{"N·m·s", "lbf·ft·s"}},
	Energy:          {"an", "energy", "900 J", [2]string{"J", "ft·lbf"}},
	TorquePerMass:   {"a", "torque per mass", "15 N·m/kg", [2]string{"N·m/kg", "lbf·ft/lb"}},
}

// physical is the dimension itself where d only says how it is shown.
func (d Dimension) physical() Dimension {
	switch d {
	case Deflection:
		return Length
	case Slope:
		return Angle
	default:
		return d
	}
}

// expected is "a length is expected, such as 25.4 mm".
func (d Dimension) expected() string {
	k := dimensions[d]
	return k.article + " " + k.noun + " is expected, such as " + k.example
}

// Example is a value of the dimension as a person writes it, "25.4 mm".
func (d Dimension) Example() string { return dimensions[d].example }

// Units lists the units in which a value of the dimension may be written, each in its main spelling, the usual one first. It is empty for a
// Number except for the percent sign.
func Units(d Dimension) []string {
	var names []string
	for i := range units {
		if units[i].dimension == d.physical() {
			names = append(names, units[i].name())
		}
	}
	return names
}
