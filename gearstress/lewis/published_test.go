package lewis

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.7g, want %.7g ± %.2g", what, got, want, tolerance)
	}
}

// barth is the factor of the book for cut teeth at a pitch-line speed, m/s: (6.1 + V)/6.1. Source: Budynas and Nisbett,
// Shigley's Mechanical Engineering Design, 8th ed., eq. 14-6b.
func barth(speed float64) float64 { return (6.1 + speed) / 6.1 }

// Budynas and Nisbett, Shigley's Mechanical Engineering Design, 8th ed.,
// instructor's solutions manual, ch. 14 (2006), problems 14-1, 14-3 and 14-5
// (seen). Form factor, Barth's factor (14-1 in its inch form 1200 ft/min) and
// stress; tolerance from the printed digits and the manual's rounding on the way.
func TestSolutionsManual14_1(t *testing.T) {
	const foot, pound, inch, psi = 0.3048, 4.4482216153, 25.4, 6.894757293e-3
	speed := math.Pi * 22 / 6 / 12 * 1200 * foot / 60 // m/s
	near(t, "V, ft/min", speed*60/foot, 1152, 0.5)
	y, err := FullDepth20.Y(22)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "Y", y, 0.331, 1e-12)
	// 6.1 m/s is 1201 ft/min: the metric and the inch form differ by 0.05 %.
	near(t, "K_v", barth(speed), 1.96, 0.0015)
	force := 33000 * 15 / 1152.0 * pound
	near(t, "σ, psi", barth(speed)*Stress(force, 2*inch, inch/6, y)/psi, 7633, 7633*0.001)
}

func TestSolutionsManual14_3(t *testing.T) {
	speed := math.Pi * 22.5e-3 * 1800 / 60
	near(t, "V, m/s", speed, 2.121, 0.0006)
	near(t, "K_v", barth(speed), 1.348, 0.0006)
	y, err := FullDepth20.Y(18)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "Y", y, 0.309, 1e-12)
	force := 500 / speed
	near(t, "W_t, N", force, 235.8, 0.05)
	near(t, "σ, MPa", barth(speed)*Stress(force, 12, 1.25, y), 68.6, 0.0012*68.6)
}

func TestSolutionsManual14_5(t *testing.T) {
	speed := math.Pi * 16e-3 * 400 / 60
	y, err := FullDepth20.Y(16)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "K_v", barth(speed), 1.055, 0.0006)
	// Face width for 150 MPa; the manual prints 10.6, from rounded steps.
	face := barth(speed) * Stress(150/speed, 1, 1, y) / 150
	near(t, "F, mm", face, 10.6, 0.004*10.6)
}

// Interpolations in the same manual (seen): N = 36 and N = 48.
func TestInterpolationOfTheManual(t *testing.T) {
	for teeth, want := range map[float64]float64{36: 0.3775, 48: 0.4056} {
		y, err := FullDepth20.Y(teeth)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Y", y, want, 0.00006)
	}
}

// Wentzell, Machine Design, ch. 12, open textbook notebook (seen in use): 14.5°, 24
// teeth 0.302, 48 teeth 0.344 between rows of 0.340 (45) and 0.346 (50).
func TestInterpolationAt14_5Degrees(t *testing.T) {
	for teeth, want := range map[float64]float64{24: 0.302, 48: 0.344} {
		y, err := FullDepth145.Y(teeth)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Y", y, want, 0.0005)
	}
}

// Shigley, Examples 14-1 and 14-2 (from memory; editions round K_v and the stress
// on the way: 0.5 %): tangential force at which the tooth reaches 30 kpsi / 3.5.
func TestShigleyExample14_1(t *testing.T) {
	y, err := FullDepth20.Y(16)
	if err != nil {
		t.Fatal(err)
	}
	speed := math.Pi * 2 / 12 * 1200 * 0.3048 / 60
	near(t, "K_v", barth(speed), 1.52, 0.005*1.52)
	perPound := barth(speed) * Stress(1, 1.5, 1.0/8, y) // psi for 1 lbf, in inches
	near(t, "W_t, lbf", 30000/3.5/perPound, 313, 0.005*313)
}

// Second published set of the same form factors (catalogue type, from memory;
// three rows seen in use): published sets differ by up to 0.003 at 20°, so a slip
// in a row of ours would show.
func TestTableAgainstTheOtherPublishedSet(t *testing.T) {
	other := map[float64]float64{12: 0.245, 13: 0.264, 14: 0.276, 15: 0.289, 16: 0.295, 17: 0.302, 18: 0.308, 19: 0.314, 20: 0.32, 22: 0.33, 24: 0.337,
		26: 0.344, 28: 0.352, 30: 0.358, 34: 0.37, 38: 0.383, 45: 0.399, 50: 0.408, 60: 0.421, 75: 0.433, 100: 0.446, 150: 0.458, 300: 0.471, math.Inf(1): 0.484}
	for teeth, want := range other {
		y, err := FullDepth20.Y(teeth)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Y", y, want, 0.0031)
	}
	// 14.5°: handbook set (from memory), published sets differ by up to 0.013.
	handbook := map[float64]float64{12: 0.21, 13: 0.22, 14: 0.226, 15: 0.236, 16: 0.242, 17: 0.251, 18: 0.261, 19: 0.273, 20: 0.283, 22: 0.292, 24: 0.298,
		26: 0.307, 28: 0.314, 30: 0.32, 34: 0.327, 38: 0.336, 50: 0.352, 60: 0.358, 75: 0.364, 100: 0.371, 150: 0.377, 300: 0.383, math.Inf(1): 0.39}
	for teeth, want := range handbook {
		y, err := FullDepth145.Y(teeth)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Y", y, want, 0.0131)
	}
}

// The construction on the rack-cut tooth, by an independent program (computed):
// 20°, hob addendum 1.25, tip radius 0.30, addendum 1, no shift.
func TestRealFormAgainstIndependentConstruction(t *testing.T) {
	rack := involute.Rack{PressureAngle: 20 * math.Pi / 180, Addendum: 1, Dedendum: 1.25, TipRadius: 0.3}
	worst := 0.0
	for teeth, want := range map[int]float64{12: 0.2296, 15: 0.2662, 17: 0.2851, 20: 0.3077, 25: 0.3353, 30: 0.3551, 50: 0.3986, 100: 0.4357, 300: 0.4582} {
		p := pair(t, involute.Spec{Module: 2, Rack: rack, Teeth: [2]int{teeth, 80}})
		y, err := RealForm(p, 0)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Y", y, want, 0.0001)
		worst = max(worst, math.Abs(y-want))
	}
	// The largest gear accepted stands for the rack.
	p := pair(t, involute.Spec{Module: 2, Rack: rack, Teeth: [2]int{10000, 80}})
	y, err := RealForm(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "Y of the rack", y, 0.4632, 0.0005)
	t.Logf("largest difference %.2g", worst)
}

// Shigley's Mechanical Engineering Design, 8th to 10th ed., Table 14-2, whole, a second time from memory.
func TestTable14_2(t *testing.T) {
	for teeth, want := range map[float64]float64{
		12: 0.245, 13: 0.261, 14: 0.277, 15: 0.290, 16: 0.296, 17: 0.303, 18: 0.309, 19: 0.314, 20: 0.322, 21: 0.328,
		22: 0.331, 24: 0.337, 26: 0.346, 28: 0.353, 30: 0.359, 34: 0.371, 38: 0.384, 43: 0.397, 50: 0.409, 60: 0.422,
		75: 0.435, 100: 0.447, 150: 0.460, 300: 0.472, 400: 0.480, 1e9: 0.485,
	} {
		y, err := FullDepth20.Y(teeth)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Y", y, want, 1e-6)
	}
}
