package gearbox

import (
	"slices"

	"layshaft/gearbox/chance"
	"layshaft/gearstress/gauge"
	"layshaft/material"
)

// Uncertainty says how what isn't known exactly spreads. Without it chances mean nothing: only ranges can be told.
type Uncertainty struct {
	Readings   chance.Law       // of a number between its value less and plus its ±
	Steel      chance.Law       // of a strength between the poorest and the best of its band
	Flanks     chance.Law       // of flanks out of line from their making, to either side
	Instrument gauge.Instrument // whose ± a length of shafts, gears and centres has that the file gives none; "" = those are taken as exact
}

// Usually is the uncertainty of a file that says nothing of it.
func Usually() Uncertainty {
	return Uncertainty{Readings: chance.Normal, Steel: chance.Triangular, Flanks: chance.Normal}
}

// Instruments are those of a workshop that read lengths of shafts, gears and cases, the finest first.
func Instruments() []gauge.Instrument {
	return []gauge.Instrument{gauge.Micrometer, gauge.Caliper, gauge.DepthGauge, gauge.Rule}
}

// Deviations are how far the flanks of each mesh may be out of line from their making, to either side, mm over the face, in the order of the box; 0 where that is known or isn't judged.
func Deviations(b *Box) ([]float64, error) {
	p := prepare(b, Method{})
	if p.found.HasErrors() {
		return nil, p.found
	}
	all := make([]float64, len(p.pairs))
	for i := range p.pairs {
		all[i] = p.pairs[i].deviation
	}
	return all, nil
}

// OneOf is a box of which nothing is left open: each steel has one strength, a share of the way through its bands by a law, and the flanks of each mesh are out of line by so much, mm over the face, as Deviations has
// it, positive where they stand apart at the right end. steels are the shares by the names of SteelNames; outOfLine goes by the order of the meshes.
func OneOf(b *Box, law chance.Law, steels map[string]float64, outOfLine []float64) *Box {
	c := b.apart()
	c.Steels = slices.Clone(b.Steels)
	for name, u := range steels {
		s, ok := b.Steel(name)
		if !ok {
			continue
		}
		s = s.Fixed(func(band material.Band) float64 { return law.At(u, band.Low, band.Typical, band.High) })
		if i := slices.IndexFunc(c.Steels, func(t material.Steel) bool { return t.Name == name }); i >= 0 {
			c.Steels[i] = s
		} else {
			c.Steels = append(c.Steels, s)
		}
	}
	for i := range c.Gears {
		c.Gears[i].LeadKnown = true
	}
	for i := range c.Meshes {
		c.Meshes[i].Skew += outOfLine[i]
	}
	return c
}
