// Package boxfile reads box files: plain text in YAML that describes one gearbox.
//
// Read gives a gearbox.Box, or the list of everything that is wrong with the file, each finding with its place. It never gives both a box and an
// error. Warnings (a gear that no mesh uses) come with the box.
//
// The schema has a version, "layshaft: 1", and is strict: an unknown key, a key given twice, a missing unit, a number that could be read in two ways are
// errors. Every dimensional value carries its unit (package quantity) and may carry a tolerance. Schema lists every key; it is made from the tables the
// reader itself works by. Fixed words are read without regard to capitals and hyphens, and so are words of the trade that say the same (CW, RH); a key by another name is
// answered with the right one. Names that only look alike are told apart in a warning.
//
// What is checked here is what one value, or a name and the thing it names, shows to be wrong: ranges, references, and that the meshes of a speed lead
// from the input shaft to the output shaft. Balls and rollers are shown to the model of rolling bearings (package beam/bearing), so that what it
// would refuse later is said with its place. What needs the geometry, such as a gear that sits beyond the end of its shaft, is for gearbox.Validate.
//
// Of YAML (version 1.2, and what its predecessors read) the file may use maps, lists, plain and quoted text, comments, anchors and aliases. Merge keys
// (<<) and tags (!!int) are refused: they hide where a value comes from. An alias may not repeat the thing it stands in, and the
// whole file, aliases counted as often as they are used, may have 10 000 keys and values. Files are UTF-8, at most 1 MB.
//
// Inner units and signs are those of gearbox.Box: mm, N, N·mm, MPa, rad, kg; viscosity in mm²/s, mesh stiffness in N/mm per mm of face. Hardness may be
// written in HRC, HV or HB and is kept as HV, converted by ISO 18265 (package material). Preload of a pair of bearings is kept as a
// negative end play. The place and the tolerance of each value are kept
// in the box under the path of the value: keys and names joined by points, places in a list by number from 0
// ("shafts.input.sections.2.outer").
//
// Open keeps a file, so that it can be read again with values in it changed: what a change does wrong is found by the same rules, and the finding points at
// what was typed. People count lists from 1, so there "shafts.input.sections.3.outer" is the third section.
package boxfile
