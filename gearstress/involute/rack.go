package involute

import (
	"errors"
	"fmt"
	"math"
)

// Rack is a basic rack tooth profile in the normal section: the shape that a
// gear of infinitely many teeth would have. Where the flanks are ground after
// cutting, Dedendum, TipRadius and Protuberance are those of the cutter, which
// makes the root, and the rest is of the finished flank.
type Rack struct {
	PressureAngle float64 // α_P, rad
	Addendum      float64 // h_aP, in modules: height of the gear tooth above the reference line
	Dedendum      float64 // h_fP, in modules: depth below it
	TipRadius     float64 // ρ_fP, in modules: radius at the root of the rack, which is the tip of the cutter
	Protuberance  float64 // s_pr, in modules, ≥ 0: residual undercut that the cutter's rounded corner leaves under the finished flank, along its normal; 0 = none
}

// StandardRack is profile A of ISO 53:1998: pressure angle 20°, addendum 1,
// dedendum 1.25, root radius 0.38 modules.
var StandardRack = Rack{PressureAngle: 20 * math.Pi / 180, Addendum: 1, Dedendum: 1.25, TipRadius: 0.38}

// The other profiles of ISO 53:1998, Table 2, all at 20° with an addendum of 1
// module; from memory. B and C are for usual service, D for gears cut
// with a protuberance tool and ground, whose protuberance must be added.
var (
	RackB = Rack{PressureAngle: 20 * math.Pi / 180, Addendum: 1, Dedendum: 1.25, TipRadius: 0.30}
	RackC = Rack{PressureAngle: 20 * math.Pi / 180, Addendum: 1, Dedendum: 1.25, TipRadius: 0.25}
	RackD = Rack{PressureAngle: 20 * math.Pi / 180, Addendum: 1, Dedendum: 1.4, TipRadius: 0.39}
)

// FullRadius is the rack with the largest tip radius that its width has room for: the two
// corners of the cutter meet in one round,
//
//	ρ_fP = [(π/4 − h_fP tan α) cos α + s_pr]/(1 − sin α)
//
// in modules. Validate tells whether a straight flank is left above it, which a short
// dedendum may not have. Source: ISO 53:1998, largest fillet radius of the basic
// rack, from memory; s_pr as in E of ISO 6336-3.
func (r Rack) FullRadius() Rack {
	s, c := math.Sincos(r.PressureAngle)
	r.TipRadius = ((math.Pi/4-r.Dedendum*s/c)*c + r.Protuberance) / (1 - s)
	return r
}

// mostProtuberance is the largest residual undercut accepted, in modules. Usual is
// 0.02 to 0.05; more is taken for a slip, such as mm given for modules.
const mostProtuberance = 0.2

// Widest pressure angles accepted, degrees. Common racks have 14.5° to 25°; what
// lies outside these ends is taken for a slip, such as degrees given for radians.
const leastPressureAngle, mostPressureAngle = 10.0, 35.0

// Validate reports everything that makes the rack impossible, all at once.
func (r Rack) Validate() error {
	var errs []error
	alpha := r.PressureAngle
	angleGood := degrees(alpha) >= leastPressureAngle-1e-9 && degrees(alpha) <= mostPressureAngle+1e-9
	if !angleGood {
		errs = append(errs, fmt.Errorf("pressure angle %.4g° (%.4g rad) is outside %g° to %g°; check the unit and the value (common racks: 14.5°, 17.5°, 20°, 22.5°, 25°)",
			degrees(alpha), alpha, leastPressureAngle, mostPressureAngle))
	}
	addendumGood := r.Addendum > 0 && r.Addendum <= 2
	if !addendumGood {
		errs = append(errs, fmt.Errorf("rack addendum %.4g modules is outside 0 to 2; the usual full-depth tooth has 1, a stub tooth 0.8", r.Addendum))
	}
	dedendumGood := r.Dedendum > 0 && r.Dedendum <= 3
	if !dedendumGood {
		errs = append(errs, fmt.Errorf("rack dedendum %.4g modules is outside 0 to 3; the usual values are 1.157 to 1.4", r.Dedendum))
	}
	radiusGood := r.TipRadius >= 0 && r.TipRadius <= 2
	if !radiusGood {
		errs = append(errs, fmt.Errorf("rack tip radius %.4g modules is outside 0 to 2; the usual values are 0.2 to 0.4", r.TipRadius))
	}
	protuberanceGood := r.Protuberance >= 0 && r.Protuberance <= mostProtuberance
	if !protuberanceGood {
		errs = append(errs, fmt.Errorf("residual undercut of the rack (s_pr) is %.4g modules; expected 0 to %g, usually 0.02 to 0.05: a length in mm must be divided by the module, and the grinding stock taken off the protuberance of the tool", r.Protuberance, mostProtuberance))
	} else if radiusGood && r.Protuberance > 0 && r.Protuberance >= r.TipRadius {
		errs = append(errs, fmt.Errorf("residual undercut of the rack (s_pr) is %.4g modules, with a tip radius of %.4g: the rounded corner that leaves it must be larger; give the real tip radius of the tool", r.Protuberance, r.TipRadius))
		protuberanceGood = false
	}
	if angleGood && addendumGood && math.Pi/4-r.Addendum*math.Tan(alpha) <= 0 {
		errs = append(errs, fmt.Errorf("rack tooth comes to a point at %.4g modules above the reference line, below its addendum of %.4g; lower the addendum or the pressure angle",
			math.Pi/4/math.Tan(alpha), r.Addendum))
	}
	if angleGood && dedendumGood && radiusGood && protuberanceGood {
		if r.straightDepth() <= 0 {
			errs = append(errs, fmt.Errorf("rack tip radius %.4g modules leaves no straight flank below the reference line with a dedendum of %.4g; it must stay below %.4g",
				r.TipRadius, r.Dedendum, r.Dedendum/(1-math.Sin(alpha))))
		} else if r.tipCentre() < -1e-12 {
			errs = append(errs, fmt.Errorf("the two tip radii of the rack overlap by %.4g modules: a radius of %.4g does not fit a dedendum of %.4g at %.4g°; the largest that fits is %.4g",
				-2*r.tipCentre(), r.TipRadius, r.Dedendum, degrees(alpha),
				r.FullRadius().TipRadius))
		}
	}
	return errors.Join(errs...)
}

// straightDepth is how far the straight flank of the rack reaches below the
// reference line, in modules: h_fP − ρ_fP (1 − sin α).
func (r Rack) straightDepth() float64 {
	return r.Dedendum - r.TipRadius*(1-math.Sin(r.PressureAngle))
}

// tipCentre is the distance from the middle of the cutter tooth to the centre of
// its corner radius, in modules: E of ISO 6336-3,
//
//	E = π/4 − h_fP tan α + s_pr/cos α − (1 − sin α) ρ_fP / cos α
func (r Rack) tipCentre() float64 {
	s, c := math.Sincos(r.PressureAngle)
	return math.Pi/4 - r.Dedendum*s/c + r.Protuberance/c - (1-s)*r.TipRadius/c
}

func degrees(rad float64) float64 { return rad * 180 / math.Pi }
