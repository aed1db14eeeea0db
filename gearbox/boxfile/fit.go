package boxfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"

	"gopkg.in/yaml.v3"
)

// What may differ and still run together, or be called the same place. Common practice, no source.
const (
	samePitch = 0.010        // of base pitches, mm
	sameHelix = 0.1 * degree // of base helices, rad
	samePlace = 0.05         // of places in the box, mm
)

// casePlace is where a case holds a bearing, mm along the box.
type casePlace struct {
	shaft, bearing string
	at             float64
}

func casePlaces(doc *yaml.Node) (all []casePlace) {
	shafts := inner(doc, "shafts")
	for _, s := range keysOf(shafts) {
		on := inner(shafts, s)
		bearings := inner(on, "bearings")
		for _, b := range keysOf(bearings) {
			if br := inner(bearings, b); text(br, "in") == "" {
				all = append(all, casePlace{s, b, millimetres(on, "start") + millimetres(br, "at")})
			}
		}
	}
	return all
}

// checkFit looks at what was composed: do the flanks of new pairs run together, do the bearings stand where the case has them? What no file tells is to be looked at on the bench.
func (c *composer) checkFit(p *plan) {
	if len(c.from) == 0 {
		return
	}
	c.checkFlanks()
	c.checkCase()
	c.r.warn(p.take[0].place, "take", "look at the bench", "Nothing in the files tells whether these parts fit the others in what isn't given: bores on their seats, bearings in their shafts and in the case, splines, shoulders and spacers, hubs and cones of synchronisers. Taken: "+strings.Join(c.places(), ", ")+".")
}

// flank is what two gears must have in common to run together.
type flank struct {
	pitch, helix float64 // base pitch in the normal section, mm; base helix, rad
	hand         string  // of the driver
	words        string
}

// flankOf is the flank of a mesh.
func flankOf(m *yaml.Node) flank {
	module := measure(m, "module", quantity.Length)
	if pitch := measure(m, "diametral_pitch", quantity.Number); module == 0 && pitch > 0 {
		module = 25.4 / pitch
	}
	angle := 20 * degree
	if text(m, "pressure_angle") != "" {
		angle = measure(m, "pressure_angle", quantity.Angle)
	}
	helix := measure(m, "helix", quantity.Angle)
	f := flank{pitch: math.Pi * module * math.Cos(angle), helix: math.Asin(math.Sin(helix) * math.Cos(angle)), hand: text(m, "hand")}
	f.words = fmt.Sprintf("module %.5g mm at %.4g°, helix %.4g°", module, angle/degree, helix/degree)
	if f.hand != "" && helix != 0 {
		f.words += " " + f.hand
	}
	return f
}

// checkFlanks holds each gear of a mesh against how it ran where it was taken from.
func (c *composer) checkFlanks() {
	meshes := inner(c.root, "meshes")
	for _, name := range keysOf(meshes) {
		m := inner(meshes, name)
		now := flankOf(m)
		for k, key := range []string{"driver", "driven"} {
			g := text(m, key)
			doc := c.from["gears."+g]
			if doc == nil || c.from["meshes."+name] == doc {
				continue
			}
			there, as, ok := ranIn(doc, g)
			if !ok {
				continue
			}
			if (as == "driver") != (k == 0) {
				there.hand = map[string]string{"left": "right", "right": "left"}[there.hand]
			}
			off, turn := there.pitch-now.pitch, there.helix-now.helix
			hands := now.hand != "" && there.hand != "" && now.helix > 0 && now.hand != there.hand
			place := c.r.extent(m)
			if p, known := c.taken["gears."+g]; known {
				place = p
			}
			switch {
			case hands || math.Abs(off) > samePitch || math.Abs(turn) > sameHelix:
				c.r.fault(place, join("meshes", name), "flanks that don't run together", fmt.Sprintf("Gear %s is of %s, its mate in mesh %s of %s: base pitch %+.3f mm, base helix %+.2f°%s. Take both gears, or another.",
					strconv.Quote(g), there.words, strconv.Quote(name), now.words, off, turn/degree, map[bool]string{true: ", of the other hand"}[hands]))
			case there.words != now.words:
				c.r.warn(place, join("meshes", name), "flanks of another name", fmt.Sprintf("Gear %s is called %s there and %s here. Their flanks run together (base pitch %+.3f mm, base helix %+.2f°), but a profile shift that was written down for the one name isn't that of the other: give shift here.",
					strconv.Quote(g), there.words, now.words, off, turn/degree))
			}
		}
	}
}

// ranIn is the flank of the first mesh of a document in which a gear runs, and as what.
func ranIn(doc *yaml.Node, gear string) (f flank, as string, ok bool) {
	meshes := inner(doc, "meshes")
	for _, name := range keysOf(meshes) {
		m := inner(meshes, name)
		for _, as := range []string{"driver", "driven"} {
			if text(m, as) == gear {
				return flankOf(m), as, true
			}
		}
	}
	return f, "", false
}

// checkCase compares where bearings stand now with where the case has them.
func (c *composer) checkCase() {
	type astray struct {
		words string
		by    float64
	}
	byShaft := map[string][]astray{}
	for _, p := range c.cases {
		place, taken := c.taken["shafts."+p.shaft]
		on := inner(c.root, "shafts", p.shaft)
		br := inner(on, "bearings", p.bearing)
		if !taken || place == (diag.Place{}) || br == nil || text(br, "in") != "" {
			continue
		}
		by := millimetres(on, "start") + millimetres(br, "at") - p.at
		side := "right"
		if by < 0 {
			side = "left"
		}
		byShaft[p.shaft] = append(byShaft[p.shaft], astray{fmt.Sprintf("bearing %s stands %.4g mm to the %s of its place", strconv.Quote(p.bearing), math.Abs(by), side), by})
	}
	for _, path := range c.places() {
		shaft, ok := strings.CutPrefix(path, "shafts.")
		all := byShaft[shaft]
		if !ok || len(all) == 0 {
			continue
		}
		var words []string
		least, most := math.Inf(1), math.Inf(-1)
		for _, a := range all {
			if least, most = min(least, a.by), max(most, a.by); math.Abs(a.by) > samePlace {
				words = append(words, a.words)
			}
		}
		if len(words) == 0 {
			continue
		}
		cure := fmt.Sprintf("With shift: %.4g mm more they would stand in place.", -least)
		if most-least > samePlace {
			cure = fmt.Sprintf("They are %.4g mm off among each other: spacers, or other places in the case; keep: [bearings] leaves the bearings where the case has them.", most-least)
		}
		c.r.warn(c.taken[path], join("shafts", shaft), "bearings beside their places in the case", fmt.Sprintf("Of shaft %s %s. %s", strconv.Quote(shaft), strings.Join(words, ", "), cure))
	}
}
