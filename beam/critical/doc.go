// Package critical finds the speeds at which shafts and what sits on them swing by themselves: bending and torsion, as a
// screen.
//
// # What is modelled
//
// Bending: masses at places of a shaft of known flexibility. Dunkerley's sum lies below the first critical speed and
// Rayleigh's quotient above it, both for the same masses; the mass of the shaft itself counts as further masses. Torsion:
// discs on springs, through meshes by their ratio.
//
// # What is not
//
// Shear and rotary inertia but as far as the flexibilities have them, gyroscopic couples, damping, higher modes in
// bending. A bearing that gives way moves the answer more than the method does.
//
// # Not yet reached
//
// Of this the program shows the wind-up alone; critical speeds are for whoever calls the package.
//
// # Units
//
// mm, kg, N, N·mm, rad/s; moments of inertia in kg·mm².
package critical
