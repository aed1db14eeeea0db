package strength

import "math"

// Criterion says how a mean stress takes from the strength against a swinging one. The criteria disagree even on which
// torsion is worse: where torsion is steady, Goodman allows less than where it comes and goes, and Gerber and the
// ellipse allow more.
type Criterion string

// The criteria. Source: Shigley's Mechanical Engineering Design, 9th ed., eqs 6-40 to 6-48; Morrow by 10th ed.
const (
	Goodman   Criterion = "Goodman"   // σ_a/S_e + σ_m/S_ut = 1/n
	Gerber    Criterion = "Gerber"    // n σ_a/S_e + (n σ_m/S_ut)² = 1
	Elliptic  Criterion = "elliptic"  // (n σ_a/S_e)² + (n σ_m/S_y)² = 1
	Soderberg Criterion = "Soderberg" // σ_a/S_e + σ_m/S_y = 1/n
	Morrow    Criterion = "Morrow"    // σ_a/S_e + σ_m/σ_f = 1/n
)

// Criteria lists them in the order shown to people, the usual one first.
func Criteria() []Criterion { return []Criterion{Goodman, Gerber, Elliptic, Soderberg, Morrow} }

// fracture is how far the true stress at fracture lies above the tensile strength of a steel, MPa (50 ksi; from memory,
// for steels up to 500 HB).
const fracture = 345

// Swing is an equivalent stress that swings about a mean, MPa, ≥ 0 both.
type Swing struct{ Amplitude, Mean float64 }

// Reversed is the amplitude without mean stress that does the same, MPa; +Inf where the mean alone is all that is borne.
func (c Criterion) Reversed(w Swing, s Steel) float64 {
	rest := 1.0
	switch c {
	case Gerber:
		rest -= w.Mean / s.Tensile * w.Mean / s.Tensile
	case Elliptic:
		rest = math.Sqrt(max(0, 1-w.Mean/s.Yield*w.Mean/s.Yield))
	case Soderberg:
		rest -= w.Mean / s.Yield
	case Morrow:
		rest -= w.Mean / (s.Tensile + fracture)
	default:
		rest -= w.Mean / s.Tensile
	}
	switch {
	case w.Amplitude == 0 && rest > 0:
		return 0
	case rest <= 0:
		return math.Inf(1)
	}
	return w.Amplitude / rest
}

// Used is how much of an endless life a swing uses up, –: amplitude and mean may both grow by one over it.
func (c Criterion) Used(w Swing, s Steel, endurance float64) float64 {
	a := w.Amplitude / endurance
	switch c {
	case Gerber:
		// 1/n of n a + (n m)² = 1, written so that m may be nought.
		m := w.Mean / s.Tensile
		return (a + math.Hypot(a, 2*m)) / 2
	case Elliptic:
		return math.Hypot(a, w.Mean/s.Yield)
	case Soderberg:
		return a + w.Mean/s.Yield
	case Morrow:
		return a + w.Mean/(s.Tensile+fracture)
	}
	return a + w.Mean/s.Tensile
}
