package page

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// luminance is the relative luminance of "#rrggbb" (W3C, Web Content Accessibility Guidelines 2.1, definition of relative luminance).
func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	n, err := strconv.ParseUint(strings.TrimPrefix(colour, "#"), 16, 32)
	if err != nil || len(colour) != 7 {
		t.Fatalf("colour %q is not of the form #rrggbb", colour)
	}
	part := func(shift uint) float64 {
		c := float64(n>>shift&255) / 255
		if c <= 0.03928 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*part(16) + 0.7152*part(8) + 0.0722*part(0)
}

// Text stands out by at least 4.5 to 1 on what it is written on, light and dark (the same guidelines, success criterion 1.4.3).
func TestTextStandsOut(t *testing.T) {
	blocks := regexp.MustCompile(`(?s):root(?::not\(\.paper\))? \{(.*?)\}`).FindAllStringSubmatch(styleText, -1)
	if len(blocks) != 2 {
		t.Fatalf("%d palettes in page.css, want a light and a dark one", len(blocks))
	}
	for i, block := range blocks {
		colour := map[string]string{}
		for _, m := range regexp.MustCompile(`--([a-z0-9-]+): (#[0-9a-f]{6})`).FindAllStringSubmatch(block[1], -1) {
			colour[m[1]] = m[2]
		}
		pairs := [][2]string{{"clear", "clear-back"}, {"thin", "thin-back"}, {"over", "over-back"}, {"sheet", "ink"}, {"ink", "fill0"}, {"ink", "fill1"}, {"plate-ink", "plate"}}
		for _, text := range []string{"ink", "muted", "link", "box0", "box1", "box2", "box3"} {
			pairs = append(pairs, [2]string{text, "paper"}, [2]string{text, "sheet"})
		}
		for _, p := range pairs {
			a, b := luminance(t, colour[p[0]]), luminance(t, colour[p[1]])
			if ratio := (max(a, b) + 0.05) / (min(a, b) + 0.05); ratio < 4.5 {
				t.Errorf("%s: %s on %s stands out by %.2f to 1, want 4.5", []string{"light", "dark"}[i], p[0], p[1], ratio)
			}
		}
		// On a flank, bare is palest and much load darkest, on a dark screen too, as on a real print.
		plate, little, much := luminance(t, colour["plate"]), luminance(t, colour["mark0"]), luminance(t, colour["mark1"])
		if plate <= little || (little+0.05)/(much+0.05) < 4.5 {
			t.Errorf("%s: plate, little and much load have the luminances %.3f, %.3f and %.3f", []string{"light", "dark"}[i], plate, little, much)
		}
	}
}

func TestHeadingsAreInOrder(t *testing.T) {
	text := comparePage(t, plainNames, birch())
	level := 0
	for _, m := range regexp.MustCompile(`<h([1-6])[ >]`).FindAllStringSubmatch(strings.Replace(text, echartsText, "", 1), -1) {
		n, _ := strconv.Atoi(m[1])
		if n > level+1 {
			t.Errorf("a heading of level %d follows one of level %d", n, level)
		}
		level = n
	}
}

func TestEveryChartAndTableIsDescribed(t *testing.T) {
	text := strings.Replace(comparePage(t, plainNames, birch()), echartsText, "", 1)
	for _, m := range regexp.MustCompile(`<div class="chart"[^>]*>`).FindAllString(text, -1) {
		if alt := regexp.MustCompile(`aria-label="([^"]*)"`).FindStringSubmatch(m); alt == nil || !strings.ContainsAny(alt[1], "0123456789") {
			t.Errorf("a chart has no words with its values: %s", m)
		}
	}
	if tables, captions := strings.Count(text, "<table"), strings.Count(text, "<caption"); tables != captions {
		t.Errorf("%d tables, %d captions", tables, captions)
	}
	if bare := regexp.MustCompile(`<th( role="[a-z]*")?>`).FindString(text); bare != "" {
		t.Errorf("a table head without scope: %s", bare)
	}
}
