package joint

import (
	"math"
	"testing"
)

const degree = math.Pi / 180

// near fails unless a figure lies within a tolerance of what was printed, and same unless within a share of it.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.7g, want %.7g within %.2g", what, got, want, tolerance)
	}
}

func same(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	near(t, what, got, want, share*math.Abs(want))
}
