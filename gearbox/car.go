package gearbox

// Clutch is what stands between the engine and the input shaft: what it holds is told, or follows from its parts.
type Clutch struct {
	Torque   float64 // what it holds before it slips, N·mm; 0 = by the rest
	Clamp    float64 // force that presses its faces together, N
	Faces    int     // pairs of faces that rub; a single plate has two
	Friction float64 // coefficient of friction of the faces
	Radius   float64 // mean radius of the faces, mm
}

// Holds is the torque above which the clutch slips, N·mm: as told, else T = n µ F r_m (faces that wear evenly rub as if all of them lay at the mean radius).
func (c *Clutch) Holds() float64 {
	if c.Torque > 0 {
		return c.Torque
	}
	return float64(c.Faces) * c.Friction * c.Clamp * c.Radius
}

// Drive says which axle drives.
type Drive string

// The drives.
const (
	RearDrive  Drive = "rear"
	FrontDrive Drive = "front"
	AllDrive   Drive = "all"
)

// Drives lists the drives in the order shown to people.
func Drives() []Drive { return []Drive{RearDrive, FrontDrive, AllDrive} }

// Car is what the box drives. With a tyre radius alone it has a speed over ground; with the rest the tyres bound the torque too.
type Car struct {
	TyreRadius     float64 // rolling radius of a driven tyre under load, mm
	AxleRatio      float64 // turns of the box's output per turn of the wheels; 0 = 1, the final drive is in the box
	AxleEfficiency float64 // power at the wheels over power out of the box, 0 < η ≤ 1; 0 = 1

	Mass        float64 // as it starts, with the driver, kg; 0 = what the tyres hold isn't known
	Drive       Drive   //
	DrivenShare float64 // part of the weight on the driven axle, standing still, 0 to 1; not for AllDrive
	Wheelbase   float64 // mm; not for AllDrive
	Height      float64 // of the centre of gravity above the ground, mm; not for AllDrive
	Grip        float64 // coefficient of friction of tyre on ground (µ)
}

// standardGravity is that of the third General Conference on Weights and Measures, 1901, m/s².
const standardGravity = 9.80665

// Ground is the speed over ground, mm/s, at a speed of the input shaft, rad/s, and a total ratio, with tyres that roll without slip: v = ω r/i.
func (c *Car) Ground(revs, total float64) float64 { return revs * c.TyreRadius / total }

// gripKnown reports whether enough is told to say what the tyres hold.
func (c *Car) gripKnown() bool { return c != nil && c.Mass > 0 && c.Grip > 0 }

// axle is the ratio and the efficiency of what stands between the box and the wheels.
func (c *Car) axle() (ratio, efficiency float64) {
	ratio, efficiency = c.AxleRatio, c.AxleEfficiency
	if ratio == 0 {
		ratio = 1
	}
	if efficiency == 0 {
		efficiency = 1
	}
	return ratio, efficiency
}

// Holds is the largest force along the ground that the driven tyres pass on before they slip, N, and whether the undriven axle leaves the ground before. The car stands on level ground
// without downforce; forwards tells which way the ground pushes it.
//
// A force F at the ground acts the height h below the centre of gravity, so that F h/L moves from one axle to the other: to the rear when the car is
// pushed forwards. The driven axle of a share s of the weight W then carries W s ± F h/L, and slips at µ times that: F = µ W s/(1 ∓ µ h/L), the upper sign where the push loads it. Once the
// other axle is off the ground the driven one carries W, all there is, so that F is never more than µ W; since the nose goes on rising, lifting off by itself doesn't spare the teeth.
// On a slope of angle φ all is the same but for W cos φ in place of W.
func (c *Car) Holds(forwards bool) (force float64, lifts bool) {
	weight := c.Mass * standardGravity
	if c.Drive == AllDrive {
		return c.Grip * weight, false
	}
	moved := c.Grip * c.Height / c.Wheelbase // part of the force at the ground, times µ, that goes over to the other axle
	if forwards != (c.Drive == RearDrive) {
		moved = -moved
	}
	if moved >= 1-c.DrivenShare {
		return c.Grip * weight, moved > 1-c.DrivenShare
	}
	return c.Grip * weight * c.DrivenShare / (1 - moved), false
}

// checkCar makes sure that a clutch and a car can be. A box file has been through this already, with its places.
func (p *prepared) checkCar() {
	if c := p.box.Clutch; c != nil && !(c.Holds() > 0) {
		p.fault("clutch", "a clutch that holds nothing", "Tell the torque it holds, or clamp, faces, friction and mean radius, all greater than 0.")
	}
	c := p.box.Car
	if c == nil {
		return
	}
	if !(c.TyreRadius > 0) || c.AxleRatio < 0 || c.AxleEfficiency < 0 || c.AxleEfficiency > 1 {
		p.fault("car", "a car that can't be", "The tyre radius must be greater than 0, so must ratio and efficiency of the axle, the latter at most 1.")
	}
	switch {
	case !c.gripKnown() || c.Drive == AllDrive:
	case c.Drive != RearDrive && c.Drive != FrontDrive:
		p.fault("car.drive", "unknown drive", "Found %q; it must be rear, front or all.", c.Drive)
	case !(c.DrivenShare > 0 && c.DrivenShare < 1 && c.Wheelbase > 0 && c.Height > 0):
		p.fault("car", "where the weight lies isn't told", "What the tyres of one axle hold needs the share of the weight on it, between 0 and 1, the wheelbase and the height of the centre of gravity.")
	}
}
