package data

import (
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// assumptionJSON is something that isn't given, with what other values of it would do.
type assumptionJSON struct {
	Path         string            `json:"path"`
	Parts        []string          `json:"parts"`
	What         string            `json:"what"`
	Value        string            `json:"value"`
	Unknown      bool              `json:"all_values_tried"`
	Torque       number            `json:"allowable_torque_nm"`
	Alternatives []alternativeJSON `json:"alternatives"`
}

type alternativeJSON struct {
	Value  string `json:"value"`
	Torque number `json:"allowable_torque_nm"`
	Change number `json:"change_fraction"`
	Speed  string `json:"speed"`
	Kind   string `json:"kind"`
	Item   string `json:"item"`
	Gap    string `json:"not_buildable"`
}

// triedJSON is what came of all the boxes that one may be by what isn't known of it.
type triedJSON struct {
	Boxes    int    `json:"boxes"`
	Reported string `json:"reported"`
	Least    number `json:"least_allowable_torque_nm"`
	Most     number `json:"most_allowable_torque_nm"`
}

func newTried(t *gearbox.Tried) *triedJSON {
	if t == nil {
		return nil
	}
	return &triedJSON{t.Boxes, t.Variant, number(t.Least * toNm), number(t.Most * toNm)}
}

// newAssumptions groups effects by what is assumed, in the order in which each comes first.
func newAssumptions(effects []study.Effect) []assumptionJSON {
	all := []assumptionJSON{}
	for i := range effects {
		e := &effects[i]
		n := 0
		for n < len(all) && !(all[n].Path == e.Assumed.Path && all[n].What == e.Assumed.Words && all[n].Unknown == e.Assumed.Unknown && slices.Equal(all[n].Parts, e.Assumed.Parts)) {
			n++
		}
		if n == len(all) {
			all = append(all, assumptionJSON{Path: e.Assumed.Path, Parts: view.Each(e.Assumed.Parts, unchanged), What: e.Assumed.Words, Value: e.Assumed.Value, Unknown: e.Assumed.Unknown,
				Torque: number(e.Before.Torque * toNm), Alternatives: []alternativeJSON{}})
		}
		if e.Other == "" {
			continue
		}
		a := alternativeJSON{Value: e.Other, Torque: number(math.NaN()), Change: number(e.Change()), Gap: e.Gap}
		if e.Gap == "" {
			a.Torque, a.Speed, a.Kind, a.Item = number(e.After.Torque*toNm), e.After.Speed, e.After.Kind.Key(), e.After.Item
		}
		all[n].Alternatives = append(all[n].Alternatives, a)
	}
	return all
}
