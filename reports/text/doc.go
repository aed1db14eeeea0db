// Package text prints answers for people: plain text of at most 100 columns, counted in characters.
//
// A report starts with the sentences of its answer, then come tables, then numbered notes, the sources of the limits and the caution. A
// state is always a word and a sign; colour, when wanted, is added to both and never replaces them. Long names are shortened in
// the middle, a table that is too wide is parted between columns. Package view decides what is said and what numbers look like.
//
// Of one or two speeds the text shows everything down to the factors of ISO 6336; of more it looks into the one that is limited
// first. Second opinions on the teeth stand in a table of their own, beside ISO 6336, and in no verdict.
package text
