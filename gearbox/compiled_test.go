package gearbox

import (
	"math"
	"testing"

	"layshaft/material"
)

// What is compiled for a mesh gives the stresses, limits and damage of the rating by itself: in drive and coast, at
// both ends of the path, for fatigue and once, at any torque and speed.
func TestCompiledRatesLikeTheRating(t *testing.T) {
	b := twoSpeeds(1e3, DutyStep{Speed: "only", Turns: 50, Share: 1}, DutyStep{Speed: "only", Turns: 20, Share: -1})
	b.Gears[0].Peened = true
	for i := range b.Meshes {
		b.Meshes[i].Efficiency = 0.97
	}
	p := prepare(b, Method{})
	if p.found.HasErrors() {
		t.Fatal(p.found)
	}
	solvers, _ := p.choose(b.Torque, nil)
	for w, v := range solvers {
		for step, name := range v.speed.Path {
			for _, fatigue := range []bool{true, false} {
				for level := material.Low; level <= material.High; level++ {
					for _, turns := range []float64{0, 3e5, 5e7} {
						for _, revs := range []float64{0, 120, 600} {
							c, per, err := v.compiled(step, level, fatigue, revs, turns)
							if err != nil {
								t.Fatal(err)
							}
							if again, _, _ := v.compiled(step, level, fatigue, revs, turns); again != c {
								t.Fatal("compiled twice")
							}
							for _, torque := range []float64{0.3 * b.Torque, b.Torque, 4 * b.Torque} {
								r, err := v.rate(step, torque, revs, turns, level, p.input(p.mesh[name], level, v.speed, fatigue))
								if err != nil {
									t.Fatal(err)
								}
								s := c.At(per*torque, r.K.HBeta)
								for k := range s.Root {
									root, flank := &r.Root[k].Outcome, &r.Flank[k].Outcome
									for _, row := range [][2]float64{
										{s.Root[k].Stress, root.Stress}, {s.Root[k].Limit, root.Limit}, {s.Root[k].Static, root.Static},
										{s.Flank[k].Stress, flank.Stress}, {s.Flank[k].Limit, flank.Limit}, {s.Flank[k].Static, flank.Static},
										{1 + c.RootDamage(k, root.Stress), 1 + root.Curve.Damage(root.Stress, root.Cycles)},
										{1 + c.FlankDamage(k, flank.Stress), 1 + flank.Curve.Damage(flank.Stress, flank.Cycles)},
									} {
										if row[0] != row[1] && !(math.Abs(row[0]/row[1]-1) < 1e-12) {
											t.Fatalf("%+v, step %d, gear %d, %g N·mm at %g rad/s: compiled %v, rated %v", w, step, k, torque, revs, row[0], row[1])
										}
									}
								}
							}
						}
					}
				}
			}
		}
	}
	// Another steel is another rating, once the old one is forgotten.
	limit := func() float64 {
		t.Helper()
		c, err := p.compiled(0, material.Low, b.Speeds[0], true, 0, 5e7)
		if err != nil {
			t.Fatal(err)
		}
		return c.At(b.Torque, 1).Root[0].Limit
	}
	before := limit()
	p.pairs[0].steels[0].RootLimit.Low /= 2
	p.forget()
	if got := limit(); math.Abs(got/before-0.5) > 1e-12 {
		t.Errorf("half the strength bears %g MPa, all of it %g", got, before)
	}
	if _, err := p.compiled(0, material.Low, b.Speeds[0], true, -1, 0); err == nil {
		t.Error("a negative speed was taken")
	}
}
