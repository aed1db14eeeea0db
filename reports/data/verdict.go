package data

import (
	"math"

	"layshaft/gearbox"
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/view"
)

// verdictJSON is a verdict with the numbers that its sentences are made of.
type verdictJSON struct {
	State     string            `json:"state"`
	Counts    string            `json:"counts"`
	Sentences []sentenceJSON    `json:"sentences"`
	Low       *endJSON          `json:"with_poorest_steel"`
	Typical   *endJSON          `json:"with_typical_steel"`
	High      *endJSON          `json:"with_best_steel"`
	Least     *standingJSON     `json:"least_left"`
	Asked     *standingJSON     `json:"if_all_arrived"`
	Bad       *badJSON          `json:"bad_range"`
	Guides    []passedGuideJSON `json:"guides_passed"`
	Endless   *endJSON          `json:"endless_life"`
	NotJudged []notJudgedJSON   `json:"not_judged"`
}

type sentenceJSON struct {
	About string `json:"about"`
	Text  string `json:"text"`
}

type firstLimitJSON struct {
	Kind  string `json:"kind"`
	Class string `json:"class"`
	Item  string `json:"item"`
	Mesh  string `json:"mesh"`
	Step  string `json:"most_of_it_in"`
}

type endJSON struct {
	Speed  string `json:"speed"`
	Torque number `json:"allowable_torque_nm"`
	firstLimitJSON
}

type standingJSON struct {
	Speed string `json:"speed"`
	State string `json:"state"`
	Left  number `json:"left_fraction"`
	Comes number `json:"torque_nm"`
	By    string `json:"bounded_by"`
	firstLimitJSON
}

type badJSON struct {
	Speed string `json:"speed"`
	From  number `json:"from_torque_nm"`
	To    number `json:"to_torque_nm"`
	firstLimitJSON
}

type passedGuideJSON struct {
	Speed    string `json:"speed"`
	Careful  number `json:"careful_end_torque_nm"`
	Generous number `json:"generous_end_torque_nm"`
	firstLimitJSON
}

type notJudgedJSON struct {
	What string `json:"what"`
	Give string `json:"give"`
}

func newFirstLimit(l gearbox.FirstLimit) firstLimitJSON {
	return firstLimitJSON{l.Kind.Key(), l.Kind.Class().Key(), l.Item, l.Mesh, l.Step}
}

func limitOfMargin(m *gearbox.Margin) firstLimitJSON {
	return newFirstLimit(m.First())
}

func newVerdict(r *gearbox.Result, effects []study.Effect, o view.Options) *verdictJSON {
	if len(r.Speeds) == 0 {
		return nil
	}
	v := study.Judge(r)
	j := &verdictJSON{
		State: v.State.String(), Counts: "asked_torque",
		Sentences: view.Each(view.Verdict(r, effects, o), func(s view.Sentence) sentenceJSON { return sentenceJSON{s.About, plain(s.Text)} }),
		Low:       newEnd(&v.Bears[material.Low]), Typical: newEnd(&v.Bears[material.Typical]), High: newEnd(&v.Bears[material.High]),
		Least: newStanding(v.Least), Asked: newStanding(v.Asked), Endless: newEnd(v.Endless),
		NotJudged: view.Each(v.NotJudged, func(n gearbox.NotJudged) notJudgedJSON { return notJudgedJSON{n.What, n.Why} }),
		Guides: view.Each(v.Guides, func(g study.PassedGuide) passedGuideJSON {
			return passedGuideJSON{g.Speed, number(g.Margin.Allowable[material.Low] * toNm), number(g.Margin.Allowable[material.High] * toNm), limitOfMargin(g.Margin)}
		}),
	}
	if v.Arrives {
		j.Counts = "what_arrives"
	}
	if b := v.Bad; b != nil {
		j.Bad = &badJSON{b.Speed, number(b.Margin.Bad[0] * toNm), number(b.Margin.Bad[1] * toNm), limitOfMargin(b.Margin)}
	}
	return j
}

// newEnd is nil where no limit is reached.
func newEnd(e *study.End) *endJSON {
	if e == nil || math.IsInf(e.Torque, 1) {
		return nil
	}
	return &endJSON{e.Speed, number(e.Torque * toNm), newFirstLimit(e.FirstLimit)}
}

func newStanding(s *study.Standing) *standingJSON {
	if s == nil {
		return nil
	}
	return &standingJSON{s.Speed, s.State.String(), number(s.Left), number(s.Comes * toNm), string(s.By), limitOfMargin(s.Margin)}
}
