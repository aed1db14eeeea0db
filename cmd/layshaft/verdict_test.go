package main

import (
	"bytes"
	"encoding/json"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// situation is a question about a box, and what its answer has to be.
type situation struct {
	name   string
	file   string      // below testdata
	drop   []string    // keys of the file that are left out, with all below them
	change [][2]string // texts of the file and what stands in their place
	args   []string

	answer string // Yes, Just or No
	state  string
	// The limit with the least left, and the speed.
	kind, speed string
	says        []string // in the verdict
	never       []string // not in it
}

var inputAlone = []string{"clutch", "car"} // nothing between engine and teeth is known

// What the classes are is a decision and no fact of the code: answers may change with it, so it is written down here once more.
var classes = map[string]string{
	"root_fatigue": "wears_out", "flank_fatigue": "wears_out", "root_peak": "breaks", "flank_peak": "breaks", "shaft_yield": "breaks",
	"bearing_slope": "guide", "mesh_tilt": "guide", "mesh_separation": "guide", "root_lewis": "breaks", "flank_hertz": "wears_out",
}

func situations() []situation {
	unknown := [][2]string{{"turns: clockwise ", "turns: unknown #"}, {"diff: positive ", "diff: unknown #"}}
	return []situation{
		{name: "clear", file: "alder.yaml", drop: inputAlone, args: []string{"--torque", "160 N·m"}, answer: "Yes", state: "clear", kind: "flank_peak", speed: "1st", never: []string{"arrives", "arrived"}},
		{name: "thin", file: "birch.yaml", drop: inputAlone, answer: "Just", state: "thin", kind: "flank_peak", speed: "1st", says: []string{"where 15 % is wanted"}},
		{name: "over", file: "alder.yaml", drop: inputAlone, args: []string{"--torque", "250 N·m"}, answer: "No", state: "over", kind: "flank_peak", speed: "1st", says: []string{"over its limits: it bears"}},
		{name: "guides alone are passed", file: "inline.yaml", args: []string{"--speed", "1st"}, answer: "Yes", state: "clear", kind: "flank_peak", speed: "1st", says: []string{"2 guides are passed, first misalignment of mesh first", "Guides warn and don't decide."}},
		{name: "no duty", file: "idler.yaml", args: []string{"--torque", "80 N·m"}, answer: "Yes", state: "clear", kind: "flank_peak", speed: "reverse",
			says: []string{"No duty is given, so the answer is by what breaks at once; endless life would need no more than", "Not judged: wear of the teeth (give a duty)"}},
		{name: "wear decides", file: "alder.yaml", drop: inputAlone, change: [][2]string{{"passes: 400 ", "passes: 60000 "}}, answer: "No", state: "over", kind: "flank_fatigue", speed: "1st", says: []string{"limited by flank fatigue of first pinion"}},
		// Two faces, friction 0.30, mean radius 92 mm, clamp 2.5 kN: 2·0.30·2500·0.092 = 138 N·m.
		{name: "the clutch slips", file: "alder.yaml", drop: []string{"car"}, change: [][2]string{{"clamp: 5.2 kN", "clamp: 2.5 kN"}}, answer: "Yes", state: "clear", speed: "1st",
			says: []string{"138 N·m arrives, limited by the clutch", "If all of 190 N·m arrived, it would be thin"}},
		// µ m g s/(1 − µ h/L) = 1.1·620·9.80665·0.58/(1 − 1.1·0.42/2.3) = 4854 N; over 0.29 m, 12.22 and 0.99² it is 118 N·m.
		{name: "the tyres slip", file: "alder.yaml", drop: []string{"clutch"}, args: []string{"--speed", "1st"}, answer: "Yes", state: "clear", kind: "flank_fatigue", speed: "1st", says: []string{"where 118 N·m arrives, limited by the tyres"}},
		{name: "clear by what arrives, over at the input", file: "alder.yaml", args: []string{"--torque", "250 N·m"}, answer: "Yes", state: "clear", speed: "1st", says: []string{"If all of 250 N·m arrived, it would be over: it bears"}},
		// 190/290
		{name: "survived more", file: "alder.yaml", answer: "Yes", state: "clear", says: []string{"Asked is 0.66 of what it survived (290 N·m, 40 passes)."}},
		{name: "broke at what is asked", file: "alder.yaml", change: [][2]string{{"survived: 290 N·m, passes: 40, opened: yes", "broke: 190 N·m"}}, answer: "No", state: "over",
			says: []string{"is asked for no less than broke it: it broke at 190 N·m.", "By calculation alone it would be clear: "}},
		{name: "broke above what is asked", file: "alder.yaml", change: [][2]string{{"survived: 290 N·m, passes: 40, opened: yes", "broke: 191 N·m"}}, answer: "Yes", state: "clear", never: []string{"broke it"}},
		{name: "the poorest steel has another limit", file: "alder.yaml", drop: inputAlone, change: [][2]string{{"passes: 400 ", "passes: 6500 "}}, args: []string{"--torque", "160 N·m"}, answer: "Yes", state: "clear", kind: "flank_peak", speed: "1st",
			says: []string{"limited by peak at flank of final pinion in 1st; ", "with the poorest steel that the file allows, by flank fatigue of first pinion"}},
		{name: "a bad range", file: "cancelling-lead.yaml", answer: "No", state: "over", kind: "flank_peak", speed: "only", says: []string{"It is over between 32.8 and 52.2 N·m: peak at flank of pinion in only is exceeded there and holds again above."}},
		{name: "coast", file: "alder.yaml", drop: inputAlone, args: []string{"--torque", "-40 N·m"}, answer: "Yes", state: "clear", says: []string{"at 40.0 N·m of coast (engine braking)"}, never: []string{"survived"}},
		{name: "an idler", file: "idler.yaml", args: []string{"--speed", "reverse", "--limit", "root_peak"}, answer: "Yes", state: "clear", kind: "root_peak", speed: "reverse", says: []string{"of idler (mesh reverse "}},
		{name: "a direct speed", file: "inline.yaml", args: []string{"--speed", "top"}, answer: "Yes", state: "clear", kind: "shaft_yield", speed: "top", says: []string{"limited by yield of input shaft, section 1 in top"}},
		{name: "a steel without limits of ISO 6336", file: "inline.yaml", change: [][2]string{{"steel: case-carburised", "steel: bar\nsteels: {bar: {yield: 700 MPa, tensile: 900 MPa, contact: 1200 MPa}}"}}, args: []string{"--speed", "1st", "--torque", "300 N·m"},
			answer: "No", state: "over", kind: "root_lewis", speed: "1st", says: []string{"limited by tooth root of first pinion, Lewis in 1st"}},
		{name: "sense and side aren't known", file: "birch.yaml", drop: inputAlone, change: unknown, answer: "No", state: "over", speed: "1st", says: []string{"Birch bears 155 N·m"}},
		{name: "the file sets a guide", file: "alder.yaml", drop: inputAlone, change: [][2]string{{"limits:", "limits:\n  bearing_slope: 1 mrad"}}, answer: "No", state: "over", kind: "bearing_slope", speed: "1st",
			says: []string{"limited by slope at input shaft, bearing left, set by the file in 1st"}, never: []string{"guide is passed", "guides are passed"}},
		{name: "limits are chosen", file: "alder.yaml", drop: inputAlone, args: []string{"--limit", "wears_out"}, answer: "Yes", state: "clear", kind: "flank_fatigue", says: []string{"Only this decides, as asked: tooth root, fatigue; flank, fatigue"}},
		{name: "what the answer hangs on", file: "inline.yaml", args: []string{"--speed", "1st"}, answer: "Yes", state: "clear", says: []string{"What the answer hangs on most: pressure angle of constant and first, taken as 20°. If it is 14.5°"}},
	}
}

// written is a file of a situation, as somebody would have changed it.
func (s *situation) written(t *testing.T) string {
	t.Helper()
	path := filepath.Join("../../testdata", s.file)
	data, err := os.ReadFile(path)
	if err != nil {
		data, err = os.ReadFile(filepath.Join("../../testdata/answers", s.file))
	}
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for _, key := range s.drop {
		block := regexp.MustCompile(`(?m)^` + key + `:.*\n(?:[ #].*\n|\n)*`)
		if !block.MatchString(text) {
			t.Fatalf("%s has no %s", s.file, key)
		}
		text = block.ReplaceAllString(text, "")
	}
	for _, c := range s.change {
		if !strings.Contains(text, c[0]) {
			t.Fatalf("%s has no %q", s.file, c[0])
		}
		text = strings.Replace(text, c[0], c[1], 1)
	}
	name := filepath.Join(t.TempDir(), s.file)
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

// ask runs the program.
func ask(t *testing.T, args ...string) (code int, stdout string) {
	t.Helper()
	var out, findings bytes.Buffer
	code = run(args, env{stdin: strings.NewReader(""), stdout: &out, stderr: &findings, variable: func(string) string { return "" }})
	if code != exitHolds && code != exitExceeded {
		t.Fatalf("%v: exit code %d, %s", args, code, findings.String())
	}
	return code, out.String()
}

// judged is what a test reads of a JSON report.
type judged struct {
	Worst string `json:"worst_state"`
	Boxes []struct {
		Reserve float64 `json:"wanted_reserve_fraction"`
		Level   string  `json:"judged_by_end_of_band"`
		Torque  float64 `json:"torque_nm"`
		History struct {
			BrokeAt *float64 `json:"broke_at_torque_nm"`
		} `json:"against_history"`
		Verdict struct {
			State     string `json:"state"`
			Sentences []struct {
				About, Text string
			} `json:"sentences"`
			Least struct {
				Speed, State, Kind, Class, Item string
				Left                            float64 `json:"left_fraction"`
			} `json:"least_left"`
		} `json:"verdict"`
		Speeds []struct {
			Name    string        `json:"name"`
			Margins []judgedLimit `json:"margins"`
			Guides  []judgedLimit `json:"guides"`
		} `json:"speeds"`
	} `json:"boxes"`
}

type judgedLimit struct {
	Kind, Class, Item, State string
	Own                      bool     `json:"set_by_the_file"`
	Margin                   *float64 `json:"margin_fraction"`
	Low                      *float64 `json:"allowable_torque_low_nm"`
	Typical                  *float64 `json:"allowable_torque_typical_nm"`
	High                     *float64 `json:"allowable_torque_high_nm"`
	Comes                    *struct {
		Margin *float64 `json:"margin_fraction"`
		State  string
	} `json:"against_what_reaches_it"`
}

// left is by how much a limit is missed, by what arrives where that is known.
func (l *judgedLimit) left() float64 {
	m := l.Margin
	if l.Comes != nil {
		m = l.Comes.Margin
	}
	if m == nil {
		return math.Inf(1)
	}
	return *m
}

var (
	tags   = regexp.MustCompile(`<[^>]*>`)
	blanks = regexp.MustCompile(`[\s\x{a0}]+`)
	// A row of a table of the page with a state of its own.
	pageRow = regexp.MustCompile(`(?s)<tr[^>]*>.*?</tr>`)
)

// aloud is a text or page as it is read aloud.
func aloud(text string) string { return strings.TrimSpace(blanks.ReplaceAllString(text, " ")) }

// The answer is the same in text, page and JSON, in words, state and sign, and it is the one that follows from the limits that are listed.
func TestVerdicts(t *testing.T) {
	t.Parallel()
	for i, s := range situations() {
		if testing.Short() && i%4 > 0 {
			continue
		}
		t.Run(s.name, func(t *testing.T) {
			t.Parallel()
			file := s.written(t)
			pageName := filepath.Join(t.TempDir(), "page.html")
			code, text := ask(t, append([]string{"check", file, "--html", pageName}, s.args...)...)
			_, data := ask(t, append([]string{"check", file, "--format", "json"}, s.args...)...)
			raw, err := os.ReadFile(pageName)
			if err != nil {
				t.Fatal(err)
			}
			var j judged
			if err := json.Unmarshal([]byte(data), &j); err != nil {
				t.Fatal(err)
			}
			box := &j.Boxes[0]
			var sentences []string
			for _, said := range box.Verdict.Sentences {
				sentences = append(sentences, said.Text)
			}
			verdict := strings.Join(sentences, " ")

			// As the situation has it.
			if !strings.HasPrefix(verdict, s.answer+": ") {
				t.Errorf("the answer isn't %s: %s", s.answer, verdict)
			}
			if box.Verdict.State != s.state || j.Worst != s.state || (code == exitExceeded) != (s.state == "over") {
				t.Errorf("state %s, worst %s, exit code %d; want %s", box.Verdict.State, j.Worst, code, s.state)
			}
			least := &box.Verdict.Least
			if s.kind != "" && least.Kind != s.kind || s.speed != "" && least.Speed != s.speed {
				t.Errorf("least is left of %s in %s, want %s in %s", least.Kind, least.Speed, s.kind, s.speed)
			}
			for _, words := range s.says {
				if !strings.Contains(verdict, words) {
					t.Errorf("%q isn't said: %s", words, verdict)
				}
			}
			for _, words := range s.never {
				if strings.Contains(verdict, words) {
					t.Errorf("%q is said: %s", words, verdict)
				}
			}

			// The same in all three.
			top, _, _ := strings.Cut(text, "\n\n")
			if aloud(top) != verdict {
				t.Errorf("text and JSON differ:\n%s\n%s", aloud(top), verdict)
			}
			page := aloud(html.UnescapeString(tags.ReplaceAllString(string(raw), "")))
			for _, sentence := range sentences {
				if !strings.Contains(page, sentence) {
					t.Errorf("the page doesn't say %q", sentence)
				}
			}
			if card := regexp.MustCompile(`<span class="state (\w+)">(.) (\w+)</span>`).FindStringSubmatch(string(raw)); card == nil || card[1] != s.state || card[3] != s.state {
				t.Errorf("the card of the page shows %q, want %s", card, s.state)
			}
			signsAgree(t, text, string(raw))
			followsFromLimits(t, &j)
			headroomAgrees(t, &s, file, verdict)
		})
	}
}

// signsAgree finds rows whose sign and word say something else: what is exceeded has no plus, what holds no minus.
func signsAgree(t *testing.T, text, page string) {
	t.Helper()
	rows := strings.Split(text, "\n")
	for _, row := range pageRow.FindAllString(page, -1) {
		rows = append(rows, html.UnescapeString(tags.ReplaceAllString(strings.ReplaceAll(row, "−", "-"), " ")))
	}
	plus, minus := regexp.MustCompile(`\+\d`), regexp.MustCompile(`(^|\s)-\d`)
	for _, row := range rows {
		switch {
		case strings.Contains(row, "✗ over") && plus.MatchString(row):
			t.Errorf("exceeded, and with a plus: %s", aloud(row))
		case (strings.Contains(row, "✓ clear") || strings.Contains(row, "! thin")) && minus.MatchString(row):
			t.Errorf("not exceeded, and with a minus: %s", aloud(row))
		}
	}
}

// followsFromLimits draws the verdict once more from the limits that the report lists.
func followsFromLimits(t *testing.T, j *judged) {
	t.Helper()
	for _, box := range j.Boxes {
		left, state := math.Inf(1), "clear"
		for _, s := range box.Speeds {
			for _, m := range s.Margins {
				if m.Class != classes[m.Kind] {
					t.Errorf("%s is of class %s, want %s", m.Kind, m.Class, classes[m.Kind])
				}
				left = min(left, m.left())
			}
			for _, m := range s.Guides {
				if classes[m.Kind] != "guide" || m.Own {
					t.Errorf("%s (set by the file: %v) is a guide only", m.Kind, m.Own)
				}
			}
		}
		switch {
		case box.History.BrokeAt != nil, left < 0:
			state = "over"
		case left < box.Reserve:
			state = "thin"
		}
		if box.Verdict.State != state || math.Abs(box.Verdict.Least.Left-left) > 1e-12*math.Abs(left) {
			t.Errorf("state %s with %g left; by the limits %s with %g", box.Verdict.State, box.Verdict.Least.Left, state, left)
		}
		for _, word := range []struct{ about, word string }{{"answer", map[string]string{"over": "No:", "thin": "Just:", "clear": "Yes:"}[state]}} {
			i := slices.IndexFunc(box.Verdict.Sentences, func(s struct{ About, Text string }) bool { return s.About == word.about })
			if i < 0 || !strings.HasPrefix(box.Verdict.Sentences[i].Text, word.word) {
				t.Errorf("the state is %s, the words are %q", state, box.Verdict.Sentences)
			}
		}
	}
}

// headroomAgrees asks for the same torque in another way.
func headroomAgrees(t *testing.T, s *situation, file, verdict string) {
	t.Helper()
	if slices.Contains(s.args, "--torque") {
		return // headroom tells by how much more or less that is
	}
	code, text := ask(t, append([]string{"headroom", file}, s.args...)...)
	top, _, _ := strings.Cut(text, "\n\n")
	for _, sentence := range strings.SplitAfter(aloud(top), ". ") {
		if !strings.Contains(verdict, strings.TrimSpace(sentence)) {
			t.Errorf("headroom says %q, check %s", sentence, verdict)
		}
	}
	if (code == exitExceeded) != (s.state == "over") {
		t.Errorf("exit code %d of headroom", code)
	}
}

// Of several boxes each has its own answer, the same as alone.
func TestVerdictsOfSeveralBoxes(t *testing.T) {
	t.Parallel()
	code, text := ask(t, "check", "../../testdata/alder.yaml", "../../testdata/answers/idler.yaml")
	if code != exitExceeded {
		t.Errorf("exit code %d; one of them is over", code)
	}
	for _, name := range []string{"../../testdata/alder.yaml", "../../testdata/answers/idler.yaml"} {
		_, data := ask(t, "check", name, "--format", "json")
		var j judged
		if err := json.Unmarshal([]byte(data), &j); err != nil {
			t.Fatal(err)
		}
		for _, s := range j.Boxes[0].Verdict.Sentences {
			if !strings.Contains(aloud(text), s.Text) {
				t.Errorf("not said of several: %q", s.Text)
			}
		}
	}
}

// A limit that holds again above is named with its range wherever limits are listed, and what a sound box has lived with stands beside the guide.
func TestRangesAndSurvivedGuidesAreShown(t *testing.T) {
	t.Parallel()
	name := filepath.Join(t.TempDir(), "page.html")
	read := func() string {
		raw, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		return aloud(html.UnescapeString(tags.ReplaceAllString(string(raw), " ")))
	}
	_, text := ask(t, "headroom", "../../testdata/answers/cancelling-lead.yaml", "--html", name)
	const bad = "peak at flank of pinion, over between 32.8 and 52.2 N·m"
	if _, table, _ := strings.Cut(text, "What limits first"); !strings.Contains(aloud(table), bad) || !strings.Contains(read(), bad) {
		t.Errorf("the tables of headroom don't say %q", bad)
	}
	if !strings.Contains(read(), "can injure or kill. The whole caution stands at the foot.") {
		t.Error("the page of headroom has no caution at its top")
	}
	_, data := ask(t, "headroom", "../../testdata/answers/cancelling-lead.yaml", "--format", "json")
	if !regexp.MustCompile(`"over_from_torque_nm": 32\.7`).MatchString(data) {
		t.Error("the JSON of headroom has no bad range")
	}
	_, text = ask(t, "check", "../../testdata/alder.yaml", "--html", name)
	_, table, _ := strings.Cut(text, "Guides: rules of thumb")
	if !regexp.MustCompile(`(?s)slope at input shaft,? .*?2nd +\S+ +1\.00 … 3\.00 +1\.16 +mrad`).MatchString(table) {
		t.Errorf("no survived slope in\n%.900s", table)
	}
	if !regexp.MustCompile(`slope at input shaft, bearing left \[\d+\] 2nd \S+ 1\.00 … 3\.00 1\.16 mrad`).MatchString(read()) {
		t.Error("the page shows no survived slope")
	}
	_, data = ask(t, "check", "../../testdata/alder.yaml", "--format", "json")
	if !regexp.MustCompile(`"survived_in_unit": 1\.1\d`).MatchString(data) {
		t.Error("JSON has no survived slope")
	}
}
