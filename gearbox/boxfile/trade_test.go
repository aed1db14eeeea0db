package boxfile

import (
	"slices"
	"strings"
	"testing"

	rolling "layshaft/beam/bearing"
	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// What the workshop writes is read as the word of the box file that it says.
func TestWordsOfTheTradeAreUnderstood(t *testing.T) {
	helical := func(hand string) string {
		return strings.Replace(plain, "module: 2.5 mm", "module: 2.5 mm, helix: 10°, hand: "+hand, 1)
	}
	typed := func(word string) string { return strings.Replace(plain, "type: plain", "type: "+word, 1) }
	turning := func(word string) string { return strings.Replace(plain, "170 N·m}", "170 N·m, turns: "+word+"}", 1) }
	drives := func(word string) string {
		return strings.Replace(plain, "speeds:\n", "car: {tyre_radius: 0.29 m, grip: 1.2, mass: 620 kg, drive: "+word+
			", driven_share: 55 %, wheelbase: 2.3 m, centre_of_gravity: 0.4 m}\nspeeds:\n", 1)
	}
	opened := func(word string) string {
		return strings.Replace(plain, "speeds:\n", "history: [{survived: 100 N·m, opened: "+word+"}]\nspeeds:\n", 1)
	}
	shown := func(word string) string { return strings.Replace(plain, "name: Alder", "name: Alder\nunits: "+word, 1) }
	sense := func(b *gearbox.Box) any { return b.Turns }
	hand := func(b *gearbox.Box) any { return b.Meshes[0].Hand }
	kind := func(b *gearbox.Box) any { return b.Shafts[0].Bearings[0].Type }
	found := func(b *gearbox.Box) any { return b.Evidence[0].Opened }
	for _, c := range []struct {
		words []string
		file  func(word string) string
		read  func(b *gearbox.Box) any
		want  any
	}{
		{[]string{"clockwise", "Clockwise", "CW", "cw", "c.w.", "right-hand"}, turning, sense, 1},
		{[]string{"anticlockwise", "anti-clockwise", "CCW", "ACW", "counterclockwise", "Counter-Clockwise"}, turning, sense, -1},
		{[]string{"right", "Right", "RH", "R", "right-hand", "Right handed"}, helical, hand, gearbox.Right},
		{[]string{"left", "LH", "L.H.", "left-handed"}, helical, hand, gearbox.Left},
		{[]string{"deep groove ball", "Deep groove ball bearing", "deep-groove ball", "deep groove"}, typed, kind, gearbox.DeepGrooveBall},
		{[]string{"needle bearing", "needle roller bearing", "Needle"}, typed, kind, gearbox.NeedleRoller},
		{[]string{"taper roller", "tapered roller bearing", "tapered"}, typed, kind, gearbox.TaperedRoller},
		{[]string{"cylindrical roller bearing", "Cylindrical"}, typed, kind, gearbox.CylindricalRoller},
		{[]string{"bush", "plain bearing", "journal bearing"}, typed, kind, gearbox.Plain},
		{[]string{"rear", "RWD", "rear-wheel"}, drives, func(b *gearbox.Box) any { return b.Car.Drive }, gearbox.RearDrive},
		{[]string{"yes", "Yes", "true", "TRUE"}, opened, found, true},
		{[]string{"no", "No", "false"}, opened, found, false},
		{[]string{"us", "US", "imperial"}, shown, func(b *gearbox.Box) any { return b.Units }, quantity.US},
		{[]string{"metric", "SI"}, shown, func(b *gearbox.Box) any { return b.Units }, quantity.Metric},
	} {
		for _, word := range c.words {
			box, list := Read("alder.yaml", []byte(c.file(word)))
			if box == nil {
				t.Errorf("%s: %v", word, list)
			} else if got := c.read(box); got != c.want {
				t.Errorf("%s is read as %v, want %v", word, got, c.want)
			}
		}
	}
}

// X and DF, O and DB: face to face, back to back.
func TestArrangementsAsCataloguesHaveThem(t *testing.T) {
	for word, want := range map[string]rolling.Arrangement{
		"X": rolling.FaceToFace, "DF": rolling.FaceToFace, "face-to-face": rolling.FaceToFace,
		"O": rolling.BackToBack, "db": rolling.BackToBack, "Back to back": rolling.BackToBack,
	} {
		said, ok := understood("arrangement", word, []string{"back to back", "face to face"})
		if !ok || arrangements[said] != want {
			t.Errorf("%s is read as %q", word, said)
		}
	}
}

// No synonym and no other name of a key stands for what isn't there, or for a second word of the box file.
func TestSynonymsLeadSomewhere(t *testing.T) {
	written, keys := map[string]bool{}, map[string]bool{}
	for _, k := range Schema() {
		for _, w := range strings.Split(k.Written, " | ") {
			written[w] = true
		}
		keys[k.Path[strings.LastIndex(k.Path, ".")+1:]] = true
	}
	for what, words := range synonyms {
		for word, says := range words {
			if !written[says] || plainWord(word) != word || plainWord(says) == word {
				t.Errorf("%s %q says %q", what, word, says)
			}
			if _, both := doubtful[what][word]; both {
				t.Errorf("%s %q is sure and doubtful", what, word)
			}
		}
	}
	for what, words := range doubtful {
		for word, says := range words {
			if !written[says] || plainWord(word) != word {
				t.Errorf("%s %q says %q", what, word, says)
			}
		}
	}
	for word, all := range otherKeys {
		if i := slices.IndexFunc(all, func(k string) bool { return !keys[k] }); i >= 0 || plainWord(word) != word {
			t.Errorf("%q stands for %v", word, all)
		}
	}
}

func TestNamesThatLookAlike(t *testing.T) {
	for _, c := range []struct {
		a, b  string
		alike bool
	}{
		{"pinion", "pinion", true},
		{"pinion", "Pinion", true},
		{"pinion", "pin ion", true},
		{"pinion", "p\u0456nion", true},       // Cyrillic
		{"H1", "\u041d1", true},               // Cyrillic
		{"H1", "\u03971", true},               // Greek
		{"erh\u00f6ht", "erho\u0308ht", true}, // composed and decomposed
		{"1st", "1\u200bst", true},            // zero-width space
		{"1st", "1\u00adst", true},            // soft hyphen
		{"1st", "１st", true},                  // full width
		{"pinion", "pinions", false},
		{"erhöht", "erhoht", false},
		{"z1", "zl", false},
		{"1st", "2nd", false},
		{"вал", "шум", false},
	} {
		if got := asSeen(c.a) == asSeen(c.b); got != c.alike {
			t.Errorf("%q and %q: %v, want %v", c.a, c.b, got, c.alike)
		}
	}
}
