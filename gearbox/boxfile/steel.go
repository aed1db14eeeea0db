package boxfile

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"

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

// steelDraft is a steel while it is read.
type steelDraft struct {
	material.Steel
	like string // name of the steel whose figures hold for what isn't given
}

const likeIt = "that of the steel named by like"

var steelFields = []field[steelDraft]{
	{key: "like", about: "a steel that this program knows, whose figures hold for every key left out here", fallback: "none: then yield, tensile and contact are needed", value: word("steel", material.Names(), func(s *steelDraft, w string) { s.like = w })},
	{key: "batch", about: "melt or lot that it came from; steels of one batch are one steel, in other files too, so that the service history of one counts for all", fallback: "not known", value: name(func(s *steelDraft) *string { return &s.Batch })},
	{key: "yield", about: "yield strength of the core", fallback: likeIt, value: band(stress(150, 2500, 5000, "the yield strength of a steel"), func(s *steelDraft) *material.Band { return &s.Yield })},
	{key: "tensile", about: "tensile strength of the core", fallback: likeIt, value: band(stress(250, 3000, 6000, "the tensile strength of a steel"), func(s *steelDraft) *material.Band { return &s.Tensile })},
	{key: "contact", about: "allowable contact stress of the flanks at 10⁷ cycles", fallback: likeIt, value: band(stress(300, 3000, 10000, "the contact stress that flanks of steel bear"), func(s *steelDraft) *material.Band { return &s.Contact })},
	{key: "group", about: "group of steels of ISO 6336-5, for the life curves; needed with root_limit and flank_limit", fallback: "not known", value: word("group of steels", groupWords(), func(s *steelDraft, w string) { s.Group = groupOf(w) })},
	{key: "surface_hardness", about: "hardness of the flanks", fallback: "not known", value: band(hardness, func(s *steelDraft) *material.Band { return &s.SurfaceHardness })},
	{key: "root_limit", about: "nominal stress number for bending of ISO 6336-5 (σ_Flim)", fallback: "no rating by ISO 6336", value: band(stress(60, 1000, 5000, "the nominal stress number of a steel (σ_Flim)"), func(s *steelDraft) *material.Band { return &s.RootLimit })},
	{key: "flank_limit", about: "allowable stress number for contact of ISO 6336-5 (σ_Hlim)", fallback: "no rating by ISO 6336", value: band(stress(200, 2500, 10000, "the allowable contact stress number of a steel (σ_Hlim)"), func(s *steelDraft) *material.Band { return &s.FlankLimit })},
	{key: "agma_root", about: "allowable bending stress number of ANSI/AGMA 2001-D04 (s_at)", fallback: "no rating by AGMA 2001", value: band(stress(60, 1000, 5000, "the root of a steel gear by AGMA"), func(s *steelDraft) *material.Band { return &s.AGMARoot })},
	{key: "agma_flank", about: "allowable contact stress number of ANSI/AGMA 2001-D04 (s_ac)", fallback: "no rating by AGMA 2001", value: band(stress(300, 3000, 10000, "the flank of a steel gear by AGMA"), func(s *steelDraft) *material.Band { return &s.AGMAFlank })},
	{key: "young", about: "Young's modulus", fallback: "206 GPa", value: number(quantity.Stress, within(1, 1000, 1000, " GPa").such("206 GPa").usually(180, 220, 1000, " GPa", "steel"), func(s *steelDraft) *float64 { return &s.Young })},
	{key: "poisson", about: "Poisson's ratio", fallback: "0.3", value: number(quantity.Number, within(0, 0.49, 1, "").usually(0.25, 0.35, 1, "", "steel"), func(s *steelDraft) *float64 { return &s.Poisson })},
	{key: "density", about: "density", fallback: "7.85 g/cm³", value: number(quantity.Density, within(0.1, 25, 1e-6, " g/cm³").usually(7.5, 8.2, 1e-6, " g/cm³", "steel"), func(s *steelDraft) *float64 { return &s.Density })},
	{key: "source", about: "where the strengths come from", fallback: "the box file", value: prose(func(s *steelDraft) *string { return &s.About })},
}

// A scale is how one value of a band is written and read.
type scale struct {
	written string
	read    func(r *reader, at spot) (v float64, ok bool)
}

// stress is a strength of at most so many MPa; low to high is usual for what it is.
func stress(low, high, most float64, what string) scale {
	keep := upTo(most, 1, " MPa").usually(low, high, 1, " MPa", what)
	return scale{written(quantity.Stress, keep), func(r *reader, at spot) (float64, bool) {
		q, ok := r.quantity(at, quantity.Stress, keep)
		return q.Value, ok
	}}
}

// hardness is read on any of three scales and kept as HV.
var hardness = scale{"hardness in HRC, HV or HB, such as 60 HRC", func(r *reader, at spot) (float64, bool) {
	q, ok := r.quantity(at, quantity.Hardness, positive)
	if !ok {
		return 0, false
	}
	hv, err := vickers(q.Value, q.Scale)
	if err == nil && q.Tolerance > 0 {
		var most float64
		most, err = vickers(q.Value+q.Tolerance, q.Scale)
		r.box.Tolerances[at.path] = most - hv
	}
	if err != nil {
		r.fault(at.place, at.path, "value out of range", sentence(err.Error()))
	}
	return hv, err == nil
}}

// vickers is a hardness of a scale on the scale HV.
func vickers(v float64, scale string) (float64, error) {
	const least, most = 50, 1500 // softer and harder than any steel
	switch {
	case scale == "HRC":
		return material.VickersOfRockwell(v)
	case scale == "HB":
		return material.VickersOfBrinell(v)
	case v < least || v > most:
		return 0, fmt.Errorf("%g HV is no hardness of a steel: from %d to %d HV is expected", v, least, most)
	}
	return v, nil
}

func bandFields(of scale) []field[material.Band] {
	value := func(part func(*material.Band) *float64) value[material.Band] {
		return value[material.Band]{written: of.written, read: func(r *reader, at spot, b *material.Band) {
			if v, ok := of.read(r, at); ok {
				*part(b) = v
			}
		}}
	}
	return []field[material.Band]{
		{key: "low", need: true, about: "low end of the band", value: value(func(b *material.Band) *float64 { return &b.Low })},
		{key: "typical", need: true, about: "typical value", value: value(func(b *material.Band) *float64 { return &b.Typical })},
		{key: "high", need: true, about: "high end of the band", value: value(func(b *material.Band) *float64 { return &b.High })},
	}
}

// The groups of ISO 6336-5 as box files call them.
var groups = []struct {
	word  string
	group material.Group
}{
	{"normalised", material.GroupNormalised},
	{"through-hardened carbon steel", material.GroupCarbonHardened},
	{"through-hardened alloy steel", material.GroupAlloyHardened},
	{"case-hardened", material.GroupCaseHardened},
	{"flame or induction hardened", material.GroupSurfaceHardened},
	{"nitrided nitriding steel", material.GroupNitridingSteel},
	{"nitrided through-hardening steel", material.GroupNitridedAlloy},
	{"nitrocarburised", material.GroupNitrocarburised},
}

func groupWords() []string {
	var words []string
	for _, g := range groups {
		words = append(words, g.word)
	}
	return words
}

func groupOf(word string) material.Group {
	for _, g := range groups {
		if g.word == word {
			return g.group
		}
	}
	return material.GroupUnknown
}

func newSteel(name string) steelDraft {
	return steelDraft{Steel: material.Steel{Name: name, Title: name, Young: young, Poisson: poisson, Density: density, ElasticSource: "the box file, or usual values for steel"}}
}

// bandsOf are the properties of a steel that may be bands, by their keys.
func bandsOf(s *material.Steel) map[string]*material.Band {
	return map[string]*material.Band{
		"yield": &s.Yield, "tensile": &s.Tensile, "contact": &s.Contact, "surface_hardness": &s.SurfaceHardness,
		"root_limit": &s.RootLimit, "flank_limit": &s.FlankLimit, "agma_root": &s.AGMARoot, "agma_flank": &s.AGMAFlank,
	}
}

func addSteel(b *boxDraft, s steelDraft) {
	source := cmp.Or(s.About, "the box file")
	for _, b := range bandsOf(&s.Steel) {
		if b.Known() && b.Source == "" {
			b.Source = source
		}
	}
	b.Steels = append(b.Steels, s.Steel)
}

func checkSteel(r *reader, at spot, s *steelDraft, given map[string]bool) {
	if _, taken := material.Find(s.Name); taken {
		r.fault(at.owner, at.path, "a name already taken", fmt.Sprintf("%q is a steel this program knows. Give yours another name.", s.Name))
	}
	if s.Name == unknown {
		r.fault(at.owner, at.path, "a name already taken", "The word unknown stands for a steel that nobody knows. Give yours another name.")
	}
	if given["like"] {
		s.take(given)
		return
	}
	for _, f := range steelFields {
		if f.fallback == likeIt && !given[f.key] {
			r.fault(at.owner, at.path, "missing key "+strconv.Quote(f.key), sentence(f.about)+" Expected: "+f.value.written+"; or like, the name of a steel that this program knows.")
		}
	}
	if !given["group"] && (given["root_limit"] || given["flank_limit"]) {
		r.fault(at.owner, at.path, `missing key "group"`, "The limits of ISO 6336-5 hold for one number of load cycles; the group says how they change with more or fewer. Expected: "+strings.Join(groupWords(), ", ")+".")
	}
}

// take fills in what isn't given from the steel that this one is like.
func (s *steelDraft) take(given map[string]bool) {
	known, ok := material.Find(s.like)
	if !ok {
		return // refused already
	}
	mine := bandsOf(&s.Steel)
	for key, band := range bandsOf(&known) {
		if !given[key] {
			*mine[key] = *band
		}
	}
	if !given["group"] {
		s.Group = known.Group
	}
	if !given["tensile"] {
		s.CoreHardness = known.CoreHardness
	}
	for key, part := range map[string][2]*float64{"young": {&s.Young, &known.Young}, "poisson": {&s.Poisson, &known.Poisson}, "density": {&s.Density, &known.Density}} {
		if !given[key] {
			*part[0] = *part[1]
		}
	}
}

// band is a property that is not known exactly: one value, or low, typical and high.
func band[T any](of scale, part func(*T) *material.Band) value[T] {
	fields := bandFields(of)
	return value[T]{
		written: of.written + ", or map",
		read: func(r *reader, at spot, to *T) {
			b := part(to)
			if at.node.Kind != yaml.MappingNode {
				if v, ok := of.read(r, at); ok {
					b.Low, b.Typical, b.High = v, v, v
				}
				return
			}
			before := len(r.list)
			readMap(r, at, fields, b)
			if !r.list[before:].HasErrors() && !(b.Low <= b.Typical && b.Typical <= b.High) {
				r.fault(at.owner, at.path, "value out of range", "Low, typical and high must rise in this order.")
			}
		},
		keys: func(prefix string) []Key { return describe(prefix, fields) },
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
