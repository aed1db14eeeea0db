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
// # What is not modelled
//
// Strength over the depth of a case, scatter within one heat, temperature, surface
// finish, size (the core strengths name the thickness they hold for), and fatigue
// strength of the tooth root. A hardness test on the outside says nothing about
// the core.
//
// # Units
//
// MPa, kg/mm³. Strengths are positive. Contact strengths are Hertz pressures that 99
// of 100 flanks bear for 10⁷ cycles, as in AGMA 2001-D04; they are meant for
// its kind of stress, not for one with the factors of another standard.
//
// # Sources
//
// ANSI/AGMA 2001-D04 and 2101-D04 for the flanks; EN 10083, EN 10085 and, since EN
// 10084 gives no strengths of the core, the guide values of DIN 17210:1986 for the
// core. "From memory" marks what was written down without the page at hand.
package material
