package iso6336

import (
	"reflect"
	"sync"
	"testing"

	"layshaft/gearstress/involute"
)

func TestFormsAreRememberedByWhatTheyFollowFrom(t *testing.T) {
	var forms Forms
	of := func(face float64, e Edition, residual [2]float64) *Form {
		t.Helper()
		spec := helicalSpec()
		spec.Face = face
		f, err := forms.Of(pairOf(t, spec), e, residual)
		if err != nil {
			t.Fatal(err)
		}
		fresh, err := NewForm(pairOf(t, spec), e, residual)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(f, fresh) {
			t.Errorf("face %g, %v: remembered %+v, fresh %+v", face, e, f, fresh)
		}
		return f
	}
	first := of(20, Edition2019, [2]float64{})
	if of(20, Edition2019, [2]float64{}) != first {
		t.Error("the same pair was worked out twice")
	}
	if of(21, Edition2019, [2]float64{}) == first || of(20, Edition2006, [2]float64{}) == first || of(20, Edition2019, [2]float64{0.05, 0}) == first {
		t.Error("another pair has the form of the first")
	}
	if _, err := forms.Of(nil, Edition2019, [2]float64{}); err == nil {
		t.Error("no pair was taken")
	}
	if _, err := forms.Of(pairOf(t, helicalSpec()), 7, [2]float64{}); err == nil {
		t.Error("an unknown edition was taken")
	}
	var all sync.WaitGroup
	for i := range 4 {
		all.Go(func() {
			for k := range mostForms {
				spec := helicalSpec()
				spec.Face = 15 + float64(i*mostForms+k)/1000
				p, err := involute.New(spec)
				if err == nil {
					_, err = forms.Of(p, Edition2019, [2]float64{})
				}
				if err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	if n := len(forms.found); n == 0 || n > mostForms {
		t.Errorf("%d forms are kept, want at most %d", n, mostForms)
	}
}
