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
// Every set of groups is swapped from the first box to the second and the mixed box is solved; a group's share is the mean of what it changes over all orders of swapping
// (see shapley). The shares of a quantity add up to its difference exactly.
type CauseSplit struct {
	From, To string // names of the boxes
	Causes   []SplitCause
	Speeds   []SpeedSplit
	Left     []string // speeds that aren't split, since only one box has them or they are made up otherwise
	Mixed    int      // how many mixed boxes were solved
}

// SplitCause is a group of dimensions, or several that can't be swapped alone.
type SplitCause struct {
	Groups []Group
	Same   bool   // both boxes are alike in it, so that it explains nothing
	Why    string // why its groups are joined; "" = it is one group
	Facts  []Fact // what differs most in it
}

// SpeedSplit is one speed.
type SpeedSplit struct {
	Name  string
	Items []ItemSplit
}

// ItemSplit is one quantity of one speed.
type ItemSplit struct {
	Name, Key, Part string // as in Difference
	Dimension       quantity.Dimension
	From, To        float64   // of both boxes, inner units
	Shares          []float64 // by cause, same unit; they add up to To − From. Nil when a mixed box lacks the quantity
}

// Item finds a quantity of a speed; nil when it isn't there.
func (c *CauseSplit) Item(speed, key, part string) *ItemSplit {
	for i := range c.Speeds {
		if c.Speeds[i].Name != speed {
			continue
		}
		for k := range c.Speeds[i].Items {
			if it := &c.Speeds[i].Items[k]; it.Key == key && it.Part == part {
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
// turn; nil = nobody is. An error is that of the context.
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

// mixture is a solved mixed box.
type mixture struct {
	rows []SpeedRow // the mixed box is the second of the two
	err  error
}

// SplitCauses finds what makes the difference between two solved boxes. progress is told how many of the mixed boxes are solved; nil = nobody is. The error is that of the context, or says why
// the boxes can't be mixed at all.
func SplitCauses(ctx context.Context, from, to *gearbox.Result, load gearbox.Load, progress func(done, all int)) (*CauseSplit, error) {
	boxes, left, err := common([2]*gearbox.Result{from, to})
	if err != nil {
		return nil, err
	}
	load.Brief, load.Second, load.Speeds = true, nil, nil
	for _, s := range boxes[0].Speeds {
		load.Speeds = append(load.Speeds, s.Name)
	}
	causes, err := differing(boxes)
	if err != nil {
		return nil, err
	}
	var players []mask
	for _, c := range causes {
		if !c.Same {
			players = append(players, maskOf(c.Groups...))
		}
	}
	if len(players) == 0 {
		return &CauseSplit{From: from.Box.Name, To: to.Box.Name, Causes: causes, Left: left}, nil
	}
	solved, err := solveMixed(ctx, boxes, players, load, progress)
	if err != nil {
		return nil, err
	}
	for _, end := range []mask{0, every} {
		if e := solved[end&union(players)].err; e != nil {
			return nil, fmt.Errorf("without what only one box has, a box can't be solved: %w", e)
		}
	}
	c := &CauseSplit{From: from.Box.Name, To: to.Box.Name, Left: left, Mixed: len(solved)}
	var sets []mask // by cause; none for those in which both boxes are the same
	joined := join(players, solved)
	for _, cause := range causes {
		at := slices.IndexFunc(joined, func(p player) bool { return p.taken.has(cause.Groups[0]) })
		switch {
		case at < 0:
			c.Causes, sets = append(c.Causes, cause), append(sets, 0)
		case joined[at].groups()[0] == cause.Groups[0]:
			cause.Groups, cause.Why = joined[at].groups(), joined[at].why
			for _, g := range cause.Groups {
				cause.Facts = append(cause.Facts, facts(boxes, g)...)
			}
			c.Causes, sets = append(c.Causes, cause), append(sets, joined[at].taken)
		}
	}
	c.share(solved, sets)
	return c, nil
}

// differing lists the groups, with those marked in which both boxes are the same.
func differing(boxes [2]*gearbox.Box) ([]SplitCause, error) {
	plain, err := swap{boxes, 0}.mixed()
	if err != nil {
		return nil, err
	}
	var causes []SplitCause
	for _, g := range Groups() {
		box, err := swap{boxes, maskOf(g)}.mixed()
		causes = append(causes, SplitCause{Groups: []Group{g}, Same: err == nil && reflect.DeepEqual(plain, box)})
	}
	return causes, nil
}

func union(sets []mask) (all mask) {
	for _, s := range sets {
		all |= s
	}
	return all
}

// solveMixed solves the boxes of all sets of players, on all cores.
func solveMixed(ctx context.Context, boxes [2]*gearbox.Box, players []mask, load gearbox.Load, progress func(done, all int)) (map[mask]mixture, error) {
	count := 1 << len(players)
	solved := make([]mixture, count)
	base, err := swap{boxes, 0}.solve(load)
	if err != nil {
		return nil, fmt.Errorf("without what only one box has, %s can't be solved: %w", boxes[0].Name, err)
	}
	taken := func(set int) (m mask) {
		for i, p := range players {
			if set>>i&1 == 1 {
				m |= p
			}
		}
		return m
	}
	if err := abreast(ctx, count, progress, func(set int) error {
		r, err := swap{boxes, taken(set)}.solve(load)
		if solved[set].err = err; err == nil {
			solved[set].rows = Compare([]*gearbox.Result{base, r}).Speeds
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

// solve works a mixed box out.
func (w swap) solve(load gearbox.Load) (*gearbox.Result, error) {
	b, err := w.mixed()
	if err != nil {
		return nil, err
	}
	load.Loose = true // what is mixed need not be buildable
	return gearbox.Solve(b, load)
}

// player is one or several groups that change sides together.
type player struct {
	taken mask
	why   string
}

func (p player) groups() (all []Group) {
	for _, g := range Groups() {
		if p.taken.has(g) {
			all = append(all, g)
		}
	}
	return all
}

// join puts players together until no mixed box is left that can't be: each time the two whose separation fails most often.
func join(sets []mask, solved map[mask]mixture) []player {
	players := make([]player, len(sets))
	for i, s := range sets {
		players[i].taken = s
	}
	for {
		failures := func(i, j int) (parted int, why error) {
			for m, mix := range solved {
				if mix.err == nil || cuts(players, m) {
					continue
				}
				if a, b := m&players[i].taken != 0, m&players[j].taken != 0; a != b {
					parted++
					if why == nil || mix.err.Error() < why.Error() {
						why = mix.err
					}
				}
			}
			return parted, why
		}
		most, x, y := 0, 0, 0
		var reason error
		for i := range players {
			for j := range i {
				if n, why := failures(j, i); n > most {
					most, x, y, reason = n, j, i, why
				}
			}
		}
		if most == 0 {
			return players
		}
		players[x].taken |= players[y].taken
		if players[x].why == "" {
			players[x].why = reason.Error()
		}
		players = append(players[:y], players[y+1:]...)
	}
}

// cuts reports whether a set of groups takes some of a player's and leaves others, which doesn't happen once they are joined.
func cuts(players []player, m mask) bool {
	for _, p := range players {
		if part := m & p.taken; part != 0 && part != p.taken {
			return true
		}
	}
	return false
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
	for s, row := range solved[0].rows {
		speed := SpeedSplit{Name: row.Name}
		for k, d := range row.Items {
			value := func(m mask) float64 { return solved[m].rows[s].Items[k].Values[1] }
			item := ItemSplit{Name: d.Name, Key: d.Key, Part: d.Part, Dimension: d.Dimension, From: value(0), To: value(union(sets))}
			if shares := shapley(len(players), func(set uint) float64 { return value(taken(set)) }); told(shares) {
				item.Shares = make([]float64, len(sets))
				for i, share := range shares {
					if math.Abs(share) > rounding*math.Max(math.Abs(item.From), math.Abs(item.To)) {
						item.Shares[players[i]] = share
					}
				}
			}
			speed.Items = append(speed.Items, item)
		}
		c.Speeds = append(c.Speeds, speed)
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
