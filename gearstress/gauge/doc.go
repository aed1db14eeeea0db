// Package gauge finds what gears are from what the bench reads of them: counts, tips, roots, spans, sizes over balls,
// the helix, chords, the centre distance
// and the backlash of pairs.
//
// # What readings fix
//
// Readings of teeth fix the flank: the normal base pitch p_bn, the base helix β_b and the normal base thickness s_bn
// of a tooth; with the tooth count the
// base diameter follows, d_b = z p_bn/(π cos β_b). Module, pressure angle, reference helix and profile shift are a
// label on it: infinitely many sets of them
// make the very same flank,
//
//	m_n = p_bn/(π cos α_n),  sin β = sin β_b/cos α_n,  x from s_bn
//
// so no reading of flanks can tell them apart, at any precision. Only the series of tools, the tip and the root
// (through the tool that is assumed), the mate and
// the centre distance can. Solve therefore gives the flank first, with its uncertainty, and then the labels that fit it.
//
// # How it is found
//
// All readings of all gears are met at once by least squares, each weighted by its ±. Gears that mesh share one base
// pitch and one base helix;
// pairs on the same two shafts share one centre distance. A reading says how wide it is, or the usual width of the
// instrument is taken. A ± here is what 95 of
// 100 readings keep within, ± 1.96 standard uncertainties, and so is every ± of a result; it follows from the
// readings by linear propagation (JCGM 100:2008, 5).
//
// A label is tried by holding base pitch and, for helices of whole and half degrees, base helix to what it says, and
// meeting the readings with
// the rest. It is kept while the sum of squares grows by no more than chance lets it in 999 of 1000 cases. The order
// among those kept follows the
// misfit of the readings, how far tip and root lie from a full tooth, and how usual the tool is; the last two are
// common practice, no source.
//
// # What is not modelled
//
// Internal gears; pins on helical gears; wear and relief of the flanks, which every reading takes for the involute;
// run-out and pitch deviations, which belong into
// the ±; readings that depend on each other.
//
// # Units
//
// Lengths in mm, angles in rad.
package gauge
