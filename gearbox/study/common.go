package study

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/beam/strength"
	"layshaft/gearbox"
	"layshaft/material"
)

// LeftOut is a speed that isn't shared out, with the reason.
type LeftOut struct{ Speed, Why string }

// shared is what two solved boxes have in common, written in one way so that what is the same is equal.
type shared struct {
	boxes   [2]*gearbox.Box
	files   [2]*gearbox.Box // as the files have them, but with the names of the first
	left    []LeftOut
	renamed []Rename
	alone   []Unpaired // parts that only one box has
}

// common cuts two solved boxes down to what both have: speeds of the same name over the same meshes, with their gears and
// shafts.
func common(results [2]*gearbox.Result) (s shared, err error) {
	a, b := results[0].Box, results[1].Box
	p := paired(a, b)
	s.renamed, s.alone = p.renamed, p.alone
	s.boxes = [2]*gearbox.Box{a, p.second}
	s.files = s.boxes
	if p.second.Input.Shaft != a.Input.Shaft || p.second.Output.Shaft != a.Output.Shaft {
		return s, fmt.Errorf("torque enters or leaves by another shaft in %s than in %s", b.Name, a.Name)
	}
	speeds := s.speeds(results)
	if len(speeds) == 0 {
		var why []string
		for _, l := range s.left {
			why = append(why, l.Speed+" ("+l.Why+")")
		}
		for _, u := range s.alone {
			why = append(why, string(u.Sort)+" "+u.Name+" (only "+results[u.Box].Box.Name+" has it)")
		}
		return s, errors.New("the boxes have no speed in common over the same meshes, gears and shafts: " + strings.Join(why, ", "))
	}
	meshes, gears, shafts := map[string]bool{}, map[string]bool{}, map[string]bool{a.Input.Shaft: true, a.Output.Shaft: true}
	for name := range speeds {
		speed, _ := speedOf(a, name)
		for _, name := range speed.Path {
			m := meshOf(a, name)
			meshes[name] = true
			for _, g := range []string{m.Driver, m.Driven} {
				gears[g], shafts[gearOf(a, g).Shaft] = true, true
			}
		}
	}
	if err := s.carriers(shafts); err != nil {
		return s, err
	}
	for i, r := range results {
		box := *s.boxes[i]
		box.Alternatives, box.Tried = nil, nil
		box.Shafts = slices.DeleteFunc(slices.Clone(box.Shafts), func(s gearbox.Shaft) bool { return !shafts[s.Name] })
		box.Gears = slices.DeleteFunc(slices.Clone(box.Gears), func(g gearbox.Gear) bool { return !gears[g.Name] })
		for k := range box.Shafts { // a circlip goes with its gear
			s := &box.Shafts[k]
			s.Joints = slices.DeleteFunc(slices.Clone(s.Joints), func(j gearbox.Joint) bool { return j.Holds != "" && !gears[j.Holds] })
		}
		box.Meshes = slices.DeleteFunc(slices.Clone(box.Meshes), func(m gearbox.Mesh) bool { return !meshes[m.Name] })
		box.Speeds = slices.DeleteFunc(slices.Clone(box.Speeds), func(s gearbox.Speed) bool { return !speeds[s.Name] })
		box.Centres = slices.DeleteFunc(slices.Clone(box.Centres), func(c gearbox.Centre) bool {
			return !shafts[c.Between[0]] || !shafts[c.Between[1]]
		})
		if box.Duty != nil {
			duty := *box.Duty
			duty.Steps = slices.DeleteFunc(slices.Clone(duty.Steps), func(d gearbox.DutyStep) bool { return !speeds[d.Speed] })
			if box.Duty = &duty; len(duty.Steps) == 0 {
				box.Duty = nil
			}
		}
		box.Housing = gearbox.Housing{Radial: r.Case}
		s.boxes[i] = plain(&box)
	}
	s.boxes[1].Name = s.boxes[0].Name
	if sameNumbers(s.boxes[0].Steels, s.boxes[1].Steels) {
		s.boxes[1].Steels = s.boxes[0].Steels
	}
	return s, nil
}

// speeds are those that both boxes have and were solved for; the others are left out, with the reason.
func (s *shared) speeds(results [2]*gearbox.Result) map[string]bool {
	both := map[string]bool{}
	solved := func(i int, name string) bool { return slices.ContainsFunc(results[i].Speeds, named(name)) }
	for i := range results {
		for _, x := range s.boxes[i].Speeds {
			y, ok := speedOf(s.boxes[1-i], x.Name)
			why := ""
			switch {
			case !ok && solved(i, x.Name):
				why = results[1-i].Box.Name + " has no speed of that name"
			case !ok:
				continue
			case !solved(i, x.Name) && !solved(1-i, x.Name):
				why = "it wasn't asked for"
			case !solved(1-i, x.Name):
				why = "it isn't solved in " + results[1-i].Box.Name
			case !solved(i, x.Name):
				continue
			case x.Direct != y.Direct || !slices.Equal(x.Path, y.Path):
				why = "its torque goes over other gears"
			default:
				both[x.Name] = true
				continue
			}
			if !slices.ContainsFunc(s.left, func(l LeftOut) bool { return l.Speed == x.Name }) {
				s.left = append(s.left, LeftOut{x.Name, why})
			}
		}
	}
	return both
}

// carriers adds the shafts that carry others, and makes sure that both boxes have all of them.
func (s *shared) carriers(shafts map[string]bool) error {
	for range s.boxes[0].Shafts {
		for name := range shafts {
			for _, box := range s.boxes {
				for _, br := range shaftOf(box, name).Bearings {
					if br.In == "" {
						continue
					}
					for i, other := range s.boxes {
						if !slices.Contains(shaftNames(other), br.In) {
							return fmt.Errorf("the %s is carried by other shafts in one box than in the other; box %d has no %s",
								gearbox.ShaftTitle(name), i+1, gearbox.ShaftTitle(br.In))
						}
					}
					shafts[br.In] = true
				}
			}
		}
	}
	for name := range shafts {
		if pilots(s.boxes[0], name) != pilots(s.boxes[1], name) {
			return fmt.Errorf("the %s is carried by other shafts in one box than in the other", gearbox.ShaftTitle(name))
		}
	}
	return nil
}

// stepped are the notches of a shaft without the shoulders whose step isn't one.
func stepped(s *gearbox.Shaft) []gearbox.Notch {
	return slices.DeleteFunc(slices.Clone(s.Notches), func(n gearbox.Notch) bool {
		return n.Shape == strength.Shoulder && !slices.ContainsFunc(borders(s), func(x float64) bool { return math.Abs(x-s.Start-n.At) <= gearbox.AtStep })
	})
}

// plain is a box written in one way, without what plays no part in what it bears: sections of one size are one section,
// steels and distances stand in one order, what wasn't given has its usual value.
func plain(box *gearbox.Box) *gearbox.Box {
	b := *box
	b.About, b.Origin, b.Places, b.Tolerances = "", gearbox.Origin{}, nil, nil
	b.Parts, b.Weighed = nil, gearbox.Weighed{}       // masses go by the dimensions
	b.Evidence, b.Lessons, b.Narrowed = nil, nil, nil // they have spoken already: the bands are in the steels
	b.Shafts, b.Gears = slices.Clone(b.Shafts), slices.Clone(b.Gears)
	used := map[string]bool{}
	for i := range b.Shafts {
		s := &b.Shafts[i]
		s.Steel = cmp.Or(s.Steel, gearbox.DefaultSteel)
		used[s.Steel] = true
		s.Start, s.Sections, s.Bearings = rounded(s.Start), merged(s.Sections), slices.Clone(s.Bearings)
		for j := range s.Bearings {
			s.Bearings[j].At, s.Bearings[j].InAt = rounded(s.Bearings[j].At), rounded(s.Bearings[j].InAt)
		}
		s.Notches, s.Joints = stepped(s), slices.Clone(s.Joints)
		for j := range s.Joints {
			s.Joints[j].At = rounded(s.Joints[j].At)
		}
		for j := range s.Notches {
			s.Notches[j].At = rounded(s.Notches[j].At)
		}
	}
	for i := range b.Gears {
		g := &b.Gears[i]
		g.Steel = cmp.Or(g.Steel, gearbox.DefaultSteel)
		used[g.Steel] = true
	}
	b.Steels = slices.DeleteFunc(slices.Clone(b.Steels), func(s material.Steel) bool { return !used[s.Name] })
	slices.SortFunc(b.Steels, func(s, t material.Steel) int { return cmp.Compare(s.Name, t.Name) })
	b.Centres = slices.Clone(b.Centres)
	for i := range b.Centres {
		if c := &b.Centres[i]; c.Between[0] > c.Between[1] {
			c.Between[0], c.Between[1] = c.Between[1], c.Between[0]
		}
	}
	slices.SortFunc(b.Centres, func(c, d gearbox.Centre) int { return slices.Compare(c.Between[:], d.Between[:]) })
	b.Unknown = unknown(&b, func(d doubt, _ int) bool { return box.Unknown[d.path] })
	return &b
}

// merged are sections of which no two of the same size lie side by side.
func merged(all []gearbox.Section) (m []gearbox.Section) {
	for _, s := range all {
		if n := len(m) - 1; n >= 0 && m[n].Outer == s.Outer && m[n].Bore == s.Bore {
			m[n].Length = rounded(m[n].Length + s.Length)
			continue
		}
		s.Length = rounded(s.Length)
		m = append(m, s)
	}
	return m
}

// sameNumbers tells whether steels of the same names have the same strengths, wherever these come from; what isn't known of
// both is the same.
func sameNumbers(a, b []material.Steel) bool {
	text := func(all []material.Steel) (t string) {
		for _, s := range all {
			t += fmt.Sprintln(s.Name, bare(s)) // all digits, and one word for all that are no numbers
		}
		return t
	}
	return text(a) == text(b)
}

func speedOf(b *gearbox.Box, name string) (gearbox.Speed, bool) {
	i := slices.IndexFunc(b.Speeds, func(s gearbox.Speed) bool { return s.Name == name })
	if i < 0 {
		return gearbox.Speed{}, false
	}
	return b.Speeds[i], true
}

func named(name string) func(gearbox.SpeedResult) bool {
	return func(s gearbox.SpeedResult) bool { return s.Name == name }
}
