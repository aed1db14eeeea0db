package critical

import "math"

// perMeter turns N/(kg·mm) into 1/s²: 1 N = 1000 kg·mm/s².
const perMeter = 1e3

// Pinned is the first critical speed of a uniform shaft on pins, rad/s: π² √(EI/(ρA L⁴)), without shear. diameter, length and
// density in mm and kg/mm³.
func Pinned(diameter, length, young, density float64) float64 {
	return math.Pi * math.Pi * math.Sqrt(young*diameter*diameter/16/density*perMeter) / (length * length)
}

// Dunkerley is a lower bound of the first critical speed, rad/s: 1/ω² = Σ m_i δ_ii, with δ_ii the deflection of each place under a unit
// force there, mm/N. Other parts of a shaft whose own critical speed is known, rad/s, may join.
func Dunkerley(masses []float64, flexibility [][]float64, others ...float64) float64 {
	sum := 0.0
	for i, m := range masses {
		sum += m * flexibility[i][i] / perMeter
	}
	for _, w := range others {
		sum += 1 / (w * w)
	}
	return 1 / math.Sqrt(sum)
}

// Rayleigh is an upper bound, rad/s, by the shape in which the shaft sags under the weights of the masses: ω² = g Σ m y/Σ m y².
func Rayleigh(masses []float64, flexibility [][]float64) float64 {
	above, below := 0.0, 0.0
	for i, m := range masses {
		y := 0.0 // per g
		for k, other := range masses {
			y += flexibility[i][k] * other / perMeter
		}
		above += m * y
		below += m * y * y
	}
	return math.Sqrt(above / below)
}

// Exact is the first critical speed of the masses, rad/s, by iteration of the shape (Stodola).
func Exact(masses []float64, flexibility [][]float64) float64 {
	shape := make([]float64, len(masses))
	for i := range shape {
		shape[i] = 1
	}
	square := 0.0
	for range 500 {
		next := make([]float64, len(masses))
		most := 0.0
		for i := range masses {
			for k, m := range masses {
				next[i] += flexibility[i][k] * m / perMeter * shape[k]
			}
			most = math.Max(most, math.Abs(next[i]))
		}
		for i := range next {
			next[i] /= most
		}
		square, shape = 1/most, next
	}
	return math.Sqrt(square)
}

// Sagging is the critical speed of a shaft with a mass in its middle by how much both sag under their weight, rpm, m: 0.4985/√(δ_m + δ_s/1.27)
// Hz. Source: a public question bank on the theory of machines.
func Sagging(mass, shaft float64) float64 { return 60 * 0.4985 / math.Sqrt(mass+shaft/1.27) }
