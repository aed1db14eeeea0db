package data

import (
	"io"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

type headroomJSON struct {
	reportHead
	Headline string            `json:"headline"`
	Boxes    []boxHeadroomJSON `json:"boxes"`
}

type boxHeadroomJSON struct {
	Name     string        `json:"name"`
	Before   number        `json:"torque_before_nm"`
	Added    number        `json:"torque_added_nm"`
	Torque   number        `json:"torque_nm"`
	Reserve  number        `json:"wanted_reserve_fraction"`
	Worst    string        `json:"worst_state"`
	Speeds   []reserveJSON `json:"speeds"`
	Variants []variantJSON `json:"variants"`
	Notes    []string      `json:"notes"`
}

type reserveJSON struct {
	Name       string            `json:"name"`
	State      string            `json:"state"`
	Left       number            `json:"left_fraction"`
	Allowable  number            `json:"allowable_torque_nm"`
	Holding    number            `json:"holding_torque_nm"`
	FaceFactor number            `json:"largest_face_factor"`
	Limits     []limitTorqueJSON `json:"limits"`
	Reach      *reachJSON        `json:"what_reaches_the_teeth"`
	Reached    *reachedJSON      `json:"least_against_what_reaches_them"`
}

// reachedJSON is the limit with the least left at the torque transmitted.
type reachedJSON struct {
	Kind string `json:"kind"`
	Item string `json:"item"`
	comesJSON
}

type limitTorqueJSON struct {
	Kind   string `json:"kind"`
	Item   string `json:"item"`
	Mesh   string `json:"mesh"`
	Step   string `json:"most_of_it_in"`
	Torque number `json:"torque_nm"`
	From   number `json:"over_from_torque_nm"`
	To     number `json:"over_to_torque_nm"`
}

type variantJSON struct {
	Changes []string      `json:"changes"`
	Speeds  []reserveJSON `json:"speeds"`
}

// HeadroomJSON writes headrooms as JSON.
func HeadroomJSON(w io.Writer, all []*study.Headroom, o view.Options) error {
	if err := view.ReportableHeadrooms(all); err != nil {
		return err
	}
	o.Units = quantity.Metric
	return writeJSON(w, headroomJSON{newHead("headroom", o), plain(view.HeadroomHeadline(all, o)), view.Each(all, newHeadroom)})
}

func newHeadroom(h *study.Headroom) boxHeadroomJSON {
	return boxHeadroomJSON{
		Name: h.Result.Box.Name, Before: number(h.Before * toNm), Added: number(h.Added * toNm), Torque: number(h.Total() * toNm),
		Reserve: number(h.Result.Box.Limits.Reserve), Worst: study.Judge(h.Result).State.String(), Speeds: newReserves(h.Speeds, h.Result),
		Variants: view.Each(h.Variants, func(v study.Variant) variantJSON {
			return variantJSON{view.Each(v.Changes, unchanged), newReserves(v.Speeds, v.Result)}
		}),
		Notes: view.Each(h.Result.Notes, unchanged),
	}
}

// newReserves are those of every speed, with the torque transmitted to its teeth.
func newReserves(all []study.Reserve, r *gearbox.Result) []reserveJSON {
	out := make([]reserveJSON, len(all))
	for i := range all {
		out[i] = newReserve(all[i], r)
		if r == nil || i >= len(r.Speeds) {
			break
		}
		s := &r.Speeds[i]
		if out[i].Reach = newReach(s.Reach); s.Reach != nil && s.Reach.First >= 0 && s.Reach.First < len(s.Margins) {
			m := &s.Margins[s.Reach.First]
			if comes := newComes(m); comes != nil {
				out[i].Reached = &reachedJSON{m.Kind.Key(), m.Item, *comes}
			}
		}
	}
	return out
}

// badOf is the range in which a limit of a speed is exceeded that holds again above, N·mm; zero where there is none.
func badOf(r *gearbox.Result, speed string, l gearbox.FirstLimit) (bad [2]float64) {
	if r == nil {
		return bad
	}
	for i := range r.Speeds {
		s := &r.Speeds[i]
		for k := range s.Margins {
			if m := &s.Margins[k]; s.Name == speed && m.Kind == l.Kind && m.Item == l.Item && m.Mesh == l.Mesh {
				return m.Bad
			}
		}
	}
	return bad
}

func newReserve(r study.Reserve, of *gearbox.Result) reserveJSON {
	return reserveJSON{
		Name: r.Speed, State: r.State.String(), Left: number(r.Left), Allowable: number(r.Allowable() * toNm), Holding: number(r.Holding * toNm), FaceFactor: number(r.FaceFactor),
		Limits: view.Each(r.Limits, func(l gearbox.FirstLimit) limitTorqueJSON {
			bad := badOf(of, r.Speed, l)
			return limitTorqueJSON{l.Kind.Key(), l.Item, l.Mesh, l.Step, number(l.Torque * toNm), told(bad[0] * toNm), told(bad[1] * toNm)}
		}),
	}
}

// HeadroomCSV writes one row for each box, or changed box, speed and limit.
func HeadroomCSV(w io.Writer, all []*study.Headroom, _ view.Options) error {
	if err := view.ReportableHeadrooms(all); err != nil {
		return err
	}
	rows := [][]string{{"box", "changes", "torque_nm", "speed", "state", "left_fraction", "holding_torque_nm", "limit_number", "kind", "item", "mesh", "limit_torque_nm", "over_from_torque_nm", "over_to_torque_nm"}}
	names := view.BoxNames(view.ResultsOf(all))
	for i, h := range all {
		add := func(changes string, speeds []study.Reserve, of *gearbox.Result) {
			for _, r := range speeds {
				for k, l := range r.Limits {
					bad := badOf(of, r.Speed, l)
					rows = append(rows, []string{word(names[i]), word(changes), digits(h.Total() * toNm), word(r.Speed), r.State.String(), digits(r.Left), digits(r.Holding * toNm),
						strconv.Itoa(k + 1), l.Kind.Key(), word(l.Item), word(l.Mesh), digits(l.Torque * toNm), digits(float64(told(bad[0] * toNm))), digits(float64(told(bad[1] * toNm)))})
				}
			}
		}
		add("", h.Speeds, h.Result)
		for k := range h.Variants {
			add(strings.Join(h.Variants[k].Changes, "; "), h.Variants[k].Speeds, h.Variants[k].Result)
		}
	}
	return writeCSV(w, rows)
}

// WorstHeadroom is the worst answer of all boxes as they are.
func WorstHeadroom(all []*study.Headroom) gearbox.State {
	return view.Worst(view.ResultsOf(all))
}
