package boxfile

import (
	"fmt"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// The tables of what stands before and behind the box and bounds its torque: the clutch, and the car on its tyres.

var clutchFields = []field[gearbox.Clutch]{
	{key: "torque", about: "what it holds before it slips; this or clamp and the rest", fallback: "–", value: number(quantity.Torque, torques, func(c *gearbox.Clutch) *float64 { return &c.Torque })},
	{key: "clamp", about: "force that presses its faces together", fallback: "–", value: number(quantity.Force, within(0.01, 1000, 1000, " kN"), func(c *gearbox.Clutch) *float64 { return &c.Clamp })},
	{key: "faces", about: "pairs of faces that rub: a single plate has two", fallback: "2", value: count(1, 40, func(c *gearbox.Clutch) *int { return &c.Faces })},
	{key: "friction", about: "coefficient of friction of the faces", fallback: "–", value: number(quantity.Number, within(0.02, 1.5, 1, ""), func(c *gearbox.Clutch) *float64 { return &c.Friction })},
	{key: "mean_radius", about: "mean radius of the faces", fallback: "–", value: number(quantity.Length, sizes, func(c *gearbox.Clutch) *float64 { return &c.Radius })},
}

var carFields = []field[gearbox.Car]{
	{key: "tyre_radius", need: true, about: "rolling radius of a driven tyre under load", value: number(quantity.Length, within(50, 2000, 1, " mm").such("320 mm"), func(c *gearbox.Car) *float64 { return &c.TyreRadius })},
	{key: "axle_ratio", about: "turns of the box's output per turn of the wheels; 1 when the final drive is in the box", fallback: "1", value: number(quantity.Number, within(0.1, 50, 1, ""), func(c *gearbox.Car) *float64 { return &c.AxleRatio })},
	{key: "axle_efficiency", about: "power at the wheels over power out of the box", fallback: "100 %", value: number(quantity.Number, percent(50, 100), func(c *gearbox.Car) *float64 { return &c.AxleEfficiency })},
	{key: "mass", about: "as it starts, with the driver; this key and those below say what the tyres hold", fallback: "not known", value: number(quantity.Mass, within(10, 1e5, 1, " kg").such("620 kg"), func(c *gearbox.Car) *float64 { return &c.Mass })},
	{key: "drive", about: "which axle drives", fallback: "–", value: word("drive", gearbox.Drives(), func(c *gearbox.Car, d gearbox.Drive) { c.Drive = d })},
	{key: "driven_share", about: "part of the weight that lies on the driven axle, standing still; not where all drive", fallback: "–", value: number(quantity.Number, percent(5, 95), func(c *gearbox.Car) *float64 { return &c.DrivenShare })},
	{key: "wheelbase", about: "distance of the axles; not needed where all drive", fallback: "–", value: number(quantity.Length, within(300, 20000, 1, " mm").such("2300 mm"), func(c *gearbox.Car) *float64 { return &c.Wheelbase })},
	{key: "centre_of_gravity", about: "height of the centre of gravity above the ground; not needed where all drive", fallback: "–", value: number(quantity.Length, within(10, 5000, 1, " mm").such("420 mm"), func(c *gearbox.Car) *float64 { return &c.Height })},
	{key: "grip", about: "coefficient of friction of tyre on ground (µ)", fallback: "–", value: number(quantity.Number, within(0.05, 5, 1, ""), func(c *gearbox.Car) *float64 { return &c.Grip })},
}

func newClutch(b *boxDraft) *gearbox.Clutch {
	b.Clutch = &gearbox.Clutch{Faces: 2}
	return b.Clutch
}

func newCar(b *boxDraft) *gearbox.Car {
	b.Car = &gearbox.Car{AxleRatio: 1, AxleEfficiency: 1}
	return b.Car
}

// checkClutch reports a clutch that is told twice or by half.
func checkClutch(r *reader, at spot, _ *gearbox.Clutch, given map[string]bool) {
	parts := []string{"clamp", "friction", "mean_radius"}
	if given["torque"] {
		for _, key := range append(parts, "faces") {
			if path := join(at.path, key); given[key] {
				r.fault(r.box.Places[path], path, "two values for one thing", "What the clutch holds is told by torque, or follows from clamp, faces, friction and mean_radius: keep one of them.")
				return
			}
		}
		return
	}
	r.missing(at, parts, given, "A clutch is told by the torque it holds, such as torque: 420 N·m, or by clamp, faces, friction and mean_radius.")
}

// checkCar reports a car of which too little is told to say what its tyres hold, once anything is told that only that needs.
func checkCar(r *reader, at spot, c *gearbox.Car, given map[string]bool) {
	needed, told := []string{"mass", "drive", "grip"}, ""
	for _, key := range []string{"mass", "drive", "driven_share", "wheelbase", "centre_of_gravity", "grip"} {
		if given[key] && told == "" {
			told = key
		}
	}
	if told == "" {
		return
	}
	if c.Drive != gearbox.AllDrive {
		needed = append(needed, "driven_share", "wheelbase", "centre_of_gravity")
	} else if path := join(at.path, "driven_share"); given["driven_share"] {
		r.fault(r.box.Places[path], path, "all wheels drive", "Then the whole weight lies on driven wheels: leave driven_share out.")
	}
	r.missing(at, needed, given, fmt.Sprintf("With %s given, what the tyres hold is to be worked out. That needs mass, drive and grip, and, unless all wheels drive, driven_share, wheelbase and centre_of_gravity.", told))
}

// missing reports in one finding the keys that are needed together and not all given.
func (r *reader) missing(at spot, needed []string, given map[string]bool, why string) {
	var absent []string
	for _, key := range needed {
		if !given[key] {
			absent = append(absent, strconv.Quote(key))
		}
	}
	switch n := len(absent); n {
	case 0:
	case 1:
		r.fault(at.owner, at.path, "missing key "+absent[0], why)
	default:
		r.fault(at.owner, at.path, "missing keys "+strings.Join(absent[:n-1], ", ")+" and "+absent[n-1], why)
	}
}
