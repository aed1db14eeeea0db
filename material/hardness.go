package material

// Lines of allowable contact stress of through-hardened steel over Brinell
// hardness, ANSI/AGMA 2101-D04, fig. 8: slope in MPa per HB, start in MPa.
var (
	grade1 = line{2.22, 200}
	grade2 = line{2.41, 237}
)

type line struct{ slope, start float64 }

// throughHardened is the allowable contact stress in MPa at a Brinell hardness,
// for 180 to 400 HB.
func throughHardened(hb float64, l line) float64 { return l.slope*hb + l.start }

// ksi turns thousands of psi into MPa.
func ksi(v float64) float64 { return v * 6.894757293 }
