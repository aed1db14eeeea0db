package material

import "fmt"

// Level says which place of a band is meant.
type Level int

// The three places of a band.
const (
	Low Level = iota
	Typical
	High
)

// String is the word that box files and reports use.
func (l Level) String() string {
	switch l {
	case Low:
		return "low"
	case Typical:
		return "typical"
	case High:
		return "high"
	}
	return fmt.Sprintf("level %d", int(l))
}

// ParseLevel is the level of a word, the reverse of String.
func ParseLevel(s string) (Level, error) {
	for l := Low; l <= High; l++ {
		if s == l.String() {
			return l, nil
		}
	}
	return 0, fmt.Errorf("%q is no place in a steel band; write low, typical or high", s)
}

// Band is a strength that is not known exactly: Low ≤ Typical ≤ High, in MPa for
// steels. Other quantities may use it with a unit of their own.
type Band struct {
	Low     float64 // least that may have to be reckoned with, MPa
	Typical float64 // usual value, MPa
	High    float64 // what the best has, MPa
	Source  string  // where the three numbers come from
}

// Known says whether the band holds values.
func (b Band) Known() bool { return b.High > 0 }

// At is the value at a level, in the unit of the band (MPa for steels).
func (b Band) At(l Level) float64 {
	switch l {
	case Low:
		return b.Low
	case Typical:
		return b.Typical
	case High:
		return b.High
	}
	panic(fmt.Sprintf("material: level %d does not exist", int(l)))
}
