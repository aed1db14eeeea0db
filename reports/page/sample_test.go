package page

import (
	"fmt"
	"math"
	"testing"

	"layshaft/beam"
	"layshaft/gearbox"
	"layshaft/gearbox/study"
	"layshaft/gearstress/involute"
	"layshaft/gearstress/iso6336"
	"layshaft/gearstress/scuffing"
	"layshaft/material"
)

// names of everything a box file can name, so that a test can make any of them hostile.
type names struct{ box, about, first, input, output, pinion, wheel, mesh, left, right, note, source string }

var plainNames = names{"Alder", "Invented numbers.", "1st", "input shaft", "output shaft", "first pinion", "first wheel", "first", "left", "right",
	"No shock factor.", "an invented source"}

// sample is a box of two shafts with the given number of speeds. All its numbers are invented; only the curves are solved.
func sample(t testing.TB, n names, speeds int, torque float64) *gearbox.Result {
	t.Helper()
	teeth, rating := rated(t)
	r := &gearbox.Result{
		Box: &gearbox.Box{
			Name: n.box, About: n.about, Torque: math.Abs(torque),
			Shafts: []gearbox.Shaft{{Name: n.input}, {Name: n.output}},
			Limits: gearbox.Limits{Strength: material.Low, Reserve: 0.15}, Duty: &gearbox.Duty{Passes: 1200},
			Lessons: lessonsOf(n), Narrowed: []gearbox.Narrowed{{
				Steel: n.note, Strength: gearbox.FlankStrength, Was: material.Band{Low: 1300, Typical: 1500, High: 1650}, Now: material.Band{Low: 1414, Typical: 1500, High: 1600},
			}},
		},
		Torque: torque,
		Notes:  []string{n.note},
		Lives: []gearbox.GearLife{
			{Gear: n.pinion, Speeds: []string{n.first}, Root: gearbox.Life{Asked: 9613, Reached: 33000}, Drive: gearbox.Life{Asked: math.Inf(1), Reached: math.Inf(1)}, Coast: gearbox.Life{Asked: 2e9, Reached: 2e9}},
			{Gear: n.wheel, Speeds: []string{n.first}, Root: gearbox.Life{Asked: gearbox.AtOnce, Reached: 0.25}, Drive: gearbox.Life{Asked: 123456, Reached: 654321}},
		},
	}
	for k := range speeds {
		name := n.first
		if k > 0 {
			name = fmt.Sprintf("speed %d", k+1)
		}
		ratio := 3.2 - 0.5*float64(k)
		at := 40 + 25*float64(k)
		sp := gearbox.SpeedResult{
			Name: name, Ratio: -ratio, Efficiency: 0.985, OutputTorque: torque * ratio,
			Meshes: []gearbox.MeshResult{{
				Name: n.mesh, Gears: [2]string{n.pinion, n.wheel}, Shafts: [2]string{n.input, n.output}, At: [2]float64{at, at},
				Geometry: teeth, Face: 22, Flank: gearbox.DriveFlank, Torque: [2]float64{-torque, torque * ratio},
				Tangential: 7200, Radial: 2600, Axial: 1900, Separation: 0.031, Tilt: 0.0008, TiltInAction: -0.0004, FaceGap: 0.009,
				Root: [2]float64{410, math.NaN()}, RootReal: [2]float64{430, 395}, Contact: 1180, Notes: []string{n.note + " At the mesh."},
				Causes: []gearbox.Cause{{Name: n.input + " bends", Tilt: -0.0006}, {Name: n.wheel + " in its seat", Tilt: 0.0002}},
				// Falls in a straight line from the left end to nothing at 5.5 mm right of the middle: the mean over the 22 mm is 3/8 of the peak.
				Stations: []float64{-11, -5.5, 0, 5.5, 11}, LineLoad: []float64{800, 1600. / 3, 800. / 3, 0, 0}, FaceFactor: 8. / 3, Counted: 3.1, Deviation: 0.008, InContact: 0.75,
				Growth: []gearbox.Spot{
					{Torque: 0.1 * math.Abs(torque), FaceFactor: 3.5, InContact: 0.5, Middle: -6.2}, {Torque: 0.5 * math.Abs(torque), FaceFactor: 2.9, InContact: 0.7, Middle: 0.003},
					{Torque: math.Abs(torque), FaceFactor: 8. / 3, InContact: 0.75, Middle: 1.5}, {Torque: 1.5 * math.Abs(torque), FaceFactor: 2.4, InContact: 1, Middle: 2.25},
				},
				Scuffing: screened(n.note), Stiffness: 16000, FactorC: 2.2, Rating: rating, Peak: rating,
			}},
			Notes: []string{n.note},
			Reach: &gearbox.Reach{
				Engine: math.Abs(torque), Shocked: 1.5 * math.Abs(torque), Clutch: 1.4 * math.Abs(torque), Tyres: (0.9 + float64(k)) * math.Abs(torque), Force: 4711,
				Peak: gearbox.Reached{Torque: 0.9 * math.Abs(torque), By: gearbox.ByTyres}, Running: gearbox.Reached{Torque: 0.9 * math.Abs(torque), By: gearbox.ByTyres},
			},
		}
		for i, shaft := range []string{n.input, n.output} {
			sp.Shafts = append(sp.Shafts, loadedShaft(t, n, shaft, []string{n.pinion, n.wheel}[i], at, torque*[]float64{1, ratio}[i]))
		}
		a := math.Abs(torque) * (0.85 + 0.12*float64(k))
		for i, kind := range gearbox.Kinds() {
			reach := a * (1 + 0.35*float64(i))
			m := gearbox.Margin{
				Kind: kind, Item: n.pinion, Demand: 0.4, Limit: material.Band{Low: 0.5, Typical: 0.6, High: 0.7, Source: n.source}, Level: material.Low,
				Allowable: [material.High + 1]float64{reach, 1.2 * reach, 1.4 * reach}, Margin: reach/math.Abs(torque) - 1, State: gearbox.Thin,
			}
			if kind == gearbox.FlankFatigue {
				m.Life = 9613 * (1 + float64(k))
			}
			switch {
			case m.Margin < 0:
				m.State = gearbox.Over
			case m.Margin >= 0.15:
				m.State = gearbox.Clear
			}
			m.Comes, m.Reached, m.ReachedState = 0.9*math.Abs(torque), m.Margin+0.1, gearbox.Clear
			if kind.Reference() {
				sp.References = append(sp.References, m)
			} else {
				sp.Margins = append(sp.Margins, m)
			}
		}
		for level := range 3 {
			sp.Ends[level] = gearbox.FirstLimit{Torque: math.Inf(1)}
			for _, m := range sp.Margins {
				if m.Allowable[level] < sp.Ends[level].Torque {
					sp.Ends[level] = gearbox.FirstLimit{Kind: m.Kind, Item: m.Item, Torque: m.Allowable[level]}
				}
			}
		}
		r.Speeds = append(r.Speeds, sp)
	}
	return r
}

// lessonsOf are an invented service history: one that bounds two strengths, one of them put aside, one of something broken, and one from which nothing follows.
func lessonsOf(n names) []gearbox.Lesson {
	return []gearbox.Lesson{
		{
			Box: n.box, Evidence: gearbox.Evidence{Torque: 290e3, Passes: 40, Speed: n.first, Note: n.note},
			Loads: []gearbox.CountedLoad{{Speed: n.first, Peak: gearbox.Reached{Torque: 118e3, By: gearbox.ByTyres}, Running: gearbox.Reached{Torque: 117e3, By: gearbox.ByTyres}}},
			Bounds: []gearbox.StrengthBound{
				{Steel: n.source, Strength: gearbox.FlankStrength, Kind: gearbox.FlankPeak, Item: n.pinion, Speed: n.first, Needed: 1704, Counted: 1414},
				{Steel: n.source, Strength: gearbox.YieldStrength, Kind: gearbox.ShaftYield, Item: n.input, Speed: n.first, Needed: 1250, Counted: 943.9, Aside: true},
			},
		},
		{
			Box: n.box, Evidence: gearbox.Evidence{Torque: 420e3, Broke: true, Gear: n.wheel, By: gearbox.PittedFlank},
			Bounds: []gearbox.StrengthBound{{Steel: n.source, Strength: gearbox.FlankStrength, Upper: true, Kind: gearbox.FlankFatigue, Item: n.wheel, Speed: n.first, Needed: 1600, Counted: 1600}},
		},
		{Box: n.box, Evidence: gearbox.Evidence{Torque: 480e3, Broke: true, Passes: 1}, Why: n.note},
	}
}

// screened is what a screen for scuffing might say; its numbers are invented, and its two methods differ.
func screened(note string) *scuffing.Result {
	return &scuffing.Result{
		A: scuffing.Place{Sliding: -6125}, E: scuffing.Place{Sliding: 2250},
		Flash:    scuffing.Flash{Contact: 243.4, Margin: scuffing.Margin{Limit: 391, Verdict: scuffing.Unlikely}},
		Integral: &scuffing.Integral{Contact: 187, Margin: scuffing.Margin{Limit: 345, Verdict: scuffing.Uncertain}},
		Notes:    []string{note},
	}
}

// rated is an invented pair of case-hardened gears and its rating under an invented load.
func rated(t testing.TB) (*involute.Pair, *iso6336.Rating) {
	t.Helper()
	p, err := involute.New(involute.Spec{Module: 2.75, Helix: 20 * math.Pi / 180, Rack: involute.StandardRack, Teeth: [2]int{13, 41},
		Shift: [2]float64{0.38, 0.1}, ShiftKnown: [2]bool{true, true}, Face: 22})
	if err != nil {
		t.Fatal(err)
	}
	form, err := iso6336.NewForm(p, iso6336.Edition2019, [2]float64{})
	if err != nil {
		t.Fatal(err)
	}
	steel, _ := material.Find("case-carburised")
	strength, err := iso6336.StrengthOf(&steel, material.Typical)
	if err != nil {
		t.Fatal(err)
	}
	strength.Yield = 700
	gear := iso6336.Gear{Strength: strength, FlankRoughness: 0.003, RootRoughness: 0.016, Grade: 7}
	r, err := form.Rate(iso6336.Input{Torque: 170e3, Turns: 5e7, KA: 1, KHb: 8. / 3, KHbOrigin: "an invented load along the face",
		Gear: [2]iso6336.Gear{gear, gear}, Viscosity: 100})
	if err != nil {
		t.Fatal(err)
	}
	return p, r
}

func loadedShaft(t testing.TB, n names, name, gear string, at, torque float64) gearbox.ShaftResult {
	t.Helper()
	shaft := beam.Shaft{
		Sections: []beam.Section{{Length: 30, Outer: 30, Bore: 8}, {Length: 120, Outer: 38, Bore: 8}, {Length: 50, Outer: 32, Bore: 8}},
		Young:    206000, Poisson: 0.3,
		Supports: []beam.Support{{X: 12, Radial: 3e5}, {X: 188, Radial: 2e5, Axial: math.Inf(1)}},
	}
	model, err := beam.New(shaft)
	if err != nil {
		t.Fatal(err)
	}
	solution, err := model.Solve(beam.Case{Loads: []beam.Load{
		{X: at, Length: 22, Fx: 1900, Fy: -2600, Fz: 7200, Mx: -torque, Mz: 40000},
		{X: 4, Mx: torque},
	}})
	if err != nil {
		t.Fatal(err)
	}
	top := solution.MaxDeflection()
	sh := gearbox.ShaftResult{
		Name: name, Start: -10, Length: 200, MaxDeflection: top.Deflection(), MaxAt: top.X, Span: 176, Solution: solution,
		Gears: []gearbox.GearSeat{{Name: gear, Mesh: n.mesh, From: at - 11, To: at + 11, Diameter: 62}},
		Notes: []string{n.note},
	}
	x := 0.0
	for i, s := range shaft.Sections {
		sh.Sections = append(sh.Sections, gearbox.SectionResult{Number: i + 1, From: x, To: x + s.Length, Outer: s.Outer, Bore: s.Bore, Stress: solution.SectionStress(i)})
		x += s.Length
	}
	for i, re := range solution.Reactions() {
		at := shaft.Supports[i].X
		st := solution.At(at, beam.Left)
		sh.Bearings = append(sh.Bearings, gearbox.BearingResult{
			Name: []string{n.left, n.right}[i], Type: gearbox.DeepGrooveBall, At: at, Force: [3]float64{re.Fx, re.Fy, re.Fz},
			Radial: math.Hypot(re.Fy, re.Fz), Slope: st.Slope(), Deflection: st.Deflection(),
		})
	}
	return sh
}

// pair is two boxes side by side, the second without the last speed of the first.
func pair(t testing.TB, a, b names) *study.Comparison {
	t.Helper()
	return study.Compare([]*gearbox.Result{sample(t, a, 5, 170e3), sample(t, b, 4, 170e3)})
}

func birch() names {
	n := plainNames
	n.box, n.note = "Birch", "The short case is stiff."
	return n
}
