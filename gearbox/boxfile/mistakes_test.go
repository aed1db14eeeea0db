package boxfile

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"layshaft/gearbox/diag"
)

var update = flag.Bool("update", false, "rewrite testdata/mistakes.txt")

// plain is a sound file, short enough that a mistake in it stands out. All its numbers are invented.
const plain = `layshaft: 1
name: Alder
input: {shaft: input, at: 6 mm, torque: 170 N·m}
output: {shaft: output, at: 60 mm}
shafts:
  input:
    sections:
      - {length: 80 mm, outer: 30 mm, bore: 10 mm}
    bearings:
      left: {at: 12 mm, type: plain}
      right: {at: 70 mm, type: plain, axial: fixed}
  output:
    sections:
      - {length: 80 mm, outer: 30 mm}
    bearings:
      left: {at: 12 mm, type: plain}
      right: {at: 70 mm, type: plain, axial: fixed}
centres:
  - {between: [input, output], distance: 78 mm}
gears:
  pinion:
    shaft: input
    at: 40 mm
    teeth: 14
    face: 24 mm
  wheel: {shaft: output, at: 40 mm, teeth: 42, face: 24 mm}
meshes:
  first: {driver: pinion, driven: wheel, module: 2.5 mm}
speeds:
  1st: [first]
`

// Each mistake is made in plain by putting one text in the place of another. An empty old text stands for the whole file.
var mistakes = []struct{ name, old, with string }{
	// keys
	{"unknown key", "    teeth: 14", "    theeth: 14"},
	{"unknown key far from any", "  wheel: {", "  wheel: {colour: red, "},
	{"unknown key at the top", "name: Alder", "name: Alder\ngear: 3"},
	{"duplicate key", "    face: 24 mm\n", "    face: 24 mm\n    teeth: 15\n"},
	{"duplicate name", "  wheel: {", "  pinion: {"},
	{"names too alike", "meshes:\n", "  Wheel: {shaft: output, at: 40 mm, teeth: 42, face: 24 mm}\nmeshes:\n"},
	{"missing key", "    teeth: 14\n", ""},
	{"missing key at the top", "name: Alder\n", ""},
	{"missing gears", "gears:\n  pinion:\n    shaft: input\n    at: 40 mm\n    teeth: 14\n    face: 24 mm\n  wheel: {shaft: output, at: 40 mm, teeth: 42, face: 24 mm}\n", ""},
	{"missing module", ", module: 2.5 mm", ""},
	{"key that is a list", "name: Alder", "name: Alder\n[a, b]: c"},
	{"merge key", "    teeth: 14\n", "    teeth: 14\n    <<: {steel: x}\n"},
	// clutch and car
	{"notch of no shape", "      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "      right: {at: 70 mm, type: plain, axial: fixed}\n    notches: {step: {shape: sholder, at: 40 mm, radius: 1 mm}}\n  output:"},
	{"shoulder without its radius", "      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "      right: {at: 70 mm, type: plain, axial: fixed}\n    notches: {step: {shape: shoulder, at: 40 mm}}\n  output:"},
	{"size of another shape", "      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "      right: {at: 70 mm, type: plain, axial: fixed}\n    notches: {oil: {shape: cross hole, at: 40 mm, hole: 3 mm, root: 28 mm}}\n  output:"},
	{"radius in micrometres", "      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "      right: {at: 70 mm, type: plain, axial: fixed}\n    notches: {ring: {shape: circlip groove, at: 40 mm, depth: 1 mm, radius: 0.2 m}}\n  output:"},
	{"dogs of a fast gear", "  wheel: {", "  wheel: {dogs: {teeth: 6, diameter: 60 mm, height: 5 mm, length: 4 mm, thickness: 9 mm}, "},
	{"key without its width", "      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "      right: {at: 70 mm, type: plain, axial: fixed}\n    joints: {key: {type: key, at: 40 mm, length: 20 mm, height: 7 mm}}\n  output:"},
	{"bolts of no class", "  wheel: {", "  wheel: {bolts: {count: 8, thread: M10, class: 9.8, circle: 80 mm}, "},
	{"clutch told twice", "speeds:\n", "clutch: {torque: 420 N·m, clamp: 9.4 kN}\nspeeds:\n"},
	{"clutch told by half", "speeds:\n", "clutch: {clamp: 9.4 kN, mean_radius: 110 mm}\nspeeds:\n"},
	{"clutch without anything", "speeds:\n", "clutch: {}\nspeeds:\n"},
	{"misspelt key of a clutch", "speeds:\n", "clutch: {clamp: 9.4 kN, mean_radius: 110 mm, fricton: 0.3}\nspeeds:\n"},
	{"car without its tyres", "speeds:\n", "car: {axle_ratio: 3.9}\nspeeds:\n"},
	{"car told by half", "speeds:\n", "car: {tyre_radius: 0.29 m, grip: 1.2, mass: 620 kg, drive: rear, wheelbase: 2.3 m}\nspeeds:\n"},
	{"share of the weight where all wheels drive", "speeds:\n", "car: {tyre_radius: 0.29 m, grip: 1.2, mass: 620 kg, drive: all, driven_share: 55 %}\nspeeds:\n"},
	{"unknown drive", "speeds:\n", "car: {tyre_radius: 0.29 m, grip: 1.2, mass: 620 kg, drive: reer, driven_share: 55 %, wheelbase: 2.3 m, centre_of_gravity: 0.4 m}\nspeeds:\n"},
	{"share of the weight without its percent sign", "speeds:\n", "car: {tyre_radius: 0.29 m, grip: 1.2, mass: 620 kg, drive: rear, driven_share: 55, wheelbase: 2.3 m, centre_of_gravity: 0.4 m}\nspeeds:\n"},
	{"tyre measured in millimetres, said in metres", "speeds:\n", "car: {tyre_radius: 290 m}\nspeeds:\n"},
	// numbers
	{"missing unit", "at: 6 mm", "at: 6"},
	{"wrong dimension", "at: 6 mm", "at: 6 N"},
	{"wrong dimension of a torque", "170 N·m", "170 N·m/rad"},
	{"unknown unit", "170 N·m", "170 Nn"},
	{"unknown unit in quotation marks", "170 N·m", `"170 Nn"`},
	{"unknown unit behind µ", "{between: [input, output], distance: 78 mm}", "{between: [input, output], distance: 78 mm ± 20 µn}"},
	{"decimal comma", "    at: 40 mm", "    at: 12,5 mm"},
	{"thousands separator", "    at: 40 mm", "    at: 1,000 mm"},
	{"decimal comma in braces", "distance: 78 mm", "distance: 67,5 mm"},
	{"two decimal commas in braces", "{length: 80 mm, outer: 30 mm, bore: 10 mm}", "{length: 80,5 mm, outer: 30,5 mm, bore: 10 ± 0,5 mm}"},
	{"decimal comma in braces without a unit", "wheel: {", "wheel: {shift: 0,35, "},
	{"thousands separator in braces", "distance: 78 mm", "distance: 1,078 mm"},
	{"two keys in braces", "distance: 78 mm", "distance: 78, 5 mm"},
	{"leading zero", "    teeth: 14", "    teeth: 017"},
	{"hexadecimal", "    teeth: 14", "    teeth: 0x10"},
	{"underscore", "    teeth: 14", "    teeth: 1_4"},
	{"broken number of teeth", "    teeth: 14", "    teeth: 20.5"},
	{"number of teeth with an exponent", "    teeth: 14", "    teeth: 1e2"},
	{"too few teeth", "    teeth: 14", "    teeth: 4"},
	{"not a number", "    teeth: 14", "    teeth: .nan"},
	{"infinite", "module: 2.5 mm", "module: .inf"},
	{"truth value", "    teeth: 14", "    teeth: true"},
	{"missing value", "    teeth: 14", "    teeth:"},
	{"missing value written as a tilde", "    teeth: 14", "    teeth: ~"},
	{"missing value in quotation marks", "    teeth: 14", `    teeth: ""`},
	{"negative tolerance", "    at: 40 mm", "    at: 40 ± -1 mm"},
	{"not positive", "    face: 24 mm", "    face: 0 mm"},
	{"bore not smaller than the shaft", "bore: 10 mm", "bore: 30 mm"},
	{"helix too steep", "module: 2.5 mm", "module: 2.5 mm, helix: 46°, hand: left"},
	{"pressure angle too small", "module: 2.5 mm", "module: 2.5 mm, pressure_angle: 9°"},
	{"efficiency too small", "module: 2.5 mm", "module: 2.5 mm, efficiency: 45 %"},
	{"reserve too large", "speeds:\n", "limits: {reserve: 600 %}\nspeeds:\n"},
	{"reserve in plain numbers", "speeds:\n", "limits: {reserve: 10}\nspeeds:\n"},
	{"efficiency in plain numbers", "module: 2.5 mm", "module: 2.5 mm, efficiency: 99"},
	{"number of teeth with a letter", "    teeth: 14", "    teeth: 36t"},
	{"number of teeth with a word", "    teeth: 14", "    teeth: 36 teeth"},
	{"wide tolerance", "distance: 78 mm", "distance: 78 mm ± 1 in"},
	{"torque of nothing", "170 N·m", "0 N·m"},
	{"torque of overrun", "170 N·m", "-170 N·m"},
	// kinds
	{"map where a list is expected", "    sections:\n      - {length: 80 mm, outer: 30 mm, bore: 10 mm}", "    sections: {length: 80 mm, outer: 30 mm}"},
	{"list where a map is expected", "{shaft: output, at: 60 mm}", "[output, 60 mm]"},
	{"text where a map is expected", "{shaft: output, at: 60 mm}", "output"},
	{"map where a number is expected", "    face: 24 mm", "    face: {low: 24 mm}"},
	{"empty list", "    sections:\n      - {length: 80 mm, outer: 30 mm, bore: 10 mm}", "    sections: []"},
	{"empty map", "    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "    bearings: {}\n  output:"},
	{"a list as the file", "", "- layshaft: 1\n"},
	// words and names
	{"unknown bearing type", "type: plain, axial", "type: cylindrical rollers, axial"},
	{"unknown stiffness word", "axial: fixed}\ncentres", "axial: fxied}\ncentres"},
	{"stiffness without a unit", "axial: fixed}\ncentres", "axial: 100}\ncentres"},
	{"unknown sense", "170 N·m}", "170 N·m, turns: backwards}"},
	{"sense that may be meant", "170 N·m}", "170 N·m, turns: right}"},
	{"bearing type that may be meant", "type: plain, axial", "type: Ball bearing, axial"},
	{"hand of neither side", "module: 2.5 mm", "module: 2.5 mm, helix: 20°, hand: both"},
	{"unknown units", "name: Alder", "name: Alder\nunits: furlongs"},
	{"key as a drawing has it", "outer: 30 mm, bore", "OD: 30 mm, ID"},
	{"key as the trade has it", "    face: 24 mm", "    width: 24 mm"},
	{"tolerance to one side", "outer: 30 mm, bore", "outer: ø30 mm -0.02, bore"},
	{"fit in place of a diameter", "outer: 30 mm, bore", "outer: 30h6, bore"},
	{"diameter without a unit", "outer: 30 mm, bore", "outer: ø30, bore"},
	{"names that look alike", "  wheel: {", "  pinіon: {shaft: output, at: 40 mm, teeth: 42, face: 24 mm}\n  wheel: {"},
	{"name composed and decomposed", "  1st: [first]\n", "  erh\u00f6ht: [first]\n  erho\u0308ht: [first]\n"},
	{"name with a character without width", "  1st: [first]\n", "  1st: [first]\n  1\u200bst: [first]\n"},
	{"name that looks like the one it refers to", "driver: pinion", "driver: pinіon"},
	{"text without an end", "name: Alder", "name: Alder\nabout: " + strings.Repeat("x", 2001)},
	{"note without an end", "speeds:\n", "history: [{survived: 300 N·m, note: " + strings.Repeat("x ", 1001) + "x}]\nspeeds:\n"},
	{"unknown shaft", "shaft: input, at: 6 mm", "shaft: inptu, at: 6 mm"},
	{"unknown gear", "driver: pinion", "driver: piston"},
	{"unknown mesh", "[first]", "[frist]"},
	{"unknown shaft in side", "gears:\n", "side: {outptu: positive}\ngears:\n"},
	{"steel band upside down", "shafts:\n", "steels: {mine: {yield: {low: 900 MPa, typical: 800 MPa, high: 700 MPa}, tensile: 1 GPa, contact: 1 GPa}}\nshafts:\n"},
	{"empty name", "name: Alder", `name: " "`},
	{"long name", "name: Alder", "name: " + strings.Repeat("ä", 61)},
	{"control character in a name", "  wheel: {", `  "wh\x1b[31meel": {`},
	{"direction mark in a name", "name: Alder", `name: "Al\u202Eder"`},
	{"space around a name", "name: Alder", `name: "Alder "`},
	{"control character in a remark", "name: Alder", "name: Alder\nabout: \"a\\u0007b\""},
	// parts that belong together
	{"pilot without its place", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: plain, in: output}\n  output"},
	{"pilot in its own shaft", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: plain, in: input, in_at: 3 mm}\n  output"},
	{"module and diametral pitch", "module: 2.5 mm", "module: 2.5 mm, diametral_pitch: 10"},
	{"helix without a hand", "module: 2.5 mm", "module: 2.5 mm, helix: 20°"},
	{"hand without a helix", "module: 2.5 mm", "module: 2.5 mm, hand: right"},
	{"gear that drives itself", "driven: wheel", "driven: pinion"},
	{"impossible rack", "module: 2.5 mm", "module: 2.5 mm, rack: {addendum: 1, dedendum: 1.25, tip_radius: 5}"},
	{"distance of one shaft", "[input, output]", "[input]"},
	{"distance from itself", "[input, output]", "[input, input]"},
	{"speed that is a word", "[first]", "first"},
	{"speed without meshes", "[first]", "[]"},
	{"path that starts elsewhere", "{driver: pinion, driven: wheel,", "{driver: wheel, driven: pinion,"},
	{"path that ends elsewhere", "{shaft: output, at: 60 mm}", "{shaft: input, at: 60 mm}"},
	{"path that breaks", "[first]", "[first, first]"},
	{"unused gear", "meshes:\n", "  spare: {shaft: output, at: 60 mm, teeth: 42, face: 24 mm}\nmeshes:\n"},
	{"unused mesh", "speeds:\n", "  second: {driver: pinion, driven: wheel, module: 2.5 mm}\nspeeds:\n"},
	// what is known beyond the first need
	{"part without mass", "shafts:\n", "parts: {case: {}}\nshafts:\n"},
	{"part with an inertia in N·m", "shafts:\n", "parts: {clutch disc: {inertia: 3 N·m, turns_with: input}}\nshafts:\n"},
	{"part that turns with an unknown shaft", "shafts:\n", "parts: {clutch disc: {mass: 1 kg, turns_with: inptu}}\nshafts:\n"},
	{"parts too alike", "shafts:\n", "parts: {case: {mass: 9 kg}, Case: {mass: 9 kg}}\nshafts:\n"},
	{"weighed without a unit", "shafts:\n", "weighed: {box: 38}\nshafts:\n"},
	{"weighed in newton", "shafts:\n", "weighed: {box: 380 N}\nshafts:\n"},
	{"weighed nothing", "shafts:\n", "weighed: {pieces: [{mass: 1.9 kg}]}\nshafts:\n"},
	{"weighed no gears", "shafts:\n", "weighed: {pieces: [{gears: [], mass: 1.9 kg}]}\nshafts:\n"},
	{"weighed without mass", "shafts:\n", "weighed: {pieces: [{shaft: input}]}\nshafts:\n"},
	{"weighed an unknown gear", "shafts:\n", "weighed: {pieces: [{gears: [whele], mass: 1.9 kg}]}\nshafts:\n"},
	{"weighed twice", "shafts:\n", "weighed: {pieces: [{gears: [wheel], mass: 1.9 kg}, {shaft: output, gears: [wheel], mass: 4 kg}]}\nshafts:\n"},
	{"hub without its diameter", "    face: 24 mm\n", "    face: 24 mm\n    hub: {length: 30 mm}\n"},
	{"bore of nothing", "    face: 24 mm\n", "    face: 24 mm\n    bore: 0 mm\n"},
	{"shock below 1", "170 N·m}", "170 N·m, shock: 0.8}"},
	{"revs without a unit", "170 N·m}", "170 N·m, revs: 6500}"},
	{"too many revs", "170 N·m}", "170 N·m, revs: 650000 rpm}"},
	{"viscosity in another unit", "shafts:\n", "oil: {viscosity: 100 mPa·s}\nshafts:\n"},
	{"oil without its viscosity", "shafts:\n", "oil: {}\nshafts:\n"},
	{"duty in an unknown speed", "shafts:\n", "duty: {passes: 200, steps: [{speed: 2nd, turns: 40}]}\nshafts:\n"},
	{"duty without steps", "shafts:\n", "duty: {passes: 200, steps: []}\nshafts:\n"},
	{"duty without torque", "shafts:\n", "duty: {passes: 200, steps: [{speed: 1st, turns: 40, torque: 0 %}]}\nshafts:\n"},
	{"duty with too much torque", "shafts:\n", "duty: {passes: 200, steps: [{speed: 1st, turns: 40, torque: 3000 %}]}\nshafts:\n"},
	{"step of a duty without length", "shafts:\n", "duty: {passes: 200, steps: [{speed: 1st}]}\nshafts:\n"},
	{"step of a duty told twice", "shafts:\n", "duty: {passes: 200, steps: [{speed: 1st, turns: 400, time: 12 s, revs: 6000 rpm}]}\nshafts:\n"},
	{"time of a duty without revs", "shafts:\n", "duty: {passes: 200, steps: [{speed: 1st, time: 12 s}]}\nshafts:\n"},
	{"launches without number", "shafts:\n", "duty: {passes: 200, launches: 0, steps: [{speed: 1st, turns: 400}]}\nshafts:\n"},
	{"duty without turns", "shafts:\n", "duty: {passes: 200, steps: [{speed: 1st, turns: 0}]}\nshafts:\n"},
	{"housing that says nothing", "shafts:\n", "housing: {}\nshafts:\n"},
	{"housing told twice", "shafts:\n", "housing: {radial: 300 N/µm, test: {speed: 1st, torque: 100 N·m, shaft: output, bearing: left, movement: 0.05 mm}}\nshafts:\n"},
	{"housing tested in an unknown speed", "shafts:\n", "housing: {test: {speed: 1th, torque: 100 N·m, shaft: output, bearing: left, movement: 0.05 mm}}\nshafts:\n"},
	{"housing tested at an unknown bearing", "shafts:\n", "housing: {test: {speed: 1st, torque: 100 N·m, shaft: output, bearing: lfet, movement: 0.05 mm}}\nshafts:\n"},
	{"history that says nothing", "speeds:\n", "history: [{passes: 20}]\nduty: {passes: 1, steps: [{speed: 1st, turns: 9}]}\nspeeds:\n"},
	{"history of two things", "speeds:\n", "history: [{survived: 300 N·m, broke: 400 N·m}]\nspeeds:\n"},
	{"history without a unit", "speeds:\n", "history: [{survived: 300}]\nspeeds:\n"},
	{"history of no torque", "speeds:\n", "history: [{broke: 0 N·m}]\nspeeds:\n"},
	{"history with a misspelt key", "speeds:\n", "history: [{survived: 300 N·m, pases: 200}]\nspeeds:\n"},
	{"history of passes without a duty", "speeds:\n", "history: [{survived: 300 N·m, passes: 200}]\nspeeds:\n"},
	{"history of no passes", "speeds:\n", "history: [{survived: 300 N·m, passes: 0}]\nduty: {passes: 1, steps: [{speed: 1st, turns: 9}]}\nspeeds:\n"},
	{"history in an unknown speed", "speeds:\n", "history: [{survived: 300 N·m, speed: 1ts}]\nspeeds:\n"},
	{"history of passes in a speed without duty", "speeds:\n", "history: [{broke: 300 N·m, passes: 20, speed: 2nd}]\nduty: {passes: 1, steps: [{speed: 1st, turns: 9}]}\nspeeds:\n  2nd: [first]\n"},
	{"survivor that broke something", "speeds:\n", "history: [{survived: 300 N·m, gear: pinion, by: flank}]\nspeeds:\n"},
	{"history opened and broken", "speeds:\n", "history: [{broke: 300 N·m, opened: yes}]\nspeeds:\n"},
	{"history opened by a number", "speeds:\n", "history: [{survived: 300 N·m, opened: 1}]\nspeeds:\n"},
	{"history by an unknown failure", "speeds:\n", "history: [{broke: 300 N·m, gear: pinion, by: tooth rot}]\nspeeds:\n"},
	{"history of an unknown gear", "speeds:\n", "history: [{broke: 300 N·m, gear: pinon}]\nspeeds:\n"},
	{"history of a gear and a shaft", "speeds:\n", "history: [{broke: 300 N·m, gear: pinion, by: shaft yield}]\nspeeds:\n"},
	{"history of a gear without load", "meshes:\n", "  spare: {shaft: output, at: 60 mm, teeth: 42, face: 24 mm}\nhistory: [{broke: 300 N·m, gear: spare}]\nmeshes:\n"},
	{"history of a gear in another speed", "meshes:\n  first: {driver: pinion, driven: wheel, module: 2.5 mm}\nspeeds:\n  1st: [first]\n",
		"  spare: {shaft: input, at: 60 mm, teeth: 14, face: 10 mm}\n  other: {shaft: output, at: 60 mm, teeth: 42, face: 10 mm}\n" +
			"meshes:\n  first: {driver: pinion, driven: wheel, module: 2.5 mm}\n  second: {driver: spare, driven: other, module: 2.5 mm}\n" +
			"speeds:\n  1st: [first]\n  2nd: [second]\nhistory: [{broke: 300 N·m, gear: spare, speed: 1st}]\n"},
	{"history of a peak below its torque", "speeds:\n", "history: [{survived: 300 N·m, peak: 200 N·m}]\nspeeds:\n"},
	{"history under both of its names", "speeds:\n", "evidence: [{survived: 300 N·m}]\nhistory: [{survived: 300 N·m}]\nspeeds:\n"},
	{"history that is no list", "speeds:\n", "history: {survived: 300 N·m}\nspeeds:\n"},
	{"history of nothing at all", "speeds:\n", "history: []\nspeeds:\n"},
	{"steel like an unknown one", "shafts:\n", "steels: {stock: {like: case-carburized}}\nshafts:\n"},
	{"steel without strengths", "shafts:\n", "steels: {stock: {batch: lot 4}}\nshafts:\n"},
	{"steel by a name that is a word", "shafts:\n", "steels: {unknown: {like: case-carburised}}\nshafts:\n"},
	{"unknown steel in other words", "shafts:\n", "steel: dunno\nshafts:\n"},
	{"batch without a name", "shafts:\n", "steels: {stock: {like: case-carburised, batch: }}\nshafts:\n"},
	{"steel like one, with a limit upside down", "shafts:\n", "steels: {stock: {like: case-carburised, root_limit: {low: 900 MPa, typical: 800 MPa, high: 700 MPa}}}\nshafts:\n"},
	{"housing tested in a direct speed", "speeds:\n", "housing: {test: {speed: top, torque: 100 N·m, shaft: output, bearing: left, movement: 0.05 mm}}\nspeeds:\n  top: direct\n"},
	{"housing tested at a pilot", "shafts:\n  input:\n    sections:\n      - {length: 80 mm, outer: 30 mm, bore: 10 mm}\n    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}", "housing: {test: {speed: 1st, torque: 100 N·m, shaft: input, bearing: right, movement: 0.05 mm}}\nshafts:\n  input:\n    sections:\n      - {length: 80 mm, outer: 30 mm, bore: 10 mm}\n    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, in: output, in_at: 3 mm}"},
	{"housing that moved too far", "shafts:\n", "housing: {test: {speed: 1st, torque: 100 N·m, shaft: output, bearing: left, movement: 5 cm}}\nshafts:\n"},
	{"housing of a pilot", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: plain, in: output, in_at: 3 mm, housing: 400 N/µm}\n  output"},
	{"elements of a plain bearing", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: plain, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm}}\n  output"},
	{"elements and stiffness", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: cylindrical roller, radial: 250 N/µm, tilt: free, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm}}\n  output"},
	{"elements that lack a number", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: cylindrical roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm}}\n  output"},
	{"rollers without a length", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: needle roller, elements: {count: 14, diameter: 7.5 mm, pitch: 52 mm}}\n  output"},
	{"rollers that do not fit", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: cylindrical roller, elements: {count: 24, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm}}\n  output"},
	{"balls with a length", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: deep groove ball, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm}}\n  output"},
	{"two mistakes in balls", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: deep groove ball, elements: {count: 9, diameter: 3 mm, pitch: 2 mm, clearance: 0.4 mm}}\n  output"},
	{"cylindrical rollers at an angle", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: cylindrical roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n  output"},
	{"balls at next to no angle", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: deep groove ball, elements: {count: 9, diameter: 8 mm, pitch: 40 mm, contact_angle: 0.1°}}\n  output"},
	{"contact angle too steep", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 85°}}\n  output"},
	{"clearance in millimetres", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: cylindrical roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, clearance: 10 mm}}\n  output"},
	{"rating of a self-aligning bearing", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: self-aligning, rating: {dynamic: 62 kN}}\n  output"},
	{"rating of nothing", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: cylindrical roller, rating: {}}\n  output"},
	{"rating with factors of tapered rollers", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: deep groove ball, rating: {dynamic: 62 kN, y: 1.6}}\n  output"},
	{"impossible rating", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: tapered roller, rating: {dynamic: 62 kN, e: 370, y: 1600}}\n  output"},
	{"rating far off", "right: {at: 70 mm, type: plain, axial: fixed}\n  output", "right: {at: 70 mm, type: cylindrical roller, rating: {dynamic: 62e6 kN}}\n  output"},
	{"pair of plain bearings", "    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "    pair: {arrangement: face to face, end_play: 20 µm}\n    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: tapered roller}\n  output:"},
	{"pair of one bearing", "    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "    pair: {arrangement: face to face, end_play: 20 µm}\n    bearings:\n      left: {at: 12 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n  output:"},
	{"pair with an unknown arrangement", "    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "    pair: {arrangement: belly to belly, end_play: 20 µm}\n    bearings:\n      left: {at: 12 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n      right: {at: 70 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n  output:"},
	{"pair that is not set", "    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "    pair: {arrangement: face to face}\n    bearings:\n      left: {at: 12 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n      right: {at: 70 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n  output:"},
	{"pair set twice", "    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "    pair: {arrangement: face to face, end_play: 20 µm, preload: 20 µm}\n    bearings:\n      left: {at: 12 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n      right: {at: 70 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n  output:"},
	{"rated pair with a setting", "    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "    pair: {arrangement: face to face, preload: 20 µm}\n    bearings:\n      left: {at: 12 mm, type: tapered roller, rating: {dynamic: 62 kN, y: 1.6}}\n      right: {at: 70 mm, type: tapered roller, rating: {dynamic: 62 kN, y: 1.6}}\n  output:"},
	{"rated pair without Y", "    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "    pair: {arrangement: face to face}\n    bearings:\n      left: {at: 12 mm, type: tapered roller, rating: {dynamic: 62 kN, y: 1.6}}\n      right: {at: 70 mm, type: tapered roller, rating: {dynamic: 62 kN}}\n  output:"},
	{"pair with negative end play", "    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "    pair: {arrangement: back to back, end_play: -20 µm}\n    bearings:\n      left: {at: 12 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n      right: {at: 70 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n  output:"},
	{"pair with a clearance", "    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "    pair: {arrangement: back to back, end_play: 20 µm}\n    bearings:\n      left: {at: 12 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n      right: {at: 70 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°, clearance: 10 µm}}\n  output:"},
	{"pair from right to left", "    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "    pair: {arrangement: back to back, end_play: 20 µm}\n    bearings:\n      left: {at: 75 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n      right: {at: 70 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n  output:"},
	{"pair of small rollers far apart", "    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "    pair: {arrangement: back to back, end_play: 0.3 mm}\n    bearings:\n      left: {at: 12 mm, type: tapered roller, elements: {count: 14, diameter: 2 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n      right: {at: 70 mm, type: tapered roller, elements: {count: 14, diameter: 2 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n  output:"},
	{"pair with a mistake in its rollers", "    bearings:\n      left: {at: 12 mm, type: plain}\n      right: {at: 70 mm, type: plain, axial: fixed}\n  output:", "    pair: {arrangement: back to back, end_play: 20 µm}\n    bearings:\n      left: {at: 12 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 0°}}\n      right: {at: 70 mm, type: tapered roller, elements: {count: 14, diameter: 7.5 mm, length: 9 mm, pitch: 52 mm, contact_angle: 15°}}\n  output:"},
	{"crowning in millimetres", "    face: 24 mm\n", "    face: 24 mm\n    crowning: 5 mm\n"},
	{"lead error without a unit", "    face: 24 mm\n", "    face: 24 mm\n    lead_error: -8\n"},
	{"relief longer than the face", "    face: 24 mm\n", "    face: 24 mm\n    relief_left: {length: 20 mm, amount: 6 µm}\n    relief_right: {length: 6 mm, amount: 6 µm}\n"},
	{"relief longer than the face at one end", "    face: 24 mm\n", "    face: 24 mm\n    relief_left: {length: 25 mm, amount: 6 µm}\n"},
	{"relief without its amount", "    face: 24 mm\n", "    face: 24 mm\n    relief_left: {length: 2 mm}\n"},
	{"seat without its clearance", "    face: 24 mm\n", "    face: 24 mm\n    seat: {length: 26 mm}\n"},
	{"seat that rattles", "    face: 24 mm\n", "    face: 24 mm\n    seat: {length: 26 mm, clearance: 0.6 mm}\n"},
	{"hub of a gear that is fast", "    face: 24 mm\n", "    face: 24 mm\n    engages_at: 55 mm\n"},
	{"place of a direct speed that isn't there", "speeds:\n", "direct: {output_at: 20 mm}\nspeeds:\n"},
	{"unknown grade", "    face: 24 mm\n", "    face: 24 mm\n    grade: 12\n"},
	{"roughness in millimetres", "    face: 24 mm\n", "    face: 24 mm\n    flank_roughness: 3 mm\n"},
	{"roughness of nothing", "    face: 24 mm\n", "    face: 24 mm\n    root_roughness: 0 µm\n"},
	{"peened in other words", "    face: 24 mm\n", "    face: 24 mm\n    peened: partly\n"},
	{"mesh stiffness of a bearing", "module: 2.5 mm", "module: 2.5 mm, stiffness: 16 N/µm"},
	{"mesh stiffness far off", "module: 2.5 mm", "module: 2.5 mm, stiffness: 16 N/mm²"},
	{"pitting in other words", "speeds:\n", "limits: {pitting: some}\nspeeds:\n"},
	{"unknown group of steels", "shafts:\n", "steels: {mine: {yield: 1 GPa, tensile: 1 GPa, contact: 1 GPa, group: case hardend}}\nshafts:\n"},
	{"limits without a group", "shafts:\n", "steels: {mine: {yield: 1 GPa, tensile: 1 GPa, contact: 1 GPa, root_limit: 461 MPa, flank_limit: 1500 MPa}}\nshafts:\n"},
	{"hardness without a scale", "shafts:\n", "steels: {mine: {yield: 1 GPa, tensile: 1 GPa, contact: 1 GPa, surface_hardness: 60}}\nshafts:\n"},
	{"hardness off its scale", "shafts:\n", "steels: {mine: {yield: 1 GPa, tensile: 1 GPa, contact: 1 GPa, surface_hardness: 75 HRC}}\nshafts:\n"},
	{"hardness of no steel", "shafts:\n", "steels: {mine: {yield: 1 GPa, tensile: 1 GPa, contact: 1 GPa, surface_hardness: 60000 HV}}\nshafts:\n"},
	{"hardness band upside down", "shafts:\n", "steels: {mine: {yield: 1 GPa, tensile: 1 GPa, contact: 1 GPa, surface_hardness: {low: 62 HRC, typical: 700 HV, high: 750 HV}}}\nshafts:\n"},
	{"hardness as a strength", "shafts:\n", "steels: {mine: {yield: 1 GPa, tensile: 1 GPa, contact: 1 GPa, surface_hardness: 700 MPa}}\nshafts:\n"},
	// values that are hardly met with, and such as can't be
	{"torque in N·mm", "170 N·m", "170 N·mm"},
	{"torque of next to nothing", "170 N·m", "5 N·mm"},
	{"torque far off", "170 N·m", "170e6 N·m"},
	{"revs with a digit too many", "170 N·m}", "170 N·m, revs: 65000 rpm}"},
	{"revs in thousands", "170 N·m}", "170 N·m, revs: 6.5 rpm}"},
	{"yield strength in GPa", "shafts:\n", "steels: {mine: {like: case-carburised, yield: 700 GPa}}\nshafts:\n"},
	{"strengths a thousand times too small", "shafts:\n", "steels: {mine: {like: case-carburised, root_limit: {low: 0.425 MPa, typical: 461 MPa, high: 500 MPa}}}\nshafts:\n"},
	{"stiff steel", "shafts:\n", "steels: {mine: {like: case-carburised, young: 20.6 GPa}}\nshafts:\n"},
	{"steel stiffer than diamond", "shafts:\n", "steels: {mine: {like: case-carburised, young: 206000 GPa}}\nshafts:\n"},
	{"density in another unit", "shafts:\n", "steels: {mine: {like: case-carburised, density: 7.85 kg/m³}}\nshafts:\n"},
	{"density of no metal", "shafts:\n", "steels: {mine: {like: case-carburised, density: 7850 g/cm³}}\nshafts:\n"},
	{"bearing slope of a quarter turn", "speeds:\n", "limits: {bearing_slope: 1 rad}\nspeeds:\n"},
	{"bearing slope in degrees", "speeds:\n", "limits: {bearing_slope: 1°}\nspeeds:\n"},
	{"mesh tilt a thousand times too large", "speeds:\n", "limits: {mesh_tilt: 0.2 rad}\nspeeds:\n"},
	{"separation in millimetres", "speeds:\n", "limits: {separation: 5 mm}\nspeeds:\n"},
	{"play of a loose gear", "    face: 24 mm\n", "    face: 24 mm\n    seat: {length: 26 mm, clearance: 0.4 mm}\n"},
	{"case as soft as rubber", "shafts:\n", "housing: {radial: 300 N/mm}\nshafts:\n"},
	// the word unknown
	{"needed, but unknown", "    teeth: 14", "    teeth: unknown"},
	{"map that can't be unknown", "shafts:\n", "oil: unknown\nshafts:\n"},
	{"number that can't be unknown", "    face: 24 mm\n", "    face: 24 mm\n    crowning: unknown\n"},
	{"stiffness that can't be unknown", "shafts:\n", "housing: {radial: unknown}\nshafts:\n"},
	{"sides unknown all at once", "gears:\n", "side: unknown\ngears:\n"},
	// the file as a whole
	{"empty file", "", ""},
	{"comments alone", "", "# nothing yet\n"},
	{"empty document", "", "---\n"},
	{"no version", "layshaft: 1\n", ""},
	{"newer version", "layshaft: 1\n", "layshaft: 2\nwhatever: new\n"},
	{"a bench sheet", "layshaft: 1\n", "bench: 1\nwhatever: new\n"},
	{"wrong version", "layshaft: 1\n", "layshaft: one\n"},
	{"second document", "  1st: [first]\n", "  1st: [first]\n---\nlayshaft: 1\n"},
	{"tab", "    teeth: 14", "\tteeth: 14"},
	{"open quotation mark", "name: Alder", `name: "Alder`},
	{"open bracket", "[first]", "[first"},
	{"open bracket far from the end", "[input, output], distance: 78 mm}", "[input, output], distance: 78 mm"},
	{"open bracket behind a closed one", "distance: 78 mm}\ngears:\n  pinion:", "distance:\n      78 mm}\ngears:\n  pinion: ["},
	{"two colons", "name: Alder", "name: Alder: long"},
	{"bad indent", "    teeth: 14", "   teeth: 14"},
	{"no space behind the colon", "    teeth: 14", "    teeth:14"},
	{"percent sign at the front", "name: Alder", "name: %Alder"},
	{"unknown anchor", "    face: 24 mm", "    face: *width"},
	{"not UTF-8", "name: Alder", "name: Gr\xfcn"},
	{"escape character", "name: Alder", "name: \x1b[31mAlder"},
	{"tag", "    teeth: 14", "    teeth: !!int 14"},
	{"alias inside itself", "  input:\n    sections:\n", "  input: &loop\n    axis: *loop\n    sections:\n"},
	{"wrong value behind an anchor", "    face: 24 mm", "    face: &width 24 N"},
	{"wrong value through an alias", "at: 6 mm, torque: 170 N·m", "at: &here 6 mm, torque: *here"},
}

// golden is what testdata/mistakes.txt should hold: for each mistake what was changed and what the reader says to it.
func golden(t *testing.T) string {
	var out strings.Builder
	for _, m := range mistakes {
		text := m.with
		if m.old != "" {
			if strings.Count(plain, m.old) == 0 {
				t.Fatalf("%s: the text to be replaced is not in the file", m.name)
			}
			text = strings.Replace(plain, m.old, m.with, 1)
		}
		_, list := Read("alder.yaml", []byte(text))
		if len(list) == 0 {
			t.Errorf("%s: nothing was found", m.name)
		}
		fmt.Fprintf(&out, "## %s\n\n", m.name)
		if err := list.Render(&out, map[string][]byte{"alder.yaml": []byte(text)}, diag.Style{Width: 110}); err != nil {
			t.Fatal(err)
		}
		out.WriteString("\n")
	}
	return out.String()
}

func TestEveryMistakeIsExplained(t *testing.T) {
	file := filepath.Join("testdata", "mistakes.txt")
	got := golden(t)
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	gotParts, wantParts := strings.Split(got, "## "), strings.Split(string(want), "## ")
	if len(gotParts) != len(wantParts) {
		t.Errorf("%d mistakes, %d in %s", len(gotParts)-1, len(wantParts)-1, file)
	}
	for i := range min(len(gotParts), len(wantParts)) {
		if gotParts[i] != wantParts[i] {
			t.Errorf("got  %s\nwant %s", gotParts[i], wantParts[i])
		}
	}
}

// The plain file itself has no mistake: else the table would prove nothing.
func TestPlainFileIsSound(t *testing.T) {
	if _, list := Read("alder.yaml", []byte(plain)); len(list) > 0 {
		t.Error(list.Error())
	}
}
