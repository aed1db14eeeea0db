package iso6336

import (
	"fmt"

	"layshaft/material"
)

// Strength is what a gear's steel bears, for 1 % probability of damage, and what
// goes with it.
type Strength struct {
	Group   material.Group
	Contact float64 // σ_Hlim, allowable stress number (contact), MPa
	Bending float64 // σ_Flim, nominal stress number (bending) of the test gear, MPa; σ_FE = 2 σ_Flim
	// StaticContact and StaticBending are the σ_Hlim and σ_Flim, MPa, from which the static strength follows, where more of it
	// is known than the limits of fatigue tell; up to Contact and Bending, and 0, they say nothing. They lift the strength
	// against a single load and leave the life of every stress that the limits of fatigue give a life to as it is.
	StaticContact, StaticBending float64
	Hardness                     float64 // of the flank, HBW, –; only used for Z_W, 0 = not known
	Yield                        float64 // σ_S or σ_0.2, MPa; used for Y_δrelT of steels without a hard surface
	Young                        float64 // E, MPa
	Poisson                      float64 // ν, –
	Density                      float64 // ρ, kg/mm³
	Source                       string  // where the numbers come from
}

// StrengthOf is the strength of a steel at one level of its bands.
func StrengthOf(s *material.Steel, l material.Level) (Strength, error) {
	if !s.Group.Known() || !s.FlankLimit.Known() || !s.RootLimit.Known() {
		return Strength{}, fmt.Errorf("steel %q has no limits of root and flank by ISO 6336-5, or no group; choose a steel of the list, or give all three", s.Name)
	}
	out := Strength{
		Group: s.Group, Contact: s.FlankLimit.At(l), Bending: s.RootLimit.At(l), Yield: s.Yield.At(l),
		StaticContact: s.StaticFlank().At(l), StaticBending: s.StaticRoot().At(l),
		Young: s.Young, Poisson: s.Poisson, Density: s.Density, Source: s.RootLimit.Source,
	}
	if s.SurfaceHardness.Known() {
		if hb, err := material.Brinell(s.SurfaceHardness.At(l)); err == nil { // harder than the scale goes is not known
			out.Hardness = hb
		}
	}
	return out, nil
}

// base is 2 σ_Flim = σ_FE, MPa: Y_ST = 2 of the test gear. Source: ISO 6336-3, clause 5.
func (s Strength) base() float64 { return 2 * s.Bending }
