// Package beam finds how one stepped shaft on its supports bends, twists and
// stretches under given loads. It knows nothing of gears or bearings: a gear
// is a load to it and a bearing is a spring.
//
// # What is modelled
//
// A straight shaft of round sections, solid or bored, laid end to end, of one
// linear elastic material. Bending in two planes with shear deformation
// (Timoshenko's beam; the shear coefficient is Hutchinson's, or Cowper's, with
// the bore ratio), Saint-Venant torsion, stretch. Supports are linear springs,
// rigid or free, the same in both planes: radial, tilting and axial; a radial
// reaction acts at a point or is spread over a seat. Loads act at a point or
// are spread evenly over a length. The seats of the supports may move and turn.
//
// Behind a sharp shoulder the corner of the thicker part carries next to
// nothing, and likewise behind the end of a bore: see shoulder.go. This changes
// stiffness in bending and torsion only; stresses, shear and stretch use the real
// diameters. Shaft.NoShoulder turns it off, Model.Doubts says where it is weak.
//
// # What is not
//
// Large deflections, buckling, mass and vibration, notches, gear bodies and
// rings shrunk on, fillets at shoulders (they stiffen: the correction is for
// sharp ones), friction, clearance, springs that are not linear. A real shaft
// has fits and rings on it: claim no better than 5 % of a deflection.
//
// # Method
//
// Along the shaft lie cells in which the compliance is a parabola: one where it
// is constant, a few where a shoulder is softened. They depend on its metal
// alone. The shaft is cut at the ends of sections, at supports and loads; of each
// piece the integrals of compliance are known in closed form, and the deflection
// in it is a polynomial over each cell. Supports enter as unknown reactions (the
// force method): the shaft is clamped at its left end, its deflections at the
// supports under the loads and under each reaction are integrated, and the few
// reactions and the two rigid motions follow from the support conditions and the
// balance. A rigid support is one whose compliance is zero; no penalty number is
// used. That small system is factorised once in New. Very short pieces do no
// harm, which is why this was preferred to a stiffness matrix over all pieces:
// there a piece of length h has terms in 1/h³ and the digits go. Internal forces
// are sums of the loads and reactions from the nearer end.
//
// Model.Influence gives the motions at many places under unit loads there, for
// shafts coupled through what touches them, by the same integrals in closed form
// without solving a case for each.
//
// # Axes and signs
//
// x runs along the shaft from its left end, y and z are transverse, the three
// right-handed. Units: mm, N, N·mm, MPa, rad. Forces are positive along +x,
// +y, +z; couples Mx, My, Mz are vector components about the same axes.
//
// Each plane has a deflection and a slope. The slope is the rotation ψ of the
// section, not the inclination of the axis: in plane xy the rotation about +z,
// in plane xz minus the rotation about +y. Without shear deformation both
// equal the derivative of the deflection; with it dv/dx = ψ − S/(κGA). What a gear
// or a ring follows is Solution.Slope.
//
//	Moment M   dψ/dx = M/(EI) in both planes: positive bends the shaft hollow
//	           towards +y or +z. It jumps by −Mz (plane xy) or +My (plane xz)
//	           at a couple.
//	Shear S    sum of the transverse forces on the part left of the cut, that
//	           is the force the left part puts on the right part. dM/dx = S
//	           where no couple is spread.
//	Normal N   tension positive: minus the sum of Fx left of the cut.
//	Torque T   what the right part puts on the left part about +x: minus the
//	           sum of Mx left of the cut. dTwist/dx = T/(GJ), Twist = 0 at x = 0.
//
// A right value at x counts what acts at x among the things left of the cut,
// a left value does not.
//
// Messages count sections, supports and loads from 1.
//
// # Sources
//
// S. Timoshenko, "On the correction for shear of the differential equation
// for transverse vibrations of prismatic bars", Phil. Mag. 41 (1921).
// G. R. Cowper, "The shear coefficient in Timoshenko's beam theory",
// J. Appl. Mech. 33 (1966), for κ of solid and hollow round sections.
// J. R. Hutchinson, "Shear coefficients for Timoshenko beam theory", J. Appl.
// Mech. 68 (2001), for a better one.
// Budynas and Nisbett, Shigley's Mechanical Engineering Design, 9th edition,
// table A-9 and chapter 7, for the check values. The shoulder lengths are our
// own finite element results, printed in shoulder.go.
package beam
