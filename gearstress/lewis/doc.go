// Package lewis is the Lewis bending stress of gear teeth: the tooth as a
// cantilever, the whole load at its tip.
//
// # What is modelled
//
// The nominal root stress σ = F_t/(b m Y), without stress concentration, with the
// form factor Y from published tables for full-depth teeth. Beside it, as a
// different thing, RealForm: the form factor of the tooth at hand from the largest
// parabola that fits into its true outline. The two do not agree: the old tables
// were read off layouts and lie up to 8 % away from the construction on a
// rack-cut tooth. Neither is fitted to the other.
//
// Y here is always the form factor in the diametral-pitch definition
// (σ = F_t P/(b Y)); the other one, with the circular pitch, is y = Y/π.
//
// Helical gears: normal module, face width as measured along the axis, tooth
// number of the equivalent spur gear: z/cos³β in the tables, the slightly different
// z/(cos²β_b cos β) of ISO 6336-3 for the true outline.
//
// # What is not modelled
//
// Sharing of the load between teeth, stress concentration of the fillet, thin
// rims, load uneven along the face. Limits that belong to Lewis stresses must
// not be mixed with those of ISO 6336 or AGMA.
//
// # Units
//
// mm, N, MPa, rad, m/s for the pitch-line speed.
//
// # Sources
//
// W. Lewis, Investigation of the strength of gear teeth, 1892, as given in Budynas
// and Nisbett, Shigley's Mechanical Engineering Design, 8th to 10th ed., section
// 14-1; the tables name theirs.
package lewis
