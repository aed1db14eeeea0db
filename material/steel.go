package material

import (
	"slices"
	"sync"
)

// Steel is one family of steels in one condition.
type Steel struct {
	Name          string  // short key for box files, such as "case-carburised"
	Title         string  // the same in words for people
	About         string  // what it is, and when to choose it
	Batch         string  // melt or lot it came from, in the owner's words; "" = not known. Parts of one batch are of one steel
	Young         float64 // Young's modulus E, MPa
	Poisson       float64 // Poisson's ratio ν, –
	Density       float64 // density, kg/mm³
	ElasticSource string  // where Young, Poisson and Density come from
	Yield         Band    // yield strength or 0.2 % proof stress of the core, MPa
	Tensile       Band    // tensile strength of the core, MPa
	Contact       Band    // allowable contact (Hertz) stress of the flank at 10⁷ cycles, MPa

	// What full ratings need. A steel of a box file that gives strengths alone leaves
	// these empty: see Band.Known.
	Group           Group // of ISO 6336-5, which settles life curves
	SurfaceHardness Band  // of flank and seat, HV
	CoreHardness    Band  // HV
	FlankLimit      Band  // σ_Hlim of ISO 6336-5, qualities ML, MQ, ME, MPa
	RootLimit       Band  // σ_Flim (nominal, pulsating) of ISO 6336-5, qualities ML, MQ, ME, MPa
	// RootStatic and FlankStatic are the σ_Flim and σ_Hlim from which the strength against a single load follows, where more or
	// less of it is known than the limits of fatigue tell, MPa; empty = those limits. See StaticRoot and StaticFlank.
	RootStatic, FlankStatic Band
	AGMAFlank               Band // allowable contact stress number s_ac (σ_HP) of ANSI/AGMA 2001-D04 at 10⁷ cycles, MPa
	AGMARoot                Band // allowable bending stress number s_at (σ_FP) of ANSI/AGMA 2001-D04 at 10⁷ cycles, MPa
}

// StaticRoot is the σ_Flim from which the static strength of roots follows, MPa.
//
// ISO 6336 derives both the strength against a single load and that against many from the one limit of fatigue. A part that
// bore a single load proves the first and nothing of the second, so the two are kept apart: in the same currency, so that the
// factors of the standard lead from each to its own strength, and the static one never below that of fatigue.
func (s *Steel) StaticRoot() Band {
	if s.RootStatic.Known() {
		return s.RootStatic
	}
	return s.RootLimit
}

// StaticFlank is the σ_Hlim from which the static strength of flanks follows, MPa.
func (s *Steel) StaticFlank() Band {
	if s.FlankStatic.Known() {
		return s.FlankStatic
	}
	return s.FlankLimit
}

// Fixed is the steel with each of its bands drawn together to one value of it.
func (s Steel) Fixed(value func(Band) float64) Steel {
	for _, b := range []*Band{&s.Yield, &s.Tensile, &s.Contact, &s.SurfaceHardness, &s.CoreHardness, &s.FlankLimit, &s.RootLimit, &s.RootStatic, &s.FlankStatic, &s.AGMAFlank, &s.AGMARoot} {
		if b.Known() {
			v := value(*b)
			b.Low, b.Typical, b.High = v, v, v
		}
	}
	return s
}

const elasticSource = "modulus and ratio as ISO 6336-2 takes them for steel (from memory); density: common practice, no source"

// Guide values of core strength hold for bars blank-hardened at these diameters.
const core17210 = "DIN 17210:1986, guide values for blank-hardened bars (from memory): "

const hardnessPractice = "common practice, no source: "

const carburisedFlank = "ANSI/AGMA 2101-D04, Table 3, carburised and hardened, grades 1, 2 and 3 (180, 225 and 275 ksi in 2001-D04), 99 % reliability"

// Steels lists every steel known here, the one to take when nothing is known
// first. The slice is the caller's to change.
func Steels() []Steel { return slices.Clone(list()) }

var list = sync.OnceValue(func() []Steel {
	all := []Steel{
		{
			Name: "case-carburised", Title: "Case-carburised steel, grade unknown",
			About:   "What gears and shafts of car gearboxes are nearly always made of. Choose it when nobody knows more; the band is wide for that reason.",
			Yield:   Band{440, 685, 835, core17210 + "low 16MnCr5 at 63 mm, typical 20MnCr5 at 30 mm, high 17CrNiMo6 at 11 mm, least values"},
			Tensile: Band{640, 980, 1180, core17210 + "low 16MnCr5 at 63 mm, typical 20MnCr5 at 30 mm, high 17CrNiMo6 at 11 mm, least values"},
			Contact: Band{1240, 1550, 1900, carburisedFlank},
		},
		{
			Name: "carburised-cr-mn", Title: "Case-carburised chromium-manganese steel (16MnCr5, 20MnCr5)",
			About:   "The usual steel of series-made car gears. Choose it when an analysis shows chromium and manganese but hardly any nickel.",
			Yield:   Band{440, 590, 735, core17210 + "low 16MnCr5 at 63 mm, typical 16MnCr5 at 30 mm, high 20MnCr5 at 11 mm, least values"},
			Tensile: Band{640, 780, 1080, core17210 + "low 16MnCr5 at 63 mm, typical 16MnCr5 at 30 mm, high 20MnCr5 at 11 mm, least values"},
			Contact: Band{1240, 1550, 1900, carburisedFlank + "; the table does not tell the alloys apart"},
		},
		{
			Name: "carburised-ni-cr-mo", Title: "Case-carburised nickel-chromium-molybdenum steel (18CrNiMo7-6)",
			About:   "A tough core that hardens deep: heavily loaded and competition gears. Choose it when the drawing or an analysis says so.",
			Yield:   Band{685, 785, 835, core17210 + "17CrNiMo6 (now 18CrNiMo7-6) at 63, 30 and 11 mm, least values"},
			Tensile: Band{980, 1080, 1180, core17210 + "17CrNiMo6 (now 18CrNiMo7-6) at 63, 30 and 11 mm, least values"},
			Contact: Band{1240, 1550, 1900, carburisedFlank + "; the table does not tell the alloys apart"},
		},
		{
			Name: "through-hardened", Title: "Through-hardened alloy steel, about 300 HB (42CrMo4)",
			About:   "Quenched and tempered, soft enough for a file. Older and low-cost gears, and shafts without hardened seats.",
			Yield:   Band{650, 750, 900, "EN 10083-3:2006, 42CrMo4 quenched and tempered, 40 to 100 mm, 16 to 40 mm and up to 16 mm, least values (from memory)"},
			Tensile: Band{900, 1000, 1100, "EN 10083-3:2006, 42CrMo4 quenched and tempered, 40 to 100 mm, 16 to 40 mm and up to 16 mm, least values (from memory)"},
			Contact: Band{
				agma(AGMAFlankLine, 1, 260), agma(AGMAFlankLine, 1, 300), agma(AGMAFlankLine, 2, 300),
				"ANSI/AGMA 2101-D04, fig. 8, through-hardened: low grade 1 at 260 HB, typical grade 1 at 300 HB (2.22 HB + 200), high grade 2 at 300 HB (2.41 HB + 237; from memory), 99 % reliability",
			},
		},
		{
			Name: "nitrided", Title: "Nitrided alloy steel on a quenched and tempered core (42CrMo4, 31CrMoV9)",
			About:   "A thin, very hard skin made at low temperature. Overload that yields the core below it breaks the skin.",
			Yield:   Band{650, 750, 900, "EN 10083-3:2006, 42CrMo4 quenched and tempered, 40 to 100 mm, 16 to 40 mm and up to 16 mm, least values (from memory)"},
			Tensile: Band{900, 1000, 1100, "EN 10083-3:2006, 42CrMo4 quenched and tempered, 40 to 100 mm, 16 to 40 mm and up to 16 mm, least values (from memory)"},
			Contact: Band{ksi(150), ksi(163), ksi(175), "ANSI/AGMA 2001-D04, Table 3, nitrided through-hardened steel of 83.5 HR15N, grades 1, 2 and 3 (150, 163 and 175 ksi), 99 % reliability"},
		},
		{
			Name: "induction-hardened", Title: "Flame or induction hardened steel, quenched and tempered core (C45)",
			About:   "Hard at the teeth or seats alone, where the coil was. Whether the root fillet was hardened too decides its strength: look.",
			Yield:   Band{370, 430, 490, "EN 10083-2:2006, C45 quenched and tempered, 40 to 100 mm, 16 to 40 mm and up to 16 mm, least values (from memory)"},
			Tensile: Band{630, 650, 700, "EN 10083-2:2006, C45 quenched and tempered, 40 to 100 mm, 16 to 40 mm and up to 16 mm, least values (from memory)"},
			Contact: Band{ksi(170), ksi(175), ksi(195), "ANSI/AGMA 2001-D04, Table 3, flame or induction hardened: low grade 1 at 50 HRC, typical grade 1 at 54 HRC, high grade 2 at 54 HRC (170, 175 and 195 ksi), 99 % reliability"},
		},
		{
			Name: "carbon-steel", Title: "Carbon steel, normalised (C45)",
			About:   "Plain shafts and unhardened gears of home-made and light machinery.",
			Yield:   Band{275, 305, 340, "EN 10083-2:2006, C45 normalised, 100 to 250 mm, 16 to 100 mm and up to 16 mm, least values (from memory)"},
			Tensile: Band{560, 580, 620, "EN 10083-2:2006, C45 normalised, 100 to 250 mm, 16 to 100 mm and up to 16 mm, least values (from memory)"},
			Contact: Band{
				isoAt(FlankLine, GroupCarbonHardened, Low, 180), agma(AGMAFlankLine, 1, 180), agma(AGMAFlankLine, 1, 200),
				"low: ISO 6336-5:2003, Table 1, carbon steel, quality ML at 180 HV (0.963 HV + 283; from memory, and for 5·10⁷ cycles); typical and high: ANSI/AGMA 2101-D04, fig. 8, grade 1 at 180 and 200 HB (2.22 HB + 200)",
			},
		},
	}
	for i := range all {
		s := &all[i]
		s.Young, s.Poisson, s.Density, s.ElasticSource = 206000, 0.3, 7.85e-6, elasticSource
		complete(s)
	}
	return all
})

// Find is the steel with a Name.
func Find(name string) (Steel, bool) {
	for _, s := range list() {
		if s.Name == name {
			return s, true
		}
	}
	return Steel{}, false
}

// Names lists the names of all steels, in the order of Steels.
func Names() []string {
	var names []string
	for _, s := range list() {
		names = append(names, s.Name)
	}
	return names
}
