package gearbox

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"layshaft/beam"
	"layshaft/gearstress/faceload"
	"layshaft/material"
)

// frameState is the first speed of a box at one torque, as it stands inside.
func frameState(t interface {
	Helper()
	Fatal(...any)
}, b *Box, torque float64, method Method) (*solver, *state) {
	t.Helper()
	p := prepare(b, method)
	if p.found.HasErrors() {
		t.Fatal(p.found)
	}
	v := p.solverFor(b.Speeds[0], p.layouts[0][0], torque)
	st, err := v.at(math.Abs(torque))
	if err != nil {
		t.Fatal(err)
	}
	return v, st
}

// frameSteady draws a box whose seats have no play, for properties that are no business of the search for the lean.
func frameSteady(t *rapid.T) *Box {
	b := frameBox(t)
	for i := range b.Gears {
		if b.Gears[i].Seat != nil {
			b.Gears[i].Seat.Clearance = 0
		}
	}
	return b
}

// Without wind-up the solved shafts open the meshes at every strip by what the compliance says, and the work of the meshes is that which teeth, shafts and gaps take up:
// Σ F_m δ_m = Σ w (C w + w/(c Δb)) + Σ w g.
func TestCompatibilityAndWork(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := frameSteady(t)
		_, st := frameState(t, b, b.Torque*rapid.SampledFrom([]float64{1, -1}).Draw(t, "sense"), Method{NoTwist: true})
		c, faces := st.coupling, st.carried.faces
		n := len(c.initial)
		var load []float64
		for _, w := range faces.Load {
			load = append(load, w...)
		}
		give, opened := make([]float64, n), make([]float64, n)
		largest, scale := 0.0, math.Abs(st.engine/c.engine)
		gap := slices.Clone(c.initial)
		for i := range n {
			for j, w := range load {
				give[i] += c.problem.Compliance[i*n+j] * w
			}
		}
		for s, sites := range c.sites {
			for _, a := range sites {
				q := &c.p.pairs[c.steps[a.step].mesh]
				for i, xi := range q.stations {
					at := st.solved[s].At(q.at[a.role]+xi, beam.Left)
					move, turn := point{at.Y.Deflection, at.Z.Deflection}, point{at.Y.Slope, at.Z.Slope}
					gap[a.step*strips+i] += a.force.dot(st.carried.leans[q.gears[a.role]]) * xi
					opened[a.step*strips+i] += a.force.dot(move) + a.couple.dot(turn)
					largest = max(largest, move.norm())
				}
			}
		}
		for i := range n {
			if math.Abs(give[i]-opened[i]) > 1e-9*largest {
				t.Fatalf("strip %d: compliance %.12g mm, shafts %.12g mm", i, give[i], opened[i])
			}
		}
		work, taken := 0.0, 0.0
		for m, mesh := range c.problem.Meshes {
			widths := faceload.Widths(strips, mesh.Face)
			work += mesh.Force * scale * faces.Approach[m]
			for i, w := range faces.Load[m] {
				k := m*strips + i
				taken += w * (give[k] + w/(mesh.Stiffness*widths[i]) + gap[k])
			}
		}
		if math.Abs(work-taken) > 1e-7*math.Abs(taken) {
			t.Errorf("work %.12g N·mm, taken up %.12g", work, taken)
		}
	})
}

// frameStiffened is a box with all that gives made f times as stiff.
func frameStiffened(b *Box, f float64) *Box {
	c := *b
	c.Steels = slices.Clone(b.Steels)
	if len(c.Steels) == 0 {
		s, _ := material.Find(DefaultSteel)
		c.Steels = []material.Steel{s}
	}
	for i := range c.Steels {
		c.Steels[i].Young *= f
	}
	c.Shafts, c.Gears, c.Meshes = slices.Clone(b.Shafts), slices.Clone(b.Gears), slices.Clone(b.Meshes)
	for i := range c.Shafts {
		c.Shafts[i].Bearings = slices.Clone(c.Shafts[i].Bearings)
		for j := range c.Shafts[i].Bearings {
			br := &c.Shafts[i].Bearings[j]
			br.Radial, br.Tilt, br.Axial, br.Housing = br.Radial*f, br.Tilt*f, br.Axial*f, br.Housing*f
		}
	}
	for i := range c.Gears {
		if s := c.Gears[i].Seat; s != nil {
			seat := *s
			seat.Stiffness *= f
			c.Gears[i].Seat = &seat
		}
	}
	for i := range c.Meshes {
		c.Meshes[i].Stiffness *= f
	}
	c.Housing.Radial *= f
	return &c
}

// Twice as stiff everywhere: half the movements, the same loads; where a gear leans on its seat to what the search for its lean leaves.
func TestStiffnessScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := frameSteady(t)
		for i := range b.Gears {
			b.Gears[i].Crowning, b.Gears[i].LeadError = 0, 0
		}
		r, err := frameResult(b, b.Torque, Method{})
		if err != nil {
			t.Fatal(err)
		}
		twice, err := frameResult(frameStiffened(b, 2), b.Torque, Method{})
		if err != nil {
			t.Fatal(err)
		}
		for i := range r.Speeds[0].Shafts {
			p, q := &r.Speeds[0].Shafts[i], &twice.Speeds[0].Shafts[i]
			if math.Abs(p.MaxDeflection-2*q.MaxDeflection) > 1e-6*p.MaxDeflection {
				t.Errorf("%s: %g mm, twice as stiff %g mm", p.Name, p.MaxDeflection, q.MaxDeflection)
			}
		}
		for i := range r.Speeds[0].Meshes {
			p, q := &r.Speeds[0].Meshes[i], &twice.Speeds[0].Meshes[i]
			if math.Abs(p.FaceFactor-q.FaceFactor) > 1e-6*p.FaceFactor {
				t.Errorf("%s: K_Hβ %g, twice as stiff %g", p.Name, p.FaceFactor, q.FaceFactor)
			}
		}
	})
}

// Stiffer shafts and bearings, the same teeth: K_Hβ − 1 falls in proportion.
func TestStiffShaftsSpreadTheLoad(t *testing.T) {
	for _, name := range []string{"spur", "helical", "three", "inline"} {
		var last []float64
		for _, f := range []float64{1e2, 1e3, 1e4} {
			b := frameSystem(name)
			stiff := frameStiffened(b, f)
			for i := range b.Meshes {
				stiff.Meshes[i].Stiffness = b.Meshes[i].Stiffness
			}
			for i := range stiff.Gears {
				stiff.Gears[i].Crowning = 0
			}
			r, err := frameResult(stiff, b.Torque, Method{})
			if err != nil {
				t.Fatal(err)
			}
			var over []float64
			for i := range r.Speeds[0].Meshes {
				over = append(over, r.Speeds[0].Meshes[i].FaceFactor-1)
			}
			for i, v := range over {
				if v > 1/f || last != nil && math.Abs(v*10-last[i]) > 0.03*last[i] {
					t.Errorf("%s, %g times as stiff: K_Hβ − 1 is %g, before %v", name, f, over[i], last)
				}
			}
			last = over
		}
	}
}

// frameUniform is a spur pair of narrow, soft teeth on uniform shafts between two rigid bearings at their ends.
func frameUniform(a float64) *Box {
	b := frameSystem("spur")
	const length, outer = 160, 30
	for i := range b.Shafts {
		s := &b.Shafts[i]
		s.Sections = []Section{{length, outer, 0}}
		carriers(s, 0, rigid, 0, length, rigid, 0)
		b.Gears[i].At, b.Gears[i].Face = a, 1
	}
	b.Meshes[0].Stiffness = 10 // so soft that the load is even
	b.Output.At = length
	return b
}

// A uniform shaft tilts under its gear by F a (L − a)(L − 2a)/(3 E I L), not at all in the middle (textbook formula of the simply supported beam, from
// memory). The driver is pushed back, so its gear leans away at the end nearer the middle: with a below L/2 the load crowds the left end.
func TestUniformShaftTilts(t *testing.T) {
	const length, young = 160., 206000
	inertia := math.Pi / 64 * math.Pow(30, 4)
	for _, a := range []float64{20, 40, 60, 80, 100, 133} {
		r, err := frameResult(frameUniform(a), 250e3, Method{NoShear: true, NoTwist: true})
		if err != nil {
			t.Fatal(err)
		}
		m := &r.Speeds[0].Meshes[0]
		force := m.Tangential / math.Cos(20*math.Pi/180)
		want := force * a * (length - a) * (length - 2*a) / (3 * young * inertia * length)
		for _, name := range []string{"in shaft bends", "out shaft bends"} {
			got := 0.0
			for _, c := range m.Causes {
				if c.Name == name {
					got = c.Tilt
				}
			}
			// The load is spread over a face of 1 mm: (b/L)² of the largest tilt.
			if math.Abs(got - -want) > 2e-5*force*length*length/(young*inertia) {
				t.Errorf("gear at %g mm: %s by %.8g rad, want %.8g", a, name, got, -want)
			}
		}
	}
}

// frameMirrored is the box seen in a mirror that stands across its shafts.
func frameMirrored(b *Box) *Box {
	c := *b
	c.Shafts, c.Gears, c.Meshes = slices.Clone(b.Shafts), slices.Clone(b.Gears), slices.Clone(b.Meshes)
	length := map[string]float64{}
	for i := range c.Shafts {
		s := &c.Shafts[i]
		for _, sec := range s.Sections {
			length[s.Name] += sec.Length
		}
		s.Start = -s.Start - length[s.Name]
		s.Sections = slices.Clone(s.Sections)
		slices.Reverse(s.Sections)
	}
	for i := range c.Shafts {
		s := &c.Shafts[i]
		s.Bearings = slices.Clone(s.Bearings)
		for j := range s.Bearings {
			br := &s.Bearings[j]
			br.At = length[s.Name] - br.At
			if br.In != "" {
				br.InAt = length[br.In] - br.InAt
			}
		}
	}
	for i := range c.Gears {
		g := &c.Gears[i]
		g.At, g.LeadError, g.Relief = length[g.Shaft]-g.At, -g.LeadError, [2]Relief{g.Relief[1], g.Relief[0]}
		if g.Seat != nil {
			seat := *g.Seat
			seat.Offset = -seat.Offset
			hub := length[g.Shaft] - b.HubAt(&b.Gears[i])
			g.Seat, g.EngagesAt = &seat, &hub
		}
	}
	for i := range c.Meshes {
		c.Meshes[i].Hand = map[Hand]Hand{Spur: Spur, Left: Right, Right: Left}[c.Meshes[i].Hand]
	}
	c.Input.At, c.Output.At = length[c.Input.Shaft]-c.Input.At, length[c.Output.Shaft]-c.Output.At
	return &c
}

func TestMirroredBoxMirrorsThePattern(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := frameSteady(t)
		for i := range b.Meshes { // torque lost to friction has no left or right either
			b.Meshes[i].Efficiency = rapid.Float64Range(0.9, 1).Draw(t, "efficiency")
		}
		r, err := frameResult(b, b.Torque, Method{})
		if err != nil {
			t.Fatal(err)
		}
		s, err := frameResult(frameMirrored(b), b.Torque, Method{})
		if err != nil {
			t.Fatal(err)
		}
		for i := range r.Speeds[0].Meshes {
			p, q := &r.Speeds[0].Meshes[i], &s.Speeds[0].Meshes[i]
			top := slices.Max(p.LineLoad)
			for k, v := range p.LineLoad {
				if w := q.LineLoad[strips-1-k]; math.Abs(v-w) > 1e-6*top {
					t.Fatalf("%s, strip %d: %g N/mm, mirrored %g", p.Name, k, v, w)
				}
			}
			if math.Abs(p.TiltInAction+q.TiltInAction) > 1e-7*p.Tilt+1e-12 {
				t.Errorf("%s: tilt %g, mirrored %g", p.Name, p.TiltInAction, q.TiltInAction)
			}
		}
	})
}
