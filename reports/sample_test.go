package reports_test

import (
	"math"
	"slices"
	"strings"

	"layshaft/beam"
	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/gearstress/agma2001"
	"layshaft/gearstress/involute"
	"layshaft/gearstress/iso6336"
	"layshaft/gearstress/scuffing"
	"layshaft/material"
)

// The boxes of these tests are made up by hand: no number in them was computed, so they test the report and nothing else.

func band(low, typical, high float64, source string) material.Band {
	return material.Band{Low: low, Typical: typical, High: high, Source: source}
}

func flat(v float64, source string) material.Band { return band(v, v, v, source) }

// margin is a limit that is judged by the low end; torque and the three allowable torques in N·m.
func margin(kind gearbox.Kind, item string, demand float64, limit material.Band, torque, low, typical, high float64, notes ...string) gearbox.Margin {
	m := gearbox.Margin{
		Kind: kind, Item: item, Demand: demand, Limit: limit, Level: material.Low,
		Allowable: [3]float64{low * 1000, typical * 1000, high * 1000}, Margin: low/torque - 1, State: gearbox.Clear, Notes: notes,
	}
	switch {
	case m.Margin < 0:
		m.State = gearbox.Over
	case m.Margin < 0.1:
		m.State = gearbox.Thin
	}
	return m
}

var yield = band(600, 735, 1000, "hardness test of the club, invented")

const guessed = "The steel is not known: its band is wide."

// birch is a two-speed box asked for 170 N·m: its first speed is over, its second clear.
func birch() *gearbox.Result {
	r := &gearbox.Result{
		Box: &gearbox.Box{
			Name: "Birch", About: "Short case, lighter. All numbers are invented.",
			Origin: gearbox.Origin{File: "birch.yaml", Sum: "00112233445566778899aabbccddeeff"},
			Gears:  []gearbox.Gear{{Name: "first pinion"}, {Name: "first wheel", Steel: "club steel"}}, Shafts: []gearbox.Shaft{{Name: "input"}, {Name: "output"}},
			Steels: []material.Steel{{Name: "club steel"}},
			Limits: gearbox.Limits{Strength: material.Low, Reserve: 0.1, Pitting: true},
			Shock:  1.5, Revs: 300 * math.Pi, Oil: gearbox.Oil{Viscosity: 90},
			Lessons: lessons(), Narrowed: narrowed(),
			Survived: []gearbox.Survived{{Kind: gearbox.BearingSlope, Item: "input shaft, bearing left", Demand: 0.0012, Speed: "1st", Torque: 118000}},
			Duty:     &gearbox.Duty{Passes: 1200, Steps: []gearbox.DutyStep{{Speed: "1st", Turns: 400, Share: 0.9}, {Speed: "1st", Turns: 35, Share: -0.25}}},
		},
		Torque: 170000,
		Checks: []string{"The place of the layshaft is a guess."},
		Notes:  []string{"The case is rigid.", "Gear bodies are solid."},
		Speeds: []gearbox.SpeedResult{
			{
				Name: "1st", Ratio: -3.077, Efficiency: 0.985, OutputTorque: -515200, Checks: []string{"Both sides were tried."}, Notes: []string{guessed},
				Meshes: []gearbox.MeshResult{{
					Name: "first", Gears: [2]string{"first pinion", "first wheel"}, Shafts: [2]string{"input", "output"}, At: [2]float64{48, 52},
					Geometry: pair(), Face: 20, Flank: gearbox.DriveFlank, Torque: [2]float64{170000, -523090},
					Tangential: 9012.5, Radial: 3470, Axial: -3641, Separation: 0.0853, Tilt: 0.00132, TiltInAction: -0.00081, FaceGap: 0.0162,
					Causes:   []gearbox.Cause{{Name: "first wheel in its seat", Tilt: 0.00034}, {Name: "input shaft bends", Tilt: -0.00115}},
					Stations: []float64{-10, 0, 10}, LineLoad: []float64{602.5, 450.6, 301}, FaceFactor: 1.337, Counted: 1.412, Deviation: 0.0061, InContact: 0.96, Stiffness: 13400, FactorC: 1.41,
					Growth: []gearbox.Spot{
						{Torque: 17000, FaceFactor: 1.92, InContact: 0.61, Middle: 1.35}, {Torque: 85000, FaceFactor: 1.41, InContact: 0.83, Middle: 0.002},
						{Torque: 170000, FaceFactor: 1.337, InContact: 0.96, Middle: -0.74}, {Torque: 255000, FaceFactor: 1.29, InContact: 1, Middle: -0.88},
					},
					Scuffing: screened(),
					Rating:   rating(653.2, 1612), Peak: rating(980, 1975), AGMA: agma(),
					Root: [2]float64{653.2, 590.1}, RootReal: [2]float64{601, math.NaN()}, Contact: 1612,
					Derived: []string{"profile shift of the driven gear (x = 0.0200) follows from the centre distance"},
					Checks:  []string{"carries on 96 % of its face only.", "the driver is undercut."},
					Notes:   []string{"first pinion: the Lewis table ends at 12 teeth.", "The oil is a guess."},
				}},
				Shafts: []gearbox.ShaftResult{
					shaft("input", 0.0552, 0.00131, 0.00048),
					shaft("output", 0.00812, 0.00021, 0.00089, "The shoulder at 70 mm is sharp."),
				},
				Margins: []gearbox.Margin{
					margin(gearbox.RootFatigue, "first pinion", 653.2, yield, 170, 156.1, 191.3, 260.3, guessed),
					margin(gearbox.MeshTilt, "mesh first", 0.00132, flat(0.002, "the box file"), 170, 257.6, 257.6, 257.6),
					margin(gearbox.ShaftYield, "output shaft, section 2", 212, yield, 170, 481, 589, 802, "The notch at the circlip is left out."),
				},
				Guides: []gearbox.Margin{
					margin(gearbox.BearingSlope, "input shaft, bearing left", 0.00131, band(0.001, 0.002, 0.003, "a table of slopes"), 170, 130, 260, 390),
					margin(gearbox.BearingSlope, "output shaft, bearing right", 0.00089, band(0.001, 0.002, 0.003, "a table of slopes"), 170, 191, 382, 573),
				},
				References: []gearbox.Margin{
					margin(gearbox.FlankHertz, "mesh first", 1612, flat(1300, "a table of pressures"), 170, 110.5, 110.5, 110.5),
					margin(gearbox.RootAGMA, "first pinion", 301, flat(379, "another standard"), 170, 214, 214, 214, "Without a table for this tooth."),
				},
			},
			{
				Name: "2nd", Ratio: 1.25, Efficiency: 0.97, OutputTorque: 206100,
				Shafts: []gearbox.ShaftResult{shaft("input", 0.0311, 0.00062, 0.00051)},
				Margins: []gearbox.Margin{
					margin(gearbox.FlankFatigue, "second pinion", 1188, flat(1300, "a standard"), 170, 203.6, 203.6, 203.6),
				},
				Guides: []gearbox.Margin{
					margin(gearbox.MeshSeparation, "mesh second", 0, flat(0.13, "a table of separations"), 170, math.Inf(1), math.Inf(1), math.Inf(1)),
				},
			},
		},
	}
	r.Speeds[0].Margins[0].Life, r.Speeds[1].Margins[0].Life = 9613, math.Inf(1)
	r.Speeds[0].Margins[1].Own = true
	reached(r)
	return ended(r)
}

// ended gives every speed of a box the least of its limits at each end, as a solved one has it.
func ended(r *gearbox.Result) *gearbox.Result {
	for i := range r.Speeds {
		s := &r.Speeds[i]
		for level := range 3 {
			s.Ends[level] = gearbox.FirstLimit{Torque: math.Inf(1)}
			for _, m := range s.Margins {
				if m.Allowable[level] < s.Ends[level].Torque {
					s.Ends[level] = gearbox.FirstLimit{Kind: m.Kind, Item: m.Item, Step: m.Step, Mesh: m.Mesh, Own: m.Own, Torque: m.Allowable[level]}
				}
			}
		}
	}
	return r
}

// reached gives a box a clutch, a car and what they let through in its first speed. As everything here, the numbers are made up and fit nothing.
func reached(r *gearbox.Result) {
	r.Box.Clutch = &gearbox.Clutch{Torque: 240000}
	r.Box.Car = &gearbox.Car{TyreRadius: 287, AxleRatio: 3.9, AxleEfficiency: 0.97, Mass: 640, Drive: gearbox.RearDrive, DrivenShare: 0.57, Wheelbase: 2280, Height: 410, Grip: 1.15}
	r.Box.Duty.Launches = 2
	r.Box.Duty.Steps = append(r.Box.Duty.Steps, gearbox.DutyStep{Speed: "2nd", Time: 12, Revs: 200 * math.Pi, Share: 1})
	r.Lives = []gearbox.GearLife{
		{Gear: "first pinion", Speeds: []string{"1st"}, Root: gearbox.Life{Asked: 9613, Reached: 33000}, Drive: gearbox.Life{Asked: math.Inf(1), Reached: math.Inf(1)}, Coast: gearbox.Life{Asked: 2e9, Reached: 3e9}},
		{Gear: "first wheel", Speeds: []string{"1st", "2nd"}, Root: gearbox.Life{Asked: gearbox.AtOnce, Reached: 0.25}, Drive: gearbox.Life{Asked: 123456, Reached: 654321}},
	}
	s := &r.Speeds[0]
	s.Reach = &gearbox.Reach{
		Engine: 170000, Shocked: 255000, Clutch: 240000, Tyres: 161000, Force: 4711, Lifts: true, First: 1,
		Peak: gearbox.Reached{Torque: 161000, By: gearbox.ByTyres}, Running: gearbox.Reached{Torque: 161000, By: gearbox.ByTyres},
	}
	for i := range s.Margins {
		m := &s.Margins[i]
		m.Comes, m.Reached, m.ReachedState = 161000, 0.31-0.05*float64(i), gearbox.Clear
	}
	s.Margins[0].LifeReached = 33000
	s.Margins[1].Reached, s.Margins[1].ReachedState = 0.042, gearbox.Thin
	t := &r.Speeds[1]
	t.Reach = &gearbox.Reach{
		Engine: 170000, Shocked: 255000, Clutch: 240000, Tyres: math.Inf(1), Force: math.Inf(1),
		Peak: gearbox.Reached{Torque: 240000, By: gearbox.ByClutch}, Running: gearbox.Reached{Torque: 170000, By: gearbox.ByEngine},
	}
	t.Margins[0].Comes, t.Margins[0].Reached, t.Margins[0].ReachedState = 170000, t.Margins[0].Margin, gearbox.Clear
}

// ratios are two ratio tables, one of a car of which all is told and one of a box alone.
func ratios() []*study.RatioTable {
	nan := math.NaN()
	whole := &study.RatioTable{
		Box: birch().Box, Revs: 200 * math.Pi, Torque: 170000, Tyres: true, Grip: true,
		Speeds: []study.RatioRow{
			{Name: "1st", Box: 3.077, Total: 12, Ground: 15027, Thousand: 2504.5, Next: "2nd", Step: 1.5, After: 400 * math.Pi / 3, Drop: 200 * math.Pi / 3, Wheels: 1.98e6, Pull: 6899, Holds: 4711, Used: 1.4644},
			{Name: "2nd", Box: 2.051, Total: 8, Ground: 22541, Thousand: 3756.8, Step: nan, After: nan, Drop: nan, Wheels: 1.32e6, Pull: 4599, Holds: 4711, Used: 0.9762},
			{Name: "reverse", Reverse: true, Box: 3.2, Total: 12.48, Ground: 14449, Thousand: 2408.2, Step: nan, After: nan, Drop: nan, Wheels: 2.06e6, Pull: 7178, Holds: 3012, Used: 2.383},
		},
	}
	bare := &study.RatioTable{
		Box: alder().Box, Torque: 170000,
		Speeds: []study.RatioRow{
			{Name: "1st", Box: 3.077, Total: 3.077, Ground: nan, Thousand: nan, Next: "2nd", Step: 1.5, After: nan, Drop: nan, Wheels: 5e5, Pull: nan, Holds: nan, Used: nan},
			{Name: "2nd", Box: 2.051, Total: 2.051, Ground: nan, Thousand: nan, Step: nan, After: nan, Drop: nan, Wheels: 3.4e5, Pull: nan, Holds: nan, Used: nan},
		},
	}
	return []*study.RatioTable{whole, bare}
}

// alder is birch with more reserve and another second speed.
func alder() *gearbox.Result {
	r := birch()
	r.Box.Duty, r.Box.Clutch, r.Box.Car, r.Lives = nil, nil, nil, nil
	r.Speeds[0].Reach, r.Speeds[1].Reach = nil, nil
	for i := range r.Speeds {
		for k := range r.Speeds[i].Margins {
			m := &r.Speeds[i].Margins[k]
			m.Life, m.LifeReached, m.Comes = 0, 0, 0
		}
	}
	r.Box.Name, r.Box.About = "Alder", "Long case, wide gears. All numbers are invented."
	r.Speeds[0].Margins[0] = margin(gearbox.RootPeak, "first pinion", 553.2, yield, 170, 184.4, 225.9, 307.3, guessed)
	r.Speeds[0].Guides[0] = margin(gearbox.BearingSlope, "input shaft, bearing left", 0.0009, band(0.001, 0.002, 0.003, "a table of slopes"), 170, 188.9, 377, 566)
	r.Speeds[1].Margins[0].Kind = gearbox.FlankPeak
	worn := margin(gearbox.RootFatigue, "first pinion", 498, yield, 170, 141.2, 173, 235, guessed)
	worn.Turns = 8.4e6
	r.Speeds[0].Endless = []gearbox.Margin{worn}
	r.NotJudged = []gearbox.NotJudged{{What: "scuffing", Why: "the oil's load stage"}, {What: "the case, lubrication and heat"}}
	r.Measured = []gearbox.Measured{
		{Gear: "first pinion", What: "tip diameter", Read: 41.2, Within: 0.02, Made: 41.95, Doubt: "a full tooth has another height"},
		{Gear: "first pinion", What: "span over 3 teeth", Read: 19.5, Within: 0.03, Made: 19.58},
	}
	return ended(r)
}

// coast is birch with the engine braking, and inside its limits.
func coast() *gearbox.Result {
	r := birch()
	r.Torque = -60000
	for i := range r.Speeds {
		for k := range r.Speeds[i].Margins {
			m := &r.Speeds[i].Margins[k]
			m.Margin, m.State, m.Comes = m.MarginAt(60000), gearbox.Clear, 0
		}
		r.Speeds[i].Reach = nil
		for k := range r.Speeds[i].Meshes {
			r.Speeds[i].Meshes[k].Flank = gearbox.CoastFlank
		}
	}
	return r
}

// effects are what other values of what isn't given do to the sample.
func effects() []study.Effect {
	before := study.First{Speed: "1st", FirstLimit: gearbox.FirstLimit{Kind: gearbox.RootFatigue, Item: "first pinion", Torque: 156.1e3}}
	after := func(torque float64) study.First {
		return study.First{Speed: "2nd", FirstLimit: gearbox.FirstLimit{Kind: gearbox.BearingSlope, Item: "input shaft, bearing left", Torque: torque}}
	}
	unknown := gearbox.Assumption{Path: "input.turns", Words: "sense of rotation", Value: "unknown: tried clockwise and anticlockwise", Unknown: true}
	angle := gearbox.Assumption{Path: "meshes.first.pressure_angle", Parts: []string{"first", "second"}, Words: "pressure angle", Value: "20°"}
	return []study.Effect{
		{Assumed: gearbox.Assumption{Path: "housing", Parts: []string{"a", "b", "c"}, Words: "case", Value: "rigid under the bearings"}, Other: "300 N/µm under each bearing", Before: before, After: after(71.5e3)},
		{Assumed: unknown, Other: "clockwise", Before: before, After: after(190e3)},
		{Assumed: unknown, Other: "anticlockwise", Before: before, After: before},
		{Assumed: angle, Other: "17.5°", Before: before, After: after(156.2e3)},
		{Assumed: angle, Other: "14.5°", Before: before, Gap: "these gears can't run together: they are undercut."},
		{Assumed: gearbox.Assumption{Words: "thrust faces", Value: "none"}, Before: before},
	}
}

// hostile holds what a careless writer would stumble over.
func hostile() *gearbox.Result {
	r := birch()
	r.Box.Name = "\x1b[31mRed\x1b[0m\u202e</script><script>alert(1)</script> a box whose name goes on and on and on and will not end, ever"
	r.Box.Origin.File, r.Box.Gears[0].Name = "\x1b[2J\u202elmay.yaml", "pinion\x07"
	r.Box.About = "=HYPERLINK(\"http://example.org\")\r\nsecond line\x00\xff"
	r.Speeds[0].Name = "=1+1"
	r.Speeds[0].Margins[0].Item = "@SUM(A1), a pinion with a very long name that was typed by somebody who gets paid by the letter"
	r.Speeds[0].Margins[0].Demand, r.Speeds[0].Margins[0].Limit.Source = math.NaN(), ""
	r.Speeds[0].Margins[0].Notes = []string{"one\ntwo\tthree", "-4", "   ", "one two three"}
	r.Speeds[0].Meshes[0].Geometry = nil
	r.Speeds[0].Meshes[0].Tilt, r.Speeds[0].Meshes[0].FaceGap = math.NaN(), math.Inf(1)
	r.Speeds[0].Meshes[0].Name = "mesh\x1b[2J of somebody who types on and on and on and on and on and on"
	r.Speeds[0].Meshes[0].Causes[0] = gearbox.Cause{Name: "\x07=the shaft of a very long name that goes on and on and on and on and will not end bends", Tilt: math.NaN()}
	r.Speeds[0].Meshes[0].Rating.Root[0].Stress, r.Speeds[0].Meshes[0].Rating.ZH = math.NaN(), math.Inf(1)
	r.Speeds[0].Meshes[0].AGMA = nil
	r.Speeds[0].Meshes[0].Scuffing.Flash.Margin, r.Speeds[0].Meshes[0].Scuffing.Flash.Contact = scuffing.Margin{}, math.NaN()
	r.Speeds[0].Meshes[0].Scuffing.Integral, r.Speeds[0].Meshes[0].Scuffing.Notes = nil, []string{"\x1b[2Jone\ntwo"}
	r.Speeds[0].Meshes[0].Growth[0] = gearbox.Spot{Torque: 1e300, FaceFactor: math.Inf(1), InContact: math.NaN(), Middle: math.NaN()}
	r.Speeds[0].References[0].Item = "+\u202e" + strings.Repeat("long ", 30)
	r.Speeds[0].Shafts[0].MaxDeflection, r.Speeds[0].Shafts[1].MaxDeflection = 1e300, 1e-300
	r.Speeds[0].Shafts[0].Bearings = nil
	r.Speeds[1].Margins = nil
	r.Speeds[1].Ratio = math.Inf(-1)
	r.Box.Lessons[0].Box, r.Box.Lessons[0].Evidence.Note, r.Box.Lessons[0].Why = "\x1b[2J=box", "\u202ea note\nof two lines, and on and on and on and on and on and on and on and on", "<b>"
	r.Box.Lessons[0].Bounds[0].Steel, r.Box.Lessons[0].Bounds[0].Item, r.Box.Lessons[0].Bounds[0].Needed = "=steel\x00 of a very long name", strings.Repeat("long ", 30), math.Inf(1)
	r.Box.Narrowed[0].Steel, r.Box.Narrowed[0].Was.Low = "\x1b[31mred", math.NaN()
	return ended(r)
}

func shaft(name string, deflection, left, right float64, notes ...string) gearbox.ShaftResult {
	return gearbox.ShaftResult{
		Name: name, Start: 2, Length: 190, Span: 160, MaxDeflection: deflection, MaxAt: 81.25, Notes: notes,
		Sections: []gearbox.SectionResult{{Number: 1, From: 0, To: 190, Outer: 32, Bore: 10, Stress: beam.Stress{X: 70, Bending: 188, Torsion: 41, Axial: -3, VonMises: 201}}},
		Bearings: []gearbox.BearingResult{
			{Name: "left", Type: gearbox.CylindricalRoller, At: 14, Force: [3]float64{0, 4100, -1250}, Radial: 4286, Slope: left, Deflection: 0.012},
			{Name: "right", Type: gearbox.DeepGrooveBall, At: 174, Force: [3]float64{-3641, 2100, 800}, Radial: 2247, Slope: right, Deflection: 0.009},
		},
		Gears: []gearbox.GearSeat{{Name: "first pinion", Mesh: "first", From: 38, To: 58, Diameter: 37.7, Deflection: 0.0437, Slope: 0.00062}},
	}
}

// rating is what ISO 6336 might say; root and flank are the stresses of the driver, MPa.
func rating(root, flank float64) *iso6336.Rating {
	r := &iso6336.Rating{
		Tangential: 9700, Velocity: 4250, ZH: 2.31, ZE: 189.8, ZEps: 0.87, ZBeta: 1.04, Pitting: 1180,
		K:         iso6336.LoadFactors{A: 1, Gamma: 1, V: 1.034, HBeta: 1.337, FBeta: 1.25, HAlpha: 1.1, FAlpha: 1.12, HBetaOrigin: "a bent shaft"},
		Stiffness: iso6336.Stiffness{Theoretical: 17000, Body: 1, Rack: 0.975, Single: 13260, Mean: 16500, Face: 14025},
		Dynamic:   iso6336.Dynamic{ReducedMass: 0.0051, Resonance: 5000 * math.Pi, Ratio: 0.06, Lower: 0.85, Regime: iso6336.Subcritical, PitchPart: 0.3, ProfilePart: 0.2, ReliefPart: 0.1, KV: 1.034},
		Deviation: iso6336.Deviation{Pitch: 0.0071, Profile: 0.0065},
		Notes:     []string{"The range ends."}, Assumed: []string{"The oil is a guess."},
	}
	for i, share := range []float64{1, 0.94} {
		out := iso6336.Outcome{Stress: root * share, Limit: 700, Permissible: 650, Safety: 700 / root / share, Static: 1900, Cycles: 3e6, Life: 2.5e5}
		r.Root[i] = iso6336.Root{Outcome: out, Nominal: 410 * share, FEps: 0.82, YF: 1.2, YS: 2, YBeta: 0.9, YB: 1, YDT: 1, YNT: 1, YDelta: 0.99, YR: 0.97, YX: 1, YM: 1}
		out.Stress, out.Limit, out.Life = flank, 1450, math.Inf(1)
		r.Flank[i] = iso6336.Flank{Outcome: out, ZBD: 1.05, ZNT: 1, ZL: 0.96, ZV: 0.97, ZR: 0.98, ZW: 1, ZX: 1}
	}
	return r
}

func agma() *agma2001.Rating {
	r := &agma2001.Rating{
		Form: &agma2001.Form{}, Tangential: 9012.5, Speed: 4300, Ko: 1, Kv: 1.2, Km: 1.337, KT: 1, KR: 1, Cp: 191, Cf: 1, I: 0.2,
		KvOrigin: "a guessed quality", KmOrigin: "a bent shaft", Notes: []string{"The quality is a guess."},
	}
	for i := range r.Root {
		r.Root[i] = agma2001.Root{Outcome: agma2001.Outcome{Stress: 301, Allowable: 379, LifeFactor: 1, Permissible: 379, Safety: 1.26, Cycles: 1e7, Life: 4e8}, Ks: 1, KB: 1, J: 0.51, Reversing: 1}
		r.Flank[i] = agma2001.Flank{Outcome: agma2001.Outcome{Stress: 1150, Allowable: 1240, LifeFactor: 1, Permissible: 1240, Safety: 1.08, Cycles: 1e7, Life: math.Inf(1)}, Ks: 1, CH: 1}
	}
	return r
}

// screened is what a screen for scuffing might say: its two methods differ.
func screened() *scuffing.Result {
	return &scuffing.Result{
		A: scuffing.Place{Distance: -5.25, Sliding: -2250, Specific: [2]float64{-1.5, 0.6}}, E: scuffing.Place{Distance: 6.5, Sliding: 3125, Specific: [2]float64{0.5, -1}},
		PitchSpeed: 4350, LineLoad: 512, OilViscosity: 11.5, NeededRelief: 0.0205, FrictionPower: 812000, FrictionShare: 0.0065,
		Flash:    scuffing.Flash{Friction: 0.081, Bulk: 118, Contact: 243, Margin: scuffing.Margin{Limit: 391, Safety: 2.04, Verdict: scuffing.Unlikely}},
		Integral: &scuffing.Integral{Friction: 0.075, Bulk: 112, Contact: 187, Margin: scuffing.Margin{Limit: 345, Safety: 1.845, Verdict: scuffing.Uncertain}},
		Notes:    []string{"viscosity is estimated"},
	}
}

func pair() *involute.Pair {
	return &involute.Pair{
		Spec: involute.Spec{
			Module: 2.5, Helix: 22 * math.Pi / 180, Rack: involute.Rack{PressureAngle: 20 * math.Pi / 180, Addendum: 1, Dedendum: 1.25, TipRadius: 0.38},
			Teeth: [2]int{13, 40}, ShiftKnown: [2]bool{true, false}, TipDiameter: [2]float64{41.2, 0}, Face: 20,
		},
		TransversePressureAngle: 0.3747, WorkingPressureAngle: 0.4012, BaseHelix: 0.3584, WorkingHelix: 0.391,
		Reference: [2]float64{35.05, 107.85}, Base: [2]float64{32.6, 100.4}, Working: [2]float64{35.4, 109.1}, Tip: [2]float64{41.2, 113}, Root: [2]float64{30.3, 101.9},
		X: [2]float64{0.35, 0.02}, Centre: 72.3, ReferenceCentre: 71.45, TransverseContactRatio: 1.31, OverlapRatio: 0.954, Backlash: 0.08,
		VirtualTeeth: [2]float64{16.31, 50.2}, Notes: []string{"The shift of the driven gear follows from the centre distance."},
	}
}

// lessons are the service history of two boxes, one of them put aside and one from which no single strength follows.
func lessons() []gearbox.Lesson {
	return []gearbox.Lesson{
		{
			Box: "Birch", Evidence: gearbox.Evidence{Torque: 161000, Peak: 243000, Passes: 240, Opened: true, Note: "after the season"}, Place: diag.Place{File: "birch.yaml", Line: 81, Column: 16, Width: 7},
			Loads: []gearbox.CountedLoad{
				{Speed: "1st", Peak: gearbox.Reached{Torque: 118000, By: gearbox.ByTyres}, Running: gearbox.Reached{Torque: 118000, By: gearbox.ByTyres}},
				{Speed: "2nd", Peak: gearbox.Reached{Torque: 205500, By: gearbox.ByClutch}, Running: gearbox.Reached{Torque: 161000, By: gearbox.ByEngine}},
			},
			Bounds: []gearbox.StrengthBound{
				{Steel: "club steel", Strength: gearbox.RootStrength, Kind: gearbox.RootPeak, Item: "first pinion", Speed: "1st", Needed: 451.3, Counted: 340.8},
				{Steel: "club steel", Strength: gearbox.FlankStrength, Kind: gearbox.FlankFatigue, Item: "first wheel", Speed: "1st", Needed: 2105, Counted: 1746.7, Aside: true},
				{Steel: "other steel", Strength: gearbox.YieldStrength, Kind: gearbox.ShaftYield, Item: "output shaft, section 2", Speed: "2nd", Needed: 98.7, Counted: 74.5},
			},
			Why: "For that, first wheel asks for more than its steel has. It isn't counted.",
		},
		{
			Box: "Alder", Evidence: gearbox.Evidence{Torque: 310000, Broke: true, Speed: "2nd", Gear: "second pinion", By: gearbox.BrokenRoot, Passes: 12},
			Bounds: []gearbox.StrengthBound{{Steel: "club steel", Strength: gearbox.RootStrength, Upper: true, Kind: gearbox.RootFatigue, Item: "second pinion", Speed: "2nd", Needed: 448, Counted: 448}},
		},
		{Box: "Birch", Evidence: gearbox.Evidence{Torque: 400000, Broke: true}, Why: "No single strength follows from it."},
	}
}

func narrowed() []gearbox.Narrowed {
	return []gearbox.Narrowed{{
		Steel: "club steel", Strength: gearbox.RootStrength, Was: band(312, 461, 525, "another standard"), Now: band(340.8, 448, 448, "another standard; narrowed by service history"),
		Rests: []string{"low: Birch survived 161 N·m for 240 passes", "high: Alder broke second pinion by tooth root at 310 N·m after 12 passes in 2nd"},
	}}
}

// atEqualSteel are boxes of unlike steel: the others bear less with that of the first.
func atEqualSteel(results ...*gearbox.Result) *study.Comparison {
	c := compared(results...)
	for i, r := range results {
		same := *r
		same.Speeds = slices.Clone(r.Speeds)
		for k := range same.Speeds {
			s := &same.Speeds[k]
			s.Margins, s.Reach = slices.Clone(s.Margins), nil
			for n := range s.Margins {
				s.Margins[n].Comes = 0
			}
			if i > 0 && len(s.Margins) > 0 {
				s.Margins[0] = margin(gearbox.FlankPeak, "first wheel", 1975, yield, r.Torque/1000, 101, 133, 199)
			}
		}
		ended(&same)
		c.Equal = append(c.Equal, &same)
	}
	for i := range c.Speeds {
		equal := c.Speeds[i].Items[0]
		equal.Name, equal.Key, equal.Values, equal.Change = "allowable torque at equal steel", "allowable_torque_equal_steel", []float64{184400, 101000}, []float64{0, 101./184.4 - 1}
		c.Speeds[i].Items = slices.Insert(c.Speeds[i].Items, 0, equal)
	}
	return c
}

func compared(results ...*gearbox.Result) *study.Comparison {
	c := &study.Comparison{Results: results}
	add := func(row *study.SpeedRow, name, part string, d quantity.Dimension, values ...float64) {
		change := make([]float64, len(values))
		for i, v := range values {
			change[i] = v/values[0] - 1
		}
		row.Items = append(row.Items, study.Difference{Name: name, Key: strings.ReplaceAll(name, " ", "_"), Part: part, Dimension: d, Values: values, Change: change})
	}
	series := func(first, step float64) []float64 {
		v := make([]float64, len(results))
		for i := range v {
			v[i] = first * (1 + step*float64(i))
		}
		return v
	}
	for i := range results[0].Speeds {
		row := study.SpeedRow{Name: results[0].Speeds[i].Name}
		for _, r := range results {
			row.Boxes = append(row.Boxes, &r.Speeds[i])
		}
		add(&row, "allowable torque", "", quantity.Torque, series(184400, -0.15)...)
		add(&row, "largest deflection", "input shaft", quantity.Deflection, series(0.0552, 0.21)...)
		if i == 0 {
			add(&row, "misalignment", "first", quantity.Deflection, series(0.0132, 0)...)
		} else {
			row.Boxes[0] = nil
			add(&row, "largest deflection", "output shaft", quantity.Deflection, append([]float64{math.NaN()}, series(0.031, 0.1)[1:]...)...)
		}
		add(&row, "ratio", "", quantity.Number, series(3.077, 0)...)
		c.Speeds = append(c.Speeds, row)
	}
	return c
}

// shared adds how the difference to each other box is shared out. The numbers are made up: shares of 60 % and 50 % against −10 %.
func shared(c *study.Comparison) *study.Comparison {
	for i := 1; i < len(c.Results); i++ {
		split := &study.CauseSplit{From: c.Results[0].Box.Name, To: c.Results[i].Box.Name, Mixed: 8, Decides: "1st", Left: []study.LeftOut{{Speed: "5th", Why: "its torque goes over other gears"}},
			Renamed: []study.Rename{{Sort: study.GearSort, First: "second pinion", Second: "gear B"}, {Sort: study.BearingSort, First: "left", Second: "front", On: "input"}},
			Alone:   []study.Unpaired{{Box: 0, Sort: study.MeshSort, Name: "crawler"}, {Box: 1, Sort: study.ShaftSort, Name: "idler"}}}
		split.Causes = []study.SplitCause{
			{Groups: []study.Group{study.Span}, Gears: true, Facts: []study.Fact{
				{Part: "input", What: "span", Dimension: quantity.Length, From: 226, To: 183}, {Part: "output", What: "span", Dimension: quantity.Length, From: 227, To: 184}}},
			{Groups: []study.Group{study.Sections}, Aside: []string{"output"}, Facts: []study.Fact{{Part: "input", What: "diameter", Sections: [2]int{4, 3}, Dimension: quantity.Length, From: 54, To: 47}}},
			{Groups: []study.Group{study.Teeth, study.Ratios}, Why: "the gears don't fit\nat all"},
			{Groups: []study.Group{study.Steel}, Same: true},
		}
		limit := &study.PartLimit{Kind: gearbox.FlankFatigue, Item: "first pinion"}
		for _, row := range c.Speeds {
			speed := study.SpeedSplit{Name: row.Name}
			for _, d := range row.Items {
				it := study.ItemSplit{Name: d.Name, Key: d.Key, Part: d.Part, Dimension: d.Dimension, From: d.Values[0], To: d.Values[i], Decides: true}
				if d.Key == "allowable_torque" {
					it.Limit, it.Part, it.First = limit, limit.Item, [2]bool{true, row.Name == "1st"}
				}
				if change := it.To - it.From; !math.IsNaN(change) {
					it.Shares = []float64{0.6 * change, -0.1 * change, 0.5 * change, 0}
				}
				speed.Items = append(speed.Items, it)
			}
			split.Speeds = append(split.Speeds, speed)
		}
		c.Splits = append(c.Splits, study.Split{Box: i, Causes: split})
		c.Ranking = append(c.Ranking, study.Ranking{Box: i, Steels: []string{"club steel"}, Common: true, Alone: [2][]string{{"5th"}, {"crawler"}}, Speeds: []study.RankedSpeed{
			{Name: "1st", Ratio: [3]float64{0.96, 0.95, 0.94}, Least: 0.94, Most: 0.96, Holds: true},
			{Name: "2nd", Ratio: [3]float64{1.04, 1, 0.97}, Least: 0.97, Most: 1.04},
		}})
	}
	return c
}

// weighed gives results weights, made up by hand: the second and later boxes are lighter.
func weighed(results ...*gearbox.Result) []study.WeighedBox {
	var boxes []study.WeighedBox
	for i, r := range results {
		less := 1 - 0.2*float64(i)
		nan := math.NaN()
		r.Weights = &gearbox.Weights{
			Box: r.Box, Shafts: 4 * less, Gears: 6 * less, Others: 11,
			Parts: []gearbox.Weight{
				{Name: "input", Kind: gearbox.ShaftPart, Mass: 4 * less, Computed: 4.1 * less, Inertia: 812 * less, Weighed: true},
				{Name: "first pinion", Kind: gearbox.GearPart, On: "input", Cut: true, Mass: -0.0123, Computed: -0.0125, Inertia: 3.5, Weighed: true},
				{Name: "first wheel", Kind: gearbox.GearPart, On: "output", Mass: 6 * less, Computed: 6 * less, Inertia: 35200 * less},
				{Name: "spare wheel", Kind: gearbox.GearPart, On: "output", Mass: nan, Computed: nan, Inertia: nan},
				{Name: "case", Kind: gearbox.OtherPart, Mass: 11, Computed: nan, Inertia: nan},
				{Name: "clutch disc", Kind: gearbox.OtherPart, On: "input", Mass: nan, Computed: nan, Inertia: 4600},
			},
			Pieces: []gearbox.Piece{{Names: []string{"input shaft", "first pinion"}, Weighed: 3.9 * less, Computed: 4.0875 * less}, {Names: []string{"spare wheel"}, Weighed: 0.5}},
			Synchronisers: []gearbox.Synchroniser{
				{
					Speed: "1st", Gear: "first wheel", Shaft: "output", Ratio: -0.325, Inertia: 52000 * less,
					Shares: []gearbox.InertiaShare{{Part: "input shaft", Ratio: -3.077, Inertia: 7688 * less}, {Part: "first wheel", Ratio: 1, Inertia: 35200 * less}},
					Down:   &gearbox.Shift{From: "2nd", Difference: 61.2, TorqueTime: 3182.4 * less, Heat: 97381 * less},
				},
				{Speed: "2nd", Inertia: nan, Unknown: "no gear on its way is told to turn freely"},
			},
			Notes: []string{"Teeth from their real outline."},
		}
		if i == 0 {
			r.Box.Weighed.Box = 24.3
			r.Weights.Synchronisers[0].Up = &gearbox.Shift{From: "crawler", Difference: 12.5, TorqueTime: 650, Heat: 4062}
		}
		for k := range r.Speeds {
			s := &r.Speeds[k]
			s.First = gearbox.FirstLimit{Torque: math.Inf(1)}
			if len(s.Margins) > 0 {
				m := s.Governing()
				s.First = gearbox.FirstLimit{Kind: m.Kind, Item: m.Item, Torque: m.Allowable[m.Level]}
			}
		}
		box := study.WeighedBox{Result: r, Mass: 10 * less, Least: 0}
		for k := range r.Speeds {
			box.PerMass = append(box.PerMass, r.Speeds[k].First.Torque/box.Mass)
		}
		boxes = append(boxes, box)
	}
	return boxes
}

// withCase adds what speaks for the last box, against the first: a reason and a gap of every kind. The numbers are made up.
func withCase(c *study.Comparison) *study.Comparison {
	c.Weighed = weighed(c.Results...)
	last := len(c.Results) - 1
	root, slope := gearbox.FirstLimit{Kind: gearbox.RootFatigue, Item: "first pinion", Torque: 156e3}, gearbox.FirstLimit{Kind: gearbox.BearingSlope, Item: "input shaft, bearing left", Torque: 184e3}
	both := []int{last, 0}
	two := [][2]float64{{8, 10}, {6, 10}}
	c.Lighter = []study.LighterCase{{
		Lighter: last, Other: 0, Mass: [2]study.Mass{{Value: 8}, {Value: 10}},
		For: []study.Reason{
			{Kind: study.ByMass, Dimension: quantity.Mass, Values: [][2]float64{{8, 10}}},
			{Kind: study.ByPerMass, Dimension: quantity.TorquePerMass, Values: [][2]float64{{19.5e3, 18.4e3}}, Limits: []study.LimitPair{{root, slope}}},
			{Kind: study.ByTransmitted, Dimension: quantity.Number, Speeds: []string{"1st"}, Values: [][2]float64{{1.8, 1.6}}},
			{Kind: study.ByLife, Dimension: quantity.Number, Values: [][2]float64{{math.Inf(1), 1234}}, Limits: []study.LimitPair{{root, root}}},
			{Kind: study.BySpin, Dimension: quantity.MomentOfInertia, Speeds: []string{"1st", "2nd"}, Every: true, Values: two},
			{Kind: study.ByDeflection, Dimension: quantity.Deflection, Speeds: []string{"1st"}, Values: [][2]float64{{0.044, 0.055}}},
			{Kind: study.ByState, Dimension: quantity.Number, Speeds: []string{"2nd"}, Values: [][2]float64{{2, 0}}, Limits: []study.LimitPair{{root, slope}}},
		},
		Against: []study.Reason{
			{Kind: study.ByTorque, Dimension: quantity.Torque, Speeds: []string{"1st"}, Values: [][2]float64{{156e3, 184e3}}, Limits: []study.LimitPair{{root, slope}}},
			{Kind: study.ByTorque, Dimension: quantity.Torque, Speeds: []string{"2nd", "3rd"}, Values: [][2]float64{{180e3, 200e3}, {190e3, 220e3}}, Limits: []study.LimitPair{{root, root}, {root, root}}},
			{Kind: study.ByRoot, Dimension: quantity.Stress, Speeds: []string{"1st", "2nd"}, Every: true, Values: [][2]float64{{12, 10}, {25, 10}}},
			{Kind: study.ByFlank, Dimension: quantity.Stress, Speeds: []string{"1st"}, Values: [][2]float64{{12, 10}}},
			{Kind: study.ByWheels, Dimension: quantity.Torque, Speeds: []string{"1st"}, Values: [][2]float64{{1560e3, 1840e3}}},
		},
		Shared: []study.Reason{{Kind: study.SameLimit, Speeds: []string{"2nd", "3rd", "4th"}, Values: [][2]float64{{1, 1}, {1, 1}, {1, 1}}, Limits: []study.LimitPair{{root, root}, {root, root}, {slope, slope}}}},
		Gaps: []study.Gap{
			{Kind: study.NotWeighed, Boxes: []int{last}}, {Kind: study.NoSynchroniser, Boxes: []int{0}, Names: []string{"2nd"}}, {Kind: study.NoClutchDisc, Boxes: both},
			{Kind: study.MissingSpeed, Boxes: []int{0}, Names: []string{"5th", "reverse"}}, {Kind: study.OtherTorque, Boxes: both}, {Kind: study.OtherDuty, Boxes: both}, {Kind: study.OtherSteel, Boxes: both}, {Kind: study.OtherLevel, Boxes: both},
		},
		Balance: []study.Balance{{Kind: study.ByMass, Least: -0.2, Most: -0.2}},
	}}
	return c
}

func steels() []material.Steel {
	return []material.Steel{
		{
			Name: "club steel", Title: "Steel of the club", About: "Invented for these tests.", Young: 206000, Poisson: 0.3, Density: 7.85e-6,
			ElasticSource: "invented", Yield: yield, Tensile: flat(1000, "invented"), Contact: band(1300, 1500, 1650, "invented too"),
			Group: material.GroupCaseHardened, SurfaceHardness: band(650, 700, 745, "a test file"), RootLimit: band(312, 461, 525, "another standard"),
		},
		{Name: "=odd\x1b steel", Title: "Nothing known", Yield: flat(math.NaN(), ""), Young: 206000, Poisson: 0.3, Density: 7.85e-6},
	}
}
