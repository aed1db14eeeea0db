package boxfile

import (
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"layshaft/gearbox"
)

// The description holds every key that the demonstration boxes use, and none that the reader would refuse.
func TestSchemaAndReaderAgree(t *testing.T) {
	described := map[string]Key{}
	for _, k := range Schema() {
		if _, twice := described[k.Path]; twice {
			t.Errorf("%s is described twice", k.Path)
		}
		described[k.Path] = k
		if k.Meaning == "" || k.Written == "" || k.Need == (k.Default != "") {
			t.Errorf("%+v is incomplete", k)
		}
	}
	used := map[string]bool{}
	for _, file := range []string{"five-speed.yaml", "inline.yaml", "rated.yaml", "mix.yaml"} {
		box := withWarnings(t, file)
		for path := range box.Places {
			used[pattern(path)] = true
		}
	}
	inNames := regexp.MustCompile(`^(side\..*|speeds\..*|centres\[\](\.between\[\])?|(steels|shafts|gears|meshes|parts)\.NAME|weighed\.pieces\[\](\.gears\[\])?|shafts\.NAME\.bearings\.NAME|shafts\.NAME\.sections\[\]|duty\.steps\[\]|take\[\]|history\[\]|)$`)
	for path := range used {
		if _, ok := described[path]; !ok && !inNames.MatchString(path) {
			t.Errorf("%s is read but not described", path)
		}
	}
	for path := range described {
		if !used[path] {
			t.Errorf("%s is described but in no box of testdata", path)
		}
	}
}

// pattern puts NAME and [] in the place of names and numbers of a path.
func pattern(path string) string {
	parts := strings.Split(path, ".")
	switch {
	case parts[0] == "drop":
		return "drop"
	case parts[0] == "take" && len(parts) > 2: // the names in its lists are values
		return "take[]." + parts[2]
	case parts[0] == "take" && len(parts) > 1:
		return "take[]"
	}
	for i, p := range parts {
		before := ""
		if i > 0 {
			before = parts[i-1]
		}
		switch {
		case slices.Contains([]string{"steels", "shafts", "gears", "meshes", "parts"}, before) && i == 1, before == "bearings":
			parts[i] = "NAME"
		case before == "sections", before == "centres", before == "between", before == "steps", before == "history", before == "pieces", before == "gears" && i > 1:
			parts[i-1] += "[]"
			parts[i] = p
		}
	}
	out := strings.Join(parts, ".")
	return regexp.MustCompile(`\[\]\.\d+`).ReplaceAllString(out, "[]")
}

// What the description proposes as an example may be written there: put in the place of the value, it is not refused for itself.
func TestExamplesMayBeWritten(t *testing.T) {
	example := regexp.MustCompile(`such as (.+?)(, or map)?$`)
	proposed := map[string]string{}
	for _, k := range Schema() {
		if m := example.FindStringSubmatch(k.Written); m != nil {
			proposed[k.Path] = m[1]
		}
	}
	tried := map[string]bool{}
	for _, file := range []string{"five-speed.yaml", "inline.yaml", "rated.yaml", "mix.yaml"} {
		data, err := os.ReadFile(filepath.Join("testdata", file))
		if err != nil {
			t.Fatal(err)
		}
		places := withWarnings(t, file).Places
		for _, path := range slices.Sorted(maps.Keys(places)) {
			place := places[path]
			text, ok := proposed[pattern(path)]
			lines := strings.Split(string(data), "\n")
			if !ok || tried[pattern(path)] || place.File != filepath.Join("testdata", file) {
				continue
			}
			line := []rune(lines[place.Line-1])
			start := place.Column - 1
			lines[place.Line-1] = string(line[:start]) + text + string(line[start+place.Width:])
			_, list := Read(filepath.Join("testdata", file), []byte(strings.Join(lines, "\n")))
			for _, d := range list {
				// How a value stands to others of the box is another matter.
				if d.Path == path && (strings.Contains(d.Detail, "it must be") || strings.Contains(d.Summary, "unit") || strings.HasPrefix(d.Summary, "not a")) {
					t.Errorf("%s: the example %q: %s. %s", pattern(path), text, d.Summary, d.Detail)
				}
			}
			tried[pattern(path)] = true
		}
	}
	for path := range proposed {
		if !tried[path] {
			t.Errorf("the example of %s was tried nowhere", path)
		}
	}
}

// withWarnings reads a box of testdata that may be asked about.
func withWarnings(t *testing.T, file string) *gearbox.Box {
	t.Helper()
	box, _, list := ReadFile(filepath.Join("testdata", file))
	if box == nil {
		t.Fatal(list)
	}
	return box
}
