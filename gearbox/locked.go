package gearbox

import (
	"maps"
	"math"
	"slices"
)

// A pair whose gears are both fast on their shafts ties these shafts together for good. A box of two speeds needs gears that turn freely until they are
// engaged, or that slide out of mesh; which, a file that says nothing of seats leaves open.

// sameRatio is how far two turning speeds may differ and be one, as a share.
const sameRatio = 1e-9

// turning is how fast each shaft turns against the input shaft; NaN = not known.
type turning []float64

// tie lets two shafts turn at a ratio, to over from. It reports false where they are known to turn otherwise.
func (t turning) tie(from, to int, ratio float64) bool {
	switch {
	case math.IsNaN(t[from]) && math.IsNaN(t[to]):
	case math.IsNaN(t[to]):
		t[to] = t[from] * ratio
	case math.IsNaN(t[from]):
		t[from] = t[to] / ratio
	default:
		return math.Abs(t[to]-t[from]*ratio) <= sameRatio*math.Abs(t[to])
	}
	return true
}

// engaged is how the shafts on the way of a speed turn. It is not ok, and names the mesh, where the way itself would turn a shaft at two speeds.
func (p *prepared) engaged(s Speed) (t turning, mesh int, ok bool) {
	t = make(turning, len(p.box.Shafts))
	for i := range t {
		t[i] = math.NaN()
	}
	in, out := p.shaft[p.box.Input.Shaft], p.shaft[p.box.Output.Shaft]
	t[in] = 1
	if s.Direct {
		t[out] = 1
	}
	for _, name := range s.Path {
		i := p.mesh[name]
		if q := &p.pairs[i]; !t.tie(q.shafts[0], q.shafts[1], p.ratio(i)) {
			return t, i, false
		}
	}
	return t, -1, true
}

// ratio is turns of the driven gear per turn of the driver.
func (p *prepared) ratio(mesh int) float64 {
	q := &p.pairs[mesh]
	return -float64(p.box.Gears[q.gears[0]].Teeth) / float64(p.box.Gears[q.gears[1]].Teeth)
}

// fast reports whether both gears of a mesh are taken as fast though the file doesn't say that nobody knows. An idler may slide, or turn freely for ever: a mesh
// of one is not asked about.
func (p *prepared) fast(mesh int) bool {
	for _, g := range p.pairs[mesh].gears {
		gear := p.box.Gears[g]
		meshes := 0
		for _, q := range p.pairs {
			if q.gears[0] == g || q.gears[1] == g {
				meshes++
			}
		}
		if gear.Seat != nil || meshes > 1 || p.box.Unknown[path("gears", gear.Name, "seat")] {
			return false
		}
	}
	return true
}

// always reports whether all speeds but direct ones go over a mesh, as over a final drive or a pair in constant mesh.
func (p *prepared) always(mesh int) bool {
	return !slices.ContainsFunc(p.box.Speeds, func(s Speed) bool { return !s.Direct && !slices.Contains(s.Path, p.box.Meshes[mesh].Name) })
}

// checkLocked reports speeds whose own way can't turn, and asks about pairs that would lock the box while another speed is engaged.
func (p *prepared) checkLocked() {
	locked := map[int]string{} // by mesh: the first speed that it locks
	for _, s := range p.box.Speeds {
		t, mesh, ok := p.engaged(s)
		if !ok {
			q := &p.pairs[mesh]
			p.fault(path("speeds", s.Name), "a speed that locks itself", "The way of %q leads to shaft %q a second time, in mesh %q, and would turn it at another speed than before. Check the meshes of this speed.",
				s.Name, p.box.Shafts[q.shafts[1]].Name, p.box.Meshes[mesh].Name)
			continue
		}
		for _, i := range p.lockedBy(s, t) {
			if _, known := locked[i]; !known {
				locked[i] = s.Name
			}
		}
	}
	if len(locked) == 0 {
		return
	}
	meshes := slices.Sorted(maps.Keys(locked))
	var names []string
	for _, i := range meshes {
		names = append(names, quoted(p.box.Meshes[i].Name))
	}
	m := p.box.Meshes[meshes[0]]
	p.warn(path("meshes", m.Name), "which gear turns freely", "The file has no gear of %s turn freely. Fast on both its shafts, a pair locks the box while another speed is engaged, as %q does in %q. Which of its gears turns freely until it is engaged, %q or %q? Give that one its seat, such as seat: {length: 26 mm, clearance: 0.03 mm}; if nobody knows, seat: unknown. A pair that slides out of mesh stays as it is.",
		MeshTitle(names), m.Name, locked[meshes[0]], m.Driver, m.Driven)
}

// lockedBy are the meshes off the way of a speed that would lock it, when all pairs that are fast stay in mesh.
func (p *prepared) lockedBy(s Speed, t turning) (locks []int) {
	// What every geared speed goes over stays in mesh for sure, and leads on to more shafts: the pair in constant mesh turns the layshaft in a direct speed too.
	for _, common := range []bool{true, false} {
		for i, m := range p.box.Meshes {
			if p.always(i) != common || slices.Contains(s.Path, m.Name) || !p.fast(i) || !p.used(m.Name) {
				continue
			}
			q := &p.pairs[i]
			if !common && (math.IsNaN(t[q.shafts[0]]) || math.IsNaN(t[q.shafts[1]])) {
				continue
			}
			if !t.tie(q.shafts[0], q.shafts[1], p.ratio(i)) {
				locks = append(locks, i)
			}
		}
	}
	return locks
}

func (p *prepared) used(mesh string) bool {
	return slices.ContainsFunc(p.box.Speeds, func(s Speed) bool { return slices.Contains(s.Path, mesh) })
}
