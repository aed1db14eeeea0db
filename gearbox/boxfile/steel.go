package boxfile

import (
	"cmp"
	"fmt"

	"layshaft/gearbox/quantity"
	"layshaft/material"

	"gopkg.in/yaml.v3"
)

// What holds for a steel that gives strengths alone. Modulus and ratio as ISO 6336-2:2019 takes them for steel (from memory); density: common
// practice, no source.
const (
	young   = 206000.0 // MPa
	poisson = 0.3
	density = 7.85e-6 // kg/mm³
)

var steelFields = []field[material.Steel]{
	{key: "yield", need: true, about: "yield strength of the core", value: band(func(s *material.Steel) *material.Band { return &s.Yield })},
	{key: "tensile", need: true, about: "tensile strength of the core", value: band(func(s *material.Steel) *material.Band { return &s.Tensile })},
	{key: "contact", need: true, about: "allowable contact stress of the flanks at 10⁷ cycles", value: band(func(s *material.Steel) *material.Band { return &s.Contact })},
	{key: "young", about: "Young's modulus", fallback: "206 GPa", value: number(quantity.Stress, positive, func(s *material.Steel) *float64 { return &s.Young })},
	{key: "poisson", about: "Poisson's ratio", fallback: "0.3", value: number(quantity.Number, within(0, 0.49, 1, ""), func(s *material.Steel) *float64 { return &s.Poisson })},
	{key: "density", about: "density", fallback: "7.85 g/cm³", value: number(quantity.Density, positive, func(s *material.Steel) *float64 { return &s.Density })},
	{key: "source", about: "where the strengths come from", fallback: "the box file", value: prose(func(s *material.Steel) *string { return &s.About })},
}

var bandFields = []field[material.Band]{
	{key: "low", need: true, about: "low end of the band", value: number(quantity.Stress, positive, func(b *material.Band) *float64 { return &b.Low })},
	{key: "typical", need: true, about: "typical value", value: number(quantity.Stress, positive, func(b *material.Band) *float64 { return &b.Typical })},
	{key: "high", need: true, about: "high end of the band", value: number(quantity.Stress, positive, func(b *material.Band) *float64 { return &b.High })},
}

func newSteel(name string) material.Steel {
	return material.Steel{Name: name, Title: name, Young: young, Poisson: poisson, Density: density, ElasticSource: "the box file, or usual values for steel"}
}

func addSteel(b *boxDraft, s material.Steel) {
	source := cmp.Or(s.About, "the box file")
	s.Yield.Source, s.Tensile.Source, s.Contact.Source = source, source, source
	b.Steels = append(b.Steels, s)
}

func checkSteel(r *reader, at spot, s *material.Steel, _ map[string]bool) {
	if _, taken := material.Find(s.Name); taken {
		r.fault(at.owner, at.path, "a name already taken", fmt.Sprintf("%q is a steel this program knows. Give yours another name.", s.Name))
	}
}

// band is a strength: one value, or low, typical and high.
func band[T any](part func(*T) *material.Band) value[T] {
	one := written(quantity.Stress, positive)
	return value[T]{
		written: one + ", or map",
		read: func(r *reader, at spot, to *T) {
			b := part(to)
			if at.node.Kind != yaml.MappingNode {
				if q, ok := r.quantity(at, quantity.Stress, positive); ok {
					b.Low, b.Typical, b.High = q.Value, q.Value, q.Value
				}
				return
			}
			before := len(r.list)
			readMap(r, at, bandFields, b)
			if !r.list[before:].HasErrors() && !(b.Low <= b.Typical && b.Typical <= b.High) {
				r.fault(at.owner, at.path, "value out of range", "Low, typical and high must rise in this order.")
			}
		},
		keys: func(prefix string) []Key { return describe(prefix, bandFields) },
	}
}

// applyDefaultSteel gives the steel of the box to every shaft and gear that names none.
func (b *boxDraft) applyDefaultSteel() {
	for i := range b.Shafts {
		b.Shafts[i].Steel = cmp.Or(b.Shafts[i].Steel, b.steel)
	}
	for i := range b.Gears {
		b.Gears[i].Steel = cmp.Or(b.Gears[i].Steel, b.steel)
	}
}
