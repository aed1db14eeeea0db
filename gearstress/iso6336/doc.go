// Package iso6336 rates one external pair of cylindrical gears by ISO 6336,
// method B: the stress at the tooth root (part 3) and on the flank (part 2), what
// the steel bears at a number of load cycles (parts 2 and 3), and the factors that
// stand between the nominal torque and the tooth (part 1). The limits of steels (part
// 5), life curves as such and the sum of damage (part 6) are those of package material.
//
// # What is modelled
//
// Spur and helical gears cut by a rack-type tool, as package involute describes
// them. NewForm works out once what depends on the shape of the teeth alone;
// Form.Rate then takes a torque and the data of the two gears and returns every
// factor by its symbol, so that the sum can be followed. A single peak is rated by no
// turns and an application factor of 1. For the same pair at many torques Form.Compile settles everything but torque and
// K_Hβ; Compiled.At then gives stresses and limits alone, in a fraction of the time, and
// Compiled.Jump the one torque at which they don't grow steadily.
// With K_v, K_Hα and K_Fα held (Input), the root stress grows with the torque and
// the flank stress with its square root.
//
// The face load factor K_Hβ comes from the caller, with words that say where it
// was found: this package knows no shafts. K_Fβ follows from it.
//
// # What is not modelled
//
// Irons and cast steels; internal gears, racks, bevel gears; K_v for anything but one pair turning by
// itself; the notch of a grinding step in the fillet; tooth thinning (Y_F is that
// of the nominal tooth; the standard asks for the thinned one when the allowance
// exceeds 0.05 modules); micropitting, scuffing, flank fracture, wear, case depth;
// temperature.
//
// # Editions
//
// The edition is chosen by name and never mixed. Edition2019 (the zero value)
// and Edition2006 differ here in three places:
//
//   - Y_F holds the load-sharing factor f_ε in 2019, not in 2006.
//   - Y_β is divided by cos³β in 2019.
//   - Z_B and Z_D of helical gears hold the factor f_ZCa for missing or unproven
//     flank correction in 2019.
//
// Z_β is 1/√cos β in both: 2006 as corrected in 2008. Everything else is the same
// in both as far as it could be told. Tooth deviations always follow the accuracy
// grades of ISO 1328-1:2013, which the 2006 edition did not know yet.
//
// # From memory
//
// No page of ISO 6336 was at hand. All formulas were written down from memory and
// checked in the tests against published figures where there are some: Y_F and Y_S
// against a printed table and an independent construction of the tooth, Z_H and Z_ε
// and Y_β against printed worked examples.
// Nothing published was found for: f_ZCa, Z_L, Z_V, Z_R, Z_W, Y_δrelT, Y_RrelT, Y_X,
// Y_M, the coefficients C_v, the running-in allowances and the mesh stiffness. They carry "from memory" in their comments or stand in this
// list, and their tests check only their own consistency: that branches meet, and
// that factors are 1 for the test gears the limits of steels were measured on.
//
// # Units and signs
//
// mm, N, N·mm, MPa, rad, rad/s, mm/s; roughness and deviations in mm as well (the
// standard has µm), stiffness in N/mm² (force per mm of face and mm of approach;
// the standard has N/(mm·µm)). Viscosity in mm²/s. Torque and speed belong to the
// driver and are positive. Index 0 is the driver, 1 the driven gear, as in involute.
// The pinion, where the standard needs one, is the gear with fewer teeth, and with
// equal numbers the driver. Loads act along the whole common face width.
//
// # Sources
//
// ISO 6336-1, -2, -3 (2006 and 2019), Calculation of load capacity of spur and helical gears; ISO 1328-1:2013.
package iso6336
