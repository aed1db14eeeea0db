package study

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sync/atomic"

	"layshaft/gearbox"
	"layshaft/gearbox/chance"
)

// Spread says how sure an answer is: what the allowable torque and the margins of one or two boxes become when everything that isn't known exactly takes values at random.
type Spread struct {
	Boxes    []BoxSpread
	Stated   bool          // every file says how what isn't known spreads; else there are ranges and no chances
	Unknowns []Unknown     // what was drawn
	Ratio    []RatioSpread // of the second box to the first, over all and for each speed that both have; nil for one box
	Ranking  []Ranked      // which group of unknowns moves the answer most, the largest first; nil when it wasn't asked, or nothing moves it
	Samples  int           // that were solved
	Wanted   int           // that were to be
	Seed     uint64
	Level    float64 // share of the samples that lie between the ends told of them: 0.9
}

// Band90 is what a sample says of a number: between its ends lie 90 of 100.
type Band90 struct {
	Low, Middle, High chance.Interval // 5, 50 and 95 of 100 lie below
	Least, Most       float64         // of all that were drawn
}

// BoxSpread is that of one box.
type BoxSpread struct {
	Box     *gearbox.Box
	Asked   float64 // torque asked of the box as described, N·mm; negative in coast
	Bears   Band90  // allowable input torque, the least of all speeds, N·mm
	Speeds  []SpeedSpread
	Margins []MarginSpread  // of every limit that decides, in each speed, the one with the least low end in front; nil in brief
	First   []Often         // which limit is first, the most frequent in front
	Short   chance.Interval // chance that the allowable torque is below that asked, as if all of it arrived
	Over    chance.Interval // chance that a limit that decides is exceeded by what arrives; NaN in brief
	Gaps    int             // samples that could not be built
	Gap     string          // why, of the first of them
}

// SpeedSpread is that of one speed.
type SpeedSpread struct {
	Name  string
	Bears Band90          // allowable input torque, N·mm
	Short chance.Interval // chance that it is below the torque asked
}

// MarginSpread is what is left of one limit: by what arrives, where that is known, and by the duty.
type MarginSpread struct {
	Speed string
	Kind  gearbox.Kind
	Item  string
	Left  Band90          // torque margin
	Over  chance.Interval // chance that it is exceeded
}

// Often is how often a limit is first.
type Often struct {
	Speed string // "" = in none of the samples a limit is reached
	Kind  gearbox.Kind
	Item  string
	Share float64
}

// RatioSpread is the allowable torque of the second box over that of the first, unknowns that both share drawn once.
type RatioSpread struct {
	Speed string // "" = the least of all speeds
	Ratio Band90
	Less  chance.Interval // chance that the second bears less
}

// Ranked is a group of unknowns and what it does to the allowable torque.
type Ranked struct {
	Group  string
	Effect chance.Effect // on its logarithm; of two boxes, on that of their ratio
	Left   float64       // share of the width of the answer that would stay, on average, if the group were known
}

// SpreadQuestion is how a spread is worked out.
type SpreadQuestion struct {
	Samples int
	Seed    uint64
	Brief   bool // only what is first: no margins, and nothing by what arrives
	Rank    bool // say which unknown matters most, which takes as many samples again
	Load    func(*gearbox.Box) gearbox.Load
}

// MostSamples is the largest number of samples.
const MostSamples = 200_000

// FindSpread solves one or two boxes for every sample. progress is told how many are solved. When the context ends before all are, what there is so far is the answer, if it is enough to say anything;
// else the error is that of the context.
func FindSpread(ctx context.Context, boxes []Drawn, q SpreadQuestion, progress func(done, all int)) (*Spread, error) {
	if len(boxes) < 1 || len(boxes) > 2 {
		return nil, fmt.Errorf("%d boxes; one or two can be spread", len(boxes))
	}
	if q.Samples < 1 || q.Samples > MostSamples {
		return nil, fmt.Errorf("%d samples; from 1 to %d can be drawn", q.Samples, MostSamples)
	}
	lot, err := newLot(boxes)
	if err != nil {
		return nil, err
	}
	s := &Spread{Unknowns: lot.unknowns, Stated: lot.stated, Seed: q.Seed, Level: 0.9}
	points := chance.Points(q.Samples, len(lot.unknowns), q.Seed)
	var trials *chance.Trials
	if groups, _ := lot.groups(); q.Rank && len(groups) > 0 {
		trials = chance.NewTrials(max(len(points)/(len(groups)+2), 4*chance.Replicates), len(lot.unknowns), groups, q.Seed+1)
	}
	s.Wanted = len(points)
	all := len(points)
	if trials != nil {
		all += len(trials.Points)
	}
	told := func(from int) func(done, _ int) {
		if progress == nil {
			return nil
		}
		return func(done, _ int) { progress(from+done, all) }
	}
	solved := make([][]sample, len(points))
	var done atomic.Int64
	err = abreast(ctx, len(points), told(0), func(i int) error {
		for b := range boxes {
			solved[i] = append(solved[i], lot.solve(b, points[i], q))
		}
		done.Add(1)
		return nil
	})
	if err != nil {
		// The pieces are taken in order, so nearly all before the last are there.
		n := 0
		for n < len(solved) && len(solved[n]) == len(boxes) {
			n++
		}
		const enough = 10 // of each scrambling
		if n = chance.Whole(n); n < enough*chance.Replicates {
			return nil, err
		}
		solved, trials = solved[:n], nil
	}
	s.Samples = len(solved)
	for b := range boxes {
		bs := boxSpread(solved, b)
		bs.Box, bs.Asked = boxes[b].Box, lot.asked(b, q)
		if bs.Gaps == len(solved) {
			return nil, fmt.Errorf("box %s: none of the samples can be built: %s", bs.Box.Name, bs.Gap)
		}
		s.Boxes = append(s.Boxes, bs)
	}
	if len(boxes) == 2 {
		s.Ratio = ratioSpreads(solved, s.Boxes)
	}
	if trials == nil {
		return s, nil
	}
	answers := make([]float64, len(trials.Points))
	err = abreast(ctx, len(answers), told(len(points)), func(i int) error {
		answers[i] = math.Log(lot.least(0, trials.Points[i], q))
		if len(boxes) > 1 {
			answers[i] = math.Log(lot.least(1, trials.Points[i], q)) - answers[i]
		}
		return nil
	})
	if err == nil {
		s.rank(lot, trials.Effects(answers))
	}
	return s, nil
}

// rank sorts the groups by what they do.
func (s *Spread) rank(l *lot, effects []chance.Effect) {
	_, names := l.groups()
	for g, e := range effects {
		s.Ranking = append(s.Ranking, Ranked{names[g], e, math.Sqrt(1 - min(max(e.Alone, 0), 1))})
	}
	slices.SortStableFunc(s.Ranking, func(a, b Ranked) int { return sign(b.Effect.Total - a.Effect.Total) })
	if len(s.Ranking) > 0 && s.Ranking[0].Effect.Total == 0 {
		s.Ranking = nil
	}
}

// band is what answers say of a number.
func band(answers []float64) Band90 {
	b := Band90{Low: chance.Quantile(answers, 0.05), Middle: chance.Quantile(answers, 0.5), High: chance.Quantile(answers, 0.95), Least: math.Inf(1), Most: math.Inf(-1)}
	for _, v := range answers {
		if !math.IsNaN(v) {
			b.Least, b.Most = min(b.Least, v), max(b.Most, v)
		}
	}
	return b
}

// Exceeded reports whether in more than 5 of 100 samples of a box a limit is exceeded: by what arrives where that was worked out, else by the torque at the input.
func (s *Spread) Exceeded() bool {
	for i := range s.Boxes {
		c := s.Boxes[i].Over.Value
		if !(c >= 0) {
			c = s.Boxes[i].Short.Value
		}
		if c > 0.05 {
			return true
		}
	}
	return false
}
