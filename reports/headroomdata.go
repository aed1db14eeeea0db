package reports

import (
	"io"
	"math"
	"strconv"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
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

// reachedJSON is the limit with the least left against what really reaches it.
type reachedJSON struct {
	Kind string `json:"kind"`
	Item string `json:"item"`
	comesJSON
}

type limitTorqueJSON struct {
	Kind   string `json:"kind"`
	Item   string `json:"item"`
	Torque number `json:"torque_nm"`
}

type variantJSON struct {
	Changes []string      `json:"changes"`
	Speeds  []reserveJSON `json:"speeds"`
}

// HeadroomJSON writes headrooms as JSON.
func HeadroomJSON(w io.Writer, all []*study.Headroom, o Options) error {
	if err := checkHeadrooms(all); err != nil {
		return err
	}
	o.Units = quantity.Metric
	return writeJSON(w, headroomJSON{newHead("headroom", o), HeadroomHeadline(all, o), each(all, newHeadroom)})
}

func newHeadroom(h *study.Headroom) boxHeadroomJSON {
	return boxHeadroomJSON{
		Name: h.Result.Box.Name, Before: number(h.Before * toNm), Added: number(h.Added * toNm), Torque: number(h.Total() * toNm),
		Reserve: number(h.Result.Box.Limits.Reserve), Worst: h.Worst().State.String(), Speeds: newReserves(h.Speeds, h.Result),
		Variants: each(h.Variants, func(v study.Variant) variantJSON {
			return variantJSON{each(v.Changes, unchanged), newReserves(v.Speeds, v.Result)}
		}),
		Notes: each(h.Result.Notes, unchanged),
	}
}

// newReserves are those of every speed, with what really reaches its teeth.
func newReserves(all []study.Reserve, r *gearbox.Result) []reserveJSON {
	out := each(all, newReserve)
	for i := range out {
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

func newReserve(r study.Reserve) reserveJSON {
	return reserveJSON{
		Name: r.Speed, State: r.State.String(), Left: number(r.Left), Allowable: number(r.Allowable() * toNm), Holding: number(r.Holding * toNm), FaceFactor: number(r.FaceFactor),
		Limits: each(r.Limits, func(l gearbox.FirstLimit) limitTorqueJSON {
			return limitTorqueJSON{l.Kind.Key(), l.Item, number(l.Torque * toNm)}
		}),
	}
}

// HeadroomCSV writes one row for each box, or changed box, speed and limit.
func HeadroomCSV(w io.Writer, all []*study.Headroom, _ Options) error {
	if err := checkHeadrooms(all); err != nil {
		return err
	}
	rows := [][]string{{"box", "changes", "torque_nm", "speed", "state", "left_fraction", "holding_torque_nm", "limit_number", "kind", "item", "limit_torque_nm"}}
	names := boxNames(resultsOf(all))
	for i, h := range all {
		add := func(changes string, speeds []study.Reserve) {
			for _, r := range speeds {
				for k, l := range r.Limits {
					rows = append(rows, []string{word(names[i]), word(changes), digits(h.Total() * toNm), word(r.Speed), r.State.String(), digits(r.Left), digits(r.Holding * toNm),
						strconv.Itoa(k + 1), l.Kind.Key(), word(l.Item), digits(l.Torque * toNm)})
				}
			}
		}
		add("", h.Speeds)
		for k := range h.Variants {
			add(variantName(&h.Variants[k]), h.Variants[k].Speeds)
		}
	}
	return writeCSV(w, rows)
}

// WorstHeadroom is the worst state of all speeds of all boxes as they are, at the torque asked.
func WorstHeadroom(all []*study.Headroom) gearbox.State {
	worst := gearbox.Clear
	for _, h := range all {
		for _, r := range h.Speeds {
			if !math.IsNaN(r.Left) {
				worst = min(worst, r.State)
			}
		}
	}
	return worst
}
