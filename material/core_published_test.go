package material

import (
	"math"
	"testing"
)

// Core strengths, MPa, least values, in the order in which the bands take them (thick, usual, thin). EN 10083-3:2006,
// 42CrMo4 quenched and tempered; EN 10083-2:2006, C45 quenched and tempered, and normalised; DIN 17210:1986, guide
// values for blank-hardened bars of 63, 30 and 11 mm. All written down from memory a second time, apart from the
// list.
func TestCoreStrengthsAgainstTheirStandards(t *testing.T) {
	type bars struct{ yield, tensile [3]float64 }
	var (
		mnCr16  = bars{[3]float64{440, 590, 635}, [3]float64{640, 780, 880}}   // 16MnCr5
		mnCr20  = bars{[3]float64{540, 685, 735}, [3]float64{780, 980, 1080}}  // 20MnCr5
		niCrMo  = bars{[3]float64{685, 785, 835}, [3]float64{980, 1080, 1180}} // 17CrNiMo6
		crMo42  = bars{[3]float64{650, 750, 900}, [3]float64{900, 1000, 1100}} // over 40, 16 to 40, to 16 mm
		c45     = bars{[3]float64{370, 430, 490}, [3]float64{630, 650, 700}}   // the same, quenched and tempered
		c45Soft = bars{[3]float64{275, 305, 340}, [3]float64{560, 580, 620}}   // over 100, 16 to 100, to 16 mm, normalised
		unknown = bars{[3]float64{mnCr16.yield[0], mnCr20.yield[1], niCrMo.yield[2]}, [3]float64{mnCr16.tensile[0], mnCr20.tensile[1], niCrMo.tensile[2]}}
		crMn    = bars{[3]float64{mnCr16.yield[0], mnCr16.yield[1], mnCr20.yield[2]}, [3]float64{mnCr16.tensile[0], mnCr16.tensile[1], mnCr20.tensile[2]}}
	)
	for name, want := range map[string]bars{
		"case-carburised": unknown, "carburised-cr-mn": crMn, "carburised-ni-cr-mo": niCrMo,
		"through-hardened": crMo42, "nitrided": crMo42, "induction-hardened": c45, "carbon-steel": c45Soft,
	} {
		s, ok := Find(name)
		if !ok {
			t.Fatalf("no steel %q", name)
		}
		for l := Low; l <= High; l++ {
			if s.Yield.At(l) != want.yield[l] || s.Tensile.At(l) != want.tensile[l] {
				t.Errorf("%s, %v: yield %v, tensile %v MPa; the standard has %v and %v", name, l, s.Yield.At(l), s.Tensile.At(l), want.yield[l], want.tensile[l])
			}
		}
	}
}

// Every row of the conversion lies where the two beside it say, within the digits that ISO 18265 prints and the bend
// of the curve between them: a slip of the pen would stand out.
func TestConversionIsSmooth(t *testing.T) {
	for column, digits := range map[int]float64{brinell: 1, rockwell: 0.2, tensile: 5} {
		var rows [][4]float64
		for _, row := range conversion {
			if row[column] != 0 {
				rows = append(rows, row)
			}
		}
		for k := 1; k < len(rows)-1; k++ {
			a, b, c := rows[k-1], rows[k], rows[k+1]
			part := (b[vickers] - a[vickers]) / (c[vickers] - a[vickers])
			if want := a[column] + part*(c[column]-a[column]); math.Abs(b[column]-want) > digits {
				t.Errorf("%v HV: %v%s, the rows beside it say %.4g", b[vickers], b[column], scales[column].unit, want)
			}
		}
	}
}
