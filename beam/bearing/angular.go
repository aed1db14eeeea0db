package bearing

import "math"

// angular is the table for single rows of balls with a contact angle: the angle in degrees, the limit e of F_a/F_r, the
// factors X and Y past it, and the static axial factor Y₀.
// Sources: ISO 281 and ISO 76, tables of radial ball bearings, from memory.
var angular = [...]struct{ degrees, e, x, y, y0 float64 }{
	{20, 0.57, 0.43, 1.00, 0.42}, {25, 0.68, 0.41, 0.87, 0.38}, {30, 0.80, 0.39, 0.76, 0.33},
	{35, 0.95, 0.37, 0.66, 0.29}, {40, 1.14, 0.35, 0.57, 0.26}, {45, 1.34, 0.33, 0.50, 0.22},
}

// shallow is the part of that table for 15°, where it goes by f₀ F_a/C₀; X is 0.44 and Y₀ 0.46 throughout.
var shallow = [...]struct{ load, e, y float64 }{
	{0.178, 0.38, 1.47}, {0.357, 0.40, 1.40}, {0.714, 0.43, 1.30}, {1.07, 0.46, 1.23}, {1.43, 0.47, 1.19},
	{2.14, 0.50, 1.12}, {3.57, 0.55, 1.02}, {5.35, 0.56, 1.00}, {7.14, 0.56, 1.00},
}

// steep is from which contact angle on the load no longer moves the factors, rad: half way from 15° to 20°.
const steep = 17.5 * math.Pi / 180

// AngularFactors are X and Y past the limit e, and Y₀, of a single row of balls with a contact angle, rad (its sign
// does not count), under an axial load, N, with a static rating C₀, N, and the factor f₀ (0 = not known), which count up
// to 17.5° alone. Between the angles of the table they are interpolated, beyond its ends kept.
func AngularFactors(angle, axial, static, f0 float64) (x, y, e, y0 float64) {
	if f0 == 0 {
		f0 = usualF0
	}
	if angle = math.Abs(angle); angle < steep {
		load := min(max(f0*axial/static, shallow[0].load), shallow[len(shallow)-1].load)
		i := 1
		for shallow[i].load < load {
			i++
		}
		low, high := shallow[i-1], shallow[i]
		part := (load - low.load) / (high.load - low.load)
		return 0.44, low.y + part*(high.y-low.y), low.e + part*(high.e-low.e), 0.46
	}
	degrees := min(max(angle*180/math.Pi, angular[0].degrees), angular[len(angular)-1].degrees)
	i := 1
	for angular[i].degrees < degrees {
		i++
	}
	low, high := angular[i-1], angular[i]
	part := (degrees - low.degrees) / (high.degrees - low.degrees)
	mix := func(a, b float64) float64 { return a + part*(b-a) }
	return mix(low.x, high.x), mix(low.y, high.y), mix(low.e, high.e), mix(low.y0, high.y0)
}
