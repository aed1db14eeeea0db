package involute

import "testing"

// Tips that were not measured, by hand from ISO 21771:2007: d_a = d + 2 m_n (h_aP + x + k). k shortens them where the shafts
// stand closer than the shifts push them apart, k = (a − a_0)/m_n − (x1 + x2); at a wider distance, with backlash, they stay.
func TestTipsAtTheCentreDistance(t *testing.T) {
	for _, c := range []struct {
		what   string
		shift  [2]float64
		centre float64
		tip    [2]float64
	}{
		{"wider than without backlash: full addendum", [2]float64{0, 0}, 50.2, [2]float64{44, 64}},
		{"wider, with shifts that cancel", [2]float64{0.3, -0.3}, 50.1, [2]float64{45.2, 62.8}},
		{"closer than the shifts add up to: k = 1.9/2 − 1 = −0.05", [2]float64{0.6, 0.4}, 51.9, [2]float64{46.2, 65.4}},
		{"as wide as the shifts add up to: k = 0", [2]float64{0.6, 0.4}, 52, [2]float64{46.4, 65.6}},
		{"wider than that: still k = 0", [2]float64{0.6, 0.4}, 52.2, [2]float64{46.4, 65.6}},
	} {
		p := mustNew(t, Spec{Module: 2, Rack: StandardRack, Teeth: [2]int{20, 30}, Shift: c.shift, ShiftKnown: [2]bool{true, true},
			CentreDistance: c.centre, Face: 20})
		for i := range p.Tip {
			near(t, c.what, p.Tip[i], c.tip[i], 1e-9)
		}
	}
}
