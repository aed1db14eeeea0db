package page

import (
	"bytes"
	"math"
	"strconv"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// weighed gives two boxes weights, made up by hand, and lets the second be lighter.
func weighed(c *study.Comparison) *study.Comparison {
	c.Weighed = nil
	for i, r := range c.Results {
		r.Weights = &gearbox.Weights{Box: r.Box, Shafts: 5, Gears: 7 - float64(i), Notes: []string{"Teeth <b>from</b> their outline."}}
		w := study.WeighedBox{Result: r, Mass: 12 - float64(i), Least: 0}
		for k := range r.Speeds {
			s := &r.Speeds[k]
			s.First = gearbox.FirstLimit{Torque: 180e3 * (1 + float64(k))}
			w.PerMass = append(w.PerMass, s.First.Torque/w.Mass)
			y := gearbox.Synchroniser{Speed: s.Name, Inertia: 5200 * (1 + float64(k)), Ratio: 1, Up: &gearbox.Shift{TorqueTime: 1234}}
			if k == 1 {
				y = gearbox.Synchroniser{Speed: s.Name, Inertia: math.NaN(), Unknown: "no seat"}
			}
			r.Weights.Synchronisers = append(r.Weights.Synchronisers, y)
		}
		c.Weighed = append(c.Weighed, w)
	}
	c.Lighter = []study.LighterCase{{Lighter: 1, Other: 0, Mass: [2]study.Mass{{Value: 11}, {Value: 12}},
		For:     []study.Reason{{Kind: study.ByMass, Dimension: quantity.Mass, Values: [][2]float64{{11, 12}}}},
		Against: []study.Reason{{Kind: study.ByDeflection, Speeds: []string{c.Results[0].Speeds[0].Name}, Values: [][2]float64{{3, 2}}}},
		Shared:  []study.Reason{{Kind: study.SameLimit}}, Gaps: []study.Gap{{Kind: study.NotWeighed, Boxes: []int{0, 1}}}, Balance: []study.Balance{
			{Kind: study.ByMass, Least: -0.1, Most: -0.1}, {Kind: study.ByTorque, More: true, Least: -0.4, Most: -0.2}, {Kind: study.ByPerMass, More: true, Least: -0.1, Most: 0.2}, {Kind: study.ByRoot, Least: 0.05, Most: 0.3},
		}}}
	return c
}

// Each bar begins and ends where its numbers say, and on the side they say: less mass speaks for the lighter box, less torque against it.
func TestBalanceIsDrawnAsItIs(t *testing.T) {
	k := &weighed(pair(t, plainNames, birch())).Lighter[0]
	rows := balanceRows(k, widestBalance([]study.LighterCase{*k}))
	if len(rows) != 4 {
		t.Fatalf("%+v", rows)
	}
	scale := 96 / 0.4
	for i, want := range [][]struct {
		side     string
		from, to float64
	}{
		{{"for", -0.1*scale - 1, -0.1*scale + 1}}, // one change: a mark of two units
		{{"against", -96, -48}},
		{{"against", -24, 0}, {"for", 0, 48}},
		{{"against", 12, 72}},
	} {
		if len(rows[i].Bars) != len(want) {
			t.Errorf("row %d has %d bars, want %d", i, len(rows[i].Bars), len(want))
			continue
		}
		for n, w := range want {
			b := rows[i].Bars[n]
			x, err1 := strconv.ParseFloat(b.X, 64)
			width, err2 := strconv.ParseFloat(b.W, 64)
			if err1 != nil || err2 != nil || b.Side != w.side || math.Abs(x-w.from) > 0.11 || math.Abs(x+width-w.to) > 0.11 {
				t.Errorf("row %d, bar %d is %+v, want %+v", i, n, b, w)
			}
		}
	}
	for i, want := range []string{"−10.0 %", "−40.0 to −20.0 %", "−10.0 to +20.0 %", "+5.0 to +30.0 %"} {
		if rows[i].Value != want {
			t.Errorf("row %d says %q, want %q", i, rows[i].Value, want)
		}
	}
}

func TestLighterBoxOnThePage(t *testing.T) {
	hostile := plainNames
	hostile.box = `<script>alert("box")</script>`
	c := weighed(pair(t, plainNames, hostile))
	var b bytes.Buffer
	if err := Compare(&b, c, testOptions); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	for _, want := range []string{"The lighter box", "&lt;/script&gt; against Alder", "lighter in its shafts and gears: 11.0", "What speaks against", "50.0\u00a0% more in 1st", "The same in both", "Not known", "Teeth &lt;b&gt;from&lt;/b&gt;"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if strings.Contains(text, hostile.box) {
		t.Error("the name of a box is in the page as markup")
	}
	for _, want := range []string{"<td>15.0", "<td>52.0", "<td>1.23", "<td>–"} {
		if !strings.Contains(text, want) {
			t.Errorf("the tables of masses lack %q", want)
		}
	}
	c.Lighter = nil
	b.Reset()
	if err := Compare(&b, c, testOptions); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), "None is lighter than another.") {
		t.Error("boxes of one mass: nothing is said")
	}
	c.Weighed = nil
	b.Reset()
	if err := Compare(&b, c, testOptions); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(b.String(), "The lighter box") {
		t.Error("masses are told that nobody knows")
	}
}
