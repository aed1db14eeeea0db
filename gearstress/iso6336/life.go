package iso6336

import "layshaft/material"

// longLife is the number of load cycles where the tables of Y_NT and Z_NT end, –.
const longLife = 1e10

// customaryTail is the life factor at 10^10 cycles, –, without proof of the best lubrication,
// material and make: 0.85; with it up to 1. Source: ISO 6336-2, Table of Z_NT, and -3, Table of Y_NT.
const customaryTail = 0.85

// contactLife is Z_NT against load cycles. limitedPitting allows a little
// pitting, which the standard knows for steels that are not nitrided.
// tail is the value at 10^10 cycles.
//
//	St, V, Eh, IF:                   1.6 to 10⁵,   1.0 at 5·10⁷
//	  the same with limited pitting: 1.6 to 6·10⁵, 1.3 at 10⁷, 1.0 at 10⁹
//	NT, NV (nitr.):                  1.3 to 10⁵,   1.0 at 2·10⁶
//	NV (nitrocar.):                  1.1 to 10⁵,   1.0 at 2·10⁶
//
// The slopes follow from the corners (0.0756, 0.0738 and 0.0570, 0.0875, 0.0318).
// Source: ISO 6336-2:2006 and 2019, Table of life factors Z_NT; from memory.
func contactLife(g material.Group, limitedPitting bool, tail float64) (c material.Curve) {
	switch {
	case g == material.GroupNitrocarburised:
		c.Add(1e5, 1.1)
		c.Add(2e6, 1)
	case g.Nitrided():
		c.Add(1e5, 1.3)
		c.Add(2e6, 1)
	case limitedPitting:
		c.Add(6e5, 1.6)
		c.Add(1e7, 1.3)
		c.Add(1e9, 1)
	default:
		c.Add(1e5, 1.6)
		c.Add(5e7, 1)
	}
	c.Add(longLife, tail)
	return c
}

// bendingLife is Y_NT against load cycles.
//
//	St, V:          2.5 to 10⁴, 1.0 at 3·10⁶
//	Eh, IF (root):  2.5 to 10³, 1.0 at 3·10⁶
//	NT, NV (nitr.): 1.6 to 10³, 1.0 at 3·10⁶
//	NV (nitrocar.): 1.1 to 10³, 1.0 at 3·10⁶
//
// The slopes follow from the corners (0.16, 0.115, 0.059, 0.012). Source: ISO 6336-3:2006
// and 2019, Table of life factors Y_NT; from memory.
func bendingLife(g material.Group, tail float64) (c material.Curve) {
	switch {
	case g == material.GroupNitrocarburised:
		c.Add(1e3, 1.1)
	case g.Nitrided():
		c.Add(1e3, 1.6)
	case g == material.GroupCaseHardened || g == material.GroupSurfaceHardened:
		c.Add(1e3, 2.5)
	default:
		c.Add(1e4, 2.5)
	}
	c.Add(3e6, 1)
	c.Add(longLife, tail)
	return c
}
