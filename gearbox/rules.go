package gearbox

import (
	"fmt"
	"math"
)

// Rule is a rule of the trade: between which numbers something usually lies. What lies outside is asked about, never refused. All of it is common practice, no source.
type Rule struct {
	Name      string  // what is looked at
	Unit      string  // "" = a plain number
	Low, High float64 // between which it usually lies
	Ask       string  // what to look at where it doesn't
	of        func(p *prepared) []ruled
}

// ruled is what a rule looks at in one place of a box.
type ruled struct {
	path  string
	what  string // "input and output shaft"
	value float64
}

// Rules lists the rules of the trade that look at several numbers of a box at once. Those of a single number stand with its key.
func Rules() []Rule {
	return []Rule{
		{"distance of two shafts over the cube root of the torque at the slower one", "mm/(N·m)^⅓", 5.5, 14,
			"Cars have 7 to 10. Check the distance, the torque and their units, and the teeth.", (*prepared).distances},
		{"thickest section of a shaft between its bearings over its nearest centre distance", "", 0.3, 0.9,
			"Gearbox shafts have about 0.45, more where gears are cut into them. Check the diameters, the distance and their units.", (*prepared).thicknesses},
		{"thickest section of a shaft over the span of its bearings", "", 0.08, 1.2,
			"Gearbox shafts have 0.15 to 0.5. Check the diameters and the places of the bearings.", (*prepared).slendernesses},
		{"module of a speed over that of the next shorter one between the same shafts", "", 0.6, 1.05,
			"Modules fall with the speed, or stay. Check the modules and the order of the speeds.", (*prepared).modules},
	}
}

// checkRules asks about what lies outside the rules of the trade.
func (p *prepared) checkRules() {
	for _, r := range Rules() {
		for _, v := range r.of(p) {
			if v.value >= r.Low && v.value <= r.High {
				continue
			}
			unit := r.Unit
			if unit != "" {
				unit = " " + unit
			}
			p.warn(v.path, "unusual proportions", "%s: the %s is %.3g%s; %.3g to %.3g is usual. %s", capitalised(v.what), r.Name, v.value, unit, r.Low, r.High, r.Ask)
		}
	}
}

// distances are those of shafts whose gears mesh, each by the speed that loads it most.
func (p *prepared) distances() (all []ruled) {
	most := map[[2]int]float64{} // N·mm at the slower shaft
	var order [][2]int
	first := map[[2]int]int{}
	for _, s := range p.box.Speeds {
		for step, name := range s.Path {
			i := p.mesh[name]
			q := &p.pairs[i]
			if q.geometry == nil {
				return nil
			}
			u := float64(q.geometry.Teeth[1]) / float64(q.geometry.Teeth[0])
			k := p.places.key(q.shafts[0], q.shafts[1])
			if _, known := most[k]; !known {
				order, first[k] = append(order, k), i
			}
			most[k] = max(most[k], math.Abs(p.onDriver(s, step, p.box.Torque*float64(p.box.Turns)))*max(1, u))
		}
	}
	for _, k := range order {
		q := &p.pairs[first[k]]
		all = append(all, ruled{path("meshes", p.box.Meshes[first[k]].Name), p.shaftsOf(q), q.geometry.CentreDistance / math.Cbrt(most[k]/1000)})
	}
	return all
}

func (p *prepared) shaftsOf(q *pair) string {
	return fmt.Sprintf("%s and %s", ShaftTitle(p.box.Shafts[q.shafts[0]].Name), ShaftTitle(p.box.Shafts[q.shafts[1]].Name))
}

// carried reports whether a shaft is carried by another, or carries one: then its bearings say little of its span.
func (p *prepared) carried(name string) bool {
	for _, s := range p.box.Shafts {
		for _, b := range s.Bearings {
			if b.In == name || b.In != "" && s.Name == name {
				return true
			}
		}
	}
	return false
}

// thickest is the largest diameter of a shaft between its outermost bearings, mm, and how far these are apart, mm; not ok where it has no two.
func (p *prepared) thickest(i int) (d, span float64, ok bool) {
	s := p.box.Shafts[i]
	left, right := math.Inf(1), math.Inf(-1)
	for _, b := range s.Bearings {
		left, right = min(left, b.At), max(right, b.At)
	}
	x := 0.0
	for _, sec := range s.Sections {
		if x+sec.Length > left && x < right {
			d = max(d, sec.Outer)
		}
		x += sec.Length
	}
	return d, right - left, right > left && d > 0
}

// thicknesses are those of the shafts that carry speed gears; that of a differential is a case.
func (p *prepared) thicknesses() (all []ruled) {
	for i := range p.box.Shafts {
		nearest := math.Inf(1)
		for k := range p.pairs {
			if q := &p.pairs[k]; q.geometry != nil && (q.shafts[0] == i || q.shafts[1] == i) {
				nearest = min(nearest, q.geometry.CentreDistance)
			}
		}
		if d, _, ok := p.thickest(i); ok && p.box.Shafts[i].Name != p.box.Output.Shaft && nearest < math.Inf(1) && nearest > 0 {
			all = append(all, ruled{path("shafts", p.box.Shafts[i].Name, "sections"), ShaftTitle(p.box.Shafts[i].Name), d / nearest})
		}
	}
	return all
}

func (p *prepared) slendernesses() (all []ruled) {
	for i, s := range p.box.Shafts {
		if d, span, ok := p.thickest(i); ok && s.Name != p.box.Output.Shaft && !p.carried(s.Name) {
			all = append(all, ruled{path("shafts", s.Name, "bearings"), ShaftTitle(s.Name), d / span})
		}
	}
	return all
}

// modules are those of speeds in the order of their ratios, as far as they run between the same shafts.
func (p *prepared) modules() (all []ruled) {
	type last struct{ ratio, module float64 }
	before := map[[2]int]last{}
	for _, s := range p.box.Speeds {
		if len(s.Path) == 0 {
			continue
		}
		i := p.mesh[s.Path[0]]
		q := &p.pairs[i]
		if q.geometry == nil || p.always(i) {
			continue
		}
		k := p.places.key(q.shafts[0], q.shafts[1])
		now := last{math.Abs(p.speedRatio(s)), p.box.Meshes[i].Module}
		if was, known := before[k]; known && now.ratio < was.ratio {
			all = append(all, ruled{path("meshes", p.box.Meshes[i].Name, "module"), "mesh " + p.box.Meshes[i].Name, now.module / was.module})
		}
		before[k] = now
	}
	return all
}
