// Package agma2001 rates one external pair of cylindrical gears the American way, as a
// second opinion beside ISO 6336: geometry factors I and J by the procedure of AGMA
// 908-B89, pitting resistance and bending strength by ANSI/AGMA 2001-D04 and its metric
// twin 2101-D04.
//
// # What is modelled
//
// Spur and helical gears cut by a rack-type tool. NewForm works out once what depends on
// the teeth alone; Rate then takes a torque and the data of the two gears and returns
// every factor by its symbol (Rating.Factors lists them). I and J are computed, not read
// from a chart; the closed form of I that textbooks use has its own name, PitchPointI. The
// load distribution factor K_m comes from the caller, with words that say where it was
// found, or from FaceDistribution.Empirical. Stresses are plain functions of the torque
// (Rating.RootStress, Rating.FlankStress), and Outcome.Torque says where safety is 1.
//
// # What is not modelled
//
// Internal and bevel gears; transverse contact ratios of 2 and more without overlap; yielding
// at a momentary overload; scuffing, micropitting, wear; strength over the depth of a
// case; K_T above 120 °C (the caller's).
//
// # Other than ISO 6336
//
//   - s_t is referred to the transverse module (1/P_d), σ_F of ISO to the normal one.
//   - J holds the load at the highest point of single tooth contact for spur and low overlap
//     (m_F ≤ 1), but at the tip, shared by the lines of contact, for m_F > 1. So J jumps at
//     m_F = 1. ISO has one point for all.
//   - The critical section is where the inscribed parabola touches the fillet, and the axial
//     load relieves it; ISO takes the 30° tangent without relief.
//   - The equivalent spur gear has z/cos³ψ teeth; ISO takes z/(cos²β_b cos β).
//   - I holds the curvature at the lowest point of single tooth contact (spur) or in the
//     middle of the tooth height (m_F > 1); ISO starts at the pitch point.
//   - Loads and d are those of the operating pitch circle; ISO takes the reference circle.
//   - Allowable numbers hold for 10⁷ cycles and 99 % reliability, in contact and in bending;
//     ISO for 1 % damage at 5·10⁷ and 3·10⁶. s_at is 0.4 to 0.6 of σ_FE of the same steel.
//   - The elastic coefficient is rounded up: 2300 √psi = 191 √MPa, ISO 189.8.
//   - Life curves fall on after their knee, in two branches; ISO lets 0.85 to 1 hold.
//   - K_R, C_H, K_s have no like in ISO; ISO has lubricant, roughness and notch factors.
//
// Stresses, safeties and allowables of the two must not be mixed.
//
// # Units and signs
//
// mm, N, N·mm, MPa, rad, rad/s, mm/s; lengths of a Tool in modules; roughness in mm. US
// quantities inside formulas are converted exactly. Torque and speed belong to the driver
// and are positive. Index 0 is the driver, 1 the driven gear. The pinion, where the standard
// needs one, is the gear with fewer teeth, and with equal numbers the driver.
//
// # Sources
//
// AGMA 908-B89, Geometry factors for determining the pitting resistance and bending
// strength of spur, helical and herringbone gear teeth; ANSI/AGMA 2001-D04 and 2101-D04,
// Fundamental rating factors and calculation methods for involute spur and helical gear
// teeth; Budynas and Nisbett, Shigley's Mechanical Engineering Design. No page of the
// standards was at hand: formulas are from memory and checked in the tests against
// published tables and worked examples. Nothing published was found for C_ψ, and only
// a chart reading for C_h.
package agma2001
