// Package gearbox joins shafts, bearings and teeth into one box and says how much torque is left before something runs out.
//
// # What is modelled
//
// A Box describes shafts with their bearings, gears, the meshes between them and the speeds as paths over meshes. Solve follows the input
// torque of each speed along its path, resolves every mesh into its tangential, radial and axial force in the true directions of the shaft
// axes, bends every loaded shaft in two planes, and holds what comes out against a list of limits. Shafts, bearings, case and the strips of every face are solved
// as one system, so that the load lies along each face as the bent shafts leave it room. The dynamic factor of ISO 6336-1 is in the stresses of the teeth where the revs are told. Each limit is expressed in one
// currency, the torque margin: input torque at which that limit is just reached, over the torque asked about, minus one.
//
// Where the clutch and the car are told, a Reach says of each speed what of the engine's torque really comes to the teeth, and every limit has a second margin against that. A duty
// counts turns at shares of the asked torque over all speeds; the two flanks of a tooth wear apart. Gearings lists ratios without solving anything.
//
// # Frame and signs
//
// x runs along the shafts; y and z are transverse and right-handed with it. Looking along +x, a right-handed (positive) turn is clockwise.
// Shafts are parallel. The tangential force on the driven gear is F_t (e_x × e_r) for a driver torque about +x, e_r being the
// direction from the driver's axis to the driven one's; the radial force F_r pushes the gears apart; a right-hand driver with torque about +x is
// thrust towards +x. The axial force acts at the working pitch point and so bends the shaft too. Coast reverses the torque, not the turning, and with it F_t and F_a.
//
// # What is not modelled
//
// Gear bodies don't stiffen their shafts. Friction of the teeth enters through the efficiency alone, not as a force. Stresses of shaft sections are nominal; notches and joints that the file gives are judged by themselves. The
// application factor of the teeth is 1: a single peak is told by Box.Shock, and what lasts belongs into the torque. Tolerances of a box are kept, and no margin counts them: study.Spread does.
//
// # Not yet reached
//
// Validate and Weigh, of one box by itself, serve tests; boxes made of parts of others will be asked the same.
package gearbox
