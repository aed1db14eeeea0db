package critical

import (
	"math"
	"testing"
)

func same(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: %.8g, want %.8g", what, got, want)
	}
}

// simple is the flexibilities of a uniform shaft on pins at its ends, handbook formula: δ = b x (L² − b² − x²)/(6 E I L) for x up to the load.
func simple(length, stiffness float64, at ...float64) (all [][]float64) {
	for _, x := range at {
		var row []float64
		for _, a := range at {
			x, a := min(x, a), max(x, a)
			b := length - a
			row = append(row, b*x*(length*length-b*b-x*x)/(6*stiffness*length))
		}
		all = append(all, row)
	}
	return all
}

func inertia(d float64) float64 { return math.Pi / 64 * math.Pow(d, 4) }

// Rao, Mechanical Vibrations, a shaft of 100 mm with three rotors at 1, 4 and 8 m of 10 m (inputs and 28.4482 rad/s from memory).
func TestRaoRotors(t *testing.T) {
	flexibility := simple(10e3, 207e3*inertia(100), 1e3, 4e3, 8e3)
	masses := []float64{20, 50, 40}
	same(t, "Rayleigh as printed", Rayleigh(masses, flexibility), 28.4482, 0.01/28)
	same(t, "Rayleigh", Rayleigh(masses, flexibility), 28.44817, 1e-6)
	same(t, "exact", Exact(masses, flexibility), 28.41357, 1e-6)
}

// Budynas and Nisbett, Shigley's Mechanical Engineering Design, 9th ed., example 7-5, pp. 386 to 388: two weights of 35 and 55 lbf at 7 and 20 in of a
// shaft of 1 in on 31 in. Inches and pounds: masses as weight over 386.1 in/s², so that N/(kg·mm) is 1000 times as much here.
func TestExample7_5(t *testing.T) {
	flexibility := simple(31, 30e6*inertia(1), 7, 20)
	same(t, "δ11", flexibility[0][0], 2.061e-4, 3e-4)
	same(t, "δ22", flexibility[1][1], 3.534e-4, 3e-4)
	same(t, "δ12", flexibility[0][1], 2.2236e-4, 1e-3)
	masses := []float64{35 / 386.1 * perMeter, 55 / 386.1 * perMeter}
	same(t, "Dunkerley", Dunkerley(masses, flexibility), 120.4, 1e-3)
	same(t, "with the shaft alone at 520.4", Dunkerley(masses, flexibility, 520.4), 117.3, 1e-3)
	same(t, "Rayleigh", Rayleigh(masses, flexibility), 124.8, 5e-4)
	same(t, "exact", Exact(masses, flexibility), 124.68, 5e-4)
}

// A public question bank on the theory of machines: 2 cm × 60 cm, 1 kg in its middle, 28 µm and 0.133 mm: 2598 rpm (43.3 Hz).
func TestMassAndShaft(t *testing.T) {
	same(t, "rpm as printed", Sagging(28e-6, 0.133e-3), 2598, 2e-3)
}

// Bounds and the exact speed of three gears, reckoned independently; the first critical speed of a uniform shaft.
func TestBounds(t *testing.T) {
	same(t, "uniform shaft", Pinned(32, 300, 206000, 7850e-9), 4494.134, 1e-6)
	flexibility := simple(320, 206000*inertia(30), 90, 170, 260)
	masses := []float64{1.8, 3.1, 0.9}
	low, high, exact := Dunkerley(masses, flexibility, Pinned(30, 320, 206000, 7850e-9)), Rayleigh(masses, flexibility), Exact(masses, flexibility)
	same(t, "Dunkerley with the shaft", low, 1482.127, 1e-6)
	same(t, "Rayleigh", high, 1656.494, 1e-6)
	same(t, "exact", exact, 1656.177, 1e-6)
	if bare := Dunkerley(masses, flexibility); !(bare < exact && exact < high) {
		t.Errorf("%g, %g, %g don't rise", bare, exact, high)
	}
}
