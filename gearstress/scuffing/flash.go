package scuffing

import (
	"math"
	"slices"

	"layshaft/gearstress/contact"
)

// Station is one point of the path of contact under load.
type Station struct {
	Place
	Share       float64 // X_Γ, load sharing factor, –
	Approach    float64 // X_J, approach factor, –
	Load        float64 // normal load per length of the line of contact w, N/mm
	Relative    float64 // relative radius of curvature ρ across the line of contact, mm
	Pressure    float64 // p_H, Hertz pressure, MPa
	HalfWidth   float64 // b_H, half width of the strip of contact, mm
	Flash       float64 // Θ_fl, flash temperature, K
	Temperature float64 // Θ_B = Θ_M + Θ_fl, contact temperature, °C
}

// Flash is the outcome of the flash temperature method.
type Flash struct {
	Friction float64   // μ_m, mean friction coefficient, –; 0 for a standing gear
	Stations []Station // from A to E; where the load jumps two stations share a place
	Hottest  Station   // the station of the highest flash
	Mean     float64   // Θ_flm, mean flash along the path, K
	Bulk     float64   // Θ_M, estimated bulk temperature of the teeth, °C
	Contact  float64   // Θ_Bmax = Θ_M + Θ_flmax, °C
	Margin
}

// FlashTemperature is Blok's rise of temperature in a strip of contact between two bodies that
// both move fast across it, K:
//
//	Θ_fl = 1.11 μ w |v1 − v2| / ( √(2 b_H) (B_M1 √v1 + B_M2 √v2) )
//
// with friction μ (–), load w per length of line (N/mm), rolling speeds v ≥ 0 (mm/s), thermal
// contact coefficients B_M (N/(mm·√s·K), see Material.ThermalContact) and half width b_H > 0 (mm).
// It is the peak under Hertz pressure, the heat divided so that both surfaces get equally hot.
// Standing bodies make no heat: 0. Source: H. Blok, 1937, from memory; ISO/TS 6336-20:2017, flash
// temperature, from memory.
func FlashTemperature(friction, load float64, speed, thermal [2]float64, halfWidth float64) float64 {
	carried := thermal[0]*math.Sqrt(speed[0]) + thermal[1]*math.Sqrt(speed[1])
	if carried == 0 {
		return 0
	}
	return 1.11 * friction * load * math.Abs(speed[0]-speed[1]) / (math.Sqrt(2*halfWidth) * carried)
}

// mesh is what does not change along the path.
type mesh struct {
	path    *path
	sharing sharing
	load    float64    // full normal load per length of line, N/mm
	thermal [2]float64 // B_M, N/(mm·√s·K)
	ze      float64    // Z_E, √MPa
}

// station works out one point of the path with friction μ and a share of the load.
func (c *mesh) station(s, share, approach, friction float64) Station {
	t := Station{Place: c.path.at(s), Share: share, Approach: approach, Load: c.load * share, Relative: c.path.relativeRadius(s)}
	t.Pressure, t.HalfWidth = contact.Line(t.Load, t.Relative, c.ze)
	if s != 0 {
		t.Flash = approach * FlashTemperature(friction, t.Load, t.Speed, c.thermal, t.HalfWidth)
	}
	return t
}

// steps is the number of steps in each smooth stretch of the path; even, for
// Simpson's rule.
const steps = 6

// follow works out the flash along the path. It returns the stations, the mean of the
// flash (K), and the mean friction force times sliding speed per length of line, over one
// base pitch, for a load of 1 N/mm and μ = 1 (mm/s).
func (c *mesh) follow(friction float64) (stations []Station, mean, rub float64) {
	w := c.path
	ends := [...]float64{w.a, w.b, w.d, w.e, 0, w.a + c.sharing.ramp, w.e - c.sharing.ramp}
	slices.Sort(ends[:])
	stretches := 0
	for _, s := range ends {
		if s > w.a && s <= w.e {
			stretches++
		}
	}
	stations = make([]Station, 0, stretches*(steps+1))
	from := w.a
	for _, to := range ends {
		if to > w.e || to-from <= 1e-9*w.pitch {
			continue
		}
		h := (to - from) / steps
		var flash, slide float64
		for k := range steps + 1 {
			s := from + float64(k)*h
			if k == steps {
				s = to
			}
			t := c.station(s, c.sharing.at(s, (from+to)/2), c.sharing.approach(s), friction)
			weight := 4.0
			switch {
			case k == 0 || k == steps:
				weight = 1
			case k%2 == 0:
				weight = 2
			}
			flash += weight * t.Flash
			slide += weight * t.Share * math.Abs(t.Sliding)
			// Where nothing jumps the end of one stretch is the start of the next.
			if n := len(stations); k > 0 || n == 0 || stations[n-1].Share != t.Share {
				stations = append(stations, t)
			}
		}
		mean += flash * h / 3
		rub += slide * h / 3
		from = to
	}
	return stations, mean / (w.e - w.a), rub / w.pitch
}

// flash runs the flash temperature method. The bulk temperature is
//
//	Θ_M = Θ_oil + 0.47 X_S X_mp Θ_flm
//
// in °C, Θ_flm in K, cooling X_S (–), mates X_mp = (1 + n_p)/2 (–). Source:
// ISO/TS 6336-20:2017, bulk temperature, from memory.
func (c *mesh) flash(friction, oil, cooling, mates float64) (f Flash, rub float64) {
	f.Friction = friction
	f.Stations, f.Mean, rub = c.follow(friction)
	f.Bulk = oil + 0.47*cooling*mates*f.Mean
	hottest := 0
	for i := range f.Stations {
		t := &f.Stations[i]
		t.Temperature = f.Bulk + t.Flash
		if t.Flash > f.Stations[hottest].Flash {
			hottest = i
		}
	}
	f.Hottest = f.Stations[hottest]
	f.Contact = f.Hottest.Temperature
	return f, rub
}
