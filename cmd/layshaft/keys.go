package main

import (
	"fmt"
	"slices"
	"strings"

	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/diag"
)

// keyList tells everything a box file or a bench sheet can say, one key after the other, from the very schema that
// reads it; with a word, the keys that have it in their path
// or their meaning.
func keyList(bench bool, word string) (string, error) {
	file, schema := "box file", boxfile.Schema()
	if bench {
		file, schema = "bench sheet", boxfile.SheetSchema()
	}
	all := len(schema)
	if word = strings.ToLower(strings.TrimSpace(word)); word != "" {
		var names []string
		for _, k := range schema {
			names = append(names, strings.FieldsFunc(k.Path, func(r rune) bool { return r == '.' || r == '[' || r == ']' })...)
		}
		schema = slices.DeleteFunc(schema, func(k boxfile.Key) bool {
			return !strings.Contains(strings.ToLower(k.Path), word) && !strings.Contains(strings.ToLower(k.Meaning), word)
		})
		if len(schema) == 0 {
			u := usageError{message: fmt.Sprintf("no key of a %s has to do with %q", file, word)}
			if near, ok := diag.Nearest(word, names); ok {
				u.hint = fmt.Sprintf("Did you mean %q?", near)
			}
			return "", u
		}
	}
	var b strings.Builder
	if len(schema) == all {
		fmt.Fprintf(&b, "Every key of a %s. ", file)
	} else {
		fmt.Fprintf(&b, "%d of the %d keys of a %s, those that have to do with %q. ", len(schema), all, file, word)
	}
	b.WriteString("NAME stands for a name of your choice, [] for each item of a list.\n")
	if !bench {
		b.WriteString("A value may carry a tolerance (22 ± 0.1 mm). layshaft spread and --samples count it.\n")
		b.WriteString("Where a builder may not know, the word unknown is a value: the default then holds, and counts as assumed.\n")
	}
	b.WriteByte('\n')
	for _, k := range schema {
		need := "may be left out"
		switch {
		case k.Need:
			need = "must be given"
		case k.Default != "":
			need = "default " + k.Default
		}
		fmt.Fprintf(&b, "%s\n    %s\n", k.Path, k.Meaning)
		if k.Written != "" {
			fmt.Fprintf(&b, "    written as %s; %s\n", k.Written, need)
		} else {
			fmt.Fprintf(&b, "    %s\n", need)
		}
	}
	return b.String(), nil
}
