package material

import "fmt"

// Factor is a bare number with where it comes from.
type Factor struct {
	Value  float64 // –
	Source string  // standard with clause or table, or "common practice, no source"
}

// ReversedBending is the share of the allowable root stress that is left when the
// tooth is bent both ways in every turn, as on an idler of a reverse gear, –. Source:
// ANSI/AGMA 2001-D04, reversed bending.
func ReversedBending() Factor {
	return Factor{0.7, "ANSI/AGMA 2001-D04, clause on reversed bending: 70 % of the allowable bending stress number (the figure seen, the clause from memory)"}
}

// Peening is the factor on the fatigue strength of the root of carburised teeth from
// controlled shot peening, –: 1.00 for quality ML (Low), 1.10 for MQ (Typical), 1.05 for ME
// (High). It holds for fatigue alone: the static strength does not gain, nor does the
// flank. Source: ISO 6336-5:2003, clause on shot peening (from memory).
func Peening(l Level) (Factor, error) {
	const source = "ISO 6336-5:2003, shot peening of carburised teeth: ML none, MQ 10 %, ME 5 %, fatigue only (from memory)"
	switch l {
	case Low:
		return Factor{1, source}, nil
	case Typical:
		return Factor{1.10, source}, nil
	case High:
		return Factor{1.05, source}, nil
	}
	return Factor{}, fmt.Errorf("%v is no quality of ISO 6336-5; choose low (ML), typical (MQ) or high (ME)", l)
}
