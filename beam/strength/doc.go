// Package strength says what a notched section of a shaft bears. It knows one section and the forces in it, and
// nothing of shafts or boxes.
//
// # What is modelled
//
// The nominal stresses of a section (Modulus) under bending, torsion, axial force and shear; what a notch adds to them
// (Notch, Concentration); and how much of the strength of a steel that uses up, once (yield) and time after time
// (Fatigue) where a section turns under a load that stands still: bending then swings fully to and fro, and torsion
// stays or comes and goes.
//
// # One definition of nominal stress
//
// A notch factor means nothing without the diameter that its nominal stress stands on. Here it is always:
//
//	shoulder                  the smaller of the two diameters
//	circlip, round groove     the bottom of the groove
//	cross hole                the full ring, the hole not taken off
//	keyway, press fit         the full ring
//	spline, pinion cut in     the root circle
//
// and the bore is taken off everywhere. Printed examples mix two of them (a groove's chart on the full diameter).
//
// Yield is looked at without notch factors, on the metal that is left (Notch.Net): steel that yields at one point under
// a single load stays whole, and the load that comes again is a matter of fatigue.
//
// # What is not
//
// Skins: a carburised or nitrided skin bears more than its core, and residual stress helps or harms; the strengths are
// those of the core, which is on the safe side for fatigue. A hard skin cracks before it yields: see Concentration for
// the peak. Mean stress below zero is not credited. Notches closer together than their size are taken one by one, and
// the factors of a keyway and a press fit at one place are not multiplied: the larger counts. Corrosion, fretting but
// that of the press fit, temperature.
//
// # Units
//
// mm, N, N·mm, MPa. Moments and shear are resultants of both planes; tension is positive.
package strength
