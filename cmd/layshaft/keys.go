package main

import (
	"fmt"
	"strings"

	"layshaft/gearbox/boxfile"
)

// keyList tells everything a box file can say, one key after the other, from the very schema that reads it.
func keyList() string {
	var b strings.Builder
	b.WriteString("Every key of a box file. NAME stands for a name of your choice, [] for each item of a list.\n")
	b.WriteString("A value may carry a tolerance (22 ± 0.1 mm). It is kept with the value; no margin counts it yet.\n")
	b.WriteString("Where a builder may not know, the word unknown is a value: the default then holds, and counts as assumed.\n\n")
	for _, k := range boxfile.Schema() {
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
	return b.String()
}
