package joint

import "math"

// Bolt is the stiffness of a bolted joint, in mm and MPa or any units that agree.
type Bolt struct {
	Diameter      float64 // nominal, mm
	Shank, Thread float64 // lengths of shank and of thread within the grip, mm
	ShankArea     float64 // mm²
	StressArea    float64 // of the thread, mm²
	Young         float64 // MPa
}

// Stiffness of the bolt: A_d A_t E/(A_d l_t + A_t l_d). Source: Shigley's Mechanical Engineering Design, 9th ed., eq. 8-17.
func (b Bolt) Stiffness() float64 {
	return b.ShankArea * b.StressArea * b.Young / (b.ShankArea*b.Thread + b.StressArea*b.Shank)
}

// Frusta is the stiffness of two equal members of a grip by cones of 30° under heads of 1.5 d.
//
//	0.5774 π E d/(2 ln(5 (0.5774 l + 0.5 d)/(0.5774 l + 2.5 d)))
//
// Source: Shigley's Mechanical Engineering Design, 9th ed., eq. 8-22.
func Frusta(diameter, grip, young float64) float64 {
	return 0.5774 * math.Pi * young * diameter / (2 * math.Log(5*(0.5774*grip+0.5*diameter)/(0.5774*grip+2.5*diameter)))
}

// Exponential is the same for members of one material by a fit to finite elements, E d A exp(B d/l), with A = 0.78715 and
// B = 0.62873 of steel, 0.77871 and 0.61616 of cast iron. Source: Shigley, 9th ed., table 8-8 (from memory).
func Exponential(diameter, grip, young, a, b float64) float64 {
	return young * diameter * a * math.Exp(b*diameter/grip)
}

// Joint is a bolt under a load along it.
type Joint struct {
	Proof, Preload, Share float64 // proof force A_t S_p and preload F_i, N, and C, the part of an outside load that reaches the bolt, –
}

// Yielding, Load and Separation are the safeties of Shigley's eqs 8-28 to 8-30 under an outside load per bolt: against the
// proof strength, of the load, and against gaping.
func (j Joint) Yielding(load float64) float64 { return j.Proof / (j.Share*load + j.Preload) }

// Load is how many times the outside load may grow to the proof strength.
func (j Joint) Load(load float64) float64 { return (j.Proof - j.Preload) / (j.Share * load) }

// Separation is how many times it may grow until the joint gapes.
func (j Joint) Separation(load float64) float64 { return j.Preload / (load * (1 - j.Share)) }

// Thread is a metric thread, mm.
type Thread struct{ Diameter, Pitch float64 }

func (t Thread) flank() float64 { return t.Diameter - 0.64952*t.Pitch }
func (t Thread) core() float64  { return t.Diameter - 1.22687*t.Pitch }

// StressArea is that of the thread, mm².
func (t Thread) StressArea() float64 {
	d := (t.flank() + t.core()) / 2
	return math.Pi / 4 * d * d
}

// Preload is the assembly force, N, that uses up a share of the yield strength (MPa) under tension and the torsion of
// tightening, with a friction in thread and under the head; tighten the torque it takes, N·mm, with the mean radius of the head.
//
//	F = ν R_p A_0/√(1 + 3 (1.5 (d_2/d_0) (P/(π d_2) + 1.155 μ))²), M = F (0.16 P + 0.58 d_2 μ + r_k μ)
//
// Form of VDI 2230 (from memory; one printed figure fits).
func (t Thread) Preload(yield, share, friction, head float64) (force, tighten float64) {
	d0 := (t.flank() + t.core()) / 2
	twist := 1.5 * t.flank() / d0 * (t.Pitch/(math.Pi*t.flank()) + 1.155*friction)
	force = share * yield * math.Pi / 4 * d0 * d0 / math.Sqrt(1+3*twist*twist)
	return force, force * (0.16*t.Pitch + 0.58*t.flank()*friction + head*friction)
}

// Ring is a wheel that bolts hold on a flange by friction.
type Ring struct {
	Bolts     int
	Circle    float64 // radius of their circle, mm
	Preload   float64 // assembly force of each, N
	Scatter   float64 // α_A: largest assembly force over the least, –
	Embedding float64 // lost as the surfaces bed down, N
	Friction  float64 // of the joint, –
}

// Least is the force that surely clamps at each bolt, N.
func (r Ring) Least() float64 { return r.Preload/r.Scatter - r.Embedding }

// Needed is the clamping force at each bolt that a torque needs to be carried by friction, N, while a force along the shaft
// takes the wheel off its flange.
func (r Ring) Needed(torque, off float64) float64 {
	n := float64(r.Bolts)
	return (torque/(r.Friction*r.Circle) + math.Max(0, off)) / n
}

// Grip is the torque that friction carries, N·mm.
func (r Ring) Grip(off float64) float64 {
	return r.Friction * r.Circle * (float64(r.Bolts)*r.Least() - math.Max(0, off))
}

// Tilting is the largest force that a couple about a diameter puts on one bolt, N: 2 M/(n r). It turns with the wheel.
func (r Ring) Tilting(couple float64) float64 { return 2 * couple / (float64(r.Bolts) * r.Circle) }

// Shearing is the shear stress in shanks of a diameter if friction is lost, MPa.
func (r Ring) Shearing(torque, shank float64) float64 {
	return torque / (r.Circle * float64(r.Bolts) * math.Pi / 4 * shank * shank)
}

// Row is a circle of bolts in shear: their number, radius and shank, mm.
type Row struct {
	Bolts         int
	Circle, Shank float64
}

// Rows is the torque, N·mm, at which the outermost of some rows meets a shear stress, MPa; the others carry as their radius.
func Rows(rows []Row, stress float64) (torque float64) {
	outermost := 0.0
	for _, r := range rows {
		outermost = math.Max(outermost, r.Circle)
	}
	for _, r := range rows {
		torque += float64(r.Bolts) * math.Pi / 4 * r.Shank * r.Shank * stress * r.Circle / outermost * r.Circle
	}
	return torque
}

// Group is the force on each bolt of a group at places about its middle, N, under a force across and a couple on it: equal
// shares of the force, and of the couple as far as they stand out.
func Group(places [][2]float64, force [2]float64, couple float64) (on []float64) {
	polar := 0.0
	for _, p := range places {
		polar += p[0]*p[0] + p[1]*p[1]
	}
	n := float64(len(places))
	for _, p := range places {
		on = append(on, math.Hypot(force[0]/n-couple*p[1]/polar, force[1]/n+couple*p[0]/polar))
	}
	return on
}
