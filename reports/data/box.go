package data

import (
	"math"

	"layshaft/gearbox"
	"layshaft/gearbox/study"
	"layshaft/gearstress/involute"
	"layshaft/material"
	"layshaft/reports/view"
)

type boxJSON struct {
	Name     string           `json:"name"`
	About    string           `json:"about"`
	File     string           `json:"file"`
	Sum      string           `json:"file_sha256"`
	Verdict  *verdictJSON     `json:"verdict"`
	Steel    string           `json:"steel"`
	Torque   number           `json:"torque_nm"`
	JudgedBy string           `json:"judged_by_end_of_band"`
	Reserve  number           `json:"wanted_reserve_fraction"`
	Pitting  bool             `json:"pitting_allowed"`
	Shock    number           `json:"peak_over_torque_ratio"`
	Revs     number           `json:"input_shaft_speed_rpm"`
	Oil      number           `json:"oil_viscosity_at_40_deg_c_mm2_per_s"`
	Clutch   number           `json:"clutch_holds_nm"`
	Car      *carJSON         `json:"car"`
	Duty     *dutyJSON        `json:"duty"`
	Lives    []gearLifeJSON   `json:"lives"`
	Evidence []lessonJSON     `json:"evidence"`
	Narrowed []narrowedJSON   `json:"narrowed_bands"`
	Survived []survivedJSON   `json:"survived_guides"`
	Record   recordJSON       `json:"against_history"`
	Measured []measuredJSON   `json:"measured_sizes"`
	Checks   []string         `json:"checks"`
	Notes    []string         `json:"notes"`
	Sense    string           `json:"sense"`
	Assumed  []assumptionJSON `json:"assumptions"`
	First    string           `json:"measure_first"`
	Speeds   []speedJSON      `json:"speeds"`
}

type speedJSON struct {
	Name         string       `json:"name"`
	Ratio        number       `json:"ratio"`
	Efficiency   number       `json:"efficiency_fraction"`
	OutputTorque number       `json:"output_torque_nm"`
	Low          number       `json:"allowable_torque_low_nm"`
	Typical      number       `json:"allowable_torque_typical_nm"`
	High         number       `json:"allowable_torque_high_nm"`
	Checks       []string     `json:"checks"`
	Reach        *reachJSON   `json:"what_reaches_the_teeth"`
	Tried        *triedJSON   `json:"tried"`
	Notes        []string     `json:"notes"`
	Margins      []marginJSON `json:"margins"`
	Guides       []guideJSON  `json:"guides"`
	Endless      []marginJSON `json:"endless_life"`
	Beside       []marginJSON `json:"beside_the_chosen"`
	References   []limitJSON  `json:"references"`
	Meshes       []meshJSON   `json:"meshes"`
	Shafts       []shaftJSON  `json:"shafts"`
}

// marginJSON is a limit that decides.
type marginJSON struct {
	State string     `json:"state"`
	Comes *comesJSON `json:"against_what_reaches_it"`
	limitJSON
}

// guideJSON is a rule of thumb that warns.
type guideJSON struct {
	Survived number `json:"survived_in_unit"`
	marginJSON
}

// limitJSON is a limit of either sort; a second opinion has no state, since it decides nothing.
type limitJSON struct {
	Kind             string   `json:"kind"`
	Class            string   `json:"class"`
	Own              bool     `json:"set_by_the_file"`
	Item             string   `json:"item"`
	Mesh             string   `json:"mesh"`
	Margin           number   `json:"margin_fraction"`
	BadFrom          number   `json:"over_from_torque_nm"`
	BadTo            number   `json:"over_to_torque_nm"`
	Step             string   `json:"most_of_it_in"`
	Life             number   `json:"life_passes"`
	Turns            number   `json:"life_turns_of_input_shaft"`
	JudgedBy         string   `json:"judged_by_end_of_band"`
	AllowableLow     number   `json:"allowable_torque_low_nm"`
	AllowableTypical number   `json:"allowable_torque_typical_nm"`
	AllowableHigh    number   `json:"allowable_torque_high_nm"`
	Unit             string   `json:"unit"`
	Demand           number   `json:"demand_in_unit"`
	LimitLow         number   `json:"limit_low_in_unit"`
	LimitTypical     number   `json:"limit_typical_in_unit"`
	LimitHigh        number   `json:"limit_high_in_unit"`
	LimitSource      string   `json:"limit_source"`
	Notes            []string `json:"notes"`
}

type meshJSON struct {
	Name         string        `json:"name"`
	Flank        string        `json:"flank"`
	FlankSide    string        `json:"flank_side"`
	Face         number        `json:"face_mm"`
	Tangential   number        `json:"tangential_force_n"`
	Radial       number        `json:"radial_force_n"`
	Axial        number        `json:"axial_force_on_driver_n"`
	Separation   number        `json:"separation_um"`
	Tilt         number        `json:"tilt_mrad"`
	TiltInAction number        `json:"tilt_in_action_mrad"`
	Causes       []causeJSON   `json:"causes"`
	FaceGap      number        `json:"face_gap_um"`
	CrowdedEnd   string        `json:"crowded_end"`
	FaceFactor   number        `json:"face_load_factor"`
	Counted      number        `json:"counted_face_load_factor"`
	Deviation    number        `json:"out_of_line_from_making_um"`
	FactorC      number        `json:"face_load_factor_by_method_c"`
	InContact    number        `json:"in_contact_fraction"`
	Stiffness    number        `json:"mesh_stiffness_n_per_mm2"`
	Stations     []number      `json:"stations_mm"`
	LineLoad     []number      `json:"line_load_n_per_mm"`
	Growth       []spotJSON    `json:"growth"`
	Contact      number        `json:"contact_stress_mpa"`
	Gears        []gearJSON    `json:"gears"`
	Rating       *ratingJSON   `json:"rating"`
	Peak         *ratingJSON   `json:"peak_rating"`
	AGMA         *agmaJSON     `json:"agma_rating"`
	Scuffing     *scuffJSON    `json:"scuffing_screen"`
	Geometry     *geometryJSON `json:"geometry"`
	Derived      []string      `json:"derived"`
	Checks       []string      `json:"checks"`
	Notes        []string      `json:"notes"`
}

// gearJSON is one gear of a mesh, the driver first.
type gearJSON struct {
	Name     string `json:"name"`
	Shaft    string `json:"shaft"`
	At       number `json:"at_mm"`
	Torque   number `json:"torque_nm"`
	Turns    string `json:"turns"`
	Pushed   string `json:"pushed_to_the"`
	Root     number `json:"root_stress_mpa"`
	RootReal number `json:"root_stress_real_tooth_mpa"`
}

type geometryJSON struct {
	Module                  number             `json:"module_mm"`
	Helix                   number             `json:"helix_angle_deg"`
	RackPressureAngle       number             `json:"rack_pressure_angle_deg"`
	RackAddendum            number             `json:"rack_addendum_modules"`
	RackDedendum            number             `json:"rack_dedendum_modules"`
	RackTipRadius           number             `json:"rack_tip_radius_modules"`
	TransversePressureAngle number             `json:"transverse_pressure_angle_deg"`
	WorkingPressureAngle    number             `json:"working_pressure_angle_deg"`
	BaseHelix               number             `json:"base_helix_angle_deg"`
	WorkingHelix            number             `json:"working_helix_angle_deg"`
	Centre                  number             `json:"centre_distance_mm"`
	ReferenceCentre         number             `json:"reference_centre_distance_mm"`
	Face                    number             `json:"face_mm"`
	TransverseContactRatio  number             `json:"transverse_contact_ratio"`
	OverlapRatio            number             `json:"overlap_ratio"`
	Backlash                number             `json:"normal_backlash_mm"`
	Gears                   []gearGeometryJSON `json:"gears"`
	Notes                   []string           `json:"notes"`
}

type gearGeometryJSON struct {
	Teeth        int    `json:"teeth"`
	VirtualTeeth number `json:"virtual_teeth"`
	Shift        number `json:"profile_shift_modules"`
	ShiftGiven   bool   `json:"profile_shift_given"`
	Reference    number `json:"reference_diameter_mm"`
	Base         number `json:"base_diameter_mm"`
	Working      number `json:"working_diameter_mm"`
	Tip          number `json:"tip_diameter_mm"`
	TipGiven     bool   `json:"tip_diameter_given"`
	Root         number `json:"root_diameter_mm"`
	Form         number `json:"root_form_diameter_mm"`
	Start        number `json:"contact_start_diameter_mm"`
	Clearance    number `json:"tip_clearance_mm"`
	TipThickness number `json:"tip_thickness_mm"`
}

type shaftJSON struct {
	Name          string        `json:"name"`
	Start         number        `json:"start_mm"`
	Length        number        `json:"length_mm"`
	Span          number        `json:"span_mm"`
	MaxDeflection number        `json:"largest_deflection_um"`
	MaxAt         number        `json:"largest_deflection_at_mm"`
	Sections      []sectionJSON `json:"sections"`
	Bearings      []bearingJSON `json:"bearings"`
	Gears         []seatJSON    `json:"gears"`
	Notes         []string      `json:"notes"`
}

type sectionJSON struct {
	Number   int    `json:"number"`
	From     number `json:"from_mm"`
	To       number `json:"to_mm"`
	Outer    number `json:"outer_diameter_mm"`
	Bore     number `json:"bore_mm"`
	At       number `json:"largest_stress_at_mm"`
	Bending  number `json:"bending_stress_mpa"`
	Torsion  number `json:"torsion_stress_mpa"`
	Axial    number `json:"axial_stress_mpa"`
	VonMises number `json:"von_mises_stress_mpa"`
}

type bearingJSON struct {
	Name       string `json:"name"`
	Type       string `json:"type"`
	At         number `json:"at_mm"`
	ForceX     number `json:"force_x_n"`
	ForceY     number `json:"force_y_n"`
	ForceZ     number `json:"force_z_n"`
	CoupleY    number `json:"couple_y_nm"`
	CoupleZ    number `json:"couple_z_nm"`
	Radial     number `json:"radial_force_n"`
	Slope      number `json:"slope_mrad"`
	Deflection number `json:"deflection_um"`
	Ring       number `json:"inner_ring_at_um"`
	Heaviest   number `json:"heaviest_element_n"`
	Preload    number `json:"preload_n"`
}

type seatJSON struct {
	Name       string `json:"name"`
	Mesh       string `json:"mesh"`
	From       number `json:"from_mm"`
	To         number `json:"to_mm"`
	Diameter   number `json:"working_diameter_mm"`
	Deflection number `json:"deflection_um"`
	Slope      number `json:"slope_mrad"`
}

func newBox(r *gearbox.Result, effects []study.Effect, o view.Options) boxJSON {
	return boxJSON{
		Name: r.Box.Name, About: r.Box.About, File: r.Box.Origin.File, Sum: r.Box.Origin.Sum, Verdict: newVerdict(r, effects, o), Steel: view.SteelWords(r.Box, true), Torque: number(r.Torque * toNm), JudgedBy: r.Box.Limits.Strength.String(),
		Reserve: number(r.Box.Limits.Reserve), Pitting: r.Box.Limits.Pitting,
		Shock: given(r.Box.Shock), Revs: given(r.Box.Revs * toRpm), Oil: given(r.Box.Oil.Viscosity), Clutch: clutchHolds(r.Box.Clutch), Car: newCar(r.Box.Car), Duty: newDuty(r.Box), Lives: view.Each(r.Lives, newGearLife),
		Evidence: view.Each(r.Box.Lessons, newLesson), Narrowed: view.Each(r.Box.Narrowed, newNarrowed),
		Survived: view.Each(r.Box.Survived, newSurvived), Record: newRecord(r),
		Measured: view.Each(r.Measured, newMeasured), Checks: view.Each(r.Checks, unchanged), Notes: view.Each(r.Notes, unchanged), Sense: plain(view.SenseWords(r)), Assumed: newAssumptions(effects), First: plain(view.EffectWords(effects, view.Options{})), Speeds: view.Each(r.Speeds, func(s gearbox.SpeedResult) speedJSON { return newSpeed(s, r.Box) }),
	}
}

func newSpeed(s gearbox.SpeedResult, b *gearbox.Box) speedJSON {
	return speedJSON{
		Name: s.Name, Ratio: number(s.Ratio), Efficiency: number(s.Efficiency), OutputTorque: number(s.OutputTorque * toNm), Reach: newReach(s.Reach), Tried: newTried(s.Tried),
		Low: number(s.Allowable(material.Low) * toNm), Typical: number(s.Allowable(material.Typical) * toNm), High: number(s.Allowable(material.High) * toNm),
		Checks: view.Each(s.Checks, unchanged), Notes: view.Each(s.Notes, unchanged), Margins: view.Each(s.Margins, newMargin), Guides: view.Each(s.Guides, func(m gearbox.Margin) guideJSON { return newGuide(m, b) }), Endless: view.Each(s.Endless, newMargin), Beside: view.Each(s.Beside, newMargin), References: view.Each(s.References, newLimit),
		Meshes: view.Each(s.Meshes, newMesh), Shafts: view.Each(s.Shafts, newShaft),
	}
}

// lifeOf is the life in passes; NaN, which JSON shows as null, where it isn't counted.
func lifeOf(m gearbox.Margin) float64 {
	if m.Life == 0 {
		return math.NaN()
	}
	return m.Life
}

func newMargin(m gearbox.Margin) marginJSON {
	return marginJSON{m.State.String(), newComes(&m), newLimit(m)}
}

func newGuide(m gearbox.Margin, b *gearbox.Box) guideJSON {
	factor, _ := inUnit(m.Kind.Dimension())
	return guideJSON{number(view.SurvivedOf(b, &m) * factor), newMargin(m)}
}

func newLimit(m gearbox.Margin) limitJSON {
	factor, unit := inUnit(m.Kind.Dimension())
	return limitJSON{
		Kind: m.Kind.Key(), Class: m.Class().Key(), Own: m.Own, Item: m.Item, Mesh: m.Mesh, Margin: number(m.Margin), BadFrom: given(m.Bad[0] * toNm), BadTo: given(m.Bad[1] * toNm), Step: m.Step,
		Life: number(lifeOf(m)), Turns: given(m.Turns), JudgedBy: m.Level.String(),
		AllowableLow:     number(m.Allowable[material.Low] * toNm),
		AllowableTypical: number(m.Allowable[material.Typical] * toNm),
		AllowableHigh:    number(m.Allowable[material.High] * toNm),
		Unit:             unit,
		Demand:           number(m.Demand * factor),
		LimitLow:         number(m.Limit.Low * factor), LimitTypical: number(m.Limit.Typical * factor), LimitHigh: number(m.Limit.High * factor),
		LimitSource: m.Limit.Source, Notes: view.Each(m.Notes, unchanged),
	}
}

func newMesh(m gearbox.MeshResult) meshJSON {
	j := meshJSON{
		Name: m.Name, Flank: string(m.Flank), FlankSide: m.FlankSide(), Face: number(m.Face),
		Tangential: number(m.Tangential), Radial: number(m.Radial), Axial: number(m.Axial),
		Separation: number(m.Separation * toMicro), Tilt: number(m.Tilt * toMilli), TiltInAction: number(m.TiltInAction * toMilli),
		Causes:  view.Each(m.Causes, func(c gearbox.Cause) causeJSON { return causeJSON{c.Name, number(c.Tilt * toMilli)} }),
		FaceGap: number(m.FaceGap * toMicro), CrowdedEnd: m.CrowdedEnd(), FaceFactor: number(m.FaceFactor), Counted: number(m.Counted), Deviation: number(m.Deviation * toMicro), FactorC: number(m.FactorC),
		InContact: number(m.InContact), Stiffness: number(m.Stiffness), Stations: view.Each(m.Stations, scaled(1)), LineLoad: view.Each(m.LineLoad, scaled(1)),
		Growth: view.Each(m.Growth, newSpot), Scuffing: newScuff(m.Scuffing),
		Contact: number(m.Contact), Rating: newRating(m.Rating), Peak: newRating(m.Peak), AGMA: newAGMA(m.AGMA),
		Derived: view.Each(m.Derived, unchanged), Checks: view.Each(m.Checks, unchanged), Notes: view.Each(m.Notes, unchanged),
	}
	for i := range m.Gears {
		j.Gears = append(j.Gears, gearJSON{m.Gears[i], m.Shafts[i], number(m.At[i]), number(m.Torque[i] * toNm), gearbox.SenseName(m.Sense(i)), m.Thrust(i), number(m.Root[i]), number(m.RootReal[i])})
	}
	if m.Geometry != nil {
		j.Geometry = newGeometry(m.Geometry)
	}
	return j
}

func newGeometry(p *involute.Pair) *geometryJSON {
	g := &geometryJSON{
		Module: number(p.Module), Helix: number(p.Helix * toDegrees),
		RackPressureAngle: number(p.Rack.PressureAngle * toDegrees), RackAddendum: number(p.Rack.Addendum),
		RackDedendum: number(p.Rack.Dedendum), RackTipRadius: number(p.Rack.TipRadius),
		TransversePressureAngle: number(p.TransversePressureAngle * toDegrees), WorkingPressureAngle: number(p.WorkingPressureAngle * toDegrees),
		BaseHelix: number(p.BaseHelix * toDegrees), WorkingHelix: number(p.WorkingHelix * toDegrees),
		Centre: number(p.Centre), ReferenceCentre: number(p.ReferenceCentre), Face: number(p.Face),
		TransverseContactRatio: number(p.TransverseContactRatio), OverlapRatio: number(p.OverlapRatio), Backlash: number(p.Backlash),
		Notes: view.Each(p.Notes, unchanged),
	}
	for i := range p.Teeth {
		g.Gears = append(g.Gears, gearGeometryJSON{
			Teeth: p.Teeth[i], VirtualTeeth: number(p.VirtualTeeth[i]), Shift: number(p.X[i]), ShiftGiven: p.ShiftKnown[i],
			Reference: number(p.Reference[i]), Base: number(p.Base[i]), Working: number(p.Working[i]),
			Tip: number(p.Tip[i]), TipGiven: p.TipDiameter[i] > 0, Root: number(p.Root[i]), Form: number(p.Form[i]), Start: number(p.Start[i]),
			Clearance: number(p.Clearance[i]), TipThickness: number(p.TipThickness[i]),
		})
	}
	return g
}

func newShaft(s gearbox.ShaftResult) shaftJSON {
	return shaftJSON{
		Name: s.Name, Start: number(s.Start), Length: number(s.Length), Span: number(s.Span),
		MaxDeflection: number(s.MaxDeflection * toMicro), MaxAt: number(s.MaxAt),
		Sections: view.Each(s.Sections, func(p gearbox.SectionResult) sectionJSON {
			return sectionJSON{
				p.Number, number(p.From), number(p.To), number(p.Outer), number(p.Bore), number(p.Stress.X),
				number(p.Stress.Bending), number(p.Stress.Torsion), number(p.Stress.Axial), number(p.Stress.VonMises),
			}
		}),
		Bearings: view.Each(s.Bearings, func(b gearbox.BearingResult) bearingJSON {
			return bearingJSON{
				b.Name, string(b.Type), number(b.At), number(b.Force[0]), number(b.Force[1]), number(b.Force[2]), number(b.Couple[0] * toNm), number(b.Couple[1] * toNm),
				number(b.Radial), number(b.Slope * toMilli), number(b.Deflection * toMicro), number(b.Ring * toMicro), number(b.Heaviest), number(b.Preload),
			}
		}),
		Gears: view.Each(s.Gears, func(g gearbox.GearSeat) seatJSON {
			return seatJSON{g.Name, g.Mesh, number(g.From), number(g.To), number(g.Diameter), number(g.Deflection * toMicro), number(g.Slope * toMilli)}
		}),
		Notes: view.Each(s.Notes, unchanged),
	}
}
