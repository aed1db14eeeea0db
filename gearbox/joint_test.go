package gearbox

import (
	"math"
	"strings"
	"testing"

	"layshaft/beam/joint"
	"layshaft/material"
)

// jointed is notched with one joint of each type, engagement teeth on its first wheel, which turns freely, and bolts on its last.
func jointed() *Box {
	b := notched()
	b.Output.At = 105 // beside the wheel, so that its torque passes along the shaft
	b.Shafts[0].Joints = []Joint{
		{Name: "clutch", Type: InvoluteSpline, At: 6, Length: 12, Teeth: 24, Outer: 31.25, Inner: 28.75},
		{Name: "straight", Type: StraightSpline, At: 6, Length: 12, Teeth: 8, Outer: 36, Inner: 32},
		{Name: "pinion key", Type: ParallelKey, At: 75, Length: 18, Width: 10, Height: 8},
		{Name: "ring", Type: CirclipRing, At: 87, Depth: 1.25, Holds: "p1"},
		{Name: "other ring", Type: CirclipRing, At: 63, Depth: 1.25, Holds: "p1"},
		{Name: "all along", Type: InvoluteSpline, At: 90, Length: 180, Teeth: 24, Outer: 31.25, Inner: 28.75},
		{Name: "idle spline", Type: InvoluteSpline, At: 140, Length: 12, Teeth: 24, Outer: 31.25, Inner: 28.75},
	}
	b.Shafts[2].Joints = []Joint{{Name: "hub", Type: PressedOn, At: 65, Length: 28, Outer: 70, Interference: 0.04}}
	b.Gears[1].Seat = &Seat{Length: 20, Clearance: 0.03}
	b.Gears[1].EngagesAt = new(85.0)
	b.Gears[1].Dogs = &Dogs{Teeth: 6, Diameter: 76, Height: 5, Length: 4, Thick: 9, Back: 0.07}
	b.Gears[3].Bolts = &Bolts{Count: 10, Thread: "M10", Class: "10.9", Circle: 144, Embedding: 3000}
	return b
}

// Where a hub of the same steel as its solid shaft begins to yield, the pressure is Y (1 − k²)/√(3 + k⁴), k = d/D, by Lamé and von Mises; in a hollow
// shaft whose hub is thick its bore yields first, at Y (1 − q²)/2, q = i/d. More interference grips no more.
func TestGripEndsWhereTheFitYields(t *testing.T) {
	yield := material.Band{Low: 300, Typical: 600, High: 6000}
	for _, c := range []struct{ bore, outer, perYield float64 }{
		{0, 60, (1 - 0.25) / math.Sqrt(3+0.0625)},
		{15, 600, (1 - 0.25) / 2},
	} {
		fit := joint.Fit{Diameter: 30, Outer: c.outer, Bore: c.bore, Length: 20, Friction: 0.12, HubYoung: 206000, ShaftYoung: 206000, HubPoisson: 0.3, ShaftPoisson: 0.3}
		fit.Interference = 0.2
		grip, _ := gripOf(fit, yield)
		area := math.Pi * 30 * 20.0
		for _, g := range []struct{ got, want float64 }{
			{grip.Low, 0.12 * c.perYield * 300 * area * 15},
			{grip.Typical, 0.12 * c.perYield * 600 * area * 15},
			{grip.High, fit.Torque()},
		} {
			if math.Abs(g.got/g.want-1) > 1e-12 {
				t.Errorf("bore %g mm: grips %g N·mm, want %g", c.bore, g.got, g.want)
			}
		}
		fit.Interference = 0.25
		if more, _ := gripOf(fit, yield); math.Abs(more.Low/grip.Low-1) > 1e-12 || more.High <= grip.High {
			t.Errorf("bore %g mm: at a larger interference %+v, was %+v", c.bore, more, grip)
		}
	}
}

// Each limit by hand, from the torques of the box: in takes the asked torque, out 39/21 of it and diff 71/17 of that, without losses.
func TestJointsByHand(t *testing.T) {
	b := jointed()
	b.Shock = 1.5
	r := mustSolve(t, b, Load{})
	in := b.Torque * b.Shock
	out, diff := in*39/21, in*39/21*71/17
	first := r.Speeds[0].Meshes
	steel, _ := material.Find(DefaultSteel)
	for _, c := range []struct {
		kind   Kind
		item   string
		actual float64
		limit  float64 // low end
	}{
		{JointYield, "clutch on in shaft", max(2*in/(30*1.25*12*24*0.9), math.Sqrt(3)*4*in/(30*24*12*(math.Pi*30/48))), steel.Yield.Low},
		{JointYield, "straight on in shaft", max(2*in/(34*2*12*8*0.75), math.Sqrt(3)*4*in/(34*8*12*(math.Pi*34/16))), steel.Yield.Low},
		{JointYield, "pinion key on in shaft", max(4*in/(36*8*18), math.Sqrt(3)*2*in/(36*10*18)), steel.Yield.Low},
		{DogYield, "w1", max(out/(38*6*0.5*5*4), math.Sqrt(3)*out/(38*6*0.5*9*5)), steel.Yield.Low},
		{BoltSlip, "w2", (diff/(0.12*72) + b.Shock*math.Abs(first[1].Axial)) / 10, 0},
		{FitSlip, "hub on diff shaft", diff, 0},
	} {
		m := limitOf(t, r, "only", c.kind, c.item)
		if math.Abs(m.Demand-c.actual) > 1e-9*c.actual {
			t.Errorf("%s of %s: actual %.9g, by hand %.9g", c.kind, c.item, m.Demand, c.actual)
		}
		if c.limit > 0 && m.Limit.Low != c.limit {
			t.Errorf("%s of %s: limit %g, want %g", c.kind, c.item, m.Limit.Low, c.limit)
		}
		if want := b.Torque * m.Limit.Low / c.actual; math.Abs(m.Allowable[0]-want) > 1e-9*want {
			t.Errorf("%s of %s: allows %g N·mm, by hand %g", c.kind, c.item, m.Allowable[0], want)
		}
	}
	bolt := limitOf(t, r, "only", BoltSlip, "w2")
	force, _ := joint.Thread{Diameter: 10, Pitch: 1.5}.Preload(940, 0.9, 0.14, 0)
	if want := force/1.6 - 3000; bolt.Limit.Low != want {
		t.Errorf("the bolts clamp with %g N, by hand %g", bolt.Limit.Low, want)
	}
}

// A spline through which nothing passes, and the circlip on the side away from the thrust, have no limit; in coast the other one has.
func TestJointsWithoutLoad(t *testing.T) {
	has := func(r *Result, item string) bool {
		for _, m := range r.Speeds[0].All() {
			if m.Item == item {
				return true
			}
		}
		return false
	}
	drive, coast := mustSolve(t, jointed(), Load{}), mustSolve(t, jointed(), Load{Torque: -100e3})
	if has(drive, "idle spline on in shaft") {
		t.Error("a spline without torque has a limit")
	}
	if has(drive, "all along on in shaft") {
		t.Error("what takes torque and gives it back within its length has a limit")
	}
	for _, r := range []*Result{drive, coast} {
		if has(r, "ring on in shaft") == has(r, "other ring on in shaft") {
			t.Error("the thrust pushes on both circlips, or on none")
		}
	}
	if has(drive, "ring on in shaft") == has(coast, "ring on in shaft") {
		t.Error("drive and coast push on the same circlip")
	}
	m := drive.Speeds[0].Meshes[0] // its axial force is that on p1 along +x
	if right := m.Axial > 0; has(drive, "ring on in shaft") != right {
		t.Errorf("the mesh pushes p1 with %g N along the shaft, and the circlip on its right carries: %v", m.Axial, !right)
	}
	for _, item := range []string{"ring on in shaft", "other ring on in shaft"} {
		if has(drive, item) {
			if got := limitOf(t, drive, "only", CirclipPush, item).Demand; math.Abs(got-math.Abs(m.Axial)) > 1e-9*got {
				t.Errorf("the circlip takes %g N, the mesh pushes with %g", got, m.Axial)
			}
		}
	}
}

// Without an undercut it is said that nothing holds them in.
func TestDogsThatComeOut(t *testing.T) {
	for _, back := range []float64{-0.02, 0, 0.07} {
		b := jointed()
		b.Gears[1].Dogs.Back = back
		notes := strings.Join(limitOf(t, mustSolve(t, b, Load{}), "only", DogYield, "w1").Notes, " ")
		if told := strings.Contains(notes, "nothing but friction"); told != (back <= 0) {
			t.Errorf("back angle %g rad: %q", back, notes)
		}
	}
}

func TestImpossibleJoints(t *testing.T) {
	for _, c := range []struct {
		joint Joint
		path  string
		want  string
	}{
		{Joint{Name: "x", Type: InvoluteSpline, At: 3, Length: 12, Teeth: 20, Outer: 30, Inner: 28}, "", "off the shaft"},
		{Joint{Name: "x", Type: InvoluteSpline, At: 30, Length: 12, Teeth: 20, Outer: 28, Inner: 30}, "", "a spline that doesn't touch"},
		{Joint{Name: "x", Type: PressedOn, At: 30, Length: 12, Outer: 30, Interference: 0.03}, ".outer", "a hub without a wall"},
		{Joint{Name: "x", Type: CirclipRing, At: 87, Depth: 1, Holds: "w1"}, ".holds", "a circlip without its gear"},
		{Joint{Name: "x", Type: CirclipRing, At: 120, Depth: 16, Holds: "p1"}, ".depth", "a groove through the wall"},
	} {
		b := threeShafts()
		b.Shafts[0].Joints = []Joint{c.joint}
		if found := Validate(b); len(found) != 1 || found[0].Summary != c.want || found[0].Path != "shafts.in.joints.x"+c.path {
			t.Errorf("%+v: %v, want %q", c.joint, found, c.want)
		}
	}
}
