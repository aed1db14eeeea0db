package boxfile

import (
	"slices"
	"testing"

	"layshaft/gearbox"
)

// A file to start from of every kind is sound, runs as it is, and has nothing to be asked about.
func TestStartersRun(t *testing.T) {
	if !slices.Equal(Kinds(), []string{"pair", "transaxle", "inline"}) {
		t.Errorf("kinds: %v", Kinds())
	}
	for _, kind := range Kinds() {
		box, list := Read(kind+".yaml", StarterOf(kind))
		if len(list) > 0 {
			t.Errorf("%s: %v", kind, list)
			continue
		}
		r, err := gearbox.Solve(box, gearbox.Load{})
		if err != nil {
			t.Errorf("%s: %v", kind, err)
			continue
		}
		if len(r.Checks) > 0 {
			t.Errorf("%s: %v", kind, r.Checks)
		}
		for _, s := range r.Speeds {
			if s.First.Torque < box.Torque {
				t.Errorf("%s: %s is over its limits", kind, s.Name)
			}
		}
	}
	if StarterOf("none") != nil {
		t.Error("there is a file of no kind")
	}
}
