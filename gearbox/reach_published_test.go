package gearbox

import (
	"math"
	"testing"
)

const (
	poundMass = 0.45359237 // kg
	poundSize = 4.4482216152605
	inchSize  = 25.4
)

// Gillespie, Fundamentals of Vehicle Dynamics, chapter 2, traction-limited acceleration, the two worked examples; from memory. Rear drive with a locking differential, 2100 lb in front and
// 1850 lb behind, centre of gravity 21 in high, wheelbase 108 in: 1304 lb at µ 0.62. Front drive, 1950 lb in front and 1150 lb behind, 19 in, 105 in: 1087 lb. The forces are printed to the pound.
func TestGripByGillespie(t *testing.T) {
	for _, c := range []struct {
		name          string
		drive         Drive
		driven, other float64 // lb
		height, base  float64 // in
		want          float64 // lbf
	}{
		{"rear drive", RearDrive, 1850, 2100, 21, 108, 1304},
		{"front drive", FrontDrive, 1950, 1150, 19, 105, 1087},
	} {
		car := Car{Mass: (c.driven + c.other) * poundMass, Drive: c.drive, DrivenShare: c.driven / (c.driven + c.other), Wheelbase: c.base * inchSize, Height: c.height * inchSize, Grip: 0.62}
		if got, lifts := car.Holds(true); lifts || math.Abs(got/poundSize-c.want) > 0.5 {
			t.Errorf("%s: %.1f lbf, lifts %t; printed %g", c.name, got/poundSize, lifts, c.want)
		}
	}
}

// Wong, Theory of Ground Vehicles, chapter 3, maximum tractive effort, without rolling resistance; from memory: F = µ W (l_f/L)/(1 − µ h/L) for rear drive, l_f being the distance of the centre of
// gravity from the front axle, and µ W (l_r/L)/(1 + µ h/L) for front drive.
func TestGripByWong(t *testing.T) {
	const mass, base, front, height = 950.0, 2450.0, 1300.0, 510.0
	for mu := 0.1; mu < 1.3; mu += 0.1 {
		w := mass * standardGravity
		for drive, want := range map[Drive]float64{
			RearDrive:  mu * w * (front / base) / (1 - mu*height/base),
			FrontDrive: mu * w * ((base - front) / base) / (1 + mu*height/base),
		} {
			share := front / base
			if drive == FrontDrive {
				share = 1 - share
			}
			car := Car{Mass: mass, Drive: drive, DrivenShare: share, Wheelbase: base, Height: height, Grip: mu}
			if got, _ := car.Holds(true); math.Abs(got-want) > 1e-12*want {
				t.Errorf("%s drive at µ %.1f: %g N, want %g", drive, mu, got, want)
			}
		}
	}
}
