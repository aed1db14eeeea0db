package data

import (
	"io"
	"math"

	"layshaft/gearbox/quantity"
	"layshaft/gearstress/gauge"
	"layshaft/reports/view"
)

type gaugeJSON struct {
	reportHead
	Name   string           `json:"name"`
	Box    string           `json:"box_file_written"`
	Groups []gaugeGroupJSON `json:"groups"`
	Closes []closeJSON      `json:"pairs"`
	Notes  []string         `json:"notes"`
}

type gaugeGroupJSON struct {
	Headline  string      `json:"headline"`
	Gears     []string    `json:"gears"`
	Fixed     bool        `json:"flank_is_fixed"`
	Missing   []string    `json:"still_open"`
	BasePitch valueMm     `json:"base_pitch"`
	BaseHelix valueDeg    `json:"base_helix"`
	Flanks    []flankJSON `json:"flanks"`
	Labels    []labelJSON `json:"tools"`
	Others    []nameJSON  `json:"other_names_of_the_same_flank"`
	Twins     []twinJSON  `json:"not_to_be_told_apart"`
}

type valueMm struct {
	Value     number `json:"value_mm"`
	Tolerance number `json:"within_mm"`
}

type valueDeg struct {
	Value     number `json:"value_deg"`
	Tolerance number `json:"within_deg"`
}

type valueModules struct {
	Value     number `json:"value_modules"`
	Tolerance number `json:"within_modules"`
}

type flankJSON struct {
	Gear      string  `json:"gear"`
	Teeth     int     `json:"teeth"`
	Base      valueMm `json:"base_diameter"`
	Thickness valueMm `json:"base_thickness"`
	Tip       valueMm `json:"tip_diameter"`
	Root      valueMm `json:"root_diameter"`
}

type labelJSON struct {
	Module        number             `json:"module_mm"`
	Pitch         number             `json:"diametral_pitch_in_unit"`
	Unit          string             `json:"unit"`
	PressureAngle number             `json:"pressure_angle_deg"`
	Helix         number             `json:"helix_deg"`
	Snapped       bool               `json:"helix_is_a_half_degree"`
	Around        valueDeg           `json:"helix_by_readings"`
	Growth        number             `json:"misfit_factor"`
	Gears         []labelledJSON     `json:"gears"`
	Readings      []gaugeReadingJSON `json:"readings"`
}

type labelledJSON struct {
	Gear     string       `json:"gear"`
	Shift    valueModules `json:"profile_shift"`
	Cut      valueModules `json:"profile_shift_as_it_is"`
	Thinning valueMm      `json:"thinning"`
	Addendum valueModules `json:"addendum"`
	Dedendum valueModules `json:"dedendum"`
}

type gaugeReadingJSON struct {
	Of      string `json:"of"`
	Reading string `json:"reading"`
	Unit    string `json:"unit"`
	Read    number `json:"read_in_unit"`
	Within  number `json:"within_in_unit"`
	Made    number `json:"made_in_unit"`
}

type nameJSON struct {
	Module        number   `json:"module_mm"`
	PressureAngle number   `json:"pressure_angle_deg"`
	Helix         number   `json:"helix_deg"`
	Shift         []number `json:"profile_shift_as_it_is_modules"`
}

type twinJSON struct {
	Tool       int    `json:"tool_index"`
	Pitch      number `json:"base_pitch_larger_by_um"`
	Gear       string `json:"further_reading_of"`
	Reading    string `json:"further_reading"`
	Unit       string `json:"unit"`
	Best       number `json:"best_makes_in_unit"`
	Other      number `json:"twin_makes_in_unit"`
	Tells      bool   `json:"tells_them_apart"`
	Assumption bool   `json:"if_the_tool_makes_full_teeth"`
}

type closeJSON struct {
	Pair     string  `json:"pair"`
	Own      valueMm `json:"centre_distance_by_its_teeth"`
	Backlash valueMm `json:"backlash_by_its_teeth"`
	Assumed  bool    `json:"backlash_assumed"`
	Measured valueMm `json:"centre_distance_measured"`
}

// gauged is a number that was found; one that was not read is null.
func gauged(v float64) number {
	if v == 0 {
		return number(math.NaN())
	}
	return number(v)
}

func mm(v gauge.Value) valueMm { return valueMm{gauged(v.Value), gauged(v.Tolerance)} }

func deg(v gauge.Value) valueDeg {
	return valueDeg{gauged(v.Value * toDegrees), gauged(v.Tolerance * toDegrees)}
}

func modules(v gauge.Value) valueModules { return valueModules{gauged(v.Value), gauged(v.Tolerance)} }

// GaugeJSON writes everything that Gauge tells as JSON.
func GaugeJSON(w io.Writer, bench view.Bench, o view.Options) error {
	r := bench.Result
	if r == nil || len(r.Groups) == 0 {
		return view.ErrNothingGauged
	}
	metric := view.Options{}
	j := gaugeJSON{reportHead: newHead("gauge", o), Name: bench.Name, Box: bench.Box}
	j.Groups = view.Each(r.Groups, func(g gauge.Group) gaugeGroupJSON { return newGaugeGroup(r, g) })
	j.Closes = view.Each(r.Closes, func(c gauge.Close) closeJSON {
		at := r.Set.Centres[r.Set.Pairs[c.Pair].Centre].Reading
		return closeJSON{r.Set.Pairs[c.Pair].Name, mm(c.Own), mm(c.Backlash), c.Assumed, mm(gauge.Value{Value: at.Value, Tolerance: at.Width()})}
	})
	j.Notes = view.Each(view.GaugeNotes(r, metric), plain)
	return writeJSON(w, j)
}

func newGaugeGroup(r *gauge.Result, g gauge.Group) gaugeGroupJSON {
	metric := view.Options{}
	name := func(i int) string { return r.Set.Gears[i].Name }
	j := gaugeGroupJSON{
		Headline: plain(view.GaugeHeadline(r, g, metric)), Gears: view.Each(g.Gears, name), Fixed: g.Fixed, Missing: view.Each(g.Missing, func(n gauge.Note) string { return plain(view.NoteText(n, metric)) }),
		BasePitch: mm(g.BasePitch), BaseHelix: deg(g.BaseHelix), Flanks: []flankJSON{},
	}
	for i, f := range g.Flanks {
		j.Flanks = append(j.Flanks, flankJSON{name(g.Gears[i]), r.Set.Gears[g.Gears[i]].Teeth, mm(f.Base), mm(f.Thickness), mm(f.Tip), mm(f.Root)})
	}
	j.Labels = view.Each(g.Labels, func(l gauge.Label) labelJSON {
		made := labelJSON{Module: number(l.Module), Pitch: gauged(l.Pitch), Unit: "/in", PressureAngle: number(l.PressureAngle * toDegrees), Helix: number(l.Helix.Value * toDegrees),
			Snapped: l.Snapped, Around: deg(l.Around), Growth: number(l.Growth), Gears: []labelledJSON{}}
		for i, k := range l.Gears {
			made.Gears = append(made.Gears, labelledJSON{name(g.Gears[i]), modules(k.Shift), modules(k.Cut), mm(k.Thinning), modules(k.Addendum), modules(k.Dedendum)})
		}
		made.Readings = view.Each(l.Residual, func(res gauge.Residual) gaugeReadingJSON {
			factor, unit := gaugeUnit(res.Reading.Kind)
			return gaugeReadingJSON{view.ReadingOf(r, res), res.Reading.Name(), unit, number(res.Reading.Value * factor), number(res.Reading.Width() * factor), number(res.Made * factor)}
		})
		return made
	})
	j.Others = view.Each(g.Others, func(n gauge.Name) nameJSON {
		return nameJSON{number(n.Module), number(n.PressureAngle * toDegrees), number(n.Helix * toDegrees), view.Each(n.Shift, func(x float64) number { return number(x) })}
	})
	j.Twins = view.Each(g.Twins, func(t gauge.Twin) twinJSON {
		factor, unit := gaugeUnit(t.Next.Kind)
		return twinJSON{t.Label, number(t.Pitch * toMicro), name(t.Gear), t.Next.Name(), unit, gauged(t.Next.Value * factor), gauged(t.Other * factor), t.Tells, t.Assume}
	})
	return j
}

// gaugeUnit is the factor to the unit in which a reading of a kind is written, and its name.
func gaugeUnit(k gauge.Kind) (factor float64, unit string) {
	if k.Angle() {
		return inUnit(quantity.Angle)
	}
	return 1, "mm"
}

// GaugeCSV writes one row for every number under each label.
func GaugeCSV(w io.Writer, bench view.Bench, _ view.Options) error {
	r := bench.Result
	if r == nil || len(r.Groups) == 0 {
		return view.ErrNothingGauged
	}
	rows := [][]string{{"gear", "rank", "module_mm", "diametral_pitch_per_in", "pressure_angle_deg", "helix_deg", "profile_shift_modules", "within_modules", "thinning_mm", "addendum_modules", "dedendum_modules", "misfit_factor"}}
	cell := func(v float64) string {
		if v == 0 {
			return ""
		}
		return digits(v)
	}
	for _, g := range r.Groups {
		for rank, l := range g.Labels {
			for i, k := range l.Gears {
				rows = append(rows, []string{word(r.Set.Gears[g.Gears[i]].Name), digits(float64(rank + 1)), digits(l.Module), cell(l.Pitch), digits(l.PressureAngle * toDegrees), digits(l.Helix.Value * toDegrees),
					cell(k.Shift.Value), cell(k.Shift.Tolerance), cell(k.Thinning.Value), cell(k.Addendum.Value), cell(k.Dedendum.Value), digits(l.Growth)})
			}
		}
	}
	return writeCSV(w, rows)
}
