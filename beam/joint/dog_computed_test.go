package joint

import "testing"

// Statics of an inclined flank, reckoned independently; the pull without friction, T tan α/r, and the even share are on a page about
// mechanisms. 900 N·m on six dogs at 38 mm, half of which carry.
func TestDogs(t *testing.T) {
	for _, c := range []struct{ back, dry, rubbing, out float64 }{{4, 1656.161, -707.3137, 4052.923}, {7, 2908.055, 533.0888, 5342.069}} {
		d := Dogs{Teeth: 6, Radius: 38, Height: 5, Length: 4, Thick: 9, Share: 0.5, Face: true, Back: c.back * degree}
		same(t, "force", d.Force(9e5), 23684.21, 1e-6)
		same(t, "pressure", d.Pressure(9e5), 394.7368, 1e-6)
		same(t, "shear", d.Shear(9e5), 175.4386, 1e-6)
		same(t, "pull without friction", d.PullIn(9e5, 0), c.dry, 1e-6)
		same(t, "pull", d.PullIn(9e5, 0.1), c.rubbing, 1e-6)
		same(t, "force to pull out", d.PullOut(9e5, 0.1), c.out, 1e-6)
		d.Face = false // radial teeth are sheared off over their length
		same(t, "shear of radial teeth", d.Shear(9e5), 175.4386*5/4, 1e-6)
		d.Length = 2 // half engaged
		same(t, "pressure half engaged", d.Pressure(9e5), 2*394.7368, 1e-6)
	}
}

func TestBackAngle(t *testing.T) {
	for _, c := range []struct {
		back, friction float64
		stays, draws   bool
	}{{-5, 0.1, true, false}, {-5, 0.05, false, false}, {0, 0.1, true, false}, {3, 0.1, true, false}, {6, 0.1, true, true}} {
		stays, draws := Dogs{Back: c.back * degree}.Stays(c.friction)
		if stays != c.stays || draws != c.draws {
			t.Errorf("%g° at μ %g: stays %v, draws in %v", c.back, c.friction, stays, draws)
		}
	}
	// The angle at which friction just holds is 5.710593° at μ = 0.1.
	if stays, _ := (Dogs{Back: -5.7105 * degree}).Stays(0.1); !stays {
		t.Error("just within friction it doesn't stay")
	}
	if stays, _ := (Dogs{Back: -5.7107 * degree}).Stays(0.1); stays {
		t.Error("just beyond friction it stays")
	}
}

// Pointed teeth: plane geometry; nothing published on unlike slopes could be read.
func TestPoints(t *testing.T) {
	for _, c := range []struct {
		angles, share, area, index [2]float64
		height                     float64
	}{
		{[2]float64{45, 45}, [2]float64{0.5, 0.5}, [2]float64{8.485281, 8.485281}, [2]float64{0.8348624, 0.8348624}, 1.5},
		{[2]float64{55, 35}, [2]float64{0.6710101, 0.3289899}, [2]float64{9.829825, 6.882917}, [2]float64{0.5740328, 1.185741}, 1.409539},
	} {
		p := Point{Thick: 3, Angles: [2]float64{c.angles[0] * degree, c.angles[1] * degree}, Face: 4}
		same(t, "height", p.Height(), c.height, 1e-6)
		for i := range c.angles {
			same(t, "share", p.Landings()[i], c.share[i], 1e-6)
			same(t, "area", p.Areas()[i], c.area[i], 1e-6)
			same(t, "index", Cone{Blocking: 1, Point: p.Angles[i], Points: 0.09}.Index(1), c.index[i], 1e-6)
		}
	}
}

// Two inertias and a spring, checked by an integration over time. N·m and kg·m² there.
func TestImpact(t *testing.T) {
	for _, c := range []struct{ j1, j2, difference, energy, peak float64 }{{0.0045, 0.35, 25, 1.388399, 247.163}, {0.16, 0.35, 12, 7.905882, 589.7956}} {
		energy, peak := Impact(c.j1*1e6, c.j2*1e6, 22000e3, c.difference, 0)
		same(t, "energy", energy/1e3, c.energy, 1e-6)
		same(t, "peak", peak/1e3, c.peak, 1e-6)
	}
	// With a torque that drives it, the spring carries the share of the other inertia when all has settled, and twice that at the crest.
	if _, peak := Impact(1, 3, 1e4, 0, 100); peak != 150 {
		t.Errorf("peak %g, want 150", peak)
	}
}
