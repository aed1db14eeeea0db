package scuffing

import "math"

// Viscosity is the dynamic viscosity η of a mineral oil of viscosity index about
// 95 at a temperature (°C), mPa·s, from its viscosity ν_40 at 40 °C (mm²/s):
//
//	lg lg(ν + 0.7) = lg lg(ν_40 + 0.7) − m lg(T/313.15 K),  m = 4.475 − 0.449 lg ν_40
//	η = ν ρ,  ρ = 0.885 − 0.00065 (θ − 15) kg/dm³
//
// The first is the viscosity–temperature line of ASTM D341. m (ours) joins the usual
// viscosities at 100 °C of oils VG 32 to VG 460 of that index (from memory: 5.3 to
// 30.5 mm²/s). Friction grows with η^−0.05 only: 30 % off in η is 1.5 % in temperature.
func Viscosity(nu40, temperature float64) float64 {
	m := 4.475 - 0.449*math.Log10(nu40)
	lglg := math.Log10(math.Log10(nu40+0.7)) - m*math.Log10((temperature+273.15)/313.15)
	nu := math.Pow(10, math.Pow(10, lglg)) - 0.7
	// The line runs into the ground for hot thin oils; no liquid is thinner than this.
	return max(nu, 0.5) * Density(temperature)
}

// Density is ρ of a mineral oil at a temperature (°C), kg/dm³: as in Viscosity.
func Density(temperature float64) float64 { return 0.885 - 0.00065*(temperature-15) }

// Where friction keeps to the end of the range it was measured in.
const (
	fastest   = 50000.0 // mm/s, sum of rolling speeds at C that counts at most, and pitch line speed above which a note is written
	leastLoad = 150.0   // N/mm, line load w_Bt that counts at least in part 21
)

// flashFriction is the mean friction coefficient μ_m of the flash method, –:
//
//	μ_m = 0.060 (w_Bt/(v_gΣC ρ_relC))^0.2 X_L X_R,  X_L = X η^−0.05,  X_R = (½ (Ra1 + Ra2))^¼
//
// load w_Bt in N/mm, sum of rolling speeds at C (mm/s; the formula wants m/s), ρ_relC
// in mm, η in mPa·s, roughness the mean Ra in mm (the formula wants µm), kind X of the oil.
// Source: ISO/TS 6336-20:2017, mean coefficient of friction, from memory.
func flashFriction(load, speed, radius, eta, roughness, kind float64) float64 {
	v := min(speed, fastest) / 1000
	return 0.060 * math.Pow(load/(v*radius), 0.2) * kind * math.Pow(eta, -0.05) * math.Sqrt(math.Sqrt(roughness*1000))
}

// integralFriction is the mean friction coefficient μ_mC of the integral method, –:
//
//	μ_mC = 0.045 (w_Bt K_Bγ/(v_ΣC ρ_redC))^0.2 η^−0.05 X_R X_L,  X_R = 2.2 (Ra/ρ_redC)^¼
//
// with the units of flashFriction (Ra in µm under the root); load is w_Bt K_Bγ, w_Bt
// at least 150 N/mm. Source: ISO/TS 6336-21:2017, mean coefficient of friction, from memory.
func integralFriction(load, speed, radius, eta, roughness, kind float64) float64 {
	v := min(speed, fastest) / 1000
	return 0.045 * math.Pow(load/(v*radius), 0.2) * math.Pow(eta, -0.05) * 2.2 * math.Sqrt(math.Sqrt(roughness*1000/radius)) * kind
}
