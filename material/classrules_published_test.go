package material

import (
	"math"
	"testing"
)

// Lloyd's Register, Rules for Naval Ships (2023), Vol 2 Pt 3 Ch 1, Tables 1.7.1 and 1.7.2
// (seen): allowables for the method of ISO 6336, in tensile strength (MPa) or hardness
// (HV). Another body's choice for the same stress: within 20 % of quality MQ.
func TestISOAllowablesAgainstClassRules(t *testing.T) {
	rm, err := TensileOfVickers(300)
	if err != nil {
		t.Fatal(err)
	}
	soft, err := TensileOfVickers(200)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		of       func(Group, Level) (Line, error)
		g        Group
		hv, want float64
	}{
		{RootLine, GroupAlloyHardened, 300, 0.1*rm + 185},
		{FlankLine, GroupAlloyHardened, 300, 0.46*rm + 255},
		{RootLine, GroupSurfaceHardened, 560, 0.35*560 + 125},
		{RootLine, GroupNitridingSteel, 700, 390},
		{RootLine, GroupCaseHardened, 700, 450},
		{FlankLine, GroupCaseHardened, 700, 1500},
		{RootLine, GroupCarbonHardened, 200, 0.09*soft + 150},
		{FlankLine, GroupCarbonHardened, 200, 0.46*soft + 255},
	} {
		line, err := c.of(c.g, Typical)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := line.At(c.hv); err != nil || math.Abs(got/c.want-1) > 0.2 {
			t.Errorf("%s at %v HV: %v, %v; class rules %v", line.Source, c.hv, got, err, c.want)
		}
	}
}
