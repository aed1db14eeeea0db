package joint

import "math"

// Fit is a press fit of a ring on a shaft of one or two steels.
type Fit struct {
	Diameter, Outer, Bore    float64 // of the joint, of the hub, of the hole in the shaft, mm
	Interference             float64 // on the diameter, as it is left (see Flattened), mm
	Length, Friction         float64 // mm, –
	HubYoung, ShaftYoung     float64 // MPa
	HubPoisson, ShaftPoisson float64 // –
}

// Pressure is that of the joint, MPa. Source: Shigley's Mechanical Engineering Design, 9th ed., eq. 7-39.
func (f Fit) Pressure() float64 {
	d, o, i := f.Diameter*f.Diameter, f.Outer*f.Outer, f.Bore*f.Bore
	give := f.Diameter/f.HubYoung*((o+d)/(o-d)+f.HubPoisson) + f.Diameter/f.ShaftYoung*((d+i)/(d-i)-f.ShaftPoisson)
	return f.Interference / give
}

// Hoop is the stresses around the joint in hub and shaft, MPa.
func (f Fit) Hoop() (hub, shaft float64) {
	p, d := f.Pressure(), f.Diameter*f.Diameter
	o, i := f.Outer*f.Outer, f.Bore*f.Bore
	return p * (o + d) / (o - d), -p * (d + i) / (d - i)
}

// VonMises is the equivalent stresses at the joint in hub and shaft, MPa.
func (f Fit) VonMises() (hub, shaft float64) {
	p := f.Pressure()
	h, s := f.Hoop()
	of := func(around float64) float64 { return math.Sqrt(around*around + around*p + p*p) } // the joint presses: σ_r = −p
	return of(h), of(s)
}

// AtBore is the stress around the bore of a hollow shaft, the largest in it, MPa; 0 of a solid one (Lamé: −2 p d²/(d² − i²)).
func (f Fit) AtBore() float64 {
	if f.Bore == 0 {
		return 0
	}
	d := f.Diameter * f.Diameter
	return -2 * f.Pressure() * d / (d - f.Bore*f.Bore)
}

// Torque is what the joint carries by friction, N·mm: μ p π d² l/2.
func (f Fit) Torque() float64 {
	return f.Friction * f.Pressure() * math.Pi * f.Diameter * f.Diameter * f.Length / 2
}

// Thrust is what it carries along the shaft, N.
func (f Fit) Thrust() float64 {
	return f.Friction * f.Pressure() * math.Pi * f.Diameter * f.Length
}

// Flattened is the interference that is left of a measured one when rough surfaces have been pressed flat, all in one unit:
// U − 0.8 (Rz_A + Rz_B). Form of DIN 7190 (from memory).
func Flattened(measured, one, other float64) float64 { return measured - 0.8*(one+other) }

// Key is a parallel key.
type Key struct {
	Diameter, Width, Height, Length float64 // of the shaft, and of the key, mm
}

// Shear is the shear stress in the key under a torque, MPa: 2 T/(D W L).
func (k Key) Shear(torque float64) float64 { return 2 * torque / (k.Diameter * k.Width * k.Length) }

// Pressure is that on its flanks, half of its height, MPa: 4 T/(D H L).
func (k Key) Pressure(torque float64) float64 {
	return 4 * torque / (k.Diameter * k.Height * k.Length)
}

// Circlip is the groove of a circlip on a shaft: diameter beside it and at its bottom, mm.
type Circlip struct{ Outer, Bottom float64 }

// Groove is the force that the groove bears in metal of a yield strength (MPa), N, with a shoulder of three times its depth:
// π/4 (d_1² − d_2²) R_e/1.2. Form of DIN 471 (the 1.2 from memory; it fits eight sizes of the table).
func (c Circlip) Groove(yield float64) float64 {
	return math.Pi / 4 * (c.Outer*c.Outer - c.Bottom*c.Bottom) * yield / 1.2
}

// InchGroove and InchRing are the forces by inch practice, which has other safeties inside: D d π S_y/SF of the groove, D t π S_s/SF of
// the ring (from memory).
func InchGroove(diameter, depth, yield, safety float64) float64 {
	return diameter * depth * math.Pi * yield / safety
}

// InchRing is the force that the ring itself bears in shear.
func InchRing(diameter, thick, shear, safety float64) float64 {
	return diameter * thick * math.Pi * shear / safety
}
