package gearbox

import (
	"testing"

	"pgregory.net/rapid"

	"layshaft/material"
)

// Flanks out of line from their making count as a lead error of the same amount would, to the worse side; at the best end of the bands they are in line. Boxes on springs and on elements.
func TestDeviationCountsToTheWorseSide(t *testing.T) {
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
