package study

import (
	"context"
	"fmt"
	"math"
	"math/bits"
	"reflect"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// CauseSplit shares the difference between two boxes out over groups of dimensions.
//
// Every set of groups is swapped from the first box to the second and the mixed box is solved; a group's share is the mean
// of what it changes over all orders of swapping (see shapley). The shares of a quantity add up to its difference exactly,
// and a group that is the same in both boxes has none.
type CauseSplit struct {
	From, To string // names of the boxes
	Causes   []SplitCause
	Speeds   []SpeedSplit
	Decides  string     // the speed with the least allowable torque of either box; "" = none has a limit
	Left     []LeftOut  // speeds that aren't shared out
	Renamed  []Rename   // parts that are called otherwise in the second box
	Alone    []Unpaired // parts that only one box has
	Mixed    int        // how many mixed boxes were solved
}

// SplitCause is a group of dimensions, or several that can't be swapped alone.
type SplitCause struct {
	Groups []Group
	Same   bool     // both boxes are alike in it, so that it explains nothing
	Why    string   // why its groups are joined; "" = it is one group
	Facts  []Fact   // what differs in it, as far as it can be told in numbers
	Aside  []string // shafts whose steps stand a little aside of where their bearings would take them
	More   bool     // it differs in more than Facts
	Gears  bool     // with the bearings gears move that stand elsewhere in the other box
	Steps  bool     // with the bearings steps and ends of shafts move that are elsewhere in the other box
}

// SpeedSplit is one speed: first the torques of the limits that are the first in one of the boxes, then what explains them.
type SpeedSplit struct {
	Name  string
	Items []ItemSplit
}

// ItemSplit is one quantity of one speed.
type ItemSplit struct {
	Name, Key, Part string     // as in Difference; Part is the limit's item where Limit isn't nil
	Limit           *PartLimit // whose allowable torque it is; nil = another quantity
	First           [2]bool
	Decides         bool // it is of the mesh or a shaft that the first limits of this speed belong to
	Dimension       quantity.Dimension
	From, To        float64   // of both boxes, inner units
	Shares          []float64 // by cause, same unit; they add up to To − From. Nil when a mixed box lacks the quantity
}

// Item finds a quantity of a speed, or the torque of a limit; nil when it isn't there.
func (c *CauseSplit) Item(speed, key, part string, limit *PartLimit) *ItemSplit {
	for i := range c.Speeds {
		if c.Speeds[i].Name != speed {
			continue
		}
		for k := range c.Speeds[i].Items {
			it := &c.Speeds[i].Items[k]
			if it.Key == key && it.Part == part && (it.Limit == limit || it.Limit != nil && limit != nil && *it.Limit == *limit) {
				return it
			}
		}
	}
	return nil
}

// Split is the cause split of one box against the first, or why there is none.
type Split struct {
	Box    int // of the results
	Causes *CauseSplit
	Why    string // set when Causes is nil
}

// Explain finds what makes the difference between the first box and each other one. The load must be that of the results. progress is told how many mixed boxes are solved, of how many, for each box in
// turn; nil = nobody is. An error is that of the context. EqualSteel may be at work meanwhile.
func (c *Comparison) Explain(ctx context.Context, load gearbox.Load, progress func(done, all int)) error {
	for i := 1; i < len(c.Results); i++ {
		causes, err := SplitCauses(ctx, c.Results[0], c.Results[i], load, progress)
		if ctx.Err() != nil {
			return ctx.Err()
		}
		s := Split{Box: i, Causes: causes}
		if err != nil {
			s.Why = err.Error()
		}
		c.Splits = append(c.Splits, s)
	}
	return nil
}

// mixture is what is kept of a solved mixed box.
type mixture struct {
	speeds [][]float64 // by speed, its items; NaN = the box lacks it
	err    error
}

// SplitCauses finds what makes the difference between two solved boxes. progress is told how many of the mixed boxes are
// solved; nil = nobody is. The error is that of the context, or says why the boxes can't be mixed at all.
func SplitCauses(ctx context.Context, from, to *gearbox.Result, load gearbox.Load, progress func(done, all int)) (*CauseSplit, error) {
	both, err := common([2]*gearbox.Result{from, to})
	if err != nil {
		return nil, err
	}
	c := &CauseSplit{From: from.Box.Name, To: to.Box.Name, Left: both.left, Renamed: both.renamed, Alone: both.alone}
	load.Second, load.Speeds = nil, nil
	for _, s := range both.boxes[0].Speeds {
		load.Speeds = append(load.Speeds, s.Name)
	}
	causes, players := differing(both.boxes)
	if len(players) == 0 {
		c.Causes = causes
		return c, nil
	}
	var ends [2]*gearbox.Result
	if err := abreast(ctx, len(ends), nil, func(i int) (err error) {
		if ends[i], err = (swap{both.boxes, [2]mask{0, every}[i]}).solve(load, nil); err != nil {
			return fmt.Errorf("without what only one box has, %s can't be solved: %w", [2]string{from.Box.Name, to.Box.Name}[i], err)
		}
		return nil
	}); err != nil {
		return nil, err
	}
	c.items(both.boxes[0], ends)
	solved, err := c.solveMixed(ctx, both.boxes, players, load, progress)
	if err != nil {
		return nil, err
	}
	c.Mixed = len(solved)
	c.share(solved, c.join(causes, players, solved))
	for i := range c.Causes {
		if !c.Causes[i].Same {
			c.Causes[i].describe(&both)
		}
	}
	return c, nil
}

// mostPlayers is how many groups are swapped each for itself: every further one doubles the work.
const mostPlayers = 10

// differing lists the groups, with those marked in which both boxes are the same, and the sets that change sides. Only
// places move along with others, and they do so with the bearings alone: what is the same with all else of one box and
// with all else of the other is the same in every mix.
func differing(boxes [2]*gearbox.Box) (causes []SplitCause, players []mask) {
	same := func(a, b mask) bool {
		x, err1 := swap{boxes, a}.mixed()
		y, err2 := swap{boxes, b}.mixed()
		return err1 == nil && err2 == nil && reflect.DeepEqual(x, y)
	}
	for _, g := range Groups() {
		one := maskOf(g)
		cause := SplitCause{Groups: []Group{g}, Same: same(0, one) && same(every&^one, every)}
		causes = append(causes, cause)
		switch n := len(players) - 1; {
		case cause.Same:
		case n+1 < mostPlayers:
			players = append(players, one)
		default:
			players[n] |= one
		}
	}
	return causes, players
}

func union(sets []mask) (all mask) {
	for _, s := range sets {
		all |= s
	}
	return all
}

// items lists what is shared out of every speed: the limits that are first in one of the boxes, and the quantities that a
// comparison tells.
func (c *CauseSplit) items(box *gearbox.Box, ends [2]*gearbox.Result) {
	least := math.Inf(1)
	one := Compare(ends[:1]).Speeds
	for i, row := range Compare(ends[:]).Speeds {
		speed := SpeedSplit{Name: row.Name}
		parts := map[string]bool{"": true}
		for k, end := range ends {
			first := &end.Speeds[i].First
			if first.Torque < least {
				least, c.Decides = first.Torque, row.Name
			}
			if math.IsInf(first.Torque, 1) {
				continue
			}
			l := limitOf(first.Kind, first.Item)
			for part := range l.parts(box, row.Name) {
				parts[part] = true
			}
			n := slices.IndexFunc(speed.Items, func(it ItemSplit) bool { return *it.Limit == l })
			if n < 0 {
				n = len(speed.Items)
				speed.Items = append(speed.Items, ItemSplit{
					Name: "allowable torque, " + l.Kind.String(), Key: "allowable_torque", Part: l.Item, Limit: &l, Dimension: quantity.Torque, Decides: true,
				})
			}
			speed.Items[n].First[k] = true
		}
		for _, d := range row.Items {
			// What only two boxes beside each other tell, or a full solution, isn't shared out.
			if d.Key != "allowable_torque" && slices.ContainsFunc(one[i].Items, d.same) {
				speed.Items = append(speed.Items, ItemSplit{Name: d.Name, Key: d.Key, Part: d.Part, Dimension: d.Dimension, Decides: parts[d.Part]})
			}
		}
		c.Speeds = append(c.Speeds, speed)
	}
}

// limits are those that are shared out, by speed.
func (c *CauseSplit) limits() (all [][]PartLimit) {
	for _, s := range c.Speeds {
		var of []PartLimit
		for _, it := range s.Items {
			if it.Limit != nil {
				of = append(of, *it.Limit)
			}
		}
		all = append(all, of)
	}
	return all
}

// unfelt are the groups of which the mechanics of a speed mostly know nothing.
var unfelt = maskOf(Steel, Oil, Asked, Judging)

// solveMixed solves the boxes of all sets of players, on all cores. Those that differ in nothing that the mechanics feel are
// solved one after the other, with one memory.
func (c *CauseSplit) solveMixed(ctx context.Context, boxes [2]*gearbox.Box, players []mask, load gearbox.Load, progress func(done, all int)) (map[mask]mixture, error) {
	felt := func(p mask) int { return min(1, int(p&^unfelt)) }
	players = slices.SortedStableFunc(slices.Values(players), func(a, b mask) int { return felt(a) - felt(b) })
	like := 1
	for _, p := range players {
		if felt(p) == 0 && !onElements(boxes) {
			like *= 2
		}
	}
	count := 1 << len(players)
	solved := make([]mixture, count)
	taken := func(set int) (m mask) {
		for i, p := range players {
			if set>>i&1 == 1 {
				m |= p
			}
		}
		return m
	}
	limits := c.limits()
	told := func(done, all int) {
		if progress != nil {
			progress(done*like, all*like)
		}
	}
	if err := abreast(ctx, count/like, told, func(family int) error {
		load := load
		if like > 1 {
			load.Memory = new(gearbox.Memory)
		}
		for set := family * like; set < (family+1)*like && ctx.Err() == nil; set++ {
			r, err := swap{boxes, taken(set)}.solve(load, limits)
			if err != nil {
				solved[set].err = err
				continue
			}
			for i, row := range Compare([]*gearbox.Result{r}).Speeds {
				solved[set].speeds = append(solved[set].speeds, c.Speeds[i].values(&row))
			}
		}
		return nil
	}); err != nil {
		return nil, err
	}
	byMask := make(map[mask]mixture, count)
	for set, m := range solved {
		byMask[taken(set)] = m
	}
	return byMask, nil
}

// onElements reports whether a box has bearings of known elements. With a memory it shows there in rounding what was solved
// before, and what is the same would not be so to the last digit.
func onElements(boxes [2]*gearbox.Box) bool {
	return slices.ContainsFunc(boxes[:], func(b *gearbox.Box) bool {
		return slices.ContainsFunc(b.Shafts, func(s gearbox.Shaft) bool {
			return slices.ContainsFunc(s.Bearings, func(br gearbox.Bearing) bool { return br.Elements != nil })
		})
	})
}

// values are the items of a speed in one box.
func (s *SpeedSplit) values(row *SpeedRow) []float64 {
	values := make([]float64, len(s.Items))
	next := 0 // in the row, whose quantities mostly come in the order of the items
	for k := range s.Items {
		it := &s.Items[k]
		if values[k] = math.NaN(); it.Limit != nil {
			values[k] = torqueOf(row.Boxes[0], *it.Limit)
			continue
		}
		for range row.Items {
			d := &row.Items[next%len(row.Items)]
			if next++; d.Key == it.Key && d.Part == it.Part {
				values[k] = d.Values[0]
				break
			}
		}
	}
	return values
}

// solve works a mixed box out so far that the torques of some limits, by speed, can be told of it.
func (w swap) solve(load gearbox.Load, limits [][]PartLimit) (*gearbox.Result, error) {
	b, err := w.mixed()
	if err != nil {
		return nil, err
	}
	load.Brief, load.Wanted = true, wanted(b, limits)
	load.Loose = true // what is mixed need not be buildable
	return gearbox.Solve(b, load)
}

// join lists the causes of the split: groups that can't be swapped alone become one. It gives the set of each, none for
// those in which both boxes are the same.
func (c *CauseSplit) join(causes []SplitCause, sets []mask, solved map[mask]mixture) (taken []mask) {
	joined := join(sets, solved)
	for _, cause := range causes {
		at := slices.IndexFunc(joined, func(p player) bool { return p.taken.has(cause.Groups[0]) })
		switch {
		case at < 0:
			c.Causes, taken = append(c.Causes, cause), append(taken, 0)
		case joined[at].groups()[0] == cause.Groups[0]:
			p := joined[at]
			cause.Groups, cause.Why = p.groups(), p.why
			if len(cause.Groups) > 1 && cause.Why == "" {
				cause.Why = fmt.Sprintf("more than %d groups differ", mostPlayers)
			}
			c.Causes, taken = append(c.Causes, cause), append(taken, p.taken)
		}
	}
	return taken
}

// share finds the shares of every quantity. sets are the groups of each cause; those of an empty set explain nothing.
func (c *CauseSplit) share(solved map[mask]mixture, sets []mask) {
	var players []int
	for i, s := range sets {
		if s != 0 {
			players = append(players, i)
		}
	}
	taken := func(set uint) (m mask) {
		for ; set != 0; set &= set - 1 {
			m |= sets[players[bits.TrailingZeros(set)]]
		}
		return m
	}
	for s := range c.Speeds {
		for k := range c.Speeds[s].Items {
			item := &c.Speeds[s].Items[k]
			value := func(m mask) float64 {
				if mix, ok := solved[m]; ok && mix.err == nil {
					return mix.speeds[s][k]
				}
				return math.NaN()
			}
			item.From, item.To = value(0), value(union(sets))
			shares := shapley(len(players), func(set uint) float64 { return value(taken(set)) })
			if !told(shares) {
				continue
			}
			item.Shares = make([]float64, len(sets))
			for i, share := range shares {
				if math.Abs(share) > rounding*math.Max(math.Abs(item.From), math.Abs(item.To)) {
					item.Shares[players[i]] = share
				}
			}
		}
	}
}

// rounding is what is left of a share that is none, against the quantity itself.
const rounding = 1e-12

// told reports whether all of some numbers are finite.
func told(all []float64) bool {
	for _, x := range all {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
