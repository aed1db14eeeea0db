package study

import (
	"reflect"

	"layshaft/gearbox"
)

// Gap is something that a case would need and isn't told.
type Gap struct {
	Kind  GapKind
	Boxes []int    // places in Comparison.Results
	Names []string // speeds, where it is about speeds
}

// GapKind is what isn't known.
type GapKind string

// The kinds of gap, as machines know them.
const (
	NotWeighed     GapKind = "whole_box_not_weighed"
	NoClutchDisc   GapKind = "nothing_told_to_turn_with_input"
	NoSynchroniser GapKind = "synchroniser_not_known"
	OtherTorque    GapKind = "asked_torques_differ"
	OtherDuty      GapKind = "duties_differ"
	OtherSteel     GapKind = "steels_differ"
	OtherLevel     GapKind = "judged_by_other_ends"
	MissingSpeed   GapKind = "speed_missing"
)

// gaps lists what the case lacks.
func (k *LighterCase) gaps(c *Comparison, sameTorque bool) {
	both := []int{k.Lighter, k.Other}
	lacking := func(kind GapKind, lacks func(w *WeighedBox) bool) {
		g := Gap{Kind: kind}
		for _, i := range both {
			if lacks(&c.Weighed[i]) {
				g.Boxes = append(g.Boxes, i)
			}
		}
		if len(g.Boxes) > 0 {
			k.Gaps = append(k.Gaps, g)
		}
	}
	lacking(NotWeighed, func(w *WeighedBox) bool { return w.Result.Box.Weighed.Box == 0 })
	for _, i := range both {
		g := Gap{Kind: NoSynchroniser, Boxes: []int{i}}
		for _, y := range c.Weighed[i].Result.Weights.Synchronisers {
			if y.Unknown != "" && c.has(i, y.Speed) {
				g.Names = append(g.Names, y.Speed)
			}
		}
		if len(g.Names) > 0 {
			k.Gaps = append(k.Gaps, g)
		}
	}
	lacking(NoClutchDisc, func(w *WeighedBox) bool {
		for _, p := range w.Result.Box.Parts {
			if p.Inertia > 0 && p.TurnsWith == w.Result.Box.Input.Shaft {
				return false
			}
		}
		return true
	})
	for n, i := range both {
		g := Gap{Kind: MissingSpeed, Boxes: []int{i}}
		for _, row := range c.Speeds {
			if row.Boxes[i] == nil && row.Boxes[both[1-n]] != nil {
				g.Names = append(g.Names, row.Name)
			}
		}
		if len(g.Names) > 0 {
			k.Gaps = append(k.Gaps, g)
		}
	}
	if !sameTorque {
		k.Gaps = append(k.Gaps, Gap{Kind: OtherTorque, Boxes: both})
	}
	if a, b := c.Results[k.Lighter].Box.Duty, c.Results[k.Other].Box.Duty; !reflect.DeepEqual(a, b) {
		k.Gaps = append(k.Gaps, Gap{Kind: OtherDuty, Boxes: both})
	}
	if c.Results[k.Lighter].Box.Limits.Strength != c.Results[k.Other].Box.Limits.Strength {
		k.Gaps = append(k.Gaps, Gap{Kind: OtherLevel, Boxes: both})
	}
	if !sameSteels(c.Results[k.Lighter].Box, c.Results[k.Other].Box) {
		k.Gaps = append(k.Gaps, Gap{Kind: OtherSteel, Boxes: both})
	}
}

func (c *Comparison) has(box int, speed string) bool {
	for _, row := range c.Speeds {
		if row.Name == speed {
			return row.Boxes[box] != nil
		}
	}
	return false
}

// sameSteels reports whether parts of the same name are of steel of the same name.
func sameSteels(a, b *gearbox.Box) bool {
	steels := map[string]string{}
	name := func(s string) string {
		if s == "" {
			return gearbox.DefaultSteel
		}
		return s
	}
	for _, s := range a.Shafts {
		steels["shaft "+s.Name] = name(s.Steel)
	}
	for _, g := range a.Gears {
		steels["gear "+g.Name] = name(g.Steel)
	}
	for _, s := range b.Shafts {
		if other, ok := steels["shaft "+s.Name]; ok && other != name(s.Steel) {
			return false
		}
	}
	for _, g := range b.Gears {
		if other, ok := steels["gear "+g.Name]; ok && other != name(g.Steel) {
			return false
		}
	}
	return true
}
