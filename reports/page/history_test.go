package page

import (
	"bytes"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/study"
)

func TestPageTellsServiceHistory(t *testing.T) {
	r := sample(t, plainNames, 2, 170e3)
	text := checkPage(t, r)
	for _, want := range []string{
		"Service history, and what it says of the steel", "Alder survived 290\u00a0N·m for 40 passes in 1st. No shock factor.",
		"Alder broke at 420\u00a0N·m: first wheel, flank.", "Alder broke at 480\u00a0N·m after 1 pass. No shock factor.",
		"<td>≥ 1414", "(≥ 944)", "<td>≤ 1600", "peak at flank of first pinion<td class=w>1st", strings.ReplaceAll(study.EvidenceCaveat(), "'", "&#39;"),
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page doesn't say %q", want)
		}
	}
	r.Box.Narrowed = nil
	if text := checkPage(t, r); !strings.Contains(text, "None of it narrows a band") {
		t.Error("the page doesn't say that nothing was narrowed")
	}
	r.Box.Lessons = nil
	if text := checkPage(t, r); strings.Contains(text, "Service history, and") {
		t.Error("the page tells of evidence where there is none")
	}
}

// Boxes of unlike steel stand at equal steel first; where that changes nothing, one sentence says so.
func TestPageSetsBoxesAtEqualSteelFirst(t *testing.T) {
	write := func(c *study.Comparison) string {
		var b bytes.Buffer
		if err := Compare(&b, c, testOptions); err != nil {
			t.Fatal(err)
		}
		return b.String()
	}
	c := pair(t, plainNames, birch())
	if text := write(c); strings.Contains(text, "of the same steel") {
		t.Error("steels that are alike are called unlike")
	}
	c.Equal = c.Results
	if text := write(c); !strings.Contains(text, "with all of that of <bdi>Alder</bdi> the answer is the same") || strings.Count(text, `<ul class="cards">`) != 1 {
		t.Error("the same answer is told twice, or not at all")
	}
	other := sample(t, birch(), 4, 170e3)
	other.Speeds[0].Margins[0].Margin, other.Speeds[0].Margins[0].Item = -0.31, "weak pinion"
	c.Equal = []*gearbox.Result{c.Results[0], other}
	text := write(c)
	cards := strings.LastIndex(text, `<ul class="cards">`)
	if first, own := strings.Index(text, "weak pinion"), strings.Index(text, "each of its own steel"); first < cards || own < first {
		t.Error("the boxes don't stand at equal steel before their own")
	}
}
