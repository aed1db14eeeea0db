// Package reports writes what a gearbox calculation found: as text for people, and as JSON and CSV for programs.
//
// It computes no mechanics. Every number it shows stands in a [gearbox.Result], a [study.Comparison] or a [material.Steel];
// here it is only chosen, put into the wanted unit, rounded and set in a table. "Worst" here means "smallest among given numbers".
//
// # Text
//
// [Check], [Compare], [Ratios], [Weigh] and [Materials] write plain text of at most 100 columns, counted in characters. It starts with the
// sentence of [Headline], then come tables, then numbered notes, the sources of the limits and [Caution].
// A state is always a word and a sign; colour, when wanted, is added to both and never replaces them. Each column of numbers has one
// unit in its head and one number of decimals, so that the smallest number worth comparing keeps three digits. Long names are
// shortened in the middle. Control characters in names and notes become visible signs, so a name can't drive a terminal.
//
// Of one or two speeds the text shows everything down to the factors of ISO 6336; of more it looks into the one that is limited
// first. Second opinions on the teeth stand in a table of their own, beside ISO 6336, and in no verdict.
//
// # JSON and CSV
//
// [CheckJSON] and its kind write every number with full precision in fixed units, whatever [Options.Units] says: N·m, N, MPa,
// mm for dimensions, µm for small movements, mrad for small angles, degrees for tooth angles, turns a minute for speeds. The
// unit is in the name of the key; where it depends on what is shown the key ends in "_in_unit" and the unit stands beside it.
// What is not a number is null in JSON. In CSV it is an empty cell, and a torque without end is "inf"; second opinions are
// marked by the column "reference". The keys are described by [JSONKeys]. A text cell of a CSV that begins like a spreadsheet
// formula gets a ' in front.
//
// # Signs
//
// They are those of the results: an asked torque below zero is coast (the engine brakes); an allowable torque is the size of the
// input torque at which a limit is reached, always above zero; a margin of 0.10 means that one tenth more torque reaches the limit.
// "Left" and "right" are the ends of a shaft along x of its box.
package reports
