package material

import (
	"fmt"
	"math"
)

// conversion is ISO 18265:2013, table A.1 (unalloyed and low-alloy steels, cast
// steels), every second row or so; from memory. Columns: HV 10 and more, HBW,
// HRC, tensile strength in MPa; 0 where the table has no value. Brinell values above
// 450 stand in brackets there.
var conversion = [][4]float64{
	{80, 76, 0, 255}, {90, 85.5, 0, 285}, {100, 95, 0, 320}, {110, 105, 0, 350},
	{120, 114, 0, 385}, {130, 124, 0, 415}, {140, 133, 0, 450}, {150, 143, 0, 480},
	{160, 152, 0, 510}, {170, 162, 0, 545}, {180, 171, 0, 575}, {190, 181, 0, 610},
	{200, 190, 0, 640}, {210, 199, 0, 675}, {220, 209, 0, 705}, {230, 219, 0, 740},
	{240, 228, 20.3, 770}, {250, 238, 22.2, 800}, {260, 247, 24.0, 835}, {270, 257, 25.6, 865},
	{280, 266, 27.1, 900}, {290, 276, 28.5, 930}, {300, 285, 29.8, 965}, {310, 295, 31.0, 995},
	{320, 304, 32.2, 1030}, {330, 314, 33.3, 1060}, {340, 323, 34.4, 1095}, {350, 333, 35.5, 1125},
	{360, 342, 36.6, 1155}, {370, 352, 37.7, 1190}, {380, 361, 38.8, 1220}, {390, 371, 39.8, 1255},
	{400, 380, 40.8, 1290}, {420, 399, 42.7, 1350}, {440, 418, 44.5, 1420}, {460, 437, 46.1, 1485},
	{480, 456, 47.7, 1555}, {500, 475, 49.1, 1630}, {520, 494, 50.5, 1700}, {540, 513, 51.7, 1775},
	{560, 532, 53.0, 1845}, {580, 551, 54.1, 1920}, {600, 570, 55.2, 1995}, {620, 589, 56.3, 2070},
	{640, 608, 57.3, 2145}, {650, 618, 57.8, 2180}, {660, 0, 58.3, 0}, {680, 0, 59.2, 0},
	{700, 0, 60.1, 0}, {720, 0, 61.0, 0}, {740, 0, 61.8, 0}, {760, 0, 62.5, 0}, {780, 0, 63.3, 0},
	{800, 0, 64.0, 0}, {820, 0, 64.7, 0}, {840, 0, 65.3, 0}, {860, 0, 65.9, 0}, {880, 0, 66.4, 0},
	{900, 0, 67.0, 0}, {920, 0, 67.5, 0}, {940, 0, 68.0, 0},
}

const conversionSource = "ISO 18265:2013, table A.1 (from memory)"

// How far a converted value may lie from one measured on its own scale: common
// practice, no source. The diagrams of ISO 18265 show a scatter of this size.
const (
	RockwellDoubt = 1.5  // ± HRC
	HardnessDoubt = 0.05 // ± share of a Vickers or Brinell value
	TensileDoubt  = 0.10 // ± share of a tensile strength
)

const (
	vickers = iota
	brinell
	rockwell
	tensile
)

var scales = [4]struct{ of, unit string }{
	vickers: {"Vickers hardness", " HV"}, brinell: {"Brinell hardness", " HBW"},
	rockwell: {"Rockwell hardness", " HRC"}, tensile: {"tensile strength", " MPa"},
}

// convert reads the table from one column to another, with straight lines between
// its rows.
func convert(v float64, from, to int) (float64, error) {
	least, most := math.Inf(1), math.Inf(-1)
	var before [4]float64
	for _, row := range conversion {
		if row[from] == 0 || row[to] == 0 {
			continue
		}
		if most >= least && v >= before[from] && v <= row[from] {
			part := (v - before[from]) / (row[from] - before[from])
			return before[to] + part*(row[to]-before[to]), nil
		}
		least, most = min(least, row[from]), max(most, row[from])
		before = row
	}
	return 0, fmt.Errorf("%s of %v%s can't be converted to a %s: ISO 18265 covers %g to %g%s; check the value and its scale",
		scales[from].of, v, scales[from].unit, scales[to].of, least, most, scales[from].unit)
}

// Brinell is the Brinell hardness (HBW) that goes with a Vickers hardness (HV), from 80 to
// 650 HV, ± HardnessDoubt. Source: ISO 18265:2013, table A.1 (from memory).
func Brinell(hv float64) (float64, error) { return convert(hv, vickers, brinell) }

// VickersOfRockwell is the Vickers hardness (HV) that goes with a Rockwell hardness
// (HRC), from 20.3 to 68 HRC, ± HardnessDoubt. Source: ISO 18265:2013, table A.1 (from memory).
func VickersOfRockwell(hrc float64) (float64, error) { return convert(hrc, rockwell, vickers) }

// VickersOfBrinell is the Vickers hardness (HV) that goes with a Brinell hardness
// (HBW), from 76 to 618 HBW, ± HardnessDoubt. Source: ISO 18265:2013, table A.1 (from memory).
func VickersOfBrinell(hb float64) (float64, error) { return convert(hb, brinell, vickers) }

// TensileOfVickers is the tensile strength (MPa) that goes with a Vickers hardness (HV)
// of the same place, from 80 to 650 HV, ± TensileDoubt. The hardness of a case says
// nothing about the core. Source: ISO 18265:2013, table A.1 (from memory).
func TensileOfVickers(hv float64) (float64, error) { return convert(hv, vickers, tensile) }

// VickersOfTensile is the Vickers hardness (HV) that goes with a tensile strength
// (MPa), from 255 to 2180 MPa, ± HardnessDoubt. Source: ISO 18265:2013, table A.1 (from memory).
func VickersOfTensile(rm float64) (float64, error) { return convert(rm, tensile, vickers) }
