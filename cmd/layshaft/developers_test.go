package main

import (
	"os"
	"regexp"
	"testing"
)

// Every file and folder of the project that DEVELOPERS.md and README.md name in code marks exists.
func TestDocumentsNameWhatExists(t *testing.T) {
	for _, name := range []string{"README.md", "DEVELOPERS.md"} {
		text, err := os.ReadFile("../../" + name)
		if err != nil {
			t.Fatal(err)
		}
		found := regexp.MustCompile("[`(]((?:beam|cmd|gearbox|gearstress|material|reports|testdata|\\.ci)(?:/[a-zA-Z0-9_.-]+)*)[`)]").FindAllSubmatch(text, -1)
		if len(found) < 3 {
			t.Errorf("%s names only %d places; is its form still what this test reads?", name, len(found))
		}
		for _, m := range found {
			if _, err := os.Stat("../../" + string(m[1])); err != nil {
				t.Errorf("%s names %s: %v", name, m[1], err)
			}
		}
	}
}
