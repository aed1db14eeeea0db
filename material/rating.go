package material

import "fmt"

// complete adds to a steel what full ratings need.
func complete(s *Steel) {
	s.CoreHardness = coreHardness(s.Tensile)
	s.AGMAFlank = s.Contact
	switch s.Name {
	case "case-carburised":
		root := isoBand(RootLine, "bending", GroupCaseHardened, carburisedHardness)
		root.Source = carburisedRoot + ", typical the middle one of three for core hardness"
		carburised(s, root)
	case "carburised-cr-mn":
		carburised(s, Band{isoAt(RootLine, GroupCaseHardened, Low, 600), rootLowCore, rootHardCore,
			carburisedRoot + ", typical for a core of 25 HRC and low hardenability, high for one of 30 HRC, both MQ"})
	case "carburised-ni-cr-mo":
		carburised(s, Band{rootLowCore, rootHardCore, isoAt(RootLine, GroupCaseHardened, High, 700),
			carburisedRoot + ", low for a core of 25 HRC and typical for one of 30 HRC, both MQ"})
	case "through-hardened":
		s.Group = GroupAlloyHardened
		s.SurfaceHardness = vickersBand([3]float64{260, 300, 320}, VickersOfBrinell, hardnessPractice+"260, 300 and 320 HBW by "+conversionSource)
		s.FlankLimit = isoBand(FlankLine, "contact", s.Group, [3]float64{274, 316, 316})
		s.RootLimit = isoBand(RootLine, "bending", s.Group, [3]float64{274, 316, 316})
		s.AGMARoot = Band{agma(AGMARootLine, 1, 260), agma(AGMARootLine, 1, 300), agma(AGMARootLine, 2, 300),
			"ANSI/AGMA 2101-D04, fig. 9, through-hardened: low grade 1 at 260 HB, typical grade 1 at 300 HB (0.533 HB + 88.3), high grade 2 at 300 HB (0.703 HB + 113; from memory), 99 % reliability"}
	case "nitrided":
		s.Group = GroupNitridedAlloy
		s.SurfaceHardness = Band{550, 620, 750, hardnessPractice + "skin of nitrided 42CrMo4, its usual value, and nitrided 31CrMoV9"}
		s.FlankLimit = nitridedBand(FlankLine)
		s.RootLimit = nitridedBand(RootLine)
		s.AGMARoot = Band{agma(AGMANitridedRootLine, 1, 270), agma(AGMANitridedRootLine, 1, 300), agma(AGMANitridedRootLine, 2, 300),
			"ANSI/AGMA 2101-D04, fig. 10, nitrided through-hardening steel: low grade 1 at 270 HB of the core, typical grade 1 and high grade 2 at 300 HB (from memory), 99 % reliability"}
	case "induction-hardened":
		s.Group = GroupSurfaceHardened
		s.SurfaceHardness = vickersBand([3]float64{50, 54, 56}, VickersOfRockwell, hardnessPractice+"50, 54 and 56 HRC by "+conversionSource)
		s.FlankLimit = isoBand(FlankLine, "contact", s.Group, [3]float64{513, 578, 613})
		hardened := isoBand(RootLine, "bending", s.Group, [3]float64{513, 578, 613})
		s.RootLimit = Band{isoAt(RootLine, GroupCarbonHardened, Low, 200), hardened.Typical, hardened.High,
			"low, root not hardened: ISO 6336-5:2003, Table 1, V (carbon), bending, quality ML at 200 HV of the core; typical and high, root hardened: IF, qualities MQ at 578 HV and ME at 613 HV (all from memory)"}
		s.AGMARoot = Band{ksi(22), ksi(45), ksi(55), "ANSI/AGMA 2001-D04, Table 4, flame or induction hardened: low pattern B, root not hardened (22 ksi), typical and high pattern A, root hardened, grades 1 and 2 (45 and 55 ksi); from memory, 99 % reliability"}
	case "carbon-steel":
		s.Group = GroupNormalised
		s.SurfaceHardness = vickersBand([3]float64{171, 180, 200}, VickersOfBrinell, hardnessPractice+"171, 180 and 200 HBW by "+conversionSource)
		s.FlankLimit = isoBand(FlankLine, "contact", s.Group, [3]float64{171, 180, 200})
		s.RootLimit = isoBand(RootLine, "bending", s.Group, [3]float64{171, 180, 200})
		const carried = "ANSI/AGMA 2101-D04, %s, grade 1 at 171, 180 and 200 HB; the figure starts at 180 HB and is carried on below, 99 %% reliability"
		flank, _ := AGMAFlankLine(1)
		root, _ := AGMARootLine(1)
		s.AGMAFlank = Band{flank.at(171), flank.at(180), flank.at(200), fmt.Sprintf(carried, "fig. 8 (2.22 HB + 200)")}
		s.AGMARoot = Band{root.at(171), root.at(180), root.at(200), fmt.Sprintf(carried, "fig. 9 (0.533 HB + 88.3)")}
	default:
		panic("material: no rating data for steel " + s.Name)
	}
}

const (
	carburisedRoot = "ISO 6336-5:2003, Table 1, Eh, bending: qualities ML (312), MQ by core hardness (425, 461, 500) and ME (525) (from memory)"
	nitridedISO    = "ISO 6336-5:2003, Table 1: low and typical NV (nitr.), qualities ML and MQ, high NT (nitr.), quality MQ (from memory)"
)

// carburisedHardness is a surface hardness inside the range of Eh in qualities ML, MQ and ME, HV: its strengths don't depend on it.
var carburisedHardness = [3]float64{600, 700, 700}

func carburised(s *Steel, root Band) {
	s.Group = GroupCaseHardened
	s.SurfaceHardness = vickersBand([3]float64{58, 60, 62}, VickersOfRockwell, hardnessPractice+"58, 60 and 62 HRC by "+conversionSource)
	s.FlankLimit = isoBand(FlankLine, "contact", s.Group, carburisedHardness)
	s.FlankLimit.Source = "ISO 6336-5:2003, Table 1, Eh, contact: qualities ML, MQ and ME (from memory); the table does not tell the alloys apart"
	s.RootLimit = root
	s.AGMARoot = Band{ksi(55), ksi(65), ksi(75), "ANSI/AGMA 2001-D04, Table 4, carburised and hardened, grades 1, 2 and 3 (55, 65 and 75 ksi; grade 2 with better core and root 70), from memory, 99 % reliability; the table does not tell the alloys apart"}
}

// coreHardness is the hardness of the core that goes with its tensile strength.
func coreHardness(tensile Band) Band {
	return vickersBand([3]float64{tensile.Low, tensile.Typical, tensile.High}, VickersOfTensile, "from the tensile strength of the core, by "+conversionSource)
}

func vickersBand(values [3]float64, convert func(float64) (float64, error), source string) Band {
	var hv [3]float64
	for i, v := range values {
		hv[i] = must(convert(v))
	}
	return Band{hv[0], hv[1], hv[2], source}
}

// isoBand is a band of a group at one hardness a level, in the unit of its line.
func isoBand(of func(Group, Level) (Line, error), what string, g Group, hardness [3]float64) Band {
	var v [3]float64
	for l := Low; l <= High; l++ {
		v[l] = isoAt(of, g, l, hardness[l])
	}
	return Band{v[0], v[1], v[2], fmt.Sprintf("ISO 6336-5:2003, Table 1, %s, %s, qualities ML, MQ and ME at %g, %g and %g %s (from memory)",
		g.Symbol(), what, hardness[0], hardness[1], hardness[2], isoScale(g))}
}

// nitridedBand goes from a nitrided through-hardening steel to a nitriding steel of middle quality.
func nitridedBand(of func(Group, Level) (Line, error)) Band {
	return Band{isoAt(of, GroupNitridedAlloy, Low, 620), isoAt(of, GroupNitridedAlloy, Typical, 620), isoAt(of, GroupNitridingSteel, Typical, 750), nitridedISO}
}

// isoAt is the allowable stress of a group in a quality at a hardness inside the range of its line, MPa.
func isoAt(of func(Group, Level) (Line, error), g Group, l Level, hardness float64) float64 {
	line, err := of(g, l)
	if err != nil {
		panic("material: " + err.Error())
	}
	return must(line.At(hardness))
}

// agma is the stress of a line at a Brinell hardness inside its range, MPa.
func agma(of func(int) (Line, error), grade int, hb float64) float64 {
	line, err := of(grade)
	if err != nil {
		panic("material: " + err.Error())
	}
	return must(line.At(hb))
}

// must is for the numbers of this package's own list, which can't be wrong at run time.
func must(v float64, err error) float64 {
	if err != nil {
		panic("material: " + err.Error())
	}
	return v
}
