package gearbox

import (
	"math"
	"strings"
	"testing"
)

// By hand: φ = Σ T L/(G I_p) of the stretches between where torque enters and leaves each shaft, times its ratio to the input.
func TestWindUpByHand(t *testing.T) {
	b := threeShafts()
	r := mustSolve(t, b, Load{Method: Method{NoShoulder: true}})
	g := 206000 / 2.6
	solid, hollow := g*math.Pi/32*math.Pow(36, 4), g*math.Pi/32*(math.Pow(40, 4)-math.Pow(10, 4))
	in := (75. - 3) / solid // all of it in the thinner half, which reaches to 90 mm
	i1, i2 := 39./21, 39./21*71/17
	out := (102.-75)/solid + (172.-102)/hollow
	diff := (65. - 60) / hollow // the thinner half of it ends at 60 mm
	want := 1 / (in + i1*i1*out + i2*i2*diff)
	if got := r.Speeds[0].WindUp; math.Abs(got-want) > 1e-9*want {
		t.Errorf("%.9g N·mm/rad, by hand %.9g", got, want)
	}
	if all := strings.Join(r.Notes, " "); !strings.Contains(all, "Wind-up of the shafts") {
		t.Error("no note tells it")
	}
}
