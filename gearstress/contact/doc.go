// Package contact is the Hertz pressure between tooth flanks, taken as two
// cylinders that touch along a line.
//
// # What is modelled
//
// Two smooth, elastic, frictionless cylinders with parallel axes, and a pair of
// gears replaced by the two cylinders that have its radii of curvature at the pitch
// point. The whole load is carried by one line of contact, evenly along the face.
//
// # What is not modelled
//
// Sharing of the load between teeth and load uneven along the face (other packages
// put factors to this), friction, oil film, roughness, the ends of the line,
// residual stress, plastic flow.
//
// # Units and signs
//
// mm, N, N·mm, MPa; the elastic coefficient Z_E in √MPa. Pressures are positive.
//
// # Sources
//
// H. Hertz's line contact as in K. L. Johnson, Contact Mechanics, 1985, section 4.2;
// ISO 6336-2:2006 for the factors Z_E and Z_H. All from memory, and checked
// against published numbers in the tests.
package contact
