package scuffing

import (
	"errors"
	"fmt"
	"math"

	"layshaft/gearstress/involute"
)

// Material is what elasticity and heat flow need to know of a gear.
type Material struct {
	Young        float64 // E, MPa
	Poisson      float64 // ν, –
	Density      float64 // ρ_M, kg/mm³
	Conductivity float64 // λ_M, heat conductivity, N/(s·K), which is the same number in W/(m·K)
	SpecificHeat float64 // c_M, N·mm/(kg·K), a thousand times the number in J/(kg·K)
}

// Steel is case-hardened (martensitic) steel. Young's modulus and Poisson's ratio
// from ISO 6336-2:2006; the heat values from ISO/TR 13989-1:2000, from memory
// (λ_M = 50 N/(s·K), ρ_M c_M = 3.8 N/(mm²·K)).
var Steel = Material{Young: 206000, Poisson: 0.3, Density: 7.8e-6, Conductivity: 50, SpecificHeat: 490e3}

// ThermalContact is the thermal contact coefficient B_M = √(λ_M ρ_M c_M),
// N/(mm·√s·K); steel has 13.8. Source: ISO/TR 13989-1:2000, thermal contact
// coefficient, from memory (there with v in m/s and 435 for steel); it is what
// one-dimensional heat flow into a half-space depends on.
func (m Material) ThermalContact() float64 {
	return math.Sqrt(m.Conductivity * m.Density * m.SpecificHeat)
}

// Input is one load on the pair, its oil and its flanks. In every field that
// says so a zero stands for the usual value; Result.Notes tells what was assumed.
type Input struct {
	Pair   *involute.Pair
	Torque float64 // nominal, on the driver, N·mm, > 0
	Speed  float64 // of the driver, rad/s, ≥ 0; 0 = standing

	KA  float64 // K_A, application factor, –; 0 = 1
	KV  float64 // K_v, dynamic factor, –; 0 = 1
	KHb float64 // K_Bβ = K_Hβ, face load factor, –; 0 = 1
	KHa float64 // K_Bα = K_Hα, transverse load factor, –; 0 = 1

	Material  [2]Material // zero = Steel
	Roughness [2]float64  // Ra of the flanks as made, mm (ground: about 0.0004; hobbed: about 0.001)
	Structure float64     // X_W, structural factor, –; 0 = 1 (case-hardened, usual retained austenite); from memory: phosphated 1.25, nitrided 1.5, much austenite 0.85, stainless 0.45
	RunIn     bool        // whether the flanks are fully run in (φ_E = 1); new ones run hotter
	Grade     int         // accuracy grade of ISO 1328-1, 1 to 12; 0 = 7 or finer
	TipRelief [2]float64  // C_a, mm; 0 = none
	Stiffness float64     // c_γ, mesh stiffness, N/mm² (force per mm of face and mm of approach); 0 = 20000 (ISO 6336-1, value for steel in absence of a better one)
	Mates     int         // gears that mesh with the busier gear of the pair at once (an idler: 2), –; 0 = 1

	OilTemperature float64 // where the oil comes from: sump or jet, °C, above 0
	Viscosity      float64 // ν_40, of the oil at 40 °C, mm²/s, > 0
	OilViscosity   float64 // η, dynamic viscosity at OilTemperature, mPa·s; 0 = estimated from Viscosity
	OilFactor      float64 // X_L without viscosity, kind of oil, –; 0 = 1 (mineral); from memory: polyalphaolefin 0.8, polyglycol 0.6 to 0.7, traction fluid 1.5
	OilScuffing    int     // load stage at which the oil fails in FZG A/8.3/90, 1 to 14; 0 = not known
	Spray          bool    // whether the mesh is fed by a jet (X_S = 1.2) and does not dip (X_S = 1)
}

// What is taken for a slip of the pen or of the unit when it lies outside.
const (
	mostTorque    = 1e12 // N·mm
	mostSpeed     = 1e5  // rad/s
	mostFactor    = 100.0
	mostRoughness = 0.05 // mm
)

// validate reports everything that is missing or cannot be, all at once.
func (in *Input) validate() error {
	var errs []error
	check := func(good bool, format string, args ...any) {
		if !good {
			errs = append(errs, fmt.Errorf(format, args...))
		}
	}
	if in.Pair == nil {
		errs = append(errs, errors.New("there is no pair of gears; work one out with involute.New"))
	}
	check(in.Torque > 0 && in.Torque <= mostTorque, "torque on the driver is %v N·mm; expected more than 0 and at most %g (for the other flank give its size without a sign)", in.Torque, mostTorque)
	check(in.Speed >= 0 && in.Speed <= mostSpeed, "speed of the driver is %v rad/s; expected 0 to %g: turns a minute must be multiplied by 0.10472", in.Speed, mostSpeed)
	check(in.KA == 0 || in.KA > 0 && in.KA <= mostFactor, "application factor K_A is %v; expected more than 0 and at most %g, or 0 for 1", in.KA, mostFactor)
	for _, k := range [...]struct {
		name  string
		value float64
	}{{"dynamic factor K_v", in.KV}, {"face load factor K_Bβ", in.KHb}, {"transverse load factor K_Bα", in.KHa}} {
		check(k.value == 0 || k.value >= 1 && k.value <= mostFactor, "%s is %v; expected 1 to %g, or 0 for 1", k.name, k.value, mostFactor)
	}
	for i, side := range sides {
		if m := in.Material[i]; m != (Material{}) {
			check(m.Young >= 1e3 && m.Young <= 1e6, "%s: Young's modulus is %v MPa; expected 1000 to 1000000 (steel: 206000)", side, m.Young)
			check(m.Poisson >= 0 && m.Poisson <= 0.5, "%s: Poisson's ratio is %v; expected 0 to 0.5 (steel: 0.3)", side, m.Poisson)
			check(m.Density >= 1e-7 && m.Density <= 1e-4, "%s: density is %v kg/mm³; expected 1e-7 to 1e-4 (steel: 7.8e-6)", side, m.Density)
			check(m.Conductivity >= 0.01 && m.Conductivity <= 1e4, "%s: heat conductivity is %v N/(s·K); expected 0.01 to 10000 (steel: 50)", side, m.Conductivity)
			check(m.SpecificHeat >= 1e4 && m.SpecificHeat <= 1e7, "%s: specific heat is %v N·mm/(kg·K); expected 10000 to 10000000 (steel: 490000, a thousand times the number in J/(kg·K))", side, m.SpecificHeat)
		}
		check(in.Roughness[i] > 0 && in.Roughness[i] <= mostRoughness, "%s: roughness Ra of the flank is %v mm; expected more than 0 and at most %g (ground: about 0.0004, hobbed: about 0.001)", side, in.Roughness[i], mostRoughness)
		check(in.TipRelief[i] >= 0 && in.TipRelief[i] <= 1, "%s: tip relief is %v mm; expected 0 to 1, usually hundredths of a millimetre", side, in.TipRelief[i])
	}
	check(in.Structure == 0 || in.Structure >= 0.1 && in.Structure <= 5, "structural factor X_W is %v; expected 0.45 to 1.5, or 0 for 1", in.Structure)
	check(in.Grade >= 0 && in.Grade <= 12, "accuracy grade is %d; expected 1 to 12 of ISO 1328-1, or 0 for 7", in.Grade)
	check(in.Stiffness == 0 || in.Stiffness >= 100 && in.Stiffness <= 1e6, "mesh stiffness c_γ is %v N/mm²; expected about 20000, or 0 for that: a value in N/(mm·µm) must be multiplied by 1000", in.Stiffness)
	check(in.Mates >= 0 && in.Mates <= 20, "gears in mesh at once are %d; expected 1 to 20, or 0 for 1", in.Mates)
	check(in.OilTemperature > 0 && in.OilTemperature <= 250, "oil temperature is %v °C; expected that of the running box, more than 0 and at most 250", in.OilTemperature)
	check(in.Viscosity >= 1 && in.Viscosity <= 1e4, "viscosity at 40 °C is %v mm²/s; expected 1 to 10000 (gear oils: 60 to 320)", in.Viscosity)
	check(in.OilViscosity == 0 || in.OilViscosity >= 0.1 && in.OilViscosity <= 1e5, "dynamic viscosity of the oil is %v mPa·s; expected 0.1 to 100000, or 0 to have it estimated", in.OilViscosity)
	check(in.OilFactor == 0 || in.OilFactor >= 0.1 && in.OilFactor <= 5, "oil factor X_L is %v; expected 0.6 to 1.5, or 0 for a mineral oil", in.OilFactor)
	check(in.OilScuffing >= 0 && in.OilScuffing <= 14, "load stage of the oil is %d; expected 1 to 14 of the FZG test A/8.3/90, or 0 when it is not known", in.OilScuffing)
	return errors.Join(errs...)
}

var sides = [2]string{"driver", "driven gear"}

// or is v, or the value that stands for its zero.
func or[T comparable](v, zero T) T {
	var none T
	if v == none {
		return zero
	}
	return v
}
