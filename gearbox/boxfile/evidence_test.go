package boxfile

import (
	"reflect"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/material"
)

func TestServiceHistory(t *testing.T) {
	box := read(t, "rated.yaml")
	want := []gearbox.Evidence{
		{Torque: 180e3, Peak: 220e3, Passes: 120, Opened: true, Note: "after the season"},
		{Torque: 260e3, Broke: true, Speed: "2nd", Gear: "small pinion", By: gearbox.BrokenRoot},
	}
	if !reflect.DeepEqual(box.Evidence, want) {
		t.Errorf("%+v, want %+v", box.Evidence, want)
	}
	if p := box.Place("history.1.broke"); p.Line == 0 || p.Width != len([]rune("260 N·m")) {
		t.Errorf("the torque at which it broke stands at %+v", p)
	}
}

// Older files call it evidence: it is read all the same, and stands under the new name.
func TestServiceHistoryByItsOlderName(t *testing.T) {
	old := strings.Replace(plain, "speeds:\n", "evidence: [{survived: 300 N·m}]\nspeeds:\n", 1)
	box, found := Read("x.yaml", []byte(old))
	if found.HasErrors() {
		t.Fatal(found)
	}
	if len(box.Evidence) != 1 || box.Evidence[0].Torque != 300e3 || box.Place("history.0.survived").Line == 0 {
		t.Errorf("%+v at %+v", box.Evidence, box.Place("history.0.survived"))
	}
}

// A steel that is like a known one has its figures, with their sources, but for those that are given.
func TestSteelLikeAKnownOne(t *testing.T) {
	box := read(t, "rated.yaml")
	got, ok := box.Steel("club stock")
	if !ok {
		t.Fatal("no steel of that name")
	}
	want, _ := material.Find("case-carburised")
	want.Name, want.Title, want.About, want.Batch, want.ElasticSource = got.Name, got.Title, got.About, "lot 7", got.ElasticSource
	want.RootLimit = material.Band{Low: 400, Typical: 461, High: 500, Source: "the box file"}
	if got != want {
		t.Errorf("%+v\nwant %+v", got, want)
	}
	soft := strings.Replace(plain, "shafts:\n", "steels: {mine: {like: carbon-steel, young: 200 GPa, density: 7 g/cm³, group: normalised, source: the drawing, yield: 300 MPa}}\nshafts:\n", 1)
	other, found := Read("x.yaml", []byte(soft))
	if found.HasErrors() {
		t.Fatal(found)
	}
	s, known := other.Steels[0], must(material.Find("carbon-steel"))
	if s.Young != 200e3 || s.Poisson != known.Poisson || s.Density != 7e-6 || s.Yield != (material.Band{Low: 300, Typical: 300, High: 300, Source: "the drawing"}) || s.FlankLimit != known.FlankLimit {
		t.Errorf("%+v", s)
	}
}

func must(s material.Steel, ok bool) material.Steel {
	if !ok {
		panic("no such steel")
	}
	return s
}
