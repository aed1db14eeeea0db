package view

import (
	"math"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/agma2001"
	"layshaft/gearstress/iso6336"
)

// Digits with which a sum can be followed by hand.
const (
	factorDecimals = 3
	stressDigits   = 4
)

// FactorTables are the ratings of the loaded meshes of a speed, so that the sums can be followed.
func FactorTables(box *gearbox.Box, s *gearbox.SpeedResult, o Options) (all []*Table) {
	var rated, second []*gearbox.MeshResult
	for i := range s.Meshes {
		m := &s.Meshes[i]
		if m.Rating != nil && m.Peak != nil {
			rated = append(rated, m)
		}
		if m.AGMA != nil {
			second = append(second, m)
		}
	}
	in := " in " + Shorten(Clean(s.Name), 40)
	if len(rated) > 0 {
		all = append(all, listing("Factors of "+rated[0].Rating.Edition.String()+in, rated, o, isoFactors))
		sums := listing("What these factors make of the load"+in, rated, o, func(m *gearbox.MeshResult, o Options) []entry { return isoSums(s, m, o) })
		verdict := "The verdict on fatigue goes by the strength for endless life"
		if box.Duty != nil {
			verdict = "The verdict on fatigue goes by the duty: its strength is the stress here at the torque with which all of the duty just uses the tooth up"
		}
		sums.say("Strengths are by the end of the band that the box is judged by, with the factors above for the load cycles shown (N_L). " +
			verdict + ". At the peak the strength for a single load counts.")
		all = append(all, sums)
	}
	if len(second) > 0 {
		all = append(all, listing("Factors of the second opinion, ANSI/AGMA 2001-D04,"+in, second, o, agmaFactors))
	}
	return all
}

// entry is one line of a listing: a symbol with its values for the driver and for the driven gear.
type entry struct {
	symbol, words, unit, clause string
	value                       [2]string
}

// listing has the entries of meshes beside each other.
func listing(caption string, meshes []*gearbox.MeshResult, o Options, entries func(*gearbox.MeshResult, Options) []entry) *Table {
	clause := words("source", 8)
	clause.Aside = true
	t := o.table(caption, words("symbol", 6), wrapped("in words", 20), words("unit", 0), clause)
	t.Lead, t.Together = len(t.Columns), 2
	for i, m := range meshes {
		t.columns(right(Shorten(Clean(m.Name), 9)+"\ndriver", ""), right("driven", ""))
		for k, e := range entries(m, o) {
			if i == 0 {
				t.add(wordsOf(e.symbol, e.words, e.unit, e.clause)...)
			}
			t.Rows[k] = append(t.Rows[k], wordsOf(e.value[:]...)...)
		}
	}
	return t.done()
}

// factorEntry sets a factor that stands in the units of its standard.
func factorEntry(symbol, words, unit, clause string, value [2]float64, o Options) entry {
	e := entry{symbol: symbol, words: words, unit: unit, clause: clause}
	for i, v := range value {
		e.value[i] = Fixed(v, factorDecimals)
		for _, d := range []quantity.Dimension{quantity.Stress, quantity.Force} {
			if unit == quantity.Unit(d, quantity.Metric) {
				e.unit = quantity.Unit(d, o.Units)
				e.value[i] = dimensioned(v, d, o)
			}
		}
	}
	return e
}

// dimensioned is an inner value with the digits of a sum; what there isn't is absent.
func dimensioned(inner float64, d quantity.Dimension, o Options) string {
	if math.IsNaN(inner) {
		return Absent
	}
	return Digits(quantity.Convert(inner, d, o.Units), stressDigits)
}

func isoFactors(m *gearbox.MeshResult, o Options) []entry {
	return Each(m.Rating.Factors(), func(f iso6336.Factor) entry { return factorEntry(f.Symbol, f.Words, f.Unit, f.Clause, f.Value, o) })
}

func agmaFactors(m *gearbox.MeshResult, o Options) []entry {
	return Each(m.AGMA.Factors(), func(f agma2001.Factor) entry { return factorEntry(f.Symbol, f.Words, f.Unit, f.Source, f.Value, o) })
}

// isoSums are the lines of the sum that aren't factors, the root before the flank.
func isoSums(s *gearbox.SpeedResult, m *gearbox.MeshResult, o Options) []entry {
	verdict := func(kind gearbox.Kind) func(side int) float64 {
		return func(side int) float64 {
			for i := range s.Margins {
				if j := &s.Margins[i]; j.Kind == kind && j.Item == m.Gears[side] {
					return j.Limit.At(j.Level)
				}
			}
			return math.NaN()
		}
	}
	line := func(symbol, words string, d quantity.Dimension, of func(side int) float64) entry {
		return entry{symbol, words, quantity.Unit(d, o.Units), "", [2]string{dimensioned(of(0), d, o), dimensioned(of(1), d, o)}}
	}
	cycles := func(words string, of func(side int) float64) entry {
		return entry{"N_L", words, "", "", [2]string{Cycles(of(0)), Cycles(of(1))}}
	}
	safety := func(symbol, words string, of func(side int) float64) entry {
		return entry{symbol, words, "", "", [2]string{Plain(of(0)), Plain(of(1))}}
	}
	r, p := m.Rating, m.Peak
	return []entry{
		line("F_t", "nominal load at the reference circle", quantity.Force, func(int) float64 { return r.Tangential }),
		line("σ_F0", "root, nominal stress", quantity.Stress, func(i int) float64 { return r.Root[i].Nominal }),
		line("σ_F", "root, stress", quantity.Stress, func(i int) float64 { return r.Root[i].Stress }),
		cycles("root, load cycles", func(i int) float64 { return r.Root[i].Cycles }),
		line("σ_FG", "root, strength for them", quantity.Stress, func(i int) float64 { return r.Root[i].Limit }),
		safety("S_F", "root, strength over stress", func(i int) float64 { return r.Root[i].Safety }),
		line("σ_FG", "root, strength in the verdict", quantity.Stress, verdict(gearbox.RootFatigue)),
		line("σ_F", "root, stress at the peak", quantity.Stress, func(i int) float64 { return p.Root[i].Stress }),
		line("σ_FG", "root, strength at the peak", quantity.Stress, func(i int) float64 { return p.Root[i].Limit }),
		line("σ_H0", "flank, nominal stress", quantity.Stress, func(int) float64 { return r.Pitting }),
		line("σ_H", "flank, stress", quantity.Stress, func(i int) float64 { return r.Flank[i].Stress }),
		cycles("flank, load cycles", func(i int) float64 { return r.Flank[i].Cycles }),
		line("σ_HG", "flank, strength for them", quantity.Stress, func(i int) float64 { return r.Flank[i].Limit }),
		safety("S_H", "flank, strength over stress", func(i int) float64 { return r.Flank[i].Safety }),
		line("σ_HG", "flank, strength in the verdict", quantity.Stress, verdict(gearbox.FlankFatigue)),
		line("σ_H", "flank, stress at the peak", quantity.Stress, func(i int) float64 { return p.Flank[i].Stress }),
		line("σ_HG", "flank, strength at the peak", quantity.Stress, func(i int) float64 { return p.Flank[i].Limit }),
	}
}
