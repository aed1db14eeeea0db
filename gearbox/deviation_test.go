package gearbox

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"layshaft/material"
)

// Flanks out of line from their making count as a lead error of the same amount would, to the worse side; at the best end of the bands they are in line. Boxes on springs and on elements.
func TestDeviationCountsToTheWorseSide(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		b, digits := frameBox(t), 1e-9
		if rapid.Bool().Draw(t, "on elements") {
			b, digits = onElements(t), 1e-7
		}
		amount := rapid.Float64Range(0.002, 0.04).Draw(t, "deviation")
		step := rapid.IntRange(0, len(b.Speeds[0].Path)-1).Draw(t, "mesh")
		factor := func(lead, deviation float64, level material.Level) float64 {
			p := prepare(b, Method{})
			if p.found.HasErrors() {
				t.Fatal(p.found)
			}
			mesh := p.mesh[b.Speeds[0].Path[step]]
			q := &p.pairs[mesh]
			q.deviation = deviation
			for i, xi := range q.stations {
				q.gap[i] += lead * xi / (q.to - q.from)
			}
			v := p.solverFor(b.Speeds[0], p.layouts[0][0], b.Torque)
			k, err := v.factor(step, 0.7*b.Torque, level)
			if err != nil {
				t.Skip(err)
			}
			return k
		}
		plain := factor(0, 0, material.Typical)
		worse := max(factor(amount, 0, material.Typical), factor(-amount, 0, material.Typical))
		for _, level := range []material.Level{material.Low, material.Typical} {
			alikeTo(t, "K_Hβ out of line", factor(0, amount, level), worse, digits, worse)
		}
		alikeTo(t, "K_Hβ at the best end", factor(0, amount, material.High), plain, digits, plain)
	})
}

// Worked by hand for mesh "a" of the sample: d 45.977 and 85.382 mm, face 20 mm, f_HβT of grade 7 11.809 and 12.055 µm, of both 16.875 µm, of which case-hardened flanks wear 15 % off.
func TestDeviationOfTheGrade(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(b *Box)
		want   float64 // µm
	}{
		{"nothing known", func(*Box) {}, 14.3435},
		{"a grade finer", func(b *Box) { b.Gears[0].Grade, b.Gears[1].Grade = 6, 6 }, 14.3435 / math.Sqrt2},
		{"pattern checked", func(b *Box) { b.Meshes[0].PatternChecked = true }, 14.3435 / 2},
		{"lead of the pinion measured", func(b *Box) { b.Gears[0].LeadKnown = true }, 10.2463},
		{"both measured", func(b *Box) { b.Gears[0].LeadKnown, b.Gears[1].LeadKnown = true, true }, 0},
	} {
		b := threeShafts()
		c.change(b)
		r := mustSolve(t, b, Load{})
		m := r.Speeds[0].Meshes[0]
		if !(math.Abs(1e3*m.Deviation-c.want) < 1e-3) {
			t.Errorf("%s: %g µm, want %g", c.name, 1e3*m.Deviation, c.want)
		}
		if k := m.Rating.K.HBeta; k != max(1, m.Counted) || c.want == 0 != (m.Counted == m.FaceFactor) {
			t.Errorf("%s: rated with K_Hβ %g, counted %g, in line %g", c.name, k, m.Counted, m.FaceFactor)
		}
	}
}
