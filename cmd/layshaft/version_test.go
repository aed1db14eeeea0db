package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// standardLibrary is how the licence of the language's own library is called among those of modules.
const standardLibrary = "go.dev_std"

// Every module that is linked into the program has its licence in it, as the module itself has it, and nothing else has. Those of the library come with the compiler.
func TestLicencesOfWhatIsLinked(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Dir}}{{end}}{{end}}", ".").Output()
	if err != nil {
		t.Fatal(err)
	}
	want := []string{standardLibrary + ".txt"}
	lines := strings.Fields(string(out))
	for i := 0; i+1 < len(lines); i += 2 {
		module, dir := lines[i], lines[i+1]
		file := licenceFile(module)
		if name := filepath.Base(file); slices.Contains(want, name) {
			continue
		} else {
			want = append(want, name)
		}
		text := noticesOf(t, dir)
		if *update {
			save(t, file, []byte(text))
		} else if got, err := os.ReadFile(file); err != nil || string(got) != text {
			t.Errorf("%s: its licence isn't that of the module any more (%v)", module, err)
		}
	}
	var have []string
	entries, err := os.ReadDir("licences")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		have = append(have, e.Name())
	}
	slices.Sort(want)
	if !slices.Equal(have, want) {
		t.Errorf("licences of %v, linked are %v", have, want)
	}
	all := licences()
	for _, words := range []string{"The Go Authors", "Apache License", "gonum.org/v1/gonum", "d3"} {
		if !strings.Contains(all, words) {
			t.Errorf("version --licences doesn't say %q", words)
		}
	}
}

// noticesOf are the licence and the notices of a module, file by file.
func noticesOf(t *testing.T, dir string) string {
	t.Helper()
	var b strings.Builder
	for _, pattern := range []string{"LICENSE*", "LICENCE*", "NOTICE*", "PATENTS*", "THIRD_PARTY_LICENSES/*"} {
		files, err := filepath.Glob(filepath.Join(dir, pattern))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			text, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			b.WriteString("-- " + filepath.Base(f) + "\n\n" + strings.TrimSpace(string(text)) + "\n\n")
		}
	}
	if b.Len() == 0 {
		t.Errorf("%s has no licence", dir)
	}
	return b.String()
}
