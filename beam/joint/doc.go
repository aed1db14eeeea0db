// Package joint says what the joints bear by which torque and thrust pass between a shaft and what sits on it: splines,
// engagement teeth, bolts of a wheel, keys, press fits and circlips; and what a synchroniser does. It knows one joint and
// nothing of shafts or boxes.
//
// # What is modelled
//
// Mean stresses by statics, with the share of the teeth that carries as a factor; friction both ways where it decides;
// thick rings after Lamé for press fits. The torque that flows along a spline is that of two twisting tubes on springs.
//
// # What is not
//
// The load on single teeth (pitch errors), bending of spline teeth, fretting and wear but by the handbook's allowable
// pressures, the slip of a single bolt, heat of a synchroniser but as the energy that goes into its cone.
//
// # Not yet reached
//
// Boxes are asked about splines, keys, fits, circlips, engagement teeth and slipping bolts. Synchronisers, points and impact, bolts
// under a load along them, measures of splines and the handbook's stresses serve whoever calls the package.
//
// # Units
//
// mm, N, N·mm, MPa, rad, kg, s; moments of inertia in kg·mm². Functions of lengths, forces and torques alone take any
// units that agree.
package joint
