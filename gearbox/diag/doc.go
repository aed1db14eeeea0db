// Package diag carries what is wrong with a description back to the person who wrote it.
//
// A finding (Diagnostic) has a severity, a place in a file, the path of the value, a short summary that reads the same for the same kind of mistake,
// and a detail that says what was found, what was expected and what to do. A List of findings is what readers and checks return: all of
// them at once, never only the first. Render writes them with the line of the source and a caret under the words in question; Nearest
// finds the word that was probably meant.
//
// Lines and columns count from 1; columns and widths are in runes, not in bytes. A tab counts as one rune in a Place and is
// widened only when it is shown. Each rune is taken to be one column wide on the screen, so the caret is off on lines that hold
// double-width or combining characters.
//
// Text that comes from a file is never sent to a terminal as it is: control characters, directional marks and broken UTF-8 are replaced by
// visible stand-ins, so a box file can't drive the reader's terminal.
package diag
