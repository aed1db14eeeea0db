// Package faceload works out how the load of gear meshes lies along their faces when shafts, bearings and teeth give
// way, and the face load factors K_Hβ and K_Fβ that follow.
//
// # What is modelled
//
// Each mesh is cut into strips across the face, each with its teeth as an independent spring of stiffness c_γ per mm of
// face. How shafts, bearings and housing give way comes in as a compliance matrix over the stations of all meshes
// together; this package knows nothing else of shafts. A strip carries load or it doesn't; it never pulls:
//
//	w_k/(c_γ Δb_k) + Σ_j C_kj w_j + g_k = δ_m   where w_k > 0
//	w_k = 0 and Σ_j C_kj w_j + g_k ≥ δ_m        elsewhere
//	Σ w_k = F_m                                 over the strips of each mesh m
//
// w_k is the load of a strip, N; g_k its gap before loading, mm; δ_m the approach of the two gears, mm; C in mm/N; all
// along the transverse line of action, positive where flanks are pressed together or stand apart. Position ξ runs along
// the face from −b/2 to +b/2, mm. F_m comes from the torque: F_m = T/r_b.
//
// Not modelled: the tooth as a plate (neighbouring strips don't help each other, so a load on a narrow strip comes out
// too high), a stiffness that varies along the line of action or with load, friction, dynamic load.
//
// # Strips
//
// The stations are evenly spaced with one on each end of the face (Stations), the strips have the weights of the end-
// corrected trapezoidal rule (Widths). So the largest line load, which sits at an end whenever shafts lean, is read and
// not extrapolated. Measured error of K_Hβ, in units of 10⁻⁴:
//
//	                                     stations    11      21      41
//	shaft bent, whole face (K_Hβ 1.25)            −0.3    −0.04    0.00
//	shaft bent strongly (2.13)                    −5.4    −0.7    −0.08
//	pinion twisted over the face (1.21)            4.0     1.2      0.3
//	pinion twisted strongly (1.44)                 8.0     2.6      0.7
//	66 % of the face in contact (3.03)             −26     1.2     −1.5
//	32 % of the face in contact (6.16)             −49     −61       28
//	crowned, middle 63 % in contact (2.38)          75     −26      −11
//
// At 21 strips of equal width whose load is read in their middle the two twisted cases are 6 and 16 low and need
// extrapolation to the end; trapezoid weights without correction are 0.9 and 15 low in the bent cases; Gauss–Lobatto
// points are best in the bent cases (0.00) and worse in most others. 21 stations are enough unless a fifth of the face or
// less carries the load. With an end relief K_Hβ comes out up to 2.5 % low where
// its inner edge lies between stations, 0.2 % where it lies on one: take a relief of whole spacings or more strips.
//
// # Solution
//
// It is the minimum of the strictly convex energy
//
//	½ wᵀ(C + D) w + gᵀw,  Σ w_k = F_m,  w ≥ 0,  D = diag(1/(c_γ Δb_k))
//
// so there is exactly one. It is found by an active set method: (1) find the minimum on a set of strips without regard to
// sign, and drop those that would pull, until none does; (2) while a strip outside overlaps, let in the one that overlaps
// most, and move towards the minimum of the new set; where a load reaches zero on the way, drop that strip and go on
// from there.
//
// Step 1 ends since the set shrinks, and no mesh loses its last strip since its loads add up to F_m > 0. Step 2 ends since
// each time it lets a strip in, the load is the one minimum of its set, the new direction lowers the energy and raises the
// load of the new strip. If a strip without load blocks the way at once, it goes and the same holds for the smaller
// set; the new strip is never the one to go, so after at most as many drops as there are strips the load moves and the
// energy falls. A set whose minimum was left never comes back; there are finitely many. With rounded numbers sets
// may differ by rounding only; a limit far above any need ends that. Whatever happened, the conditions are checked at the
// end and the largest miss is part of the result; above 10⁻⁹ of the terms it is an error.
//
// # Sources
//
// Definition of K_Hβ and the closed form for misaligned gears (method C): ISO
// 6336-1:2006, clauses 7 and 9, from memory. Active set method for convex quadratic programmes: J. Nocedal, S. J. Wright,
// Numerical Optimization, 2nd edition 2006, section 16.5 (from memory).
package faceload
