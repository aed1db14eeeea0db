package gearbox

import (
	"math"
	"strings"
	"testing"

	"layshaft/gearstress/involute"
)

// Two racks in mesh with axes nearer by 0.02 mm at α_wt = 20° lose 2 · 0.02 · tan 20° = 0.014559 mm (closed form; for a rack this is the wedge of its flanks).
func TestClosingMeshTakesBacklash(t *testing.T) {
	const deg = math.Pi / 180
	for _, c := range []struct {
		name                 string
		separation, backlash float64 // mm; the latter normal to the flanks
		helix                float64
		taken                float64
		words                string
	}{
		{"opens", 0.02, 0, 0, 0, ""},
		{"closes with room", -0.02, 0.05, 0, 0.0145588, ""},
		{"closes, none given", -0.02, 0, 0, 0.0145588, "None is given"},
		{"binds", -0.02, 0.013, 0, 0.0145588, "it has 0.0138 mm"},
		{"a helix has more along the circle for the same backlash, and room", -0.02, 0.013, 20 * deg, 0.0145588, ""}, // 0.013/cos²20° = 0.01472
	} {
		r := MeshResult{Separation: c.separation, Geometry: &involute.Pair{WorkingPressureAngle: 20 * deg, BaseHelix: c.helix, Backlash: c.backlash}}
		said := strings.Join(r.close(), " ")
		if math.Abs(r.Taken-c.taken) > 5e-8 || !strings.Contains(said, c.words) || (c.words == "") != (said == "") {
			t.Errorf("%s: takes %.7f mm, %q; want %.7f, %q", c.name, r.Taken, said, c.taken, c.words)
		}
	}
}
