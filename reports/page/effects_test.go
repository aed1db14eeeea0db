package page

import (
	"bytes"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/study"
)

// The table has a row for what moves the answer, sentences stand around it, and names from a file are shown as text.
func TestEffectsOnThePage(t *testing.T) {
	first := func(torque float64) study.First {
		return study.First{Speed: "1st", FirstLimit: gearbox.FirstLimit{Kind: gearbox.ShaftYield, Item: "<b>input</b>", Torque: torque}}
	}
	o := testOptions
	o.Effects = [][]study.Effect{nil, {
		{Assumed: gearbox.Assumption{Words: "case", Value: "rigid"}, Other: "300 N/µm", Before: first(200e3), After: first(123.4e3)},
		{Assumed: gearbox.Assumption{Words: "crowning", Parts: []string{"<i>final</i>"}, Value: "none"}, Other: "5 µm", Before: first(200e3), After: first(200e3)},
	}}
	var w bytes.Buffer
	if err := Check(&w, []*gearbox.Result{sample(t, plainNames, 2, 170e3), sample(t, plainNames, 2, 170e3)}, o); err != nil {
		t.Fatal(err)
	}
	text := w.String()
	i := strings.Index(text, `<h2 id="h-assumed">What was assumed, and what it does</h2>`)
	if i < 0 {
		t.Fatal("no part about what was assumed")
	}
	part := text[i : i+strings.Index(text[i:], "</section>")]
	for words, want := range map[string]int{"<h3": 1, "crowning of &lt;i&gt;final&lt;/i&gt;, none (tried: 5 µm)": 1, "<td>123": 1, "300 N/µm": 1, "&lt;b&gt;input": 1, "<b>input": 0, "<i>final": 0} {
		if n := strings.Count(part, words); n != want {
			t.Errorf("%q stands there %d times, want %d:\n%s", words, n, want, part)
		}
	}
	if strings.Contains(checkPage(t, sample(t, plainNames, 2, 170e3)), "h-assumed") {
		t.Error("a page without effects has the part")
	}
}
