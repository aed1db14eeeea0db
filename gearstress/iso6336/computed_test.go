package iso6336

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"
)

// The figures of this file were computed by another program, written independently
// from the same formulas. They check the arithmetic, not the standard.

// Exact tip-load values beside the handbook table: closed form and construction of
// the trochoid agreed to five digits.
func TestTipLoadFactorsComputed(t *testing.T) {
	for _, row := range []struct{ z, yf, ys float64 }{
		{17, 2.9575, 1.5219}, {20, 2.8, 1.5525}, {25, 2.6336, 1.5922}, {30, 2.529, 1.6229}, {50, 2.333, 1.7024}, {100, 2.1953, 1.7945},
	} {
		f := tipLoaded(t, row.z)
		near(t, "Y_F", f.YF, row.yf, 0.0001)
		near(t, "Y_S", f.YS, row.ys, 0.0001)
	}
}

func TestShiftedSpurFormFactorsComputed(t *testing.T) {
	for _, row := range []struct {
		z                    int
		x, dedendum, tip, yf float64
	}{
		{16, 0.1817, 1.25, 0.25, 1.637752}, {23, 0.35, 1.35, 0.30, 1.390030}, {12, 0.5, 1.25, 0.38, 1.421140},
	} {
		rack := involute.StandardRack
		rack.Dedendum, rack.TipRadius = row.dedendum, row.tip
		f := formOf(t, involute.Spec{Module: 1, Rack: rack, Teeth: [2]int{row.z, 40}, Shift: [2]float64{row.x, 0},
			ShiftKnown: [2]bool{true, true}, Face: 10}, Edition2006)
		near(t, "Y_F", f.Tooth[0].YF, row.yf, 2e-6)
	}
}

// The geometry is that of example 1 of ISO/TR 6336-30:2017 as remembered; dedendum, tip
// radius and width are not from there, nor are any results.
func TestHelicalPairComputed(t *testing.T) {
	rack := involute.StandardRack
	rack.Dedendum, rack.TipRadius = 1.4, 0.39
	spec := involute.Spec{Module: 8, Helix: radians(15.8), Rack: rack, Teeth: [2]int{17, 103}, Shift: [2]float64{0.14522, 0},
		ShiftKnown: [2]bool{true, true}, TipDiameter: [2]float64{159.66, 872.35}, CentreDistance: 500, Face: 100}
	f := formOf(t, spec, Edition2006)
	near(t, "ε_α", f.Pair.TransverseContactRatio, 1.5491, 0.0001)
	near(t, "ε_β", f.Pair.OverlapRatio, 1.0834, 0.0001)
	near(t, "Z_H", f.ZH, 2.3953, 0.0001)
	near(t, "Z_ε", f.ZEps, 0.8035, 0.0001)
	near(t, "Z_β", f.ZBeta, 1.0194, 0.0001)
	near(t, "Y_F1", f.Tooth[0].YF, 1.5563, 0.0001)
	near(t, "Y_S1", f.Tooth[0].YS, 1.8247, 0.0001)
	near(t, "Y_F2", f.Tooth[1].YF, 1.3368, 0.0001)
	near(t, "Y_S2", f.Tooth[1].YS, 2.0749, 0.0001)
	c := MeshStiffness(f.Pair, [2]float64{206000, 206000}, [2]Body{}, 1000)
	near(t, "c'", c.Single, 12371, 1)
	near(t, "c_γα", c.Mean, 17465.6, 1)
	near(t, "C_B", c.Rack, 0.9, 1e-12)
}

func TestMeshStiffnessComputed(t *testing.T) {
	for _, row := range []struct {
		z                       [2]int
		theory, single, mean, q float64
	}{
		{[2]int{20, 40}, 16272.5, 12692.6, 18739.2, 0.061453},
		{[2]int{28, 28}, 16130.3, 12581.7, 18602, 0.061995},
	} {
		spec := spurSpec()
		spec.Teeth = row.z
		p := pairOf(t, spec)
		c := MeshStiffness(p, [2]float64{206000, 206000}, [2]Body{}, 100)
		near(t, "c'_th", c.Theoretical, row.theory, 0.05)
		near(t, "q'", 1000/c.Theoretical, row.q, 5e-7)
		near(t, "C_B", c.Rack, 0.975, 1e-12)
		near(t, "c'", c.Single, row.single, 0.05)
		near(t, "c_γα", c.Mean, row.mean, 0.2)
		near(t, "c_γβ", c.Face, 0.85*c.Mean, 1e-9)
	}
}

func TestDynamicFactorComputed(t *testing.T) {
	f := formOf(t, spurSpec(), Edition2019)
	in := inputOf(t)
	in.KA, in.Torque = 1, 200*30*30 // 200 N/mm on 30 mm of face at 30 mm radius
	in.Deviation = &Deviation{Pitch: 0.006, Profile: 0.005}
	in.Gear[0].Grade, in.Gear[1].Grade = 0, 0
	for _, row := range []struct{ rpm, n, kv float64 }{{3000, 0.1417, 1.0652}, {8000, 0.378, 1.1738}} {
		in.Speed = row.rpm * math.Pi / 30
		d := rate(t, f, in).Dynamic
		near(t, "m_red", d.ReducedMass, 0.009537, 5e-7)
		near(t, "n_E1", d.Resonance*30/math.Pi, 21165, 1)
		near(t, "N", d.Ratio, row.n, 5e-5)
		near(t, "K_v", d.KV, row.kv, 5e-5)
		if d.Regime != Subcritical {
			t.Errorf("regime %q, want %q", d.Regime, Subcritical)
		}
	}
}
