package gearbox

import (
	"fmt"
	"math"
	"strings"

	"layshaft/gearstress/gauge"
)

// SpanRead is a measured base tangent length.
type SpanRead struct {
	Teeth  int     // between the jaws
	Length float64 // mm
	Within float64 // its ±, mm; 0 = not given
}

// within is its ±, or that of a caliper, mm.
func (s SpanRead) within() float64 {
	if s.Within > 0 {
		return s.Within
	}
	return usualWithin
}

// Measured is a measured size of a gear beside what its gear data make.
type Measured struct {
	Gear   string
	What   string  // "tip diameter", "span over 4 teeth"
	Read   float64 // mm
	Within float64 // its ±, or that of a caliper, mm
	Made   float64 // mm: of a full tooth, thinned where the file says so
	Doubt  string  // why the two hardly go together; "" = they do
}

// How far a measured size may lie from what the data make, diameters in modules: tips are shortened and chamfered,
// roots are cut by tools of 1.157 to 1.4
// modules, and spans are short by the thinning for backlash. Common practice, no source.
const (
	measuredTip  = 2 * usualStub
	measuredTips = 1.5 * usualStub // where both tips of a pair miss to the same side
	measuredRoot = 0.4
	spanBacklash = 0.15 // mm
	usualWithin  = 0.03 // mm, a caliper
)

// measured sets every measured tip, root and span of the box beside what the data of its first mesh make.
func (p *prepared) measured() (all []Measured) {
	done := map[int]bool{}
	for i := range p.pairs {
		q := &p.pairs[i]
		if q.geometry == nil {
			continue
		}
		var tips []int // of this pair
		for k, gi := range q.gears {
			if !done[gi] {
				done[gi] = true
				if p.box.Gears[gi].TipDiameter > 0 {
					tips = append(tips, len(all))
				}
				all = append(all, p.measuredGear(q, k)...)
			}
		}
		if len(tips) == 2 {
			bothTips(&all[tips[0]], &all[tips[1]], measuredTips*q.geometry.Module)
		}
	}
	return all
}

// noFullTooth is why a tip and its data hardly go together.
const noFullTooth = "a full tooth has another height"

// bothTips doubts two tips that miss to the same side by more than room (mm): one may be worn, two speak of another tool.
func bothTips(a, b *Measured, room float64) {
	off, other := a.Read-a.Made, b.Read-b.Made
	if off*other > 0 && min(math.Abs(off)-a.Within, math.Abs(other)-b.Within) > room {
		a.Doubt, b.Doubt = noFullTooth, noFullTooth
	}
}

// measuredGear is what was measured of gear k of a pair.
func (p *prepared) measuredGear(q *pair, k int) (all []Measured) {
	g, geo := p.box.Gears[q.gears[k]], q.geometry
	within := func(key string) float64 {
		if t := p.box.Tolerances[path("gears", g.Name, key)]; t > 0 {
			return t
		}
		return usualWithin
	}
	add := func(what string, read, room, made, less, more float64, why string) {
		m := Measured{Gear: g.Name, What: what, Read: read, Within: room, Made: made}
		if off := read - made; off < -less-room || off > more+room {
			m.Doubt = why
		}
		all = append(all, m)
	}
	if g.TipDiameter > 0 {
		full := geo.Spec
		full.Shift, full.ShiftKnown, full.TipDiameter = geo.X, [2]bool{true, true}, [2]float64{}
		if teeth, err := knownTeeth.of(full); err == nil {
			room := measuredTip * geo.Module
			add("tip diameter", g.TipDiameter, within("tip_diameter"), teeth.geometry.Tip[k], room, room, noFullTooth)
		}
	}
	if g.RootDiameter > 0 {
		room := measuredRoot * geo.Module
		add("root diameter", g.RootDiameter, within("root_diameter"), geo.Root[k], room, room, "the tool cuts to another depth")
	}
	gauge := geo.Gauge(k)
	for n, s := range g.Spans {
		room := s.within()
		less := 0.0
		if g.Thinning == 0 {
			less = spanBacklash
		}
		add(fmt.Sprintf("span over %d teeth", s.Teeth), s.Length, room, gauge.Span(s.Teeth, geo.GeneratingShift(k)),
			less+room, room, "the teeth are thicker or thinner than these shifts make them")
		if n == 0 {
			continue
		}
		first := g.Spans[0]
		pitch := (s.Length - first.Length) / float64(s.Teeth-first.Teeth)
		both := math.Hypot(room, first.within()) / math.Abs(float64(s.Teeth-first.Teeth))
		add(fmt.Sprintf("base pitch by spans over %d and %d", first.Teeth, s.Teeth), pitch, both, gauge.Span(2,
			0)-gauge.Span(1, 0), both, both, "it is that of another tool")
	}
	return all
}

// checkMeasured asks about pairs whose measured sizes their data don't make, with the sets that would.
func (p *prepared) checkMeasured() {
	doubted := map[string][]Measured{}
	for _, m := range p.measured() {
		if m.Doubt != "" {
			doubted[m.Gear] = append(doubted[m.Gear], m)
		}
	}
	for i := range p.pairs {
		q := &p.pairs[i]
		var told []string
		for _, gi := range q.gears {
			name := p.box.Gears[gi].Name
			for _, m := range doubted[name] {
				told = append(told, fmt.Sprintf("the %s of %q is %.5g mm, and these data make %.5g mm (%+.2g mm): %s",
					m.What, name, m.Read, m.Made, m.Read-m.Made, m.Doubt))
			}
			delete(doubted, name)
		}
		if len(told) == 0 || q.geometry == nil {
			continue
		}
		words := capitalised(strings.Join(told, "; ")) + "."
		if sets := fitting(p.pairing(q)); sets != "" {
			words += " " + sets
		} else {
			words += " Check teeth, module, pressure angle, helix and shifts, and how the sizes were measured: layshaft gauge finds the data from readings."
		}
		p.warn(path("meshes", p.box.Meshes[i].Name), "measured sizes that these data don't make", "%s", words)
	}
}

// pairing is what is measured of a pair.
func (p *prepared) pairing(q *pair) gauge.Pairing {
	a := gauge.Pairing{Teeth: q.geometry.Teeth, Distance: q.geometry.Centre}
	for k, gi := range q.gears {
		g := p.box.Gears[gi]
		a.Tip[k], a.Root[k] = g.TipDiameter, g.RootDiameter
		for _, s := range g.Spans {
			a.Spans[k] = append(a.Spans[k], gauge.Reading{Kind: gauge.Span, Teeth: s.Teeth, Value: s.Length, Tolerance: s.within()})
		}
	}
	return a
}

// fitting says which sets of the standard series fit what was measured of a pair; "" when too little was, or none does.
func fitting(a gauge.Pairing) string {
	var sets []string
	for _, f := range a.Fittings() {
		size := fmt.Sprintf("module %.4g mm", f.Module)
		if f.Pitch > 0 {
			size = fmt.Sprintf("%.4g DP", f.Pitch)
		}
		text := fmt.Sprintf("%s at %.4g°", size, f.PressureAngle*180/math.Pi)
		if f.Helix > 0 {
			text += fmt.Sprintf(" and helix %.4g°", f.Helix*180/math.Pi)
		}
		sets = append(sets, text+fmt.Sprintf(" (shifts %.2f and %.2f)", f.Shift[0], f.Shift[1]))
	}
	if len(sets) == 0 {
		return ""
	}
	return "What would fit the distance and everything measured, likeliest first: " + strings.Join(sets,
		"; ") + ". Spans over two numbers of teeth tell them apart: layshaft gauge."
}
