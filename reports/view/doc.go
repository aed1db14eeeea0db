// Package view holds answers as data for people: numbers as they are shown, tables, notes, and sentences. Package text prints
// them, package page draws them; what a number looks like and which word is said is decided here alone.
//
// It computes no mechanics. Every number stands in a [gearbox.Result], a [study.Comparison] or a [material.Steel]; here it is
// chosen, put into the wanted unit, rounded and set in a table.
//
// # Numbers
//
// A number of a sentence has three digits that count. The numbers of a column have one number of decimals, so that the smallest
// one worth comparing keeps three digits. A margin is signed per cent, see [Percent]: what is exceeded never shows a plus, and no
// sign stands before a zero.
//
// # Words where there is no number
//
// [Absent] stands where there is nothing to show, [NotKnown] for a number that could not be found, [NotReached] for a limit that
// no torque reaches, and [Endless] for a life that the duty never uses up.
//
// # Signs
//
// They are those of the results: an asked torque below zero is coast (the engine brakes); an allowable torque is the size of the
// input torque at which a limit is reached, always above zero; a margin of 0.10 means that one tenth more torque reaches the limit.
// "Left" and "right" are the ends of a shaft along x of its box.
package view
