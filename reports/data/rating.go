package data

import (
	"math"

	"layshaft/gearstress/agma2001"
	"layshaft/gearstress/iso6336"
	"layshaft/reports/view"
)

// told is a number of a box whose zero means that nothing was told; it then is null.
func told(v float64) number {
	if v == 0 {
		return number(math.NaN())
	}
	return number(v)
}

type causeJSON struct {
	Name string `json:"name"`
	Tilt number `json:"tilt_in_action_mrad"`
}

type factorJSON struct {
	Symbol string `json:"symbol"`
	Words  string `json:"words"`
	Unit   string `json:"unit"`
	Driver number `json:"driver_in_unit"`
	Driven number `json:"driven_in_unit"`
	Source string `json:"source"`
}

// ratingJSON is a rating by ISO 6336.
type ratingJSON struct {
	Edition          string          `json:"edition"`
	Tangential       number          `json:"tangential_force_n"`
	Velocity         number          `json:"velocity_m_per_s"`
	FaceFactorOrigin string          `json:"face_load_factor_origin"`
	Nominal          number          `json:"nominal_contact_stress_mpa"`
	Factors          []factorJSON    `json:"factors"`
	Gears            []ratedGearJSON `json:"gears"`
	Stiffness        stiffnessJSON   `json:"stiffness"`
	Dynamic          dynamicJSON     `json:"dynamic"`
	Deviation        deviationJSON   `json:"deviation"`
	Notes            []string        `json:"notes"`
	Assumed          []string        `json:"assumed"`
}

type ratedGearJSON struct {
	RootNominal number      `json:"nominal_root_stress_mpa"`
	Root        outcomeJSON `json:"root"`
	Flank       outcomeJSON `json:"flank"`
}

type outcomeJSON struct {
	Stress      number `json:"stress_mpa"`
	Limit       number `json:"strength_mpa"`
	Permissible number `json:"permissible_mpa"`
	Safety      number `json:"safety_ratio"`
	Static      number `json:"static_strength_mpa"`
	Cycles      number `json:"load_cycles"`
	Life        number `json:"life_cycles"`
}

type stiffnessJSON struct {
	Theoretical number `json:"theoretical_n_per_mm2"`
	Body        number `json:"gear_blank_factor"`
	Rack        number `json:"basic_rack_factor"`
	Single      number `json:"single_n_per_mm2"`
	Mean        number `json:"mean_n_per_mm2"`
	Face        number `json:"along_the_face_n_per_mm2"`
}

type dynamicJSON struct {
	ReducedMass number `json:"reduced_mass_kg_per_mm"`
	Resonance   number `json:"pinion_speed_at_resonance_rpm"`
	Ratio       number `json:"speed_over_resonance_ratio"`
	Lower       number `json:"resonance_begins_ratio"`
	Regime      string `json:"regime"`
	PitchPart   number `json:"pitch_part_factor"`
	ProfilePart number `json:"profile_part_factor"`
	ReliefPart  number `json:"relief_part_factor"`
}

type deviationJSON struct {
	Pitch   number `json:"base_pitch_um"`
	Profile number `json:"profile_um"`
}

// newRating is nil when the mesh was not rated.
func newRating(r *iso6336.Rating) *ratingJSON {
	if r == nil {
		return nil
	}
	j := &ratingJSON{
		Edition: r.Edition.String(), Tangential: number(r.Tangential), Velocity: number(r.Velocity * toMetres), FaceFactorOrigin: r.K.HBetaOrigin,
		Nominal: number(r.Pitting),
		Factors: view.Each(r.Factors(), func(f iso6336.Factor) factorJSON {
			return factorJSON{f.Symbol, f.Words, f.Unit, number(f.Value[0]), number(f.Value[1]), f.Clause}
		}),
		Stiffness: stiffnessJSON{
			number(r.Stiffness.Theoretical), number(r.Stiffness.Body), number(r.Stiffness.Rack), number(r.Stiffness.Single), number(r.Stiffness.Mean), number(r.Stiffness.Face),
		},
		Dynamic: dynamicJSON{
			number(r.Dynamic.ReducedMass), number(r.Dynamic.Resonance * toRpm), number(r.Dynamic.Ratio), number(r.Dynamic.Lower), string(r.Dynamic.Regime),
			number(r.Dynamic.PitchPart), number(r.Dynamic.ProfilePart), number(r.Dynamic.ReliefPart),
		},
		Deviation: deviationJSON{number(r.Deviation.Pitch * toMicro), number(r.Deviation.Profile * toMicro)},
		Notes:     view.Each(r.Notes, unchanged), Assumed: view.Each(r.Assumed, unchanged),
	}
	for i := range r.Root {
		j.Gears = append(j.Gears, ratedGearJSON{number(r.Root[i].Nominal), newOutcome(&r.Root[i].Outcome), newOutcome(&r.Flank[i].Outcome)})
	}
	return j
}

func newOutcome(o *iso6336.Outcome) outcomeJSON {
	return outcomeJSON{number(o.Stress), number(o.Limit), number(o.Permissible), number(o.Safety), number(o.Static), number(o.Cycles), number(o.Life)}
}

// agmaJSON is a rating by ANSI/AGMA 2001-D04.
type agmaJSON struct {
	Velocity number         `json:"velocity_m_per_s"`
	Factors  []factorJSON   `json:"factors"`
	Gears    []agmaGearJSON `json:"gears"`
	Notes    []string       `json:"notes"`
}

type agmaGearJSON struct {
	Root  agmaOutcomeJSON `json:"root"`
	Flank agmaOutcomeJSON `json:"flank"`
}

type agmaOutcomeJSON struct {
	Stress      number `json:"stress_mpa"`
	Allowable   number `json:"allowable_stress_number_mpa"`
	Permissible number `json:"permissible_mpa"`
	Safety      number `json:"safety_ratio"`
	Cycles      number `json:"load_cycles"`
	Life        number `json:"life_cycles"`
}

// newAGMA is nil when the opinion was not asked for.
func newAGMA(r *agma2001.Rating) *agmaJSON {
	if r == nil {
		return nil
	}
	j := &agmaJSON{
		Velocity: number(r.Speed * toMetres),
		Factors: view.Each(r.Factors(), func(f agma2001.Factor) factorJSON {
			return factorJSON{f.Symbol, f.Words, f.Unit, number(f.Value[0]), number(f.Value[1]), f.Source}
		}),
		Notes: view.Each(r.Notes, unchanged),
	}
	for i := range r.Root {
		j.Gears = append(j.Gears, agmaGearJSON{newAGMAOutcome(&r.Root[i].Outcome), newAGMAOutcome(&r.Flank[i].Outcome)})
	}
	return j
}

func newAGMAOutcome(o *agma2001.Outcome) agmaOutcomeJSON {
	return agmaOutcomeJSON{number(o.Stress), number(o.Allowable), number(o.Permissible), number(o.Safety), number(o.Cycles), number(o.Life)}
}
