package agma2001

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"
)

const deg = math.Pi / 180

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.7g, want %.7g ± %.2g", what, got, want, tolerance)
	}
}

// pair is a pair without profile shift, module 1 unless said otherwise.
func pair(t testing.TB, s involute.Spec) *involute.Pair {
	t.Helper()
	if s.Module == 0 {
		s.Module = 1
	}
	if s.Face == 0 {
		s.Face = 10
	}
	if s.CentreDistance == 0 {
		s.ShiftKnown = [2]bool{true, true}
	}
	p, err := involute.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func form(t testing.TB, p *involute.Pair, tool Tool) *Form {
	t.Helper()
	f, err := NewForm(p, tool)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// triangle turns the lower triangle of a printed table (row: gear, column: pinion) into
// calls of do(pinion, gear, value).
func triangle(teeth []int, rows [][]float64, do func(pinion, gear int, want float64)) {
	for r, row := range rows {
		for c, want := range row {
			do(teeth[c], teeth[r], want)
		}
	}
}

// AGMA 908-B89, I of helical teeth, 20°, helix 15°, equal addendum, as reproduced in Mott,
// Machine Elements in Mechanical Design, Table 10-1 (from memory). Axial contact ratio 2.
func TestIHelical15(t *testing.T) {
	worst := 0.0
	triangle([]int{17, 21, 26, 35, 55, 135}, [][]float64{
		{0.124},
		{0.139, 0.128},
		{0.154, 0.143, 0.132},
		{0.175, 0.165, 0.154, 0.137},
		{0.204, 0.196, 0.187, 0.171, 0.143},
		{0.244, 0.241, 0.237, 0.229, 0.209, 0.151},
	}, func(pinion, gear int, want float64) {
		p := pair(t, involute.Spec{Rack: involute.StandardRack, Helix: 15 * deg, Teeth: [2]int{pinion, gear}, Face: 2 * math.Pi / math.Sin(15*deg)})
		got := form(t, p, ToolOf(involute.StandardRack)).I
		near(t, "I", got, want, 0.00051)
		worst = max(worst, math.Abs(got-want))
	})
	t.Logf("largest difference %.2g", worst)
}

// AGMA 908-B89, I of spur teeth, 20°, equal addendum (from memory).
func TestISpur20(t *testing.T) {
	worst := 0.0
	triangle([]int{21, 26, 35, 55, 135}, [][]float64{
		{0.078},
		{0.084, 0.079},
		{0.091, 0.088, 0.080},
		{0.102, 0.101, 0.095, 0.080},
		{0.118, 0.121, 0.120, 0.112, 0.080},
	}, func(pinion, gear int, want float64) {
		p := pair(t, involute.Spec{Rack: involute.StandardRack, Teeth: [2]int{pinion, gear}})
		got := form(t, p, ToolOf(involute.StandardRack)).I
		near(t, "I", got, want, 0.00051)
		worst = max(worst, math.Abs(got-want))
	})
	t.Logf("largest difference %.2g", worst)
}

// AGMA 908-B89, J of spur teeth, 20°, load at the highest point of single tooth contact,
// equal addendum, as reproduced in Norton, Machine Design, Table 12-9 (from memory; two
// decimals). The tool (addendum 1.25, radius 0.25, thinning 0.024 each) was found by
// fitting, outside this program; every cell then lies within 0.0066.
func TestJ20(t *testing.T) {
	teeth := []int{21, 26, 35, 55, 135}
	checkJ(t, Tool{Addendum: 1.25, TipRadius: 0.25, Thinning: [2]float64{0.024, 0.024}},
		involute.Rack{PressureAngle: 20 * deg, Addendum: 1, Dedendum: 1.25, TipRadius: 0.25}, teeth,
		[][]float64{
			{0.33},
			{0.33, 0.35},
			{0.34, 0.36, 0.39},
			{0.34, 0.37, 0.40, 0.43},
			{0.35, 0.38, 0.41, 0.45, 0.49},
		}, [][]float64{
			{0.33},
			{0.35, 0.35},
			{0.37, 0.38, 0.39},
			{0.40, 0.41, 0.42, 0.43},
			{0.43, 0.44, 0.45, 0.47, 0.49},
		}, 0.0066)
	// An independent program with the same tool (computed, six digits).
	checkJ(t, Tool{Addendum: 1.25, TipRadius: 0.25, Thinning: [2]float64{0.024, 0.024}},
		involute.Rack{PressureAngle: 20 * deg, Addendum: 1, Dedendum: 1.25, TipRadius: 0.25}, teeth,
		[][]float64{
			{0.325834},
			{0.33027, 0.352158},
			{0.33594, 0.358794, 0.385162},
			{0.343237, 0.36746, 0.39554, 0.427483},
			{0.352928, 0.379216, 0.409928, 0.445156, 0.485427},
		}, [][]float64{
			{0.325834},
			{0.347019, 0.352158},
			{0.371336, 0.377333, 0.385162},
			{0.398726, 0.405745, 0.415011, 0.427483},
			{0.429519, 0.437734, 0.448701, 0.463696, 0.485427},
		}, 1e-6)
}

// AGMA 908-B89, J of spur teeth, 25°, otherwise as above: Norton, Machine Design, Table
// 12-13 (from memory). Tool found by fitting: whole depth 2.35, radius 0.27.
func TestJ25(t *testing.T) {
	checkJ(t, Tool{Addendum: 1.35, TipRadius: 0.27, Thinning: [2]float64{0.024, 0.024}},
		involute.Rack{PressureAngle: 25 * deg, Addendum: 1, Dedendum: 1.35, TipRadius: 0.24}, []int{14, 17, 21, 26, 35, 55, 135},
		[][]float64{
			{0.33},
			{0.33, 0.36},
			{0.33, 0.36, 0.39},
			{0.33, 0.37, 0.40, 0.43},
			{0.34, 0.37, 0.40, 0.43, 0.46},
			{0.34, 0.38, 0.41, 0.44, 0.47, 0.51},
			{0.35, 0.38, 0.42, 0.45, 0.48, 0.53, 0.57},
		}, [][]float64{
			{0.33},
			{0.36, 0.36},
			{0.39, 0.39, 0.39},
			{0.41, 0.42, 0.42, 0.43},
			{0.44, 0.45, 0.45, 0.46, 0.46},
			{0.47, 0.48, 0.49, 0.49, 0.50, 0.51},
			{0.51, 0.52, 0.53, 0.53, 0.54, 0.56, 0.57},
		}, 0.0066)
}

// checkJ compares J of pinion and gear with tables (row: gear, column: pinion).
func checkJ(t *testing.T, tool Tool, rack involute.Rack, teeth []int, pinionJ, gearJ [][]float64, tolerance float64) {
	t.Helper()
	worst := 0.0
	for i, table := range [][][]float64{pinionJ, gearJ} {
		triangle(teeth, table, func(pinion, gear int, want float64) {
			got := form(t, pair(t, involute.Spec{Rack: rack, Teeth: [2]int{pinion, gear}}), tool).J[i]
			if !(math.Abs(got-want) <= tolerance) {
				t.Errorf("%d/%d, gear %d: J = %.6f, want %.6f ± %.2g", pinion, gear, i, got, want, tolerance)
			}
			worst = max(worst, math.Abs(got-want))
		})
	}
	t.Logf("largest difference %.2g", worst)
}
