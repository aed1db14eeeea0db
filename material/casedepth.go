package material

import "fmt"

// CaseVerdict says how a case depth stands to the module.
type CaseVerdict int

// The verdicts.
const (
	CaseUsual     CaseVerdict = iota // 0.15 to 0.20 modules
	CaseDeep                         // to 0.25 modules
	CaseThin                         // less than 0.15 modules
	CaseExcessive                    // more than 0.25 modules
)

// String is the verdict in words.
func (v CaseVerdict) String() string {
	switch v {
	case CaseUsual:
		return "usual"
	case CaseDeep:
		return "deep"
	case CaseThin:
		return "thin"
	case CaseExcessive:
		return "too deep"
	}
	return fmt.Sprintf("case verdict %d", int(v))
}

// UsualCaseDepth is the range of case depth (to 550 HV, mm) of a carburised tooth of
// normal module m_n (mm): 0.15 to 0.20 modules. Common practice, no source.
func UsualCaseDepth(module float64) (least, most float64) { return 0.15 * module, 0.20 * module }

// CaseDepth judges the case depth (to 550 HV, mm) of a carburised tooth of a normal
// module m_n (mm). The warning is empty when there is nothing to say. It is a rule of
// thumb that warns, not a limit. Common practice, no source: 0.15 to 0.20 modules, up
// to 0.25 for highly loaded flanks; carburising yields 0.2 to 1.5 mm.
func CaseDepth(depth, module float64) (verdict CaseVerdict, warning string, err error) {
	if !(module > 0 && module <= 100) || !(depth > 0 && depth <= 10) {
		return 0, "", fmt.Errorf("case depth %v mm on module %v mm can't be judged; expected a depth above 0 and at most 10 mm, and a module above 0 and at most 100 mm", depth, module)
	}
	least, most := UsualCaseDepth(module)
	share := depth / module
	const slack = 1e-9 // 0.3 mm on module 2 is 0.15 but for rounding
	switch {
	case share < 0.15-slack:
		verdict = CaseThin
		warning = fmt.Sprintf("Case of %.3g mm is thin for module %.3g mm (%.2f modules; usual %.2f to %.2f mm): under high contact stress it may be crushed into the core.", depth, module, share, least, most)
	case share > 0.25+slack:
		verdict = CaseExcessive
		warning = fmt.Sprintf("Case of %.3g mm is too deep for module %.3g mm (%.2f modules; usual %.2f to %.2f mm): the tip hardens right through and may chip.", depth, module, share, least, most)
	case share > 0.20+slack:
		verdict = CaseDeep
	}
	if depth < 0.2 || depth > 1.5 {
		if warning != "" {
			warning += " "
		}
		warning += fmt.Sprintf("A depth of %.3g mm is outside the 0.2 to 1.5 mm that carburising of such teeth yields: check the measurement.", depth)
	}
	return verdict, warning, nil
}
