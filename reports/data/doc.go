// Package data writes answers for programs: JSON and CSV.
//
// [CheckJSON] and its kind write every number with full precision in fixed units, whatever units people asked for: N·m, N, MPa,
// mm for dimensions, µm for small movements, mrad for small angles, degrees for tooth angles, turns a minute for speeds. The
// unit is in the name of the key; where it depends on what is shown the key ends in "_in_unit" and the unit stands beside it.
// What is not a number is null in JSON. In CSV it is an empty cell, and a torque without end is "inf"; second opinions are
// marked by the column "decides". The keys are described by [JSONKeys]. A text cell of a CSV that begins like a spreadsheet
// formula gets a ' in front. The sentences are those of package view.
package data
