package iso6336

import "fmt"

// Kind is a kind of material and treatment as ISO 6336-5 tells them apart. The zero
// value is none.
type Kind int

// The kinds, with the symbols of the standard.
const (
	NormalisedSteel     Kind = iota + 1 // St, wrought
	NormalisedCastSteel                 // St (cast)
	MalleableIron                       // GTS (perl.)
	NodularPearlitic                    // GGG (perl., bain.)
	NodularFerritic                     // GGG (ferr.)
	GreyIron                            // GG
	CarbonSteel                         // V, carbon steel, wrought, through-hardened
	AlloySteel                          // V, alloy steel, wrought, through-hardened
	CarbonCastSteel                     // V (cast), carbon
	AlloyCastSteel                      // V (cast), alloy
	CaseHardened                        // Eh
	InductionHardened                   // IF, flame or induction hardened, root included
	NitridedSteel                       // NT (nitr.), nitriding steel
	NitridedAlloy                       // NV (nitr.), through-hardening steel, gas nitrided
	Nitrocarburised                     // NV (nitrocar.)
)

// kindNames holds the symbol of the standard and words for people.
var kindNames = [...]struct{ symbol, words string }{
	NormalisedSteel:     {"St", "normalised steel"},
	NormalisedCastSteel: {"St (cast)", "normalised cast steel"},
	MalleableIron:       {"GTS (perl.)", "pearlitic malleable iron"},
	NodularPearlitic:    {"GGG (perl., bain.)", "pearlitic or bainitic nodular iron"},
	NodularFerritic:     {"GGG (ferr.)", "ferritic nodular iron"},
	GreyIron:            {"GG", "grey iron"},
	CarbonSteel:         {"V (carbon)", "through-hardened carbon steel"},
	AlloySteel:          {"V (alloy)", "through-hardened alloy steel"},
	CarbonCastSteel:     {"V (cast, carbon)", "through-hardened carbon cast steel"},
	AlloyCastSteel:      {"V (cast, alloy)", "through-hardened alloy cast steel"},
	CaseHardened:        {"Eh", "case-hardened steel"},
	InductionHardened:   {"IF", "flame or induction hardened steel"},
	NitridedSteel:       {"NT (nitr.)", "nitrided nitriding steel"},
	NitridedAlloy:       {"NV (nitr.)", "nitrided through-hardening steel"},
	Nitrocarburised:     {"NV (nitrocar.)", "nitrocarburised steel"},
}

func (k Kind) valid() bool { return k >= NormalisedSteel && k <= Nitrocarburised }

// Symbol is the symbol of ISO 6336.
func (k Kind) Symbol() string {
	if !k.valid() {
		return "?"
	}
	return kindNames[k].symbol
}

func (k Kind) String() string {
	if !k.valid() {
		return fmt.Sprintf("material kind %d", int(k))
	}
	return kindNames[k].words
}

// throughHardened says whether the material has one hardness throughout and is
// treated as St or V in the standard's tables.
func (k Kind) throughHardened() bool {
	switch k {
	case NormalisedSteel, NormalisedCastSteel, MalleableIron, NodularPearlitic,
		CarbonSteel, AlloySteel, CarbonCastSteel, AlloyCastSteel:
		return true
	}
	return false
}

// surfaceHardened says whether the flank is harder than the core.
func (k Kind) surfaceHardened() bool { return k >= CaseHardened && k.valid() }

// nitrided says whether the surface was nitrided in some way.
func (k Kind) nitrided() bool { return k >= NitridedSteel && k.valid() }

// structural says whether the steel has a marked yield point (St).
func (k Kind) structural() bool { return k == NormalisedSteel || k == NormalisedCastSteel }

// Strength is what a gear's steel bears, for 1 % probability of damage, and what
// goes with it.
type Strength struct {
	Kind    Kind
	Contact float64 // σ_Hlim, allowable stress number (contact), MPa
	Bending float64 // σ_Flim, nominal stress number (bending) of the test gear, MPa; σ_FE = 2 σ_Flim
	// StaticContact and StaticBending are the σ_Hlim and σ_Flim from which the static strength follows, where more of it is
	// known than the limits of fatigue tell, MPa; up to Contact and Bending, and 0, they say nothing. They lift the strength
	// against a single load and leave the life of every stress that the limits of fatigue give a life to as it is.
	StaticContact, StaticBending float64
	Hardness                     float64 // of the flank, HBW, –; only used for Z_W, 0 = not known
	Yield                        float64 // σ_S or σ_0.2, MPa; used for Y_δrelT of steels and irons without a hard surface
	Young                        float64 // E, MPa
	Poisson                      float64 // ν, –
	Density                      float64 // ρ, kg/mm³
	Source                       string  // where the numbers come from
}

// base is 2 σ_Flim = σ_FE, MPa: Y_ST = 2 of the test gear. Source: ISO 6336-3, clause 5.
func (s Strength) base() float64 { return 2 * s.Bending }
