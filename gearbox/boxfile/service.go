package boxfile

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// The tables of what the box works in and for: oil, duty, and the case around it.

var oilFields = []field[gearbox.Oil]{
	{key: "viscosity", need: true, about: "kinematic viscosity at 40 °C (ν_40)", value: number(quantity.Viscosity, within(1, 5000, 1, " mm²/s"), func(o *gearbox.Oil) *float64 { return &o.Viscosity })},
	{key: "temperature", about: "of the oil in the running box, for the screen for scuffing", fallback: "90 °C, in the screen", value: number(quantity.Temperature, within(1, 250, 1, " °C"), func(o *gearbox.Oil) *float64 { return &o.Temperature })},
	{key: "cleanliness", about: "how clean the oil is for the bearings (e_C of ISO 281): 1 laboratory, 0.5 slight dirt, 0.1 heavy dirt; with temperature and revs it makes their modified life", fallback: "the basic life", value: number(quantity.Number, within(0.01, 1, 1, ""), func(o *gearbox.Oil) *float64 { return &o.Cleanliness })},
	{key: "load_stage", about: "load stage at which the oil fails the gear test FZG A/8.3/90", fallback: "not known", value: count(1, 14, func(o *gearbox.Oil) *int { return &o.Stage })},
}

// most is how often anything may be repeated: a number of turns that no gearbox outlives.
const most = 1e9

var dutyFields = []field[gearbox.Duty]{
	{key: "passes", need: true, about: "how often all of the steps are gone through", value: number(quantity.Number, upTo(most, 1, ""), func(d *gearbox.Duty) *float64 { return &d.Passes })},
	{key: "launches", about: "how often the car is launched in one pass, to tell lives in launches too", fallback: "not told", value: number(quantity.Number, upTo(1000, 1, ""), func(d *gearbox.Duty) *float64 { return &d.Launches })},
	{key: "steps", need: true, about: "the stretches of one pass", value: list("step", stepFields, func(d *gearbox.Duty) *[]gearbox.DutyStep { return &d.Steps }, checkStep)},
}

var stepFields = []field[gearbox.DutyStep]{
	{key: "speed", need: true, about: "the speed that is engaged", value: nameOf(speed, func(s *gearbox.DutyStep) *string { return &s.Speed })},
	{key: "turns", about: "turns of the input shaft; this or time", fallback: "–", value: number(quantity.Number, upTo(most, 1, ""), func(s *gearbox.DutyStep) *float64 { return &s.Turns })},
	{key: "time", about: "how long it lasts, at revs; this or turns", fallback: "–", value: number(quantity.Time, upTo(1e6, 1, " s"), func(s *gearbox.DutyStep) *float64 { return &s.Time })},
	{key: "revs", about: "speed of the input shaft in this step", fallback: "that of the input", value: number(quantity.RotationalSpeed, turning, func(s *gearbox.DutyStep) *float64 { return &s.Revs })},
	{key: "torque", about: "share of the torque asked for, above 100 % in a launch; negative when the car drives the engine", fallback: "100 %", value: number(quantity.Number, share, func(s *gearbox.DutyStep) *float64 { return &s.Share })},
}

var share = func() limit {
	around := percent(-1000, 1000)
	return limit{holds: func(v float64) bool { return v != 0 && around.holds(v) }, words: around.words + ", but not 0", hint: around.hint}
}()

func checkStep(r *reader, at spot, s *gearbox.DutyStep, given map[string]bool) {
	if !given["torque"] {
		s.Share = 1
	}
	switch {
	case given["turns"] && given["time"]:
		path := join(at.path, "time")
		r.fault(r.box.Places[path], path, "two values for one thing", "A step lasts so many turns, or for a time at the speed of the input shaft: keep one of them.")
	case !given["turns"] && !given["time"]:
		r.fault(at.owner, at.path, `missing key "turns"`, "A step lasts so many turns of the input shaft, such as turns: 400, or for a time, such as time: 12 s.")
	}
}

// checkDuty asks for the speed of the input shaft where a step is told by its time.
func (r *reader) checkDuty() {
	if r.box.Duty == nil {
		return
	}
	for i, s := range r.box.Duty.Steps {
		if path := join("duty.steps", strconv.Itoa(i)); s.Time > 0 && r.box.InputRevs(s) == 0 && !r.faulty("input.revs") && !r.faulty(path) {
			r.fault(r.box.Places[path+".time"], path+".time", "a time without a speed", "How often the input shaft turns in this time needs its speed: tell revs in this step, or once for all under input.")
		}
	}
}

// cases is how stiff a case may be under a bearing.
var cases = springs.usually(10, 10000, 1000, " N/µm", "the case under a bearing")

var housingFields = []field[gearbox.Housing]{
	{key: "radial", about: "stiffness of the case under each bearing; this or test", fallback: "–", value: stiffness(quantity.RadialStiffness, cases, []string{"rigid"},
		map[string]float64{"rigid": 0}, func(h *gearbox.Housing) *float64 { return &h.Radial })},
	{key: "test", about: "a case loaded on the bench with the output locked, from which its stiffness is found", fallback: "–", value: group(testFields, func(h *gearbox.Housing) *gearbox.HousingTest {
		h.Test = new(gearbox.HousingTest)
		return h.Test
	}, nil)},
}

var testFields = []field[gearbox.HousingTest]{
	{key: "speed", need: true, about: "the speed that was engaged", value: nameOf(speed, func(t *gearbox.HousingTest) *string { return &t.Speed })},
	{key: "torque", need: true, about: "torque put on the input shaft", value: number(quantity.Torque, torques, func(t *gearbox.HousingTest) *float64 { return &t.Torque })},
	{key: "shaft", need: true, about: "the shaft at whose bearing the case was watched", value: nameOf(shaft, func(t *gearbox.HousingTest) *string { return &t.Shaft })},
	{key: "bearing", need: true, about: "that bearing", value: bearingOfShaft(func(t *gearbox.HousingTest) *string { return &t.Bearing })},
	{key: "movement", need: true, about: "how far the case moved there", value: number(quantity.Deflection, upTo(5, 1, " mm"), func(t *gearbox.HousingTest) *float64 { return &t.Movement })},
}

// bearingOfShaft is the name of a bearing. Each shaft has its own, so that it is looked for when all of the file is read.
func bearingOfShaft[T any](part func(*T) *string) value[T] {
	return value[T]{
		written: "name of a bearing of that shaft",
		read: func(r *reader, at spot, to *T) {
			if name, ok := r.scalar(at, "the name of a bearing"); ok {
				r.box.Places[at.path] = at.place
				*part(to) = name
			}
		},
	}
}

func checkHousing(r *reader, at spot, _ *gearbox.Housing, given map[string]bool) {
	switch {
	case given["radial"] && given["test"]:
		path := join(at.path, "test")
		r.fault(r.box.Places[path], path, "two values for one thing", "The stiffness is given, or found by a test: keep one of them.")
	case !given["radial"] && !given["test"]:
		r.fault(at.owner, at.path, `missing key "radial"`, "The case is told by radial, such as 300 N/µm, or by a bench test: test; if nobody knows, housing: unknown.")
	}
}

// checkHousingTest reports a bench test that could not have been made. Its names are known to name something, but for the bearing.
func (r *reader) checkHousingTest() {
	t := r.box.Housing.Test
	if t == nil {
		return
	}
	const path = "housing.test"
	if i := slices.IndexFunc(r.box.Speeds, func(s gearbox.Speed) bool { return s.Name == t.Speed }); i >= 0 && r.box.Speeds[i].Direct {
		r.fault(r.box.Places[path+".speed"], path+".speed", "a test in a direct speed", "A direct speed loads no gears, so the case isn't pushed apart: test a geared one.")
	}
	i := slices.IndexFunc(r.box.Shafts, func(s gearbox.Shaft) bool { return s.Name == t.Shaft })
	if i < 0 || t.Bearing == "" {
		return
	}
	place, names := r.box.Places[path+".bearing"], []string{}
	for _, b := range r.box.Shafts[i].Bearings {
		if names = append(names, b.Name); b.Name != t.Bearing {
			continue
		}
		if b.In != "" {
			r.fault(place, path+".bearing", "no case there", fmt.Sprintf("Bearing %q sits in shaft %q, not in the case: name one that sits in the case.", b.Name, b.In))
		}
		return
	}
	if len(names) > 0 {
		r.fault(place, path+".bearing", "unknown bearing "+strconv.Quote(short(t.Bearing)),
			fmt.Sprintf("The bearings of shaft %q are: %s.", t.Shaft, strings.Join(names, ", "))+didYouMean(t.Bearing, names))
	}
}
