package material

import "fmt"

// Group is a group of steels as ISO 6336-5 tells them apart by treatment; the zero value
// is not known.
type Group int

// The groups, with the symbols of ISO 6336-5.
const (
	GroupUnknown         Group = iota
	GroupNormalised            // St: normalised low-carbon steel
	GroupCarbonHardened        // V (carbon): through-hardened carbon steel
	GroupAlloyHardened         // V (alloy): through-hardened alloy steel
	GroupCaseHardened          // Eh: case-carburised and hardened steel
	GroupSurfaceHardened       // IF: flame or induction hardened steel
	GroupNitridingSteel        // NT (nitr.): nitriding steel, nitrided
	GroupNitridedAlloy         // NV (nitr.): through-hardening steel, nitrided
	GroupNitrocarburised       // NV (nitrocar.): through-hardening steel, nitrocarburised
)

var groups = [...]struct{ symbol, words string }{
	GroupUnknown:         {"?", "steel of unknown group"},
	GroupNormalised:      {"St", "normalised steel"},
	GroupCarbonHardened:  {"V (carbon)", "through-hardened carbon steel"},
	GroupAlloyHardened:   {"V (alloy)", "through-hardened alloy steel"},
	GroupCaseHardened:    {"Eh", "case-carburised steel"},
	GroupSurfaceHardened: {"IF", "flame or induction hardened steel"},
	GroupNitridingSteel:  {"NT (nitr.)", "nitrided nitriding steel"},
	GroupNitridedAlloy:   {"NV (nitr.)", "nitrided through-hardening steel"},
	GroupNitrocarburised: {"NV (nitrocar.)", "nitrocarburised steel"},
}

// Known reports whether it is one of the groups.
func (g Group) Known() bool { return g > GroupUnknown && int(g) < len(groups) }

// ThroughHardened reports whether the steel has one hardness throughout (St, V).
func (g Group) ThroughHardened() bool {
	return g == GroupNormalised || g == GroupCarbonHardened || g == GroupAlloyHardened
}

// SurfaceHardened reports whether the flank is harder than the core (Eh, IF, NT, NV).
func (g Group) SurfaceHardened() bool { return g.Known() && !g.ThroughHardened() }

// Nitrided reports whether the surface was nitrided in some way (NT, NV).
func (g Group) Nitrided() bool {
	return g == GroupNitridingSteel || g == GroupNitridedAlloy || g == GroupNitrocarburised
}

// Symbol is the symbol of ISO 6336-5, "?" when the group is not known.
func (g Group) Symbol() string {
	if !g.Known() {
		return groups[GroupUnknown].symbol
	}
	return groups[g].symbol
}

// String is the group in words.
func (g Group) String() string {
	if g != GroupUnknown && !g.Known() {
		return fmt.Sprintf("steel group %d", int(g))
	}
	return groups[g].words
}
