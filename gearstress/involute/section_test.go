package involute

import (
	"math"
	"testing"
)

// polygon is area and polar second moment of a closed polygon about the origin, by the sums over its edges.
func polygon(points []Point) (s Section) {
	for k, a := range points {
		b := points[(k+1)%len(points)]
		cross := b.X*a.Y - a.X*b.Y // outlines run clockwise
		s.Area += cross / 2
		s.Polar += cross / 12 * (a.X*a.X + a.X*b.X + b.X*b.X + a.Y*a.Y + a.Y*b.Y + b.Y*b.Y)
	}
	return s
}

// turned is the outline of the whole gear, from that of one tooth.
func turned(t *Tooth, n int) (all []Point) {
	one := t.Outline(n)
	for k := range int(t.Teeth) {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / t.Teeth)
		for _, p := range one[:len(one)-1] {
			all = append(all, Point{p.X*cos + p.Y*sin, p.Y*cos - p.X*sin})
		}
	}
	return all
}

// The polygon cuts corners: its error falls with the square of the step, so two of them tell where it goes
// (Richardson).
func TestSectionIsThatOfTheOutline(t *testing.T) {
	for k, c := range toothCases {
		p := toothPair(t, k)
		tooth, err := p.TransverseTooth(0)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		got, err := p.Section(0)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		coarse, fine := polygon(turned(tooth, 200)), polygon(turned(tooth, 400))
		area, polar := fine.Area+(fine.Area-coarse.Area)/3, fine.Polar+(fine.Polar-coarse.Polar)/3
		const tolerance = 1e-8
		if math.Abs(got.Area/area-1) > tolerance || math.Abs(got.Polar/polar-1) > tolerance {
			t.Errorf("%s: area %.9g mm², polar %.9g mm⁴; the polygon has %.9g and %.9g", c.name, got.Area, got.Polar, area, polar)
		}
		// A disc between root and tip has it.
		root, tip := arc(tooth.Root/2, 2*math.Pi), arc(tooth.Tip/2, 2*math.Pi)
		if !(root.Area < got.Area && got.Area < tip.Area && root.Polar < got.Polar && got.Polar < tip.Polar) {
			t.Errorf("%s: %+v doesn't lie between root %+v and tip %+v", c.name, got, root, tip)
		}
	}
}

// Of a spur gear both sections are the same.
func TestTransverseToothOfASpurGear(t *testing.T) {
	for k, c := range toothCases {
		if c.helix > 0 {
			continue
		}
		p := toothPair(t, k)
		normal, err1 := p.Tooth(0)
		transverse, err2 := p.TransverseTooth(0)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		for i, a := range normal.Outline(20) {
			if b := transverse.Outline(20)[i]; math.Hypot(a.X-b.X, a.Y-b.Y) > 1e-9 {
				t.Fatalf("%s: point %d is %v in one and %v in the other", c.name, i, a, b)
			}
		}
	}
}

// Thinned teeth: the outline of each tooth with both flanks turned in, as polygon.
func TestThinnedSection(t *testing.T) {
	spec := Spec{Module: 2, Helix: rad(25), Rack: StandardRack, Teeth: [2]int{23, 61}, ShiftKnown: [2]bool{true, true}, Face: 20}
	full := mustNew(t, spec)
	spec.Thinning[0] = 0.08
	thin := mustNew(t, spec)
	a, err1 := full.Section(0)
	b, err2 := thin.Section(0)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	tooth, err := full.TransverseTooth(0)
	if err != nil {
		t.Fatal(err)
	}
	// By strips: at every radius between root and tip each tooth is narrower by the same angle; 0.08 mm in the normal
	// section is 0.08/cos β along the reference circle.
	angle := 0.08 / math.Cos(rad(25)) / (full.Reference[0] / 2)
	var area, polar float64
	const n = 20000
	h := (tooth.Tip - tooth.Root) / 2 / n
	for k := range n {
		r := tooth.Root/2 + (float64(k)+0.5)*h
		area += 23 * angle * r * h
		polar += 23 * angle * r * r * r * h
	}
	if got := a.Area - b.Area; math.Abs(got/area-1) > 1e-6 {
		t.Errorf("thinning takes %.6g mm², strips say %.6g", got, area)
	}
	if got := a.Polar - b.Polar; math.Abs(got/polar-1) > 1e-6 {
		t.Errorf("thinning takes %.6g mm⁴, strips say %.6g", got, polar)
	}
}

func TestSectionOfAnotherGear(t *testing.T) {
	if _, err := toothPair(t, 0).Section(2); err == nil {
		t.Error("a third gear of a pair has a section")
	}
}
