package boxfile

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"layshaft/gearbox/diag"
)

// synonyms are words of the trade that say the same as a word of the box file, by what the word stands for. They are written as plainWord has them.
var synonyms = map[string]map[string]string{
	"sense": {"cw": "clockwise", "righthand": "clockwise", "ccw": "anticlockwise", "acw": "anticlockwise", "counterclockwise": "anticlockwise"},
	"hand": {"rh": "right", "r": "right", "righthand": "right", "righthanded": "right",
		"lh": "left", "l": "left", "lefthand": "left", "lefthanded": "left"},
	"units":  {"si": "metric", "mm": "metric", "imperial": "us", "inch": "us", "usa": "us"},
	"answer": {"true": "yes", "y": "yes", "false": "no", "n": "no"},
	"drive": {"rwd": "rear", "rearwheel": "rear", "rearwheels": "rear", "fwd": "front", "frontwheel": "front", "frontwheels": "front",
		"awd": "all", "4wd": "all", "four": "all", "fourwheel": "all"},
	// X and DF, O and DB are how catalogues and drawings have them.
	"arrangement": {"x": "face to face", "df": "face to face", "o": "back to back", "db": "back to back"},
	"bearing type": {"deepgroove": "deep groove ball", "needle": "needle roller", "needles": "needle roller", "tapered": "tapered roller",
		"taper": "tapered roller", "taperroller": "tapered roller", "cylindrical": "cylindrical roller", "sleeve": "plain", "bush": "plain", "bushing": "plain", "journal": "plain"},
}

// doubtful are words of the trade that may stand for more than one word of the box file, with the one that is meant most often.
var doubtful = map[string]map[string]string{
	"bearing type": {"ball": "deep groove ball", "roller": "cylindrical roller", "spherical": "self-aligning", "sphericalroller": "self-aligning",
		"angularcontact": "deep groove ball", "angularcontactball": "deep groove ball"},
	"sense": {"right": "clockwise", "left": "anticlockwise"},
}

// plainWord is a word without what people write in different ways: capitals, blanks, hyphens, points, and the "bearing" behind its type.
func plainWord(text string) string {
	bare := strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || strings.ContainsRune("-_./", r) {
			return -1
		}
		return unicode.ToLower(r)
	}, text)
	for _, end := range []string{"bearing", "bearings"} {
		if before, ok := strings.CutSuffix(bare, end); ok && before != "" {
			return before
		}
	}
	return bare
}

// understood is the word of the box file that a text says, if it says one.
func understood(what, text string, words []string) (word string, ok bool) {
	said := plainWord(text)
	if i := slices.IndexFunc(words, func(w string) bool { return plainWord(w) == said }); i >= 0 {
		return words[i], true
	}
	word, ok = synonyms[what][said]
	return word, ok
}

// perhaps is the sentence that proposes what a text may mean that isn't understood, with a space before it; "" when nobody knows.
func perhaps(what, text string, words []string) string {
	if word, ok := doubtful[what][plainWord(text)]; ok {
		return " Did you mean " + strconv.Quote(word) + "?"
	}
	return didYouMean(text, words)
}

// otherKeys are keys by what else the trade calls them; where a map knows several, the first counts.
var otherKeys = map[string][]string{
	"od": {"outer", "tip_diameter"}, "outsidediameter": {"outer", "tip_diameter"}, "outerdiameter": {"outer", "tip_diameter"}, "diameter": {"outer", "tip_diameter"},
	"dia": {"outer", "tip_diameter"}, "ø": {"outer"}, "id": {"bore"}, "inner": {"bore"}, "hole": {"bore"}, "innerdiameter": {"bore"}, "insidediameter": {"bore"},
	"width": {"face", "length", "distance"}, "facewidth": {"face"}, "b": {"face"}, "thickness": {"face", "length"}, "len": {"length"}, "z": {"teeth"}, "n": {"teeth", "count"},
	"toothcount": {"teeth"}, "numberofteeth": {"teeth"}, "x": {"shift", "at"}, "profileshift": {"shift"}, "addendummodification": {"shift"}, "tipdia": {"tip_diameter"},
	"mn": {"module"}, "mod": {"module"}, "m": {"module"}, "dp": {"diametral_pitch"}, "pa": {"pressure_angle"}, "alpha": {"pressure_angle"}, "beta": {"helix"}, "helixangle": {"helix"},
	"rotation": {"turns"}, "direction": {"turns"}, "rpm": {"revs"}, "position": {"at"}, "pos": {"at"}, "centers": {"centres"}, "center": {"centres"}, "centredistance": {"centres", "distance"},
	"centerdistance": {"centres", "distance"}, "material": {"steel"}, "materials": {"steels"}, "ratios": {"speeds"}, "case": {"housing"}, "comment": {"about", "note"},
	"description": {"about"}, "remark": {"note", "about"}, "remarks": {"note", "about"}, "c": {"dynamic"}, "c0": {"static"}, "endfloat": {"end_play"}, "play": {"clearance", "end_play"},
	"backlash": {"thinning"}, "centerofgravity": {"centre_of_gravity"}, "tireradius": {"tyre_radius"},
}

// keyFor is the key of a map that an unknown one most likely stands for, and the sentence that says so, with a space before it; both are "" when nobody
// knows.
func keyFor(word string, known []string) (key, says string) {
	for _, k := range otherKeys[plainWord(word)] {
		if slices.Contains(known, k) {
			return k, " Here it is called " + strconv.Quote(k) + "."
		}
	}
	if near, ok := diag.Nearest(word, known); ok {
		return near, " Did you mean " + strconv.Quote(near) + "?"
	}
	return "", ""
}
