package gearbox

import (
	"math"
	"reflect"
	"sync"
	"testing"

	"layshaft/gearstress/involute"
)

func TestTeethAreRememberedByTheirGeometry(t *testing.T) {
	spec := involute.Spec{Module: 2, Helix: 0.4, Rack: involute.StandardRack, Teeth: [2]int{21, 39}, ShiftKnown: [2]bool{true, true}, Face: 20}
	var cache teethCache
	of := func(change func(*involute.Spec)) *teeth {
		t.Helper()
		s := spec
		change(&s)
		got, err := cache.of(s)
		if err != nil {
			t.Fatal(err)
		}
		fresh, err := newTeeth(s)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(got.geometry, fresh.geometry) || !reflect.DeepEqual(got.form, fresh.form) || !reflect.DeepEqual(got.lewis, fresh.lewis) {
			t.Errorf("%+v: remembered %+v, fresh %+v", s, got, fresh)
		}
		for k := range got.section {
			a, err := got.section[k]()
			if err != nil {
				t.Fatal(err)
			}
			if b, err := fresh.geometry.Section(k); err != nil || a != b {
				t.Errorf("section %d remembered %+v, fresh %+v, %v", k, a, b, err)
			}
		}
		return got
	}
	first := of(func(*involute.Spec) {})
	if of(func(*involute.Spec) {}) != first {
		t.Error("the same pair was worked out twice")
	}
	for what, change := range map[string]func(*involute.Spec){
		"face": func(s *involute.Spec) { s.Face = 21 }, "shift": func(s *involute.Spec) { s.Shift[1] = 0.1 }, "tool": func(s *involute.Spec) { s.Rack.TipRadius = 0.3 },
		"thinning": func(s *involute.Spec) { s.Thinning[0] = 0.05 }, "tip": func(s *involute.Spec) { s.TipDiameter[0] = 49.2 },
	} {
		if of(change) == first {
			t.Errorf("another %s has the teeth of the first", what)
		}
	}
	broken := spec
	broken.Module = math.NaN()
	if _, err := cache.of(broken); err == nil {
		t.Error("a pair without module was taken")
	}
}

func TestRememberedTeethAreBounded(t *testing.T) {
	var cache teethCache
	var all sync.WaitGroup
	for i := range 4 {
		all.Go(func() {
			for k := range mostTeeth/2 + 1 {
				spec := involute.Spec{Module: 2, Rack: involute.StandardRack, Teeth: [2]int{21, 39}, ShiftKnown: [2]bool{true, true}, Face: 20 + float64(i*mostTeeth+k)/1000}
				if got, err := cache.of(spec); err != nil || got.geometry.Face != spec.Face {
					t.Errorf("%v, %v", got, err)
				}
			}
		})
	}
	all.Wait()
	if n := len(cache.found); n == 0 || n > mostTeeth {
		t.Errorf("%d pairs are kept, want at most %d", n, mostTeeth)
	}
}
