package bearing

import "testing"

// Source: R. L. Mott, Machine Elements in Mechanical Design, 4th edition, example 14-6: 650, 750 and 250 lb for 30, 10 and
// 20 minutes at one speed; F_m 597 lb is printed. The life is worked out here, for the 7050 lb that the text states.
func TestMottMeanLoad(t *testing.T) {
	stages := []Stage{{30, 650, 1}, {10, 750, 1}, {20, 250, 1}}
	mean := MeanLoad(Ball, stages)
	near(t, "F_m", mean, 597, 0.5/597)
	near(t, "F_m, all digits", mean, 597.0535, 1e-6)
	life := StagedLife(Ball, 7050, stages)
	near(t, "life", life, 1646.371, 1e-6)
	near(t, "hours", Hours(life, 600), 45732.53, 1e-6)
}

// A textbook problem: 3, 2 and 1 kN for 10, 20 and 30 % of the turns and 40 % without load; 20 million turns at 95 % with
// a Weibull slope of 1.17. Numbers worked out outside this program. Without the idle turns it would be 1.9718 kN.
func TestIdleTurnsCount(t *testing.T) {
	stages := []Stage{{.1, 3, 1}, {.2, 2, 1}, {.3, 1, 1}, {.4, 0, 1}}
	near(t, "mean load", MeanLoad(Ball, stages), 1.663103, 1e-6)
	near(t, "without the idle turns", MeanLoad(Ball, stages[:3]), 1.9718, 1e-4)
	slope := Scatter{Slope: 1.17, Scale: 1}
	needed := 20 * slope.LifeFactor(0.9) / slope.LifeFactor(0.95)
	near(t, "L10", needed, 37.00192, 1e-6)
	near(t, "C", RequiredRating(Ball, MeanLoad(Ball, stages), needed), 5.541926, 1e-6)
}
