package gearbox

import (
	"math"
	"testing"
)

// A pinion cut into its shaft winds up with it, which crowds the load to the end where the torque comes in; a wheel's body is far stiffer than the shaft it sits on;
// a gear on a bearing of its own takes its torque by its dogs and follows nothing.
func TestWhoFollowsTheWindUp(t *testing.T) {
	b := threeShafts()
	p := prepare(b, Method{})
	if got := p.pairs[0].follow[0]; got < 0.5 || got > 1 {
		t.Errorf("the pinion follows %g of the wind-up of its shaft of nearly its own root diameter", got)
	}
	// Wheel of root diameter near 82 mm on a shaft of 36 mm: (36/82)⁴.
	root := p.pairs[0].geometry.Root[1]
	if got, want := p.pairs[0].follow[1], math.Pow(36/root, 4); math.Abs(got-want) > 1e-12 {
		t.Errorf("the wheel follows %g of the wind-up, want %g", got, want)
	}
	b.Gears[1].Seat = &Seat{Length: 24}
	if got := prepare(b, Method{}).pairs[0].follow[1]; got != 0 {
		t.Errorf("a wheel on its own bearing follows %g of the wind-up", got)
	}
}

// On shafts that don't bend, a pinion that is its own shaft is the textbook's twisted pinion: K_Hβ = L coth L with L = (b/d) √(8 c/(π G)) for a mesh stiffness that acts
// at d/2; here it acts at the base circle, so c cos²α takes the place of c. (Exact solution of a solid pinion wound up from one end; own derivation.)
func TestTwistedPinion(t *testing.T) {
	const teeth, module, face, stiffness = 25, 2.0, 50.0, 20000.0
	a := module * (teeth + 200) / 2
	b := &Box{
		Torque: 300e3, Turns: 1, Input: Port{"in", 0}, Output: Port{"out", 0},
		Shafts: shaftsOf(parallel{"in", 0, 0, 100}, parallel{"out", a, 0, 100}),
		Gears:  []Gear{{Name: "p", Shaft: "in", At: 50, Teeth: teeth, Face: face}, {Name: "w", Shaft: "out", At: 50, Teeth: 200, Face: face}},
		Meshes: []Mesh{{Name: "m", Driver: "p", Driven: "w", Module: module, Rack: threeShafts().Meshes[0].Rack, Efficiency: 1, Stiffness: stiffness}},
		Speeds: []Speed{{Name: "only", Path: []string{"m"}}},
	}
	p := prepare(b, Method{NoShoulder: true})
	d := p.pairs[0].geometry.Root[0]
	for i := range b.Shafts { // as thick as the root circle, on bearings that hold it stiff right under the face
		b.Shafts[i].Sections = []Section{{Length: 100, Outer: d}}
		b.Shafts[i].Bearings = nil
		for k, at := range []float64{20, 35, 50, 65, 80} {
			br := Bearing{Name: string(rune('a' + k)), Type: DeepGrooveBall, At: at, Radial: 1e12, Tilt: 1e15}
			if k == 0 {
				br.Axial = rigid
			}
			b.Shafts[i].Bearings = append(b.Shafts[i].Bearings, br)
		}
	}
	m := mustSolve(t, b, Load{Method: Method{NoShoulder: true, NoShear: true}}).Speeds[0].Meshes[0]
	steel, _ := p.steelNamed("")
	shear := steel.Young / (2 + 2*steel.Poisson)
	base := p.pairs[0].geometry.Base[0]
	// φ' = T/GJ, the gap r_b φ, the spring c: L² = b² c r_b² / (G J).
	l := face * math.Sqrt(stiffness*base*base/4/(shear*math.Pi*math.Pow(d, 4)/32))
	if want := l / math.Tanh(l); math.Abs(m.FaceFactor-want) > 0.004*want || m.CrowdedEnd() != "left" {
		t.Errorf("K_Hβ %.4f at the %s end, want %.4f at the left, where the torque comes in", m.FaceFactor, m.CrowdedEnd(), want)
	}
	if free := mustSolve(t, b, Load{Method: Method{NoShoulder: true, NoShear: true, NoTwist: true}}).Speeds[0].Meshes[0]; free.FaceFactor > 1.003 {
		t.Errorf("without wind-up K_Hβ is %.4f, want 1", free.FaceFactor)
	}
}
