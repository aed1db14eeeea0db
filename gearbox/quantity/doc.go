// Package quantity reads and writes numbers with units, such as "25.40 ± 0.02 mm" or "300 lbf·ft".
//
// Inside the program every number is a plain float64 in one set of units: mm, N, N·mm, MPa, rad, rad/s, kg, kg/mm³, N/mm, N·mm/rad, °C, mm²/s. Parse turns
// text into such a number and refuses whatever could be read in two ways: a missing unit, a unit of another dimension, a decimal comma, a
// thousands separator, a leading zero. Format turns a number into text in metric or US units.
//
// A value may carry a tolerance, a symmetric ±, that takes the unit of the value or has its own. It is never a percentage of the value.
//
// Which word is read as which unit depends on the dimension that is expected: "lb" is a force where a force is expected and a
// mass where a mass is expected; the sign " is inches in a length and seconds in an angle. Feet are not read as a length: nobody
// gives a gearbox in feet.
//
// The conversion factors are exact by definition. They rest on the international inch (25.4 mm) and avoirdupois pound (0.45359237 kg), the
// standard gravity (9.80665 m/s²) and on nothing else: NIST Special Publication 811 (2008 edition), appendix B.
package quantity
