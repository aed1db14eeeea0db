// Package material holds the steels of gears and shafts, with strengths as bands.
//
// # What is modelled
//
// The steel of a gear on the bench is rarely known. So a strength is not a number
// here but a band: what the poorest steel and treatment of the family may have,
// what is usual, and what the best has. Each band says where its three numbers come
// from. Comparing gears of the same steel needs none of this; a margin against a
// limit needs both ends.
//
// A steel carries two sets of allowable tooth stresses, those of ISO 6336-5
// (FlankLimit, RootLimit) and those of ANSI/AGMA 2001-D04 (AGMAFlank, AGMARoot).
// Each belongs to the stress of its own standard: the ISO root limit is a nominal
// stress for 3·10⁶ pulsating cycles, the AGMA one for 10⁷; the flank limits hold for
// 5·10⁷ and 10⁷ cycles. They must not be mixed. Both ratings read their steels,
// their groups and their life curves here and have none of their own. Contact is the older name of the
// flank strength that plain Hertz pressures are set against.
//
// Beside the list: hardness scales and tensile strength (ISO 18265), allowable
// stresses over hardness, what test files and a case depth tell, and Curve,
// strength against load cycles with its reverse and Miner's sum.
//
// # What is not modelled
//
// Strength over the depth of a case, scatter within one heat, temperature, surface
// finish and size (the core strengths name the thickness they hold for). A hardness
// test on the outside says nothing about the core.
//
// # Units
//
// MPa, kg/mm³; hardness in HV unless HRC or HBW is said; case depth in mm.
// Strengths are positive. Contact strengths are Hertz pressures that 99 of 100 flanks
// bear for 10⁷ cycles, as in AGMA 2001-D04; they are meant for its kind of stress,
// not for one with the factors of another standard.
//
// # Sources
//
// ANSI/AGMA 2001-D04 and 2101-D04 for flanks and roots; EN 10083, EN 10085 and, since EN
// 10084 gives no strengths of the core, the guide values of DIN 17210:1986 for the
// core; ISO 6336-5:2003 and 2016 for flank and root; ISO 18265:2013 for hardness;
// Budynas and Nisbett, Shigley's Mechanical Engineering Design, for shafts.
// "From memory" marks what was written down without the page at hand.
package material
