package gauge

import "math"

const inch = 25.4

// Tool is a standard tool: a module or a diametral pitch with a pressure angle.
type Tool struct {
	Module        float64 // m_n, mm
	Pitch         float64 // normal diametral pitch, 1/in; 0 where the tool is named by its module
	PressureAngle float64 // α_n, rad
	Rare          float64 // how unusual it is, as a misfit squared: 0 for a module of the first series at 20°. Common practice, no source
}

// basePitch is p_bn, mm.
func (t Tool) basePitch() float64 { return math.Pi * t.Module * math.Cos(t.PressureAngle) }

// The modules are those of ISO 54:1996, series I and II (from memory), and the quarters between them that gearboxes
// are made with (common practice, no source).
var (
	firstModules  = []float64{1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10}
	secondModules = []float64{1.125, 1.375, 1.75, 2.25, 2.75, 3.5, 4.5, 5.5, 7, 9}
	otherModules  = []float64{1.6, 1.8, 2.1, 2.2, 2.3, 2.4, 2.6, 2.7, 3.25, 3.75, 4.25}
	pitches       = []float64{3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 18, 20, 22, 24}
)

// angles are the pressure angles of common tools with how unusual they are.
var angles = []struct{ angle, rare float64 }{{20 * degree, 0}, {17.5 * degree, 2}, {14.5 * degree, 2}, {22.5 * degree, 3}, {25 * degree, 3}}

// Tools is the standard series that is searched.
var Tools = func() (all []Tool) {
	for _, a := range angles {
		for rare, list := range [][]float64{firstModules, secondModules, otherModules} {
			for _, m := range list {
				all = append(all, Tool{Module: m, PressureAngle: a.angle, Rare: a.rare + []float64{0, 0.5, 4}[rare]})
			}
		}
		for _, p := range pitches {
			all = append(all, Tool{Module: inch / p, Pitch: p, PressureAngle: a.angle, Rare: a.rare + 1})
		}
	}
	return all
}()
