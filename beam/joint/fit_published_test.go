package joint

import "testing"

// Budynas and Nisbett, Shigley's Mechanical Engineering Design, 9th ed., eqs 7-39 to 7-47, p. 399 (formulas seen, figures recomputed by a solution
// of Lamé's).
func TestPressFit(t *testing.T) {
	for _, c := range []struct{ bore, pressure, hub, shaft, misesHub, misesShaft, torque, thrust float64 }{
		{0, 69.09583, 124.0292, -69.09583, 169.4915, 69.09583, 320.0842, 20005.26},
		{14, 59.08744, 106.0638, -87.06121, 144.941, 76.98542, 273.7206, 17107.54},
	} {
		f := Fit{Diameter: 32, Outer: 60, Bore: c.bore, Interference: 0.03, Length: 24, Friction: 0.12, HubYoung: 206000, ShaftYoung: 206000, HubPoisson: 0.3, ShaftPoisson: 0.3}
		same(t, "p", f.Pressure(), c.pressure, 1e-6)
		hub, shaft := f.Hoop()
		same(t, "around the hub", hub, c.hub, 1e-6)
		same(t, "around the shaft", shaft, c.shaft, 1e-6)
		misesHub, misesShaft := f.VonMises()
		same(t, "equivalent, hub", misesHub, c.misesHub, 1e-6)
		same(t, "equivalent, shaft", misesShaft, c.misesShaft, 1e-6)
		same(t, "T", f.Torque()/1e3, c.torque, 1e-6)
		same(t, "thrust", f.Thrust(), c.thrust, 1e-6)
	}
}

// A gear of 65 mm on a hollow shaft of 25 mm (statement of a textbook problem): 380 N·m with a safety of 2 needs 133 MPa, and the hub of
// 360 MPa yield, safety 2 and a factor 2 bears 67 MPa: it can't be done.
func TestGearThatCantBePressed(t *testing.T) {
	f := Fit{Diameter: 25, Outer: 65, Bore: 6, Interference: 1, Length: 29, Friction: 0.2, HubYoung: 210000, ShaftYoung: 210000, HubPoisson: 0.3, ShaftPoisson: 0.3}
	perTorque, perHoop := f.Torque()/f.Pressure(), 0.0
	hub, _ := f.Hoop()
	perHoop = hub / f.Pressure()
	least, most := 2*380e3/perTorque, 360./(2*2)/perHoop
	same(t, "least pressure", least, 133.4706, 1e-5)
	same(t, "most pressure", most, 66.80412, 1e-5)
	same(t, "least interference", least/f.Pressure(), 0.03923819, 1e-5)
	same(t, "most interference", most/f.Pressure(), 0.01963933, 1e-5)
}

// DIN 7190 (from memory): of 30 µm on surfaces of 4 and 6.3 µm 21.76 are left.
func TestFlattened(t *testing.T) {
	same(t, "left", Flattened(30, 4, 6.3), 21.76, 1e-12)
}

// Shigley, example 7-6 (from memory): 40 hp at 600 rpm in a shaft of 1 7/16 in, a key of 3/8 in of 65 kpsi, n 2.8: 4200 lbf·in, 5850 lbf, 1.16 in.
func TestExample7_6(t *testing.T) {
	torque := 63025 * 40 / 600.
	near(t, "T", torque, 4200, 2)
	k := Key{Diameter: 1.4375, Width: 0.375, Height: 0.375, Length: 1}
	near(t, "F", torque/(1.4375/2), 5850, 10)
	near(t, "length for shear", k.Shear(torque)*2.8/37500, 1.16, 0.01)
	same(t, "length for crushing", k.Pressure(torque)*2.8/65000, 1.344, 2e-3)
	same(t, "length for crushing against the shaft", k.Pressure(torque)*2.8/75000, 1.1648, 2e-3)
}
