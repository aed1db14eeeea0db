package reports_test

import (
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

func TestRankingInWords(t *testing.T) {
	speed := func(name string, low, typical, high float64, holds bool) study.RankedSpeed {
		return study.RankedSpeed{Name: name, Ratio: [3]float64{low, typical, high}, Least: min(low, typical, high), Most: max(low, typical, high), Holds: holds}
	}
	for _, w := range []struct {
		r    study.Ranking
		want string
	}{
		{study.Ranking{Box: 1, Common: true, Batch: true, Speeds: []study.RankedSpeed{speed("1st", 0.94, 0.95, 0.96, true), speed("2nd", 0.95, 0.95, 0.95, true)}},
			"In every speed Birch bears 4.0 to 6.0 % less than Alder, whatever the steel."},
		{study.Ranking{Box: 1, Common: true, Steels: []string{"club steel"}, Speeds: []study.RankedSpeed{speed("1st", 1.04, 1, 0.97, false), speed("2nd", 0.95, 0.95, 0.95, true)}},
			"In 2nd Birch bears 5.0 % less than Alder, whatever the steel; in 1st the order turns: with the poorest steel Birch bears 4.0 % more than Alder, with the best 3.0 % less. " +
				"Club steel counts as one steel in both boxes, as no batch is given."},
		{study.Ranking{Box: 1, Common: true, Batch: true, Speeds: []study.RankedSpeed{speed("1st", 0.998, 1.05, 1.1, true)}},
			"In 1st Birch bears up to 10.0 % more than Alder, whatever the steel."},
		// Less than anybody measures is no difference.
		{study.Ranking{Box: 1, Common: true, Batch: true, Speeds: []study.RankedSpeed{speed("1st", 0.996, 1.002, 1.003, true), speed("2nd", 1.02, 1.02, 1.02, true)}},
			"In 2nd Birch bears 2.0 % more than Alder, whatever the steel; in 1st Birch bears the same as Alder within 0.5 %, whatever the steel."},
		// The order may turn at the typical steel, with both ends alike.
		{study.Ranking{Box: 1, Common: true, Batch: true, Speeds: []study.RankedSpeed{speed("1st", 1.02, 0.97, 1.03, false)}},
			"In 1st the order turns: with the typical steel Birch bears 3.0 % less than Alder, with the best 3.0 % more."},
		{study.Ranking{Box: 1, Common: true, Batch: true, Alone: [2][]string{{"5th"}, {"crawler", "reverse"}}, Speeds: []study.RankedSpeed{speed("1st", 1, 1, 1, true), speed("2nd", 1, 1, 1, true)}},
			"In every speed that both have Birch bears the same as Alder, whatever the steel. Only Alder has 5th. Only Birch has crawler and reverse."},
		// Guides have ends of their own.
		{study.Ranking{Box: 1, Common: true, Guides: true, Steels: []string{"club steel"}, Speeds: []study.RankedSpeed{speed("1st", 0.9, 1, 1.1, false), speed("2nd", 0.9, 0.9, 0.8, true)}},
			"In 2nd Birch bears 10.0 to 20.0 % less than Alder, at the careful and at the generous end of the guides alike; " +
				"in 1st the order turns: at the careful end of the guides Birch bears 10.0 % less than Alder, at the generous end 10.0 % more."},
		{study.Ranking{Box: 1, Common: true, Batch: true, Speeds: []study.RankedSpeed{speed("1st", 1, 1, 1, true), speed("2nd", 1, 1, 1, true)}},
			"In every speed Birch bears the same as Alder, whatever the steel."},
		{study.Ranking{Box: 1, Speeds: []study.RankedSpeed{speed("1st", 0.4, 0.9, 1.9, false), speed("2nd", 1.1, 1.2, 1.3, true)}},
			"In 2nd Birch bears 10.0 to 30.0 % more than Alder, each of them of poor or of good steel; in 1st the order isn't settled: Birch bears from 60.0 % less to 90.0 % more than Alder, " +
				"each of them of poor or of good steel. Their steels have different names, so the one may be poor and the other good."},
		{study.Ranking{Box: 1, Steels: []string{"club steel"}, Speeds: []study.RankedSpeed{speed("1st", 0.4, 0.9, 1.9, false), speed("2nd", 0.5, 1.2, 2, false)}},
			"In every speed the order isn't settled: Birch bears from 60.0 % less to 100.0 % more than Alder, each of them of poor or of good steel. " +
				"The batches of their steel differ, so the one may be poor and the other good."},
	} {
		c := &study.Comparison{Results: []*gearbox.Result{alder(), birch()}, Ranking: []study.Ranking{w.r}}
		if got := view.RankingWords(c); len(got) != 1 || view.SameBlank(got[0]) != w.want {
			t.Errorf("got  %q\nwant %q", got, w.want)
		}
	}
}
