package scuffing

import "math"

// Margin is how far a contact temperature is from the scuffing temperature.
type Margin struct {
	Limit   float64 // scuffing temperature, °C; 0 = no limit given
	Safety  float64 // S, –, as the method defines it, at most 1000; 0 = none: no limit, or no heat
	Verdict Verdict
}

// Verdict is what a margin says.
type Verdict int

// The verdicts. The zero value is that there is nothing to compare with.
const (
	NoLimit   Verdict = iota // no load stage of the oil is given
	NoHeat                   // the gears stand still
	Likely                   // safety below 1
	Uncertain                // safety 1 to 2
	Unlikely                 // safety above 2
)

var verdicts = [...]string{"no limit given", "no heat: the gears stand still", "likely to scuff", "uncertain", "little risk of scuffing"}

func (v Verdict) String() string {
	if v < 0 || int(v) >= len(verdicts) {
		return "?"
	}
	return verdicts[v]
}

// mostSafety is the largest safety given; beyond it the number says nothing.
const mostSafety = 1000

// margin compares; the bounds 1 and 2 are those of ISO/TS 6336-21:2017 for its own
// safety (from memory), used for the flash method as well (common practice, no source).
func margin(limit, safety float64) Margin {
	m := Margin{Limit: limit, Safety: min(safety, mostSafety), Verdict: Unlikely}
	switch {
	case safety < 1:
		m.Verdict = Likely
	case safety <= 2:
		m.Verdict = Uncertain
	}
	return m
}

// stageTorque is the torque on the pinion of the test gears in a load stage of the FZG test,
// N·m: 3.726 S². Source: ISO/TS 6336-21:2017, from memory; ISO 14635-1 lists 534.5 N·m for
// stage 12 (from memory), 0.4 % less.
func stageTorque(stage int) float64 { return 3.726 * float64(stage*stage) }

// flashLimit is the scuffing temperature of the flash method, °C, from the FZG load
// stage S, the structural factor X_W (–) and the kind of the oil and its viscosity ν_40 (mm²/s):
//
//	Θ_S = 80 + (0.85 + 1.4 X_W) X_L S²
//
// with X_L = X η^−0.05 of the oil at the 90 °C of the test. Source: ISO/TS
// 6336-20:2017, scuffing temperature from FZG A/8.3/90, from memory; that X_L is meant at 90 °C is our reading.
func flashLimit(stage int, structure, kind, nu40 float64) float64 {
	lubricant := kind * math.Pow(Viscosity(nu40, 90), -0.05)
	return 80 + (0.85+1.4*structure)*lubricant*float64(stage*stage)
}

// integralLimit is the scuffing integral temperature, °C:
//
//	Θ_intS = Θ_MT + 1.5 X_WrelT Θ_flaintT
//	Θ_MT = 80 + 0.23 T_1T X_L (100/ν_40)^0.02,  Θ_flaintT = 0.20 T_1T X_L (100/ν_40)^0.02
//
// T_1T the torque of the stage, N·m; X_L the kind of the oil (–); ν_40 in mm²/s; X_WrelT = X_W/1
// (–). Source: ISO/TS 6336-21:2017, scuffing integral temperature from FZG A/8.3/90, from memory.
func integralLimit(stage int, structure, kind, nu40 float64) float64 {
	heat := stageTorque(stage) * kind * math.Pow(100/nu40, 0.02)
	return 80 + 0.23*heat + 1.5*structure*0.20*heat
}
