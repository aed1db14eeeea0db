package agma2001

import (
	"fmt"
	"math"

	"layshaft/material"
)

// Treatment says how the teeth were hardened, for the life curves and C_H.
type Treatment int

// The treatments; the zero value is none.
const (
	ThroughHardened  Treatment = iota + 1
	CaseCarburised             // carburised and hardened
	InductionTreated           // flame or induction hardened
	Nitrided
)

// String is the treatment in words.
func (t Treatment) String() string {
	switch t {
	case ThroughHardened:
		return "through-hardened"
	case CaseCarburised:
		return "carburised and hardened"
	case InductionTreated:
		return "flame or induction hardened"
	case Nitrided:
		return "nitrided"
	}
	return fmt.Sprintf("treatment %d", int(t))
}

// Branch chooses between the two lines in which each life curve goes on at high numbers
// of cycles. The zero value is the careful one.
type Branch int

// The branches of the standard's figures.
const (
	LowerBranch Branch = iota // critical service: hardly any pitting and wear allowed, smooth and quiet running
	UpperBranch               // general applications
)

// String is the branch in words.
func (b Branch) String() string {
	switch b {
	case LowerBranch:
		return "critical service"
	case UpperBranch:
		return "general applications"
	}
	return fmt.Sprintf("branch %d", int(b))
}

// power is a line a N^−b of a life curve.
type power struct{ a, b float64 }

func (p power) at(n float64) float64 { return p.a * math.Pow(n, -p.b) }

// Lines of fig. 17 below 3·10⁶ cycles, and its branches above. All meet there within 0.0002 (1.040).
var (
	bendingHard  = map[Treatment]power{CaseCarburised: {6.1514, 0.1192}, Nitrided: {3.517, 0.0817}, InductionTreated: {3.517, 0.0817}}
	bendingSoft  = []power{{2.3194, 0.0538}, {4.9404, 0.1045}, {9.4518, 0.148}}
	bendingHB    = []float64{160, 250, 400}
	bendingAbove = map[Branch]power{UpperBranch: {1.3558, 0.0178}, LowerBranch: {1.6831, 0.0323}}
	contactBelow = map[bool]power{false: {2.466, 0.056}, true: {1.249, 0.0138}} // true: nitrided
	contactAbove = map[Branch]power{UpperBranch: {1.4488, 0.023}, LowerBranch: {2.466, 0.056}}
)

// Where the figures start, bend and end, load cycles.
const (
	bendingStart, bendingKnee = 1e3, 3e6
	contactStart, contactKnee = 1e4, 1e7
	figureEnd                 = 1e10
)

// BendingLife is the stress cycle factor Y_N against load cycles (–). hardness is the
// Brinell hardness (HBW) of through-hardened steel, not read for others.
//
//	below 3·10⁶ cycles: 6.1514 N^−0.1192 carburised, 3.517 N^−0.0817 nitrided,
//	  2.3194 N^−0.0538 at 160 HB, 4.9404 N^−0.1045 at 250 HB, 9.4518 N^−0.148 at 400 HB
//	above: 1.3558 N^−0.0178 in general, 1.6831 N^−0.0323 in critical service
//
// level below 10³ cycles. Between two hardnesses ln Y_N is read in a straight line, beyond
// them the nearer curve is taken. Flame or induction hardened teeth have no curve of their own:
// the nitrided one is taken, which is the lower of the two hard ones (own choice). The
// lines meet within 0.0002 at 3·10⁶ cycles; the value of the branch above is taken there.
// Source: ANSI/AGMA 2001-D04, fig. 17 (coefficients from memory, checked against values in use).
func BendingLife(t Treatment, hardness float64, b Branch) (material.Curve, error) {
	above, ok := bendingAbove[b]
	if !ok {
		return material.Curve{}, badBranch(b)
	}
	start := 0.0
	switch {
	case t == ThroughHardened && !(hardness > 0):
		return material.Curve{}, fmt.Errorf("the life curve of through-hardened teeth needs their Brinell hardness; %v HBW was given", hardness)
	case t == ThroughHardened:
		start = softStart(hardness)
	case bendingHard[t] == power{}:
		return material.Curve{}, badTreatment(t)
	default:
		start = bendingHard[t].at(bendingStart)
	}
	return material.NewCurve([]material.LifePoint{{Cycles: bendingStart, Factor: start}, {Cycles: bendingKnee, Factor: above.at(bendingKnee)}}, above.b)
}

// softStart is Y_N of through-hardened steel at the start of the figure.
func softStart(hardness float64) float64 {
	last := len(bendingHB) - 1
	for k := range last {
		if hardness > bendingHB[k+1] {
			continue
		}
		part := max(0, (hardness-bendingHB[k])/(bendingHB[k+1]-bendingHB[k]))
		from, to := bendingSoft[k].at(bendingStart), bendingSoft[k+1].at(bendingStart)
		return from * math.Pow(to/from, part)
	}
	return bendingSoft[last].at(bendingStart)
}

// ContactLife is the stress cycle factor Z_N against load cycles (–).
//
//	below 10⁷ cycles: 2.466 N^−0.056, nitrided 1.249 N^−0.0138
//	above: 1.4488 N^−0.023 in general, 2.466 N^−0.056 in critical service
//
// level below 10⁴ cycles. Source: ANSI/AGMA 2001-D04, fig. 18 (coefficients from
// memory, checked against values in use; the level start from memory).
func ContactLife(t Treatment, b Branch) (material.Curve, error) {
	above, ok := contactAbove[b]
	if !ok {
		return material.Curve{}, badBranch(b)
	}
	if t < ThroughHardened || t > Nitrided {
		return material.Curve{}, badTreatment(t)
	}
	return material.NewCurve([]material.LifePoint{{Cycles: contactStart, Factor: contactBelow[t == Nitrided].at(contactStart)}, {Cycles: contactKnee, Factor: above.at(contactKnee)}}, above.b)
}

func badBranch(b Branch) error {
	return fmt.Errorf("%v of the life curves is not known; choose LowerBranch or UpperBranch", b)
}

func badTreatment(t Treatment) error {
	return fmt.Errorf("%v is not known; choose through-hardened, carburised, flame or induction hardened, or nitrided", t)
}
