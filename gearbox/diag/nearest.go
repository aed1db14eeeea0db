package diag

import "unicode"

// longest is the length in runes beyond which a word is not compared: nobody mistypes a word that long, and the comparison costs its square.
const longest = 64

// Nearest is the known word that word was probably meant to be, and whether there is one. Case doesn't count; a swap of two neighbouring letters
// counts as one slip. Words up to four letters may differ by one slip, up to eight by two, longer ones by three; of several
// equally near words the first in known wins.
func Nearest(word string, known []string) (string, bool) {
	w := fold(word)
	if len(w) == 0 || len(w) > longest {
		return "", false
	}
	best, least := "", allowed(len(w))+1
	for _, k := range known {
		f := fold(k)
		if len(f) > longest {
			continue
		}
		// A word of which nothing is left is no misspelling: "x" is not nearly "y".
		if d := slips(w, f); d < least && d < len(w) {
			best, least = k, d
		}
	}
	return best, best != ""
}

func allowed(length int) int {
	switch {
	case length <= 4:
		return 1
	case length <= 8:
		return 2
	default:
		return 3
	}
}

func fold(s string) []rune {
	r := []rune(s)
	for i := range r {
		r[i] = unicode.ToLower(r[i])
	}
	return r
}

// slips is the least number of inserted, left-out, replaced or swapped neighbouring letters that make a into b: the edit distance of
// Damerau, Communications of the ACM 7 (1964) 171, in its restricted form (no letter is edited twice).
func slips(a, b []rune) int {
	before, above, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range row {
		above[j] = j
	}
	for i := range a {
		row[0] = i + 1
		for j := range b {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			row[j+1] = min(above[j+1]+1, row[j]+1, above[j]+cost)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, above, row = above, row, before
	}
	return above[len(b)]
}
