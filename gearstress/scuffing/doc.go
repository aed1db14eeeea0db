// Package scuffing is a screen for scuffing of one external pair of spur or
// helical gears: how fast the flanks slide over each other, how hot the contact
// gets, and how far that is from the temperature at which a given oil let go in
// its test.
//
// # What is modelled
//
// Sliding along the path of contact, from A (tip of the driven gear) over B, C,
// D to E (tip of the driver), with rolling speeds, sliding speed and specific
// sliding. It follows from geometry alone and is as sure as the geometry.
//
// The flash temperature after ISO/TS 6336-20:2017: Hertz contact at every
// station, the heat of friction shared by both flanks after Blok, the load shared
// between pairs of teeth, a bulk temperature from the mean flash.
//
// The integral temperature after ISO/TS 6336-21:2017: one weighted mean of the
// flash along the path, taken from the flash at the tip of the pinion.
//
// Scuffing temperatures from the load stage of the oil in the FZG test A/8.3/90.
// Without a stage there is no limit, and no safety.
//
// The mean friction power of the mesh, at the nominal load.
//
// # What is not modelled
//
// Internal, bevel and crossed gears; the measured temperature of the gear bodies;
// cold scuffing at low speed; micropitting and wear; change of load sharing by
// tip relief (the sharing is that of teeth without it, which is the hotter case at
// the ends); churning and bearing losses. Friction is one number for the whole
// path in each method. In helical gears the axial parts of the speeds drop out,
// and rolling and sliding are those of the transverse section.
//
// # How sure it is
//
// Neither page of either part was at hand: all formulas that are marked "from
// memory" were recalled, and the tests hold them against what follows without
// the standard. Blok's factor 1.11 comes out of a heat source of Hertz shape by
// quadrature (1.112); the closed form of the standard out of Hertz and Blok (0.4 %);
// the contact ratio factor below 2 out of the shares ⅓ and ⅔ (0.3 %). And the gears
// of the oil test, put under the torque of a stage, come out within 13 % of the
// scuffing temperature (°C) of that stage, in both methods.
//
// What no such test can reach: the factors X_J, X_but, X_Q, X_Ca, X_E, K_Bγ and
// X_W, and helical pairs, where w and ρ are taken per length of the line of contact
// (plain Hertz; the standard's own conversion for helical pairs was not
// recalled, and may differ by a power of cos β_b below 1). The friction coefficient is known to
// a third at best (our judgement), and the limits hold for the oil, additive and
// run-in state of the test. The flash method knows no running in, the integral
// method more than doubles its heat for new flanks of usual roughness. Two methods
// are given because they differ: where they disagree, believe neither. It is a
// screen for comparison, no proof.
//
// # Units and signs
//
// mm, N, N·mm, MPa, rad, kg, s; temperatures in °C, their rises in K; roughness
// in mm; viscosity in mm²/s and mPa·s, as oils are sold. Index 0 is the driver, 1
// the driven gear, as in involute; either may be the larger. Distances along the
// path are from the pitch point C, positive towards E. Sliding speed is rolling
// speed of the driver less that of the driven gear: negative before C, positive
// after it. The pinion, where the standard needs one, is the gear with fewer
// teeth, and with equal numbers the driver.
//
// # Sources
//
// ISO/TS 6336-20:2017 and ISO/TS 6336-21:2017, Calculation of load capacity of
// spur and helical gears, parts 20 (flash temperature method) and 21 (integral
// temperature method); ISO/TR 13989-1 and -2:2000, their forerunners; ISO
// 14635-1, FZG test method A/8,3/90; H. Blok, General Discussion on Lubrication,
// Institution of Mechanical Engineers, 1937; K. L. Johnson, Contact Mechanics,
// 1985; ISO 21771:2007 for the path of contact and specific sliding.
package scuffing
