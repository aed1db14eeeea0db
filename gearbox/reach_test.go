package gearbox

import (
	"fmt"
	"math"
	"testing"

	"layshaft/gearstress/involute"

	"pgregory.net/rapid"
)

// A clutch of two faces at 0.32, 9.4 kN on a mean radius of 110 mm: T = n µ F r_m = 2 · 0.32 · 9400 N · 0.110 m = 661.76 N·m.
func TestClutchFromItsParts(t *testing.T) {
	c := Clutch{Clamp: 9400, Faces: 2, Friction: 0.32, Radius: 110}
	if got := c.Holds(); math.Abs(got-661760) > 1e-6 {
		t.Errorf("it holds %g N·mm, want 661760", got)
	}
	c.Torque = 420e3
	if got := c.Holds(); got != 420e3 {
		t.Errorf("told to hold 420 N·m it holds %g N·mm", got)
	}
}

// buggy is a light car with the final drive in the box.
func buggy(drive Drive) *Car {
	return &Car{TyreRadius: 290, Mass: 620, Drive: drive, DrivenShare: 0.55, Wheelbase: 2300, Height: 420, Grip: 1.2}
}

// What the tyres hold follows from the balance of moments alone, whatever formula is used: under the force F the driven axle carries N = W s ± F h/L and F = µ N.
func TestTyresAreInBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Car{
			Mass: rapid.Float64Range(200, 3000).Draw(t, "mass"), Drive: rapid.SampledFrom(Drives()).Draw(t, "drive"),
			DrivenShare: rapid.Float64Range(0.2, 0.8).Draw(t, "share"), Wheelbase: rapid.Float64Range(1500, 4000).Draw(t, "base"),
			Height: rapid.Float64Range(100, 1500).Draw(t, "height"), Grip: rapid.Float64Range(0.1, 2.5).Draw(t, "grip"),
		}
		forwards := rapid.Bool().Draw(t, "forwards")
		w := c.Mass * standardGravity
		f, lifts := c.Holds(forwards)
		onDriven := w
		if c.Drive != AllDrive {
			// Moments about the ground contact of the undriven axle: N L = W s L ± F h; + where the push loads the driven axle.
			sign := -1.0
			if forwards == (c.Drive == RearDrive) {
				sign = 1
			}
			onDriven = w*c.DrivenShare + sign*f*c.Height/c.Wheelbase
		}
		const tiny = 1e-9
		switch {
		case f > c.Grip*w*(1+tiny):
			t.Fatalf("%g N, more than µ W", f)
		case lifts && onDriven < w*(1-tiny):
			t.Fatalf("the other axle is said to lift while the driven one carries %g N of %g", onDriven, w)
		case lifts && math.Abs(f-c.Grip*w) > tiny*f:
			t.Fatalf("with all weight on the driven axle %g N, want µ W = %g", f, c.Grip*w)
		case !lifts && math.Abs(f-c.Grip*onDriven) > tiny*f:
			t.Fatalf("%g N at a load of %g N on the driven axle", f, onDriven)
		case !lifts && onDriven > w*(1+tiny):
			t.Fatalf("the driven axle carries %g N of %g", onDriven, w)
		}
	})
}

// The limit cases: without height nothing moves over; at the height where the other axle just lifts the force is µ W and goes on so; backwards a rear drive is a front drive.
func TestLimitsOfTyres(t *testing.T) {
	c := buggy(RearDrive)
	w := c.Mass * standardGravity
	c.Height = 0
	if f, lifts := c.Holds(true); lifts || math.Abs(f-1.2*0.55*w) > 1e-9 {
		t.Errorf("without height %g N, want µ W s = %g", f, 1.2*0.55*w)
	}
	lift := (1 - c.DrivenShare) * c.Wheelbase / c.Grip
	for _, h := range []float64{lift * (1 - 1e-12), lift * (1 + 1e-12), 2 * lift} {
		c.Height = h
		if f, lifts := c.Holds(true); math.Abs(f-1.2*w) > 1e-9*w || lifts != (h > lift) {
			t.Errorf("at a height of %g of %g mm: %g N, lifts %t; want %g", h, lift, f, lifts, 1.2*w)
		}
	}
	rear, front, all := buggy(RearDrive), buggy(FrontDrive), buggy(AllDrive)
	a, _ := rear.Holds(false)
	b, _ := front.Holds(true)
	if a != b {
		t.Errorf("rear drive backwards holds %g N, front drive forwards %g", a, b)
	}
	for _, forwards := range []bool{true, false} {
		if f, lifts := all.Holds(forwards); lifts || f != 1.2*w {
			t.Errorf("all wheels hold %g N, want %g", f, 1.2*w)
		}
	}
}

// Own figures, recomputed by hand: 1300 kg, half of it on the driven rear axle, centre of gravity at a fifth of the wheelbase, tyre radius 0.31 m, axle 3.9, box without
// meshes of loss but 96 % in all. W = 12 748.6 N; µ 0.9: F = 0.9 · 12 748.6 · 0.5/0.82 = 6996.2 N, 2168.8 N·m at the wheels, over 3.9 · 0.96 · ratio; µ 1.8: 0.5 · 1.8 · 12 748.6/0.64 = 17 927.7 N, 5557.6 N·m.
func TestGripByHand(t *testing.T) {
	for _, c := range []struct{ grip, ratio, want float64 }{
		{0.9, 3.3, 175.53}, {0.9, 2.0, 289.63}, {0.9, 1.4, 413.76}, {0.9, 1.0, 579.27},
		{1.8, 3.3, 449.81}, {1.8, 2.0, 742.19}, {1.8, 1.4, 1060.27}, {1.8, 1.0, 1484.38},
	} {
		car := Car{TyreRadius: 310, AxleRatio: 3.9, AxleEfficiency: 0.96, Mass: 1300, Drive: RearDrive, DrivenShare: 0.5, Wheelbase: 2500, Height: 500, Grip: c.grip}
		force, lifts := car.Holds(true)
		ratio, efficiency := car.axle()
		if got := force * car.TyreRadius / (c.ratio * ratio * efficiency) / 1e3; lifts || math.Abs(got-c.want) > 0.06 {
			t.Errorf("µ %g, ratio %g: %.2f N·m, want %.2f", c.grip, c.ratio, got, c.want)
		}
	}
}

// withReverse is threeShafts with a way over an idler as a second speed.
func withReverse() *Box {
	b := threeShafts()
	b.Shafts = append(b.Shafts, shaftsOf(parallel{"idle", 33, math.Sqrt(53*53 - 33*33), 120})...)
	b.Shafts[3].Start = 86
	b.Gears = append(b.Gears,
		Gear{Name: "pr", Shaft: "in", At: 120, Teeth: 23, Face: 16}, Gear{Name: "ir", Shaft: "idle", At: 34, Teeth: 30, Face: 16}, Gear{Name: "wr", Shaft: "out", At: 120, Teeth: 23, Face: 16})
	spur := Mesh{Name: "c", Driver: "pr", Driven: "ir", Module: 2, Rack: involute.StandardRack, Efficiency: 1}
	back := spur
	back.Name, back.Driver, back.Driven = "d", "ir", "wr"
	b.Meshes = append(b.Meshes, spur, back)
	b.Speeds = append(b.Speeds, Speed{Name: "reverse", Path: []string{"c", "d", "b"}})
	return b
}

// Backwards the weight moves the other way: a rear drive holds what a front drive does forwards, and in coast each holds what the other direction does in drive.
func TestReverseTurnsTheTransferRound(t *testing.T) {
	b := withReverse()
	b.Car = buggy(RearDrive)
	loads, unloads := 5138.99, 3291.59 // N, by hand: 1.2 · 0.55 · 6080.12 N = 4012.88 N over 1 ∓ 1.2 · 420/2300
	for torque, want := range map[float64][2]float64{200e3: {loads, unloads}, -200e3: {unloads, loads}} {
		for i, s := range mustSolve(t, b, Load{Torque: torque}).Speeds {
			if s.Reach.Reverse != (i == 1) || math.Abs(s.Reach.Force-want[i]) > 0.01 {
				t.Errorf("%s at %g N·mm: reverse %t, %.2f N at the ground; want %.2f", s.Name, torque, s.Reach.Reverse, s.Reach.Force, want[i])
			}
		}
	}
	// Asked for alone it is reverse all the same.
	if r := mustSolve(t, b, Load{Speeds: []string{"reverse"}}).Speeds[0].Reach; !r.Reverse {
		t.Error("the reverse speed alone is taken for a forward one")
	}
}

// The torque that reaches the teeth is what the wheels bear, taken back through the box: put into the box as a drive, it gives the grip at the ground again.
func TestReachComesBackThroughTheBox(t *testing.T) {
	b := threeShafts()
	b.Meshes[0].Efficiency, b.Meshes[1].Efficiency = 0.98, 0.97
	for _, torque := range []float64{200e3, -200e3} {
		for _, drive := range Drives() {
			b.Car = buggy(drive)
			b.Car.AxleRatio, b.Car.AxleEfficiency = 1.3, 0.96
			s := mustSolve(t, b, Load{Torque: torque}).Speeds[0]
			r := s.Reach
			again := mustSolve(t, b, Load{Torque: math.Copysign(r.Tyres, torque)}).Speeds[0]
			eta := 0.96
			if torque < 0 {
				eta = 1 / eta
			}
			atWheels := math.Abs(again.OutputTorque) * 1.3 * eta
			force, _ := b.Car.Holds(torque > 0)
			if math.Abs(atWheels-force*290) > 1e-9*atWheels || math.Abs(r.Force-force) > 1e-9*force {
				t.Errorf("%s drive at %g N·mm: %g N·mm come to the wheels, the tyres hold %g", drive, torque, atWheels, force*290)
			}
			if !math.IsInf(r.Clutch, 1) || r.Engine != 200e3 || r.Reverse {
				t.Errorf("%+v", r)
			}
		}
	}
}

// Which of the three governs, for the peak and for what runs.
func TestWhichBoundGoverns(t *testing.T) {
	b := threeShafts()
	b.Shock = 1.6
	tyres := func() float64 {
		b.Car, b.Clutch = buggy(RearDrive), nil
		return mustSolve(t, b, Load{}).Speeds[0].Reach.Tyres
	}()
	for _, c := range []struct {
		clutch, grip  float64 // N·mm; of what the tyres hold at a grip of 1.2
		peak, running Bound
	}{
		{1e9, 1e9, ByEngine, ByEngine},
		{250e3, 1e9, ByClutch, ByEngine},
		{150e3, 1e9, ByClutch, ByClutch},
		{250e3, 210e3, ByTyres, ByEngine},
		{250e3, 150e3, ByTyres, ByTyres},
		{150e3, 160e3, ByClutch, ByClutch},
	} {
		b.Clutch = &Clutch{Torque: c.clutch}
		b.Car = buggy(AllDrive)
		all, _ := b.Car.Holds(true)
		rear, _ := buggy(RearDrive).Holds(true)
		b.Car.Grip *= c.grip / (tyres * all / rear)
		r := mustSolve(t, b, Load{}).Speeds[0].Reach
		if r.Peak.By != c.peak || r.Running.By != c.running {
			t.Errorf("clutch %g, tyres %g: peak by %s, running by %s; want %s, %s", c.clutch, r.Tyres, r.Peak.By, r.Running.By, c.peak, c.running)
		}
		if want := min(320e3, c.clutch, c.grip); math.Abs(r.Peak.Torque-want) > 1e-9*want {
			t.Errorf("peak %g, want %g", r.Peak.Torque, want)
		}
		if want := min(200e3, c.clutch, c.grip); math.Abs(r.Running.Torque-want) > 1e-9*want {
			t.Errorf("running %g, want %g", r.Running.Torque, want)
		}
	}
}

// Margins against what reaches the teeth: put that torque in, as it comes, and the margin against the asked torque is the same.
func TestMarginsAgainstWhatReaches(t *testing.T) {
	b := threeShafts()
	b.Shock = 1.5
	b.Clutch = &Clutch{Torque: 170e3}
	s := mustSolve(t, b, Load{}).Speeds[0]
	if s.Reach.Peak != (Reached{170e3, ByClutch}) || s.Reach.Running != (Reached{170e3, ByClutch}) {
		t.Fatalf("%+v", s.Reach)
	}
	// All of it comes as 170 N·m, once and for long: a box with no shock at that torque.
	b.Shock, b.Clutch = 1, nil
	plain := mustSolve(t, b, Load{Torque: 170e3})
	least := math.Inf(1)
	for i := range s.Margins {
		m := &s.Margins[i]
		want := limitOf(t, plain, "only", m.Kind, m.Item)
		if math.Abs(m.Reached-want.Margin) > 1e-6 || m.ReachedState != want.State || m.Comes != 170e3 {
			t.Errorf("%s of %s: margin %g (%s) against the %g that reach it, want %g (%s)", m.Kind, m.Item, m.Reached, m.ReachedState, m.Comes, want.Margin, want.State)
		}
		least = min(least, m.Reached)
	}
	if first := s.Margins[s.Reach.First].Reached; first != least {
		t.Errorf("the first limit has a margin of %g, the least is %g", first, least)
	}
	if plain.Speeds[0].Reach != nil {
		t.Error("something reaches the teeth though neither clutch nor tyres are told")
	}
}

// With nothing in the way the margins are those against the asked torque.
func TestReachWithoutBounds(t *testing.T) {
	b := twoSpeeds(1e4, DutyStep{Speed: "only", Turns: 50, Share: 1}, DutyStep{Speed: "higher", Turns: 200, Share: 0.8})
	b.Shock = 1.5
	b.Clutch = &Clutch{Torque: 1e9}
	for _, torque := range []float64{200e3, -150e3} {
		for _, s := range mustSolve(t, b, Load{Torque: torque}).Speeds {
			for _, m := range s.Margins {
				if math.Abs(m.Reached-m.Margin) > 1e-9*(1+m.Margin) {
					t.Errorf("%s of %s: %g, want %g", m.Kind, m.Item, m.Reached, m.Margin)
				}
			}
		}
	}
}

// What a duty wears is held against what comes in each of its steps: put into a duty of its own, that has the same margin, whichever speed is looked at.
func TestDutyIsHeldAgainstWhatComesInEachStep(t *testing.T) {
	b := twoSpeeds(1e4, DutyStep{Speed: "only", Turns: 50, Share: 1}, DutyStep{Speed: "higher", Turns: 200, Share: 0.8}, DutyStep{Speed: "only", Turns: 80, Share: -0.9})
	b.Car = buggy(FrontDrive)
	b.Car.Grip = 0.9
	r := mustSolve(t, b, Load{})
	lower, higher := r.Speeds[0].Reach, r.Speeds[1].Reach
	back := mustSolve(t, b, Load{Torque: -0.9 * 200e3}).Speeds[0].Reach
	if !(lower.Running.Torque < higher.Running.Torque) || lower.Running.By != ByTyres || back.Running.By != ByTyres || !(higher.Tyres < 160e3) {
		t.Fatalf("the tyres let %g through in the lower speed, %g in coast and %g in the higher", lower.Running.Torque, back.Running.Torque, higher.Running.Torque)
	}
	c := twoSpeeds(1e4,
		DutyStep{Speed: "only", Turns: 50, Share: lower.Running.Torque / 200e3}, DutyStep{Speed: "higher", Turns: 200, Share: min(0.8, higher.Tyres/200e3)},
		DutyStep{Speed: "only", Turns: 80, Share: -back.Running.Torque / 200e3})
	plain := mustSolve(t, c, Load{})
	for i := range r.Speeds {
		for _, m := range r.Speeds[i].Margins {
			if m.Life == 0 {
				continue
			}
			want := limitOf(t, plain, r.Speeds[i].Name, m.Kind, m.Item)
			if math.Abs(m.Reached-want.Margin) > 1e-7*(1+want.Margin) || math.Abs(m.LifeReached-want.Life) > 1e-7*want.Life || m.Reached < m.Margin-1e-9 && !math.IsInf(m.Margin, 1) {
				t.Errorf("%s, %s of %s: margin %g and %g passes against what reaches it, asked as such %g and %g", r.Speeds[i].Name, m.Kind, m.Item, m.Reached, m.LifeReached, want.Margin, want.Life)
			}
		}
	}
}

func ExampleCar_Holds() {
	car := Car{Mass: 620, Drive: RearDrive, DrivenShare: 0.55, Wheelbase: 2300, Height: 420, Grip: 1.2}
	forwards, _ := car.Holds(true)
	backwards, _ := car.Holds(false)
	fmt.Printf("%.0f N forwards, %.0f N backwards\n", forwards, backwards)
	// Output: 5139 N forwards, 3292 N backwards
}
