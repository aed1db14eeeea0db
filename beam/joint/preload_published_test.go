package joint

import "testing"

// A fastener maker's guide after VDI 2230: M12, 8.8, μ 0.14: 41.9 kN at 90 % of yield, 23.3 kN when it scatters by 1.8.
func TestPreload(t *testing.T) {
	force, tighten := Thread{12, 1.75}.Preload(640, 0.9, 0.14, 15.3/2)
	near(t, "force, kN", force/1e3, 41.9, 0.1)
	near(t, "least, kN", force/1.8/1e3, 23.3, 0.05)
	same(t, "force, all digits", force, 41979.37, 1e-4)
	same(t, "to tighten", tighten, 93743.1, 1e-3)
	near(t, "stress area", Thread{12, 1.75}.StressArea(), 84.3, 0.05) // of the tables
}
