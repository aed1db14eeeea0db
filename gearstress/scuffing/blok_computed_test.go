package scuffing

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"

	"gonum.org/v1/gonum/integrate/quad"
)

// bandPeak is the peak rise of temperature of a half-space under a moving strip of heat of Hertz
// shape, over Q/(B √(v·2b)), by quadrature: Green's function of one-dimensional heat flow into a
// half-space (Carslaw and Jaeger, Conduction of Heat in Solids, 1959: the surface rises by
// q dt/(B √(π t)) at time t after a pulse q dt), as holds when the body passes much
// faster than heat spreads sideways.
//
//	θ(x) = 1/(B √(π v)) ∫ q(s)/√(x − s) ds,  q = 2Q/(π b) √(1 − s²/b²)
//
// With s = x − r² the root in the integrand goes away.
func bandPeak() float64 {
	best := 0.0
	for x := 0.0; x <= 1; x += 0.001 {
		integral := quad.Fixed(func(r float64) float64 {
			s := x - r*r
			return 2 * math.Sqrt(max(0, 1-s*s))
		}, 0, math.Sqrt(x+1), 400, nil, 0)
		best = max(best, integral)
	}
	return 2 / math.Pi / math.Sqrt(math.Pi) * best * math.Sqrt2
}

// The 1.11 of the standard is rounded to three digits.
func TestFactorOfBlokComesOutOfHeatConduction(t *testing.T) {
	peak := bandPeak()
	t.Logf("peak of a strip of Hertz shape: %.5f", peak)
	near(t, "Blok's factor", 1.11, peak, 0.005)
	// Each body by itself: one that carries no heat leaves all to the other.
	got := FlashTemperature(0.05, 300, [2]float64{4000, 1000}, [2]float64{13.8, 0}, 0.2)
	near(t, "one body", got, peak*0.05*300*3000/(13.8*math.Sqrt(4000*0.4)), 0.002*got)
}

// With equal bodies |v1 − v2|/(√v1 + √v2) is |√v1 − √v2|: Blok's own form (from memory).
func TestEqualBodiesGiveTheDifferenceOfRoots(t *testing.T) {
	b := Steel.ThermalContact()
	got := FlashTemperature(0.06, 200, [2]float64{9000, 2500}, [2]float64{b, b}, 0.15)
	near(t, "flash", got, 1.11*0.06*200*(math.Sqrt(9000)-math.Sqrt(2500))/(b*math.Sqrt(0.3)), 1e-9)
}

// ISO/TR 13989-1:2000 and DIN 3990-4 (from memory): B_M = 435 N/(mm^½ m^½ s^½ K) and X_M =
// 50.0 K N^-¾ s^½ m^-½ mm for martensitic steel, X_M = 1000 E_r^¼/B_M; three digits, and ours
// has ρ c of 3.82 for 3.8.
func TestThermoelasticFactorOfSteel(t *testing.T) {
	b := Steel.ThermalContact() * math.Sqrt(1000)
	near(t, "B_M", b, 435, 435*0.006)
	near(t, "X_M", 1000*math.Pow(206000/0.91, 0.25)/b, 50.0, 0.15)
}

// closedForm is the flash temperature of a spur pair as ISO/TR 13989-1 writes it (from memory):
//
//	Θ_fl = μ_m X_M X_J X_G (X_Γ w_Bt)^¾ v_t^½/a^¼
//	X_G = 0.51 X_αβ √(u+1) |√(1+Γ) − √(1−Γ/u)|/((1+Γ)^¼ (u−Γ)^¼),  X_αβ = 1.22 sin^¼ α_wt cos^-¾ α_wt
//
// with v_t in m/s.
func closedForm(p *involute.Pair, r *Result, s Station) float64 {
	u := float64(p.Teeth[1]) / float64(p.Teeth[0])
	g := s.Gamma
	sin, cos := math.Sincos(p.WorkingPressureAngle)
	xab := 1.22 * math.Pow(sin, 0.25) * math.Pow(cos, -0.75)
	xg := 0.51 * xab * math.Sqrt(u+1) * math.Abs(math.Sqrt(1+g)-math.Sqrt(1-g/u)) / math.Pow((1+g)*(u-g), 0.25)
	return r.Flash.Friction * 50.0 * s.Approach * xg * math.Pow(s.Share*r.LineLoad, 0.75) * math.Sqrt(r.PitchSpeed/1000) / math.Pow(p.Centre, 0.25)
}

// Both forms agree but for the rounding of 0.51, 1.22, 1.11 and 50.0, which adds up to 0.6 %.
func TestClosedFormOfTheStandard(t *testing.T) {
	spec := spurSpec()
	for _, teeth := range [][2]int{{20, 37}, {37, 20}, {25, 25}, {17, 100}} {
		spec.Teeth = teeth
		p := pairOf(t, spec)
		in := inputOf(p)
		in.TipRelief = [2]float64{}
		r := screen(t, in)
		worst := 0.0
		for _, s := range r.Flash.Stations {
			want := closedForm(p, r, s)
			near(t, "flash", s.Flash, want, 0.006*want+1e-12)
			if want > 0 {
				worst = max(worst, math.Abs(s.Flash/want-1))
			}
		}
		t.Logf("%v: largest difference %.3f %%", teeth, 100*worst)
	}
}

// The steel, load and curvature of each station put into plain Hertz and into a strip of heat by
// quadrature; the difference is the rounding of 1.11.
func TestEveryStationAgainstHertzAndBlok(t *testing.T) {
	peak := bandPeak()
	for _, spec := range []involute.Spec{spurSpec(), helicalSpec()} {
		p := pairOf(t, spec)
		r := screen(t, inputOf(p))
		const modulus = 206000 / 0.91 // E_r, MPa
		b := math.Sqrt(50 * 3.822)
		cosB := math.Cos(p.BaseHelix)
		for _, s := range r.Flash.Stations {
			// From the normal force on the whole face and the length of the line.
			force := r.LineLoad * p.Face / (math.Cos(p.WorkingPressureAngle) * cosB) * s.Share
			load := force / (p.Face / cosB)
			radius := s.Radius[0] * s.Radius[1] / (s.Radius[0] + s.Radius[1]) / cosB
			half := math.Sqrt(8 * load * radius / (math.Pi * modulus))
			pressure := 2 * load / (math.Pi * half)
			near(t, "pressure", s.Pressure, pressure, 1e-9*pressure)
			near(t, "half width", s.HalfWidth, half, 1e-9*half)
			blok := peak * r.Flash.Friction * load * math.Abs(math.Sqrt(s.Speed[0])-math.Sqrt(s.Speed[1])) / (b * math.Sqrt(2*half))
			near(t, "flash", s.Flash, blok, 0.003*blok+1e-9)
		}
	}
}
