// Package bearing treats rolling bearings as springs and as parts with a life. It knows one bearing,
// or a pair set against each other, and nothing of shafts or boxes.
//
// # What is modelled
//
// A row of rolling elements between two rings that are stiff but for the contacts (Elements). The
// inner ring moves and tilts against the outer one, each element carries by how far the rings close
// on it, and only while they do. Clearance and squeeze are in it. Rollers are cut into slices along
// their length, which gives their stiffness against tilting and the loss of contact at their ends.
// Balls sit between the centres of their two grooves, so that the contact angle turns with thrust.
// All elements are summed each at its place; LoadIntegrals is the limit for a great many.
//
// Radial and RadialAt do this for a radial load alone; Force and Displacement for any load. Elements.Hold
// and Pair.Hold are what a shaft calculation needs: the shaft decides where it stands across and how
// it tilts, a thrust passes through, and the row (or the tapered pair, with preload or end play) says what it
// carries there and how that changes. Pair.Settle shares thrust under given radial forces. PairAxial is
// the catalogue rule.
//
// Rating holds what a catalogue promises: equivalent loads, basic rating life (ISO 281), static
// safety (ISO 76); RowRating makes one from the elements. Scatter turns the life at 90 % into that at another
// reliability (a₁), SystemFactor into that with its oil and dirt (a_ISO), StagedLife into that under a duty.
//
// Bench is a pair set up by hand: shim, end play, preload, stiffness, torque; Warmth what heat does to it.
//
// # What is not
//
// Rings, seats and housing that give way: real stiffness is lower, by an amount of the same order
// in a light housing, so treat these figures as an upper bound. Crowned rollers and their edge
// stress, ribs, cages, friction, speed (centrifugal force, gyroscopic couples), temperature and the
// fits that change clearance in service: give the clearance as it is when running. The angle between
// the raceways of a tapered roller is left out: the outer one stands for both.
//
// # Secant and tangent
//
// These springs are not linear. Secant stiffness is force over movement, tangent stiffness is the
// slope at a load. For a row without clearance the tangent is 10/9 (rollers) or 3/2 (balls) of the
// secant. Every name here says which it is.
//
// # Axes and signs
//
// x along the shaft, y and z across, right-handed. Units: mm, N, N·mm, MPa, rad. Forces and couples
// are those that the shaft puts on the inner ring, displacements those of the inner ring against
// the outer one, so both have the same sign. Couples and tilts are vector components about +y and
// +z (beam's slope in plane xz is minus the tilt about +y). All are taken at the pressure centre,
// which Elements.PressureCentre finds. A row with a positive contact angle takes shaft thrust
// towards +x.
//
// # Not yet reached
//
// No question of the program asks yet for settings, preload and induced thrust of a pair, for hours and reliability of a life,
// for the factors of tapered rollers and the laws in closed form that these rest on.
//
// # Sources
//
// A. Palmgren, Ball and Roller Bearing Engineering, 3rd edition, 1959, for both contact laws
// (from memory; Hertz's theory closes a ball 4 % further, see the tests). ISO 281 and ISO 76 for life and static safety, where said in the words of makers' catalogue pages. The rest
// is equilibrium and geometry, worked out in the comments.
package bearing
