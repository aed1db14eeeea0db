package material

import "fmt"

// FileDoubt is how far the mark on a test file may be wrong, ± HRC: it depends on the
// finish and on the hand. Common practice, no source.
const FileDoubt = 2.0

// UsualFiles are the hardnesses of a usual set of test files, HRC. Common practice, no source.
func UsualFiles() []float64 { return []float64{50, 55, 58, 62, 65} }

// HardnessBracket is what test files say about the hardness of a surface.
type HardnessBracket struct {
	Low  float64 // HRC, the doubt of the file taken off; 0 = nothing known from below
	High float64 // HRC, the doubt of the file put on; 0 = nothing known from above
}

// FileTest is the bracket of the surface hardness from two files: the hardest one that
// skates, and the softest one that bites, both by the mark on the file (HRC; 0 = none
// did). A file bites what is softer than itself: the file of 55 skates and that of 58
// bites when the surface lies between, give or take FileDoubt. A test on the outside says
// nothing about the core. Common practice, no source.
func FileTest(skates, bites float64) (HardnessBracket, error) {
	for _, f := range []float64{skates, bites} {
		if f != 0 && !(f >= 35 && f <= 70) {
			return HardnessBracket{}, fmt.Errorf("there is no test file of %v HRC; expected 35 to 70, or 0 for none", f)
		}
	}
	switch {
	case skates == 0 && bites == 0:
		return HardnessBracket{}, fmt.Errorf("no file was tried; give the hardest file that skates, the softest that bites, or both")
	case bites != 0 && skates >= bites:
		return HardnessBracket{}, fmt.Errorf("the file of %g HRC skates but that of %g HRC bites: a softer file can't cut what a harder one does not; clean the surface and try again", skates, bites)
	}
	var b HardnessBracket
	if skates != 0 {
		b.Low = skates - FileDoubt
	}
	if bites != 0 {
		b.High = bites + FileDoubt
	}
	return b, nil
}
