package boxfile

import "embed"

//go:embed starter.yaml transaxle.yaml inline.yaml
var starters embed.FS

// starterFiles are the box files to start from, by what kind of box they are, the smallest first.
var starterFiles = []struct{ kind, file string }{{"pair", "starter.yaml"}, {"transaxle", "transaxle.yaml"}, {"inline", "inline.yaml"}}

// Kinds are the kinds of box of which there is a file to start from, the smallest first.
func Kinds() (all []string) {
	for _, s := range starterFiles {
		all = append(all, s.kind)
	}
	return all
}

// Starter is the smallest box file to start from: a single pair on two shafts, with comments that explain the rest.
// All its numbers are invented.
func Starter() []byte { return StarterOf("pair") }

// StarterOf is the box file to start from of a kind, with comments; nil when there is none. All its numbers are invented.
func StarterOf(kind string) []byte {
	for _, s := range starterFiles {
		if s.kind == kind {
			data, err := starters.ReadFile(s.file)
			if err != nil {
				return nil // cannot be: it is built in
			}
			return data
		}
	}
	return nil
}
