package gearbox

import (
	"math"
	"slices"
	"strings"
	"testing"

	"layshaft/beam"
	"layshaft/beam/bearing"

	"pgregory.net/rapid"
)

// lawMiss is by how much what the solved shafts put on their bearings of known elements differs from what the elements give at that very place, over the largest of
// these forces (couples over half the pitch diameter). The place along the axis is found here by halving, out of Elements.Force alone.
func lawMiss(t interface{ Fatalf(string, ...any) }, p *prepared, st *state) (worst float64) {
	var miss, size float64
	for i, s := range p.box.Shafts {
		if st.solved[i] == nil {
			continue
		}
		reactions := st.reactions(i)
		// force and couple of a bearing's row at the place along the axis.
		ask := func(j int, e bearing.Elements, x float64) ([3]float64, [2]float64) {
			br := s.Bearings[j]
			at := st.solved[i].At(br.At, beam.Left)
			moved := [3]float64{x, at.Y.Deflection, at.Z.Deflection}
			tilt := [2]float64{-at.Z.Slope, at.Y.Slope}
			switch under := p.caseUnder(br); {
			case br.In != "":
				seat := st.solved[p.shaft[br.In]].At(br.InAt, beam.Left)
				moved[1] -= seat.Y.Deflection
				moved[2] -= seat.Z.Deflection
				tilt = [2]float64{}
			case !math.IsInf(under, 1):
				moved[1] += reactions[j].Fy / under
				moved[2] += reactions[j].Fz / under
			}
			force, couple, err := e.Force(moved, tilt)
			if err != nil {
				t.Fatalf("%s, bearing %s at %v, %v: %v", s.Name, br.Name, moved, tilt, err)
			}
			return force, couple
		}
		halve := func(excess func(x float64) float64, most float64) float64 {
			if excess(0) == 0 {
				return 0
			}
			lo, hi := -most, most
			for range 200 {
				if middle := lo + (hi-lo)/2; excess(middle) < 0 {
					lo = middle
				} else {
					hi = middle
				}
			}
			return hi
		}
		compare := func(j int, e bearing.Elements, x float64) {
			force, couple := ask(j, e, x)
			r, lever := reactions[j], e.Pitch/2
			if s.Bearings[j].In != "" {
				couple = [2]float64{} // a pilot carries radial force alone
			}
			miss = max(miss, math.Hypot(force[1]+r.Fy, force[2]+r.Fz), math.Hypot(couple[0]+r.My, couple[1]+r.Mz)/lever)
			size = max(size, math.Hypot(r.Fy, r.Fz), math.Hypot(r.My, r.Mz)/lever)
		}
		if s.Pair != nil {
			last, external := len(s.Bearings)-1, 0.0
			for _, r := range reactions {
				external -= r.Fx
			}
			pair := bearing.Pair{Arrangement: s.Pair.Arrangement, A: *s.Bearings[0].Elements, B: *s.Bearings[last].Elements, Setting: s.Pair.EndPlay}
			a, b := pair.Rows()
			half := math.Copysign(s.Pair.EndPlay/2, a.ContactAngle) * math.Copysign(1, s.Pair.EndPlay)
			x := halve(func(x float64) float64 {
				fa, _ := ask(0, a, x-half)
				fb, _ := ask(last, b, x+half)
				return fa[0] + fb[0] - external
			}, min(a.Diameter, b.Diameter)/4-math.Abs(half))
			compare(0, a, x-half)
			compare(last, b, x+half)
			for j, at := range map[int]float64{0: x - half, last: x + half} {
				row := []bearing.Elements{a, b}[min(j, 1)]
				force, _ := ask(j, row, at)
				miss = max(miss, math.Abs(force[0]+reactions[j].Fx))
			}
			for j := 1; j < last; j++ {
				if e := s.Bearings[j].Elements; e != nil {
					compare(j, *e, 0)
				}
			}
			continue
		}
		for j, br := range s.Bearings {
			if br.Elements == nil {
				continue
			}
			x := 0.0
			if br.Elements.Kind == bearing.Ball {
				x = halve(func(x float64) float64 { f, _ := ask(j, *br.Elements, x); return f[0] + reactions[j].Fx }, br.Elements.Diameter/4)
			}
			compare(j, *br.Elements, x)
		}
	}
	if size == 0 {
		return 0
	}
	return miss / size
}

// anyElements draws elements that carry a bearing of the sample boxes.
func anyElements(t *rapid.T, kind bearing.Kind, label string) *bearing.Elements {
	between := func(what string, low, high float64) float64 {
		return rapid.Float64Range(low, high).Draw(t, label+" "+what)
	}
	e := bearing.Elements{Kind: kind, Pitch: between("pitch", 45, 90), Turn: between("turn", 0, 6), Clearance: rapid.SampledFrom([]float64{0, 0.01, 0.02, 0.05, -0.005, -0.02}).Draw(t, label+" clearance")}
	e.Diameter = e.Pitch * between("diameter", 0.12, 0.24)
	e.Count = int(math.Pi / math.Asin(e.Diameter/e.Pitch) * between("fill", 0.55, 0.95))
	switch kind {
	case bearing.Ball:
		e.Groove = rapid.SampledFrom([]float64{0, 0.51, 0.54}).Draw(t, label+" groove")
	case bearing.Tapered:
		e.Clearance, e.Length, e.ContactAngle = 0, e.Diameter*between("length", 1, 1.6), between("angle", 0.1, 0.5)
	default:
		e.Length = e.Diameter * between("length", 0.9, 1.5)
	}
	return &e
}

// onElements draws a sample box with elements in most of its bearings.
func onElements(t *rapid.T) *Box {
	b := rapid.SampledFrom([]func() *Box{threeShafts, inline}).Draw(t, "box")()
	for i := range b.Shafts {
		s := &b.Shafts[i]
		last := len(s.Bearings) - 1
		for j := range s.Bearings { // the pilot of the sample is a millimetre off its place in the carrier, which would push the case
			if br := &s.Bearings[j]; br.In != "" {
				br.InAt = s.Start + br.At
			}
		}
		piloted := false
		for _, br := range s.Bearings {
			piloted = piloted || br.In != ""
		}
		if !piloted && rapid.IntRange(0, 2).Draw(t, s.Name+" paired") == 0 {
			for _, j := range []int{0, last} {
				s.Bearings[j].Type, s.Bearings[j].Elements = TaperedRoller, anyElements(t, bearing.Tapered, s.Name+s.Bearings[j].Name)
			}
			s.Pair = &BearingPair{
				Arrangement: rapid.SampledFrom([]bearing.Arrangement{bearing.FaceToFace, bearing.BackToBack}).Draw(t, s.Name+" arrangement"),
				EndPlay:     rapid.SampledFrom([]float64{0, 0.03, 0.1, -0.02}).Draw(t, s.Name+" end play"),
			}
			continue
		}
		for j := range s.Bearings {
			br := &s.Bearings[j]
			kinds := []bearing.Kind{bearing.Ball, bearing.Cylindrical, bearing.Needle}
			if br.Axial > 0 {
				kinds = kinds[:1]
			}
			if rapid.IntRange(0, 5).Draw(t, s.Name+br.Name+" plain") > 0 {
				br.Elements = anyElements(t, rapid.SampledFrom(kinds).Draw(t, s.Name+br.Name+" kind"), s.Name+br.Name)
				if br.Elements.Kind == bearing.Ball && br.Axial == 0 { // one that locates is pushed out in one sense of the torque
					br.Elements.ContactAngle = rapid.SampledFrom([]float64{0, 0, 0.3, -0.5}).Draw(t, s.Name+br.Name+" contact angle")
				}
			}
		}
	}
	if rapid.Bool().Draw(t, "soft case") {
		b.Housing.Radial = rapid.Float64Range(5e4, 1e6).Draw(t, "case")
	}
	if rapid.IntRange(0, 3).Draw(t, "seat") == 0 {
		b.Gears[1].Seat = &Seat{Length: 24, Clearance: rapid.SampledFrom([]float64{0, 0.03}).Draw(t, "seat's clearance"), Stiffness: 3e5}
	}
	return b
}

// Whatever stands in a box, it settles at any torque, every bearing then sits where its own law says, and the case stands still.
func TestEveryBoxSettles(t *testing.T) {
	t.Parallel()
	var states, rounds, most, crushed int
	rapid.Check(t, func(t *rapid.T) {
		b := onElements(t)
		p := prepare(b, Method{})
		if p.found.HasErrors() {
			t.Fatalf("%v", p.found)
		}
		torque := b.Torque * rapid.SampledFrom([]float64{1, -1}).Draw(t, "sense")
		v := p.solverFor(b.Speeds[0], p.layouts[0][0], torque)
		for _, share := range []float64{1, 0.01, 5, 0.3, 1.7} {
			before := 0
			if v.footing != nil {
				before = v.footing.rounds
			}
			st, err := v.at(b.Torque * share)
			if v.footing != nil {
				took := v.footing.rounds - before
				states, rounds, most = states+1, rounds+took, max(most, took)
			}
			if err != nil {
				if strings.Contains(err.Error(), "more than a quarter") {
					crushed++
					continue
				}
				t.Fatalf("at %g of the torque: %v", share, err)
			}
			if miss := lawMiss(t, p, st); miss > 1e-6 {
				t.Errorf("at %g of the torque the bearings miss their law by %.2g", share, miss)
			}
			if miss := caseMiss(p, st); miss > 1e-8 {
				t.Errorf("at %g of the torque the case is pushed by %.2g of the largest force", share, miss)
			}
		}
	})
	t.Logf("%d states, %.1f solutions of the faces each, %d at most; %d states beyond what elements bear", states, float64(rounds)/float64(states), most, crushed)
}

// caseMiss is what bearings in the case, and the torques that come in and go out, leave over as forces and as moments (over 300 mm), over the largest force.
func caseMiss(p *prepared, st *state) float64 {
	var force, moment [3]float64
	moment[0] = st.engine - st.flow.output
	largest := 0.0
	for i, s := range p.box.Shafts {
		if st.solved[i] == nil {
			continue
		}
		axis := p.axisOf(st, i)
		for j, r := range st.reactions(i) {
			br := s.Bearings[j]
			if br.In != "" {
				continue
			}
			at, f := [3]float64{s.Start + br.At, axis[0], axis[1]}, [3]float64{r.Fx, r.Fy, r.Fz}
			for k := range 3 {
				force[k] += f[k]
				moment[k] += at[(k+1)%3]*f[(k+2)%3] - at[(k+2)%3]*f[(k+1)%3]
				largest = max(largest, math.Abs(f[k]))
			}
			moment[1] += r.My
			moment[2] += r.Mz
		}
	}
	miss := 0.0
	for k := range 3 {
		miss = max(miss, math.Abs(force[k]), math.Abs(moment[k])/300)
	}
	return miss / largest
}

// axisOf is the axis of a shaft of a sample box; one that sits in another shares its axis.
func (p *prepared) axisOf(st *state, i int) point {
	if a := p.box.Shafts[i].Axis; a != nil {
		return *a
	}
	return p.axisOf(st, p.lines[i].in)
}

// The same state is found from wherever the search starts.
func TestTheWayToABalanceDoesNotShow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := onElements(t)
		v, st := frameState(t, b, b.Torque, Method{})
		if _, err := v.at(3 * b.Torque); err != nil {
			t.Skip(err)
		}
		again, err := v.at(b.Torque)
		if err != nil {
			t.Fatal(err)
		}
		for m, loads := range st.carried.faces.LineLoad {
			top := slices.Max(loads)
			for k, w := range loads {
				if math.Abs(w-again.carried.faces.LineLoad[m][k]) > 1e-6*top {
					t.Fatalf("mesh %d, strip %d: %g N/mm, coming from elsewhere %g", m, k, w, again.carried.faces.LineLoad[m][k])
				}
			}
		}
	})
}

// What the faces see of moved seats is what the shafts do: without wind-up the solved shafts open the flanks at every strip by the compliance times the loads, and by what
// the faces were given as the gap from the seats.
func TestFacesSeeTheSeats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := onElements(t)
		_, st := frameState(t, b, b.Torque, Method{NoTwist: true})
		c := st.coupling
		n := len(c.initial)
		opened, largest := make([]float64, n), 0.0
		for s, sites := range c.sites {
			for _, a := range sites {
				q := &c.p.pairs[c.steps[a.step].mesh]
				for i, xi := range q.stations {
					at := st.solved[s].At(q.at[a.role]+xi, beam.Left)
					move := point{at.Y.Deflection, at.Z.Deflection}
					opened[a.step*strips+i] += a.force.dot(move) + a.couple.dot(point{at.Y.Slope, at.Z.Slope})
					largest = max(largest, move.norm())
				}
			}
		}
		load := slices.Concat(st.carried.faces.Load...)
		for i := range n {
			want := st.carried.base[i] - c.initial[i]
			for j, w := range load {
				want += c.problem.Compliance[i*n+j] * w
			}
			if math.Abs(opened[i]-want) > 1e-9*largest {
				t.Fatalf("strip %d: the shafts open it by %.12g mm, the faces were told %.12g mm", i, opened[i], want)
			}
		}
	})
}

// Rows that are squeezed hard are springs against small loads: a box on them is the box on plain springs of their tangent stiffness.
func TestSqueezedRowsAreSprings(t *testing.T) {
	for _, kind := range []bearing.Kind{bearing.Ball, bearing.Cylindrical} {
		rows, springs := threeShafts(), threeShafts()
		for i := range rows.Shafts {
			for j := range rows.Shafts[i].Bearings {
				e := bearing.Elements{Kind: kind, Count: 12 + i, Diameter: 8, Pitch: 50 + 5*float64(j), Clearance: -0.04, Turn: 0.3}
				if kind != bearing.Ball {
					e.Length = 9
				}
				_, tangent, err := e.Hold(bearing.Stance{}, 0)
				if err != nil {
					t.Fatal(err)
				}
				rows.Shafts[i].Bearings[j].Elements = &e
				springs.Shafts[i].Bearings[j].Radial, springs.Shafts[i].Bearings[j].Tilt = tangent[0][0], tangent[2][2]
			}
		}
		// No thrust, which would take the balls elsewhere.
		for _, b := range []*Box{rows, springs} {
			for i := range b.Meshes {
				b.Meshes[i].Helix, b.Meshes[i].Hand = 0, Spur
			}
			spurCentres(b)
		}
		const small = 1e3
		_, one := frameState(t, rows, small, Method{})
		_, two := frameState(t, springs, small, Method{})
		for m, loads := range one.carried.faces.LineLoad {
			for k, w := range loads {
				if want := two.carried.faces.LineLoad[m][k]; math.Abs(w-want) > 1e-4*slices.Max(loads) {
					t.Errorf("%v, mesh %d, strip %d: %g N/mm, on springs %g N/mm", kind, m, k, w, want)
				}
			}
		}
		for i := range one.solved {
			a, b := one.reactions(i), two.reactions(i)
			for j := range a {
				size := math.Hypot(b[j].Fy, b[j].Fz) + math.Hypot(b[j].My, b[j].Mz)/20
				if math.Hypot(a[j].Fy-b[j].Fy, a[j].Fz-b[j].Fz) > 1e-3*size || math.Hypot(a[j].My-b[j].My, a[j].Mz-b[j].Mz) > 1e-3*size*20 {
					t.Errorf("%v, shaft %d, bearing %d: %+v, on springs %+v", kind, i, j, a[j], b[j])
				}
			}
		}
	}
}

// spurCentres moves the shafts of the three shaft box to where spur gears of its teeth mesh.
func spurCentres(b *Box) {
	a, c := 2*(21+39)/2., 2.5*(17+71)/2.
	b.Shafts[1].Axis = &[2]float64{a, 0}
	b.Shafts[2].Axis = &[2]float64{a + c*math.Cos(-70*math.Pi/180), c * math.Sin(-70*math.Pi/180)}
}

// A box seen in a mirror across its shafts carries the mirror image on its faces, on elements too.
func TestMirroredElementsMirrorThePattern(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := onElements(t)
		c := frameMirrored(b)
		for i := range c.Shafts { // a pair is told by its first and last bearing, from the left
			slices.Reverse(c.Shafts[i].Bearings)
			for j := range c.Shafts[i].Bearings {
				if br := &c.Shafts[i].Bearings[j]; br.Elements != nil {
					e := *br.Elements
					e.ContactAngle = -e.ContactAngle
					br.Elements = &e
				}
			}
		}
		_, one := frameState(t, b, b.Torque, Method{})
		_, two := frameState(t, c, c.Torque, Method{})
		for m, loads := range one.carried.faces.LineLoad {
			top := slices.Max(loads)
			for k, w := range loads {
				if v := two.carried.faces.LineLoad[m][strips-1-k]; math.Abs(v-w) > 1e-6*top {
					t.Fatalf("mesh %d, strip %d: %g N/mm, mirrored %g", m, k, w, v)
				}
			}
		}
	})
}

// Causes add up on elements too, and each shaft's own bending is that of the shaft on knife edges under its loads and the couples of its elements.
func TestCausesAddUpOnElements(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := onElements(t)
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
				edges := st.models[s].Shaft()
				edges.Supports = slices.Clone(edges.Supports)
				own := slices.Clone(loads[s])
				for j, r := range st.solved[s].Reactions() {
					edges.Supports[j].Radial, edges.Supports[j].Tilt = rigid, 0
					own = append(own, beam.Load{X: b.Shafts[s].Bearings[j].At, My: r.My, Mz: r.Mz})
				}
				if piloted, ok := v.p.carries[b.Shafts[s].Name]; ok {
					i := v.p.shaft[piloted]
					force := st.solved[i].Reactions()[v.p.lines[i].pilot]
					own = append(own, beam.Load{X: b.Shafts[i].Bearings[v.p.lines[i].pilot].InAt, Fy: -force.Fy, Fz: -force.Fz})
				}
				model, err := beam.New(edges)
				if err != nil {
					t.Fatal(err)
				}
				bent, err := model.Solve(beam.Case{Loads: own})
				if err != nil {
					t.Fatal(err)
				}
				want := slopeAt(bent, q.at[k]).dot(st.coupling.forces[n].action) * float64(1-2*k)
				if got := named[ShaftTitle(b.Shafts[s].Name)+" bends"]; math.Abs(got-want) > 1e-6*size+1e-11 {
					t.Errorf("%s: %s bends %g, on knife edges %g: %v", m.Name, b.Shafts[s].Name, got, want, m.Causes)
				}
			}
		}
	})
}
