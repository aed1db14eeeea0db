package scuffing

import "testing"

func benchmark(b *testing.B, in Input) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Screen(in); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkScreenOfASpurPair(b *testing.B)    { benchmark(b, inputOf(pairOf(b, spurSpec()))) }
func BenchmarkScreenOfAHelicalPair(b *testing.B) { benchmark(b, inputOf(pairOf(b, helicalSpec()))) }
