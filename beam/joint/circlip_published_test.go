package joint

import (
	"math"
	"testing"
)

// DIN 471, 25 mm: groove of 23.9 mm, 7.0 kN in metal of 200 MPa (a table page). The inch practice of a handbook gives 48.7 kN where
// this form gives 78.6: other safeties inside.
func TestCirclip(t *testing.T) {
	f := Circlip{25, 23.9}.Groove(200)
	near(t, "F_N", f, 7000, 50)
	same(t, "F_N, all digits", f, 7041.095, 1e-6)
	same(t, "inch, groove", InchGroove(40, 1.25, 620, 2), 48694.69, 1e-6)
	same(t, "inch, ring", InchRing(40, 1.75, 1000, 3), 73303.83, 1e-6)
	same(t, "the same groove here", Circlip{40, 37.5}.Groove(620), 78621.63, 1e-6)
	// A helical gear's thrust with a shock on a ring of 40 mm.
	thrust := 12000 * math.Tan(30*degree) * 1.5
	same(t, "thrust", thrust, 10392.3, 1e-6)
	same(t, "safety", Circlip{40, 37.5}.Groove(350)/thrust, 4.270773, 1e-6)
}
