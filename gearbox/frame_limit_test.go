package gearbox

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"layshaft/beam"
	"layshaft/gearstress/faceload"
)

// With crowned and leaning flanks K_Hβ changes with the torque without a jump, from nearly nothing, where one strip carries all, to full contact: over
// a step of the torque by no more than that step, since the largest line load doesn't fall when the torque grows.
func TestFaceFactorIsContinuous(t *testing.T) {
	b := frameSystem("three")
	b.Gears[1].LeadError = 0.03
	p := prepare(b, Method{})
	v := p.solverFor(b.Speeds[0], p.layouts[0][0], b.Torque)
	var last [2]float64
	low, high := math.Inf(1), 0.0
	for torque := 1.0; torque < 2e6; torque *= 1.01 {
		st, err := v.at(torque)
		if err != nil {
			t.Fatal(err)
		}
		for m := range last {
			k := st.carried.faces.FaceLoadFactor(m)
			if last[m] > 0 && math.Abs(math.Log(k/last[m])) > 0.0101 {
				t.Errorf("mesh %d at %g N·mm: K_Hβ goes from %g to %g", m, torque, last[m], k)
			}
			last[m] = k
			low, high = min(low, k), max(high, k)
		}
	}
	t.Logf("K_Hβ from %.2f down to %.3f", high, low)
	if high < 10 || low > 1.4 {
		t.Errorf("K_Hβ lies between %g and %g; the torque should go through all of it", low, high)
	}
}

// Bearings from next to nothing to all but rigid, in any mixture: it is solved, with the balance kept.
func TestExtremeBearings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := frameSystem(rapid.SampledFrom([]string{"spur", "helical", "three", "inline"}).Draw(t, "box"))
		for i := range b.Shafts {
			for j := range b.Shafts[i].Bearings {
				br := &b.Shafts[i].Bearings[j]
				br.Radial = math.Pow(10, rapid.Float64Range(1, 9).Draw(t, "radial"))
				if br.In == "" && rapid.Bool().Draw(t, "tilting") {
					br.Tilt = math.Pow(10, rapid.Float64Range(3, 12).Draw(t, "tilt"))
				}
			}
		}
		for i := range b.Meshes {
			b.Meshes[i].Stiffness = math.Pow(10, rapid.Float64Range(1, 9).Draw(t, "teeth"))
		}
		r, err := frameResult(b, b.Torque, Method{NoShoulder: true})
		if err != nil {
			t.Fatal(err)
		}
		for i := range r.Speeds[0].Meshes {
			m := &r.Speeds[0].Meshes[i]
			sum := 0.0
			for k, w := range faceload.Widths(strips, m.Face) {
				if !(m.LineLoad[k] >= 0) {
					t.Fatalf("%s: line load %v", m.Name, m.LineLoad)
				}
				sum += w * m.LineLoad[k]
			}
			want := math.Abs(m.Torque[0]) * 2 / m.Geometry.Base[0]
			if math.Abs(sum-want) > 1e-6*want || !(m.FaceFactor >= 1) || m.FaceFactor > float64(strips)*12/5 {
				t.Errorf("%s: carries %g N of %g N, K_Hβ %g", m.Name, sum, want, m.FaceFactor)
			}
		}
	})
}

// What nothing holds is told.
func TestLooseShaftIsRefused(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Box)
	}{
		{"one bearing that is free to tilt", func(b *Box) { b.Shafts[0].Bearings = b.Shafts[0].Bearings[:1]; b.Shafts[0].Bearings[0].Tilt = 0 }},
		{"no bearing", func(b *Box) { b.Shafts[1].Bearings = nil }},
		{"nothing holds it along its axis", func(b *Box) { b.Shafts[0].Bearings[0].Axial = 0 }},
	} {
		b := frameSystem("helical")
		c.change(b)
		if _, err := Solve(b, Load{}); err == nil || len(err.Error()) < 20 {
			t.Errorf("%s: error %v", c.name, err)
		}
	}
	// One bearing that holds against tilting is enough.
	b := frameSystem("helical")
	b.Shafts[0].Bearings = b.Shafts[0].Bearings[:1]
	if _, err := frameResult(b, b.Torque, Method{}); err != nil {
		t.Errorf("one bearing that holds against tilting: %v", err)
	}
}

// Rigid shafts leave the lead error alone: both regimes of the closed form (ISO 6336-1 method C, see faceload.FromMisalignment).
func TestRigidShaftsWithLeadError(t *testing.T) {
	for _, lead := range []float64{0.02, -0.02, 0.08, -0.08, 0.15, 0.4, -0.4} {
		b := frameStiffened(frameSystem("helical"), 1e9)
		b.Meshes[0].Stiffness /= 1e9
		b.Gears[0].LeadError = lead
		r, err := frameResult(b, b.Torque, Method{})
		if err != nil {
			t.Fatal(err)
		}
		m := &r.Speeds[0].Meshes[0]
		mean := m.Tangential / math.Cos(m.Geometry.WorkingPressureAngle) / m.Face
		want, contact := faceload.FromMisalignment(lead, 16000, mean)
		tolerance := 1e-6
		if want > 2 { // an edge of the contact lies between two strips
			tolerance = 6e-3
		}
		if math.Abs(m.FaceFactor-want) > tolerance*want || math.Abs(m.InContact-contact) > tolerance {
			t.Errorf("lead error %g mm: K_Hβ %.6f, %.4f in contact; closed form %.6f, %.4f", lead, m.FaceFactor, m.InContact, want, contact)
		}
		if end := map[bool]string{true: "left", false: "right"}[lead > 0]; m.CrowdedEnd() != end {
			t.Errorf("lead error %g mm crowds the %s end", lead, m.CrowdedEnd())
		}
	}
}

// What the causes say: they add up, and each shaft's own bending is that of the shaft on rigid bearings under the same loads.
func TestCausesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := frameSteady(t)
		v, st := frameState(t, b, b.Torque, Method{})
		loads := v.loads(st)
		for n := range st.flow.steps {
			m := frameMesh(v.p, st, n)
			sum, size := 0.0, 0.0
			named := map[string]float64{}
			for _, c := range m.Causes {
				sum += c.Tilt
				size += math.Abs(c.Tilt)
				named[c.Name] = c.Tilt
			}
			if math.Abs(sum-m.TiltInAction) > 1e-9*size+1e-11 {
				t.Errorf("%s: causes add up to %g, the tilt is %g: %v", m.Name, sum, m.TiltInAction, m.Causes)
			}
			q := &v.p.pairs[st.flow.steps[n].mesh]
			for k, s := range q.shafts {
				stiff := st.models[s].Shaft()
				stiff.Supports = slices.Clone(stiff.Supports)
				for j := range stiff.Supports {
					stiff.Supports[j].Radial = rigid
				}
				model, err := beam.New(stiff)
				if err != nil {
					t.Fatal(err)
				}
				own := slices.Clone(loads[s])
				if piloted, ok := v.p.carries[b.Shafts[s].Name]; ok {
					i := v.p.shaft[piloted]
					force := st.solved[i].Reactions()[v.p.lines[i].pilot]
					own = append(own, beam.Load{X: b.Shafts[i].Bearings[v.p.lines[i].pilot].InAt, Fy: -force.Fy, Fz: -force.Fz})
				}
				bent, err := model.Solve(beam.Case{Loads: own})
				if err != nil {
					t.Fatal(err)
				}
				at := bent.At(q.at[k], beam.Left)
				want := point{at.Y.Slope, at.Z.Slope}.dot(st.coupling.forces[n].action) * float64(1-2*k)
				if got := named[ShaftTitle(b.Shafts[s].Name)+" bends"]; math.Abs(got-want) > 1e-6*size+1e-11 {
					t.Errorf("%s: %s bends %g, on rigid bearings %g: %v", m.Name, b.Shafts[s].Name, got, want, m.Causes)
				}
			}
		}
	})
}

// A bench test that would be read off a box of known case leads back to it.
func TestHousingIsFoundBack(t *testing.T) {
	for _, name := range []string{"spur", "helical", "three", "inline"} {
		for _, k := range []float64{2e3, 5e4, 1e6} {
			b := frameSystem(name)
			b.Housing.Radial = k
			b.Shafts[0].Bearings[1].Radial = 2e5
			torque := 0.6 * b.Torque
			r, err := frameResult(b, torque, Method{})
			if err != nil {
				t.Fatal(err)
			}
			shaft := &r.Speeds[0].Shafts[0]
			bearing := shaft.Bearings[1]
			b.Housing = Housing{Test: &HousingTest{Speed: b.Speeds[0].Name, Torque: torque, Shaft: shaft.Name, Bearing: bearing.Name, Movement: bearing.Radial / k}}
			p := prepare(b, Method{})
			if err := p.findHousing(); err != nil {
				t.Errorf("%s, %g N/mm: %v", name, k, err)
				continue
			}
			if math.Abs(p.housing-k) > 1e-6*k {
				t.Errorf("%s: %g N/mm found, %g meant", name, p.housing, k)
			}
		}
	}
}

// With 11, 21, 41 and 81 strips, cut and weighed like those of the coupled solution, K_Hβ comes to rest; the frame stands in for it, since both agree to
// rounding with the same strips.
func TestStripsConverge(t *testing.T) {
	for _, c := range []struct {
		name   string
		lead   float64
		torque float64
		at21   float64 // share of K_Hβ
	}{{"spur", 0, 250e3, 3e-4}, {"helical", 0, 320e3, 3e-4}, {"three", 0, 320e3, 3e-4}, {"inline", 0, 300e3, 3e-4}, {"helical", 0.05, 60e3, 5e-3}} {
		b := frameSystem(c.name)
		b.Gears[0].LeadError = c.lead
		limit := frameSolve(t, b, c.torque, frameOptions{strips: 321})
		misses := map[int]float64{}
		for _, n := range []int{11, 21, 41, 81} {
			s := frameSolve(t, b, c.torque, frameOptions{strips: n})
			for m := range s.load {
				misses[n] = max(misses[n], math.Abs(s.factor(m)/limit.factor(m)-1))
			}
		}
		t.Log(fmt.Sprintf("%s, lead error %g: ", c.name, c.lead), misses)
		if misses[21] > c.at21 || misses[81] > misses[21]/2 {
			t.Errorf("%s, lead error %g: off by %v", c.name, c.lead, misses)
		}
	}
}
