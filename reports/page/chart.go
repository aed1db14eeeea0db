package page

import (
	"encoding/json"
	"fmt"
	"strings"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// chart is one chart of the page. Option is in the words of ECharts; the rest is what assets/boot.js needs to draw and to place it.
type chart struct {
	ID        string         `json:"id"`
	Kind      string         `json:"kind"` // "bars", "torque", "shaft", "face", "growth" or "gearing"
	Option    map[string]any `json:"option"`
	Series    []series       `json:"series"` // one for each series of Option, in the same order
	Panels    []panel        `json:"panels,omitempty"`
	Views     []scene        `json:"views,omitempty"`
	XUnit     string         `json:"xUnit,omitempty"`
	YUnit     string         `json:"yUnit,omitempty"`
	Asked     []rounded      `json:"asked,omitempty"`     // torques asked about, of a growth
	Tops      []rounded      `json:"tops,omitempty"`      // engine speeds at which a gearing is shifted up, by box; 0 = not drawn
	Marks     []mark         `json:"marks,omitempty"`     // of a sweep: torques wanted
	Uprights  []mark         `json:"uprights,omitempty"`  // of a sweep: values of note
	Stretches []stretch      `json:"stretches,omitempty"` // of a sweep: what governs where
	Boxes     []string       `json:"boxes"`
}

// mark is a line across a chart with its words.
type mark struct {
	Name string  `json:"name"`
	At   float64 `json:"at"`
}

// stretch is a part of the x axis with a letter.
type stretch struct {
	From   rounded `json:"from"`
	To     rounded `json:"to"`
	Letter string  `json:"letter"`
}

// series says what a series of the option shows: the box gives its colour and dash, the role its weight.
type series struct {
	Box   int     `json:"box"`
	Role  string  `json:"role"`
	Bars  []bar   `json:"bars,omitempty"`
	Cross []cross `json:"cross,omitempty"`
}

// bar is one bar with the words beside it and in its tooltip.
type bar struct {
	Value rounded  `json:"value"`
	Text  string   `json:"text"`
	First bool     `json:"first,omitempty"`
	None  bool     `json:"none,omitempty"` // no bar: the box has no such limit, or no torque reaches it
	Tip   []string `json:"tip,omitempty"`
}

// cross is where the line of a speed crosses zero: its allowable torque.
type cross struct {
	X     rounded `json:"x"`
	Name  string  `json:"name"`
	First bool    `json:"first,omitempty"`
}

// panel is one of the frames above each other in a shaft chart.
type panel struct {
	Title string  `json:"title"`
	Unit  string  `json:"unit,omitempty"`
	Box   int     `json:"box"`            // whose outline it holds; -1 for curves
	Half  rounded `json:"half,omitempty"` // half height of an outline, in the unit of the x axis
}

// scene is a chart in one speed.
type scene struct {
	Title  string   `json:"title"`
	Alt    string   `json:"alt"` // what the chart is of; in the page the note follows it
	Note   string   `json:"note"`
	Tables []table  `json:"tables"`           // by box; of a shaft with columns as in curveColumns, of a face place and line load, of a growth torque, K_Hβ and place
	Parts  []parts  `json:"parts,omitempty"`  // of a shaft, by box
	Flanks []*flank `json:"flanks,omitempty"` // of a face, by box; null where a box has none
	X      scale    `json:"x,omitzero"`       // of a face or a growth
	Y      scale    `json:"y,omitzero"`
	Z      scale    `json:"z,omitzero"`      // of the second panel of a growth
	Empty  bool     `json:"empty,omitempty"` // nothing to show in this speed
}

// alt is the whole alternative text of a chart in this view; assets/boot.js puts it together alike.
func (v *scene) alt() string { return v.Alt + " " + strings.ReplaceAll(v.Note, "\n", " ") }

// part is one thing drawn in the outline of a shaft. Kind is "section", "gear" or "bearing"; lengths in the unit of the x axis.
type part struct {
	Kind string  `json:"k"`
	From rounded `json:"a"`
	To   rounded `json:"b"` // 0 = From
	Half rounded `json:"r"` // outer radius
	Bore rounded `json:"i"` // radius of the bore
	Name string  `json:"n"`
	On   bool    `json:"on"` // carries load in this speed
}

// parts is what is drawn of a shaft. There are a thousand of them in a page, so they write themselves, without what is empty.
type parts []part

// MarshalJSON writes the parts in the words of part's tags.
func (all parts) MarshalJSON() ([]byte, error) {
	b := []byte{'['}
	for i, p := range all {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(append(append(b, `{"k":"`...), p.Kind...), `","a":`...)
		b = appendRounded(b, float64(p.From), 5)
		for k, v := range []rounded{p.To, p.Half, p.Bore} {
			if v != 0 {
				b = append(b, `,"`+"bri"[k:k+1]+`":`...)
				b = appendRounded(b, float64(v), 5)
			}
		}
		if p.Name != "" {
			name, err := json.Marshal(p.Name)
			if err != nil {
				return nil, err
			}
			b = append(append(b, `,"n":`...), name...)
		}
		if p.On {
			b = append(b, `,"on":true`...)
		}
		b = append(b, '}')
	}
	return append(b, ']'), nil
}

// frame is the option of a chart as a map, without the parts that the page has its own way for (title, legend, toolbox).
func frame(c *charts.Line) map[string]any {
	c.Tooltip = opts.Tooltip{Trigger: "axis"}
	c.Animation = opts.Bool(false)
	c.Validate()
	text, err := json.Marshal(c.JSON())
	if err != nil {
		panic(fmt.Sprintf("page: the frame of a chart holds no data and must marshal: %v", err))
	}
	var m map[string]any
	if err := json.Unmarshal(text, &m); err != nil {
		panic(fmt.Sprintf("page: the frame of a chart was marshalled just now and must unmarshal: %v", err))
	}
	for _, k := range []string{"title", "legend", "toolbox"} {
		delete(m, k)
	}
	return m
}

// fixedAxis gives an axis of a frame its step, which the option structs cannot say.
func fixedAxis(option map[string]any, axis string, index int, s scale) {
	a := option[axis].([]any)[index].(map[string]any)
	a["interval"] = rounded(s.Step)
}

func xValues(s scale, name string, grid int) opts.XAxis {
	return opts.XAxis{Type: "value", Name: name, NameLocation: "middle", NameGap: 28, Min: rounded(s.Low), Max: rounded(s.High), GridIndex: grid}
}

func yValues(s scale, name string, grid int) opts.YAxis {
	return opts.YAxis{Type: "value", Name: name, NameLocation: "middle", NameGap: 44, Min: rounded(s.Low), Max: rounded(s.High), GridIndex: grid}
}

// barOption has a category for each kind of limit, the first on top, and a bar in each for every box.
func barOption(kinds []string, boxes []string, s scale, marks []float64) map[string]any {
	c := charts.NewLine()
	c.XAxisList = []opts.XAxis{xValues(s, "torque margin, %", 0)}
	c.YAxisList = []opts.YAxis{{Type: "category", Data: kinds, Inverse: opts.Bool(true)}}
	for i, name := range boxes {
		bars := charts.SingleSeries{Name: name, Type: "bar", BarMaxWidth: "13", BarGap: "20%", BarCategoryGap: "34%"}
		if i == 0 {
			bars.MarkLines = &opts.MarkLines{MarkLineStyle: opts.MarkLineStyle{Symbol: []string{"none", "none"}}}
			for _, x := range marks {
				bars.MarkLines.Data = append(bars.MarkLines.Data, opts.MarkLineNameXAxisItem{Name: "mark", XAxis: rounded(x)})
			}
		}
		c.MultiSeries = append(c.MultiSeries, bars)
	}
	m := frame(c)
	fixedAxis(m, "xAxis", 0, s)
	return m
}

// torqueOption has a line for each entry of lines, in the columns of one dataset after the torque, and one series of its own kind per
// box that marks where its lines cross zero.
func torqueOption(lines []string, boxes []string, data table, x, y scale, unit string, asked []float64) map[string]any {
	c := charts.NewLine()
	c.XAxisList = []opts.XAxis{xValues(x, "input torque, "+unit, 0)}
	c.YAxisList = []opts.YAxis{yValues(y, "torque margin, %", 0)}
	for i, name := range lines {
		c.MultiSeries = append(c.MultiSeries, charts.SingleSeries{Name: name, Type: "line", ShowSymbol: opts.Bool(false),
			Encode: &opts.Encode{X: 0, Y: i + 1}})
	}
	for i, name := range boxes {
		s := charts.SingleSeries{Name: name, Type: "custom", Data: [][]int{{0, 0}}}
		if i == 0 {
			s.MarkLines = &opts.MarkLines{MarkLineStyle: opts.MarkLineStyle{Symbol: []string{"none", "none"}}}
			s.MarkLines.Data = append(s.MarkLines.Data, opts.MarkLineNameYAxisItem{Name: "zero", YAxis: 0})
			for _, t := range asked {
				s.MarkLines.Data = append(s.MarkLines.Data, opts.MarkLineNameXAxisItem{Name: "asked", XAxis: rounded(t)})
			}
		}
		c.MultiSeries = append(c.MultiSeries, s)
	}
	m := frame(c)
	fixedAxis(m, "xAxis", 0, x)
	fixedAxis(m, "yAxis", 0, y)
	m["dataset"] = map[string]any{"source": data}
	return m
}

// limitsOption has a line for each limit, in the columns of one dataset after the torque, and one series of its own kind that marks where they cross zero.
func limitsOption(lines []string, data table, x, y scale, unit string, marks []mark) map[string]any {
	m := torqueOption(lines, []string{""}, data, x, y, unit, nil)
	all := m["series"].([]any)
	line := all[len(lines)].(map[string]any)["markLine"].(map[string]any)
	for _, k := range marks {
		line["data"] = append(line["data"].([]any), map[string]any{"name": k.Name, "xAxis": rounded(k.At)})
	}
	return m
}

// sweepOption has a line for each speed, and one for the least of them, in the columns of one dataset.
func sweepOption(lines []string, data table, x, y scale, xName, unit string) map[string]any {
	c := charts.NewLine()
	c.XAxisList = []opts.XAxis{xValues(x, xName, 0)}
	c.YAxisList = []opts.YAxis{yValues(y, "allowable torque, "+unit, 0)}
	for i, name := range lines {
		c.MultiSeries = append(c.MultiSeries, charts.SingleSeries{Name: name, Type: "line", Encode: &opts.Encode{X: 0, Y: i + 1}})
	}
	m := frame(c)
	fixedAxis(m, "xAxis", 0, x)
	fixedAxis(m, "yAxis", 0, y)
	m["dataset"] = map[string]any{"source": data}
	return m
}

// curve is one line of a shaft chart: the column of the box's table, and the panel of curves (from 0) it stands in.
type curve struct {
	role   string
	column int
	panel  int
}

// curves in the order drawn. Columns of a table: x, deflection in y, in z, resultant, slope, moment, torque.
var curves = []curve{{"planeY", 1, 0}, {"planeZ", 2, 0}, {"whole", 3, 0}, {"whole", 4, 1}, {"whole", 5, 2}, {"whole", 6, 3}}

// curveColumns is the number of columns of a shaft's table.
const curveColumns = 7

// shaftOption has a grid for the outline of each box that has the shaft, then one for each kind of curve. All share the range of x.
func shaftOption(outlines []int, boxes []string, x scale, ys []scale, xName string) (map[string]any, []series) {
	c := charts.NewLine()
	c.XAxisList, c.YAxisList = nil, nil
	var meta []series
	grids := len(outlines) + len(ys)
	all := make([]int, grids)
	for g := range grids {
		all[g] = g
		name := ""
		if g == grids-1 {
			name = xName
		}
		c.GridList = append(c.GridList, opts.Grid{Left: "60", Right: "16"})
		c.XAxisList = append(c.XAxisList, xValues(x, name, g))
		s := scale{-1, 1, 1}
		if k := g - len(outlines); k >= 0 {
			s = ys[k]
		}
		c.YAxisList = append(c.YAxisList, yValues(s, "", g))
	}
	for g, b := range outlines {
		c.MultiSeries = append(c.MultiSeries, charts.SingleSeries{Name: boxes[b], Type: "custom", XAxisIndex: g, YAxisIndex: g, Data: [][]int{{0, 0}}})
		meta = append(meta, series{Box: b, Role: "outline"})
	}
	for _, b := range outlines {
		for _, k := range curves {
			g := len(outlines) + k.panel
			c.MultiSeries = append(c.MultiSeries, charts.SingleSeries{Name: boxes[b], Type: "line", XAxisIndex: g, YAxisIndex: g,
				ShowSymbol: opts.Bool(false), DatasetIndex: b, Encode: &opts.Encode{X: 0, Y: k.column}})
			meta = append(meta, series{Box: b, Role: k.role})
		}
	}
	c.AxisPointer = &opts.AxisPointer{Link: []opts.AxisPointerLink{{XAxisIndex: all}}}
	m := frame(c)
	for g := range grids {
		fixedAxis(m, "xAxis", g, x)
		if k := g - len(outlines); k >= 0 {
			fixedAxis(m, "yAxis", g, ys[k])
		}
	}
	return m, meta
}

// faceOption has a grid for the curves of the load along the face, then one for the flank of each box. Ranges come with each view.
func faceOption(boxes []string, xName string) (map[string]any, []series) {
	c := charts.NewLine()
	c.XAxisList, c.YAxisList = nil, nil
	var meta []series
	all := make([]int, len(boxes)+1)
	for g := range all {
		all[g] = g
		name := ""
		if g == len(boxes) {
			name = xName
		}
		c.GridList = append(c.GridList, opts.Grid{Left: "60", Right: "16"})
		c.XAxisList = append(c.XAxisList, xValues(scale{-1, 1, 1}, name, g))
		c.YAxisList = append(c.YAxisList, yValues(scale{0, 1, 1}, "", g))
	}
	for b, name := range boxes {
		for _, role := range []string{"load", "mean"} {
			c.MultiSeries = append(c.MultiSeries, charts.SingleSeries{Name: name, Type: "line", ShowSymbol: opts.Bool(false)})
			meta = append(meta, series{Box: b, Role: role})
		}
		c.MultiSeries = append(c.MultiSeries, charts.SingleSeries{Name: name, Type: "custom", XAxisIndex: b + 1, YAxisIndex: b + 1, Data: [][]int{{0, 0}}})
		meta = append(meta, series{Box: b, Role: "flank"})
	}
	c.AxisPointer = &opts.AxisPointer{Link: []opts.AxisPointerLink{{XAxisIndex: all}}}
	return frame(c), meta
}

// growthOption has a grid for K_Hβ against the input torque, and one below it for the place where the load acts. Ranges come with each view.
func growthOption(boxes []string, xName string) (map[string]any, []series) {
	c := charts.NewLine()
	c.XAxisList, c.YAxisList = nil, nil
	var meta []series
	for g, name := range []string{"", xName} {
		c.GridList = append(c.GridList, opts.Grid{Left: "60", Right: "16"})
		c.XAxisList = append(c.XAxisList, xValues(scale{0, 1, 1}, name, g))
		c.YAxisList = append(c.YAxisList, yValues(scale{0, 1, 1}, "", g))
		for b, box := range boxes {
			c.MultiSeries = append(c.MultiSeries, charts.SingleSeries{Name: box, Type: "line", XAxisIndex: g, YAxisIndex: g})
			meta = append(meta, series{Box: b, Role: [...]string{"factor", "place"}[g]})
		}
	}
	c.AxisPointer = &opts.AxisPointer{Link: []opts.AxisPointerLink{{XAxisIndex: []int{0, 1}}}}
	return frame(c), meta
}

// gearingOption has a grid for the engine speed against the speed over ground, with the name of each speed where it is shifted, and one below it for the pull.
func gearingOption(lines []gearingLine, boxes []string, x, y, z scale, xName string) (map[string]any, []series) {
	c := charts.NewLine()
	c.XAxisList, c.YAxisList = nil, nil
	var meta []series
	for g, name := range []string{"", xName} {
		c.GridList = append(c.GridList, opts.Grid{Left: "60", Right: "16"})
		c.XAxisList = append(c.XAxisList, xValues(x, name, g))
		c.YAxisList = append(c.YAxisList, yValues([]scale{y, z}[g], "", g))
	}
	tops := make([][]cross, len(boxes))
	for _, l := range lines {
		g := 0
		switch l.role {
		case "gear":
			tops[l.box] = append(tops[l.box], cross{X: rounded(l.data[len(l.data)-1][0]), Name: l.name})
		case "pull", "hold":
			g = 1
		}
		c.MultiSeries = append(c.MultiSeries, charts.SingleSeries{Name: l.name, Type: "line", XAxisIndex: g, YAxisIndex: g, ShowSymbol: opts.Bool(false), Data: l.data})
		meta = append(meta, series{Box: l.box, Role: l.role})
	}
	for b, name := range boxes {
		if len(tops[b]) > 0 {
			c.MultiSeries = append(c.MultiSeries, charts.SingleSeries{Name: name, Type: "custom", Data: [][]int{{0, 0}}})
			meta = append(meta, series{Box: b, Role: "tops", Cross: tops[b]})
		}
	}
	c.AxisPointer = &opts.AxisPointer{Link: []opts.AxisPointerLink{{XAxisIndex: []int{0, 1}}}}
	m := frame(c)
	for g, s := range []scale{y, z} {
		fixedAxis(m, "xAxis", g, x)
		fixedAxis(m, "yAxis", g, s)
	}
	return m, meta
}
