// Package reports holds no code: it is the place of what is tested over all forms of a report.
//
// An answer is put together once, as numbers, words and tables, in package view. From there it goes to people, printed by package text
// and drawn by package page; package data writes the results themselves, with the sentences of view, for programs.
package reports
