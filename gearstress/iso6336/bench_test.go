package iso6336

import "testing"

func BenchmarkNewForm(b *testing.B) {
	p := pairOf(b, helicalSpec())
	b.ReportAllocs()
	for b.Loop() {
		if _, err := NewForm(p, Edition2019, [2]float64{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRate(b *testing.B) {
	f := formOf(b, helicalSpec(), Edition2019)
	in := inputOf(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.Rate(in); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCompile(b *testing.B) {
	f := formOf(b, helicalSpec(), Edition2019)
	in := inputOf(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.Compile(in); err != nil {
			b.Fatal(err)
		}
	}
}

// Another speed and number of turns, as each step of a duty has its own.
func BenchmarkWith(b *testing.B) {
	c := compiled(b, helicalSpec(), inputOf(b))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.With(200, 1e6); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAt(b *testing.B) {
	c := compiled(b, helicalSpec(), inputOf(b))
	b.ReportAllocs()
	for b.Loop() {
		c.At(180000, 1.3)
	}
}

func BenchmarkDamageOfOneStress(b *testing.B) {
	c := compiled(b, helicalSpec(), inputOf(b))
	stress := c.At(180000, 1.3).Flank[0].Stress
	b.ReportAllocs()
	for b.Loop() {
		c.FlankDamage(0, stress)
	}
}
