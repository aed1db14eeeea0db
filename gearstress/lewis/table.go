package lewis

import (
	"fmt"
	"math"
	"strings"

	"layshaft/gearstress/involute"
)

// Table is a published table of form factors.
type Table struct {
	Name          string  // short, for reports
	Source        string  // where it is printed
	PressureAngle float64 // α, rad
	rows          []row   // rising in tooth number
	rack          float64 // Y at infinitely many teeth, –
}

type row struct{ teeth, y float64 }

// FullDepth20 is the table for full-depth teeth of 20°.
var FullDepth20 = Table{
	Name:          "Lewis table, 20° full depth",
	Source:        "Budynas and Nisbett, Shigley's Mechanical Engineering Design, 8th to 10th ed., Table 14-2 (written down from memory; the rows for 15 to 18, 20, 22, 60 and 100 teeth seen in use)",
	PressureAngle: 20 * math.Pi / 180,
	rows: []row{
		{12, 0.245}, {13, 0.261}, {14, 0.277}, {15, 0.290}, {16, 0.296}, {17, 0.303}, {18, 0.309}, {19, 0.314},
		{20, 0.322}, {21, 0.328}, {22, 0.331}, {24, 0.337}, {26, 0.346}, {28, 0.353}, {30, 0.359}, {34, 0.371},
		{38, 0.384}, {43, 0.397}, {50, 0.409}, {60, 0.422}, {75, 0.435}, {100, 0.447}, {150, 0.460}, {300, 0.472},
		{400, 0.480},
	},
	rack: 0.485,
}

// FullDepth145 is the table for full-depth teeth of 14.5°. Published tables for
// this angle differ by up to 0.013; this is the one of stock-gear practice.
var FullDepth145 = Table{
	Name:          "Lewis table, 14.5° full depth",
	Source:        "table of stock-gear practice as used by T. Wentzell, Machine Design, ch. 12 (written down from memory; the row for 24 teeth and the value between 45 and 50 seen in use)",
	PressureAngle: 14.5 * math.Pi / 180,
	rows: []row{
		{12, 0.210}, {13, 0.223}, {14, 0.236}, {15, 0.245}, {16, 0.255}, {17, 0.264}, {18, 0.270}, {19, 0.277},
		{20, 0.283}, {22, 0.292}, {24, 0.302}, {26, 0.308}, {28, 0.314}, {30, 0.318}, {34, 0.325}, {38, 0.332},
		{40, 0.336}, {45, 0.340}, {50, 0.346}, {60, 0.355}, {75, 0.361}, {100, 0.368}, {150, 0.375}, {300, 0.382},
	},
	rack: 0.390,
}

// Y is the form factor (–) at a tooth number, which for helical gears is z/cos³β
// and need not be whole. Between rows it is linear in the tooth number; between the
// last row and the rack (+Inf) linear in its reciprocal. Below the first row there
// is no value, and the error says so.
func (t Table) Y(teeth float64) (float64, error) {
	if len(t.rows) == 0 {
		return 0, fmt.Errorf("the form factor table %q is empty; use one of the tables of this package", t.Name)
	}
	first, last := t.rows[0], t.rows[len(t.rows)-1]
	if !(teeth >= first.teeth) {
		return 0, fmt.Errorf("%s starts at %g teeth and has no value for %.4g; use the form factor of the real tooth instead", t.Name, first.teeth, teeth)
	}
	if teeth > last.teeth {
		return t.rack + (last.y-t.rack)*last.teeth/teeth, nil
	}
	k := 1
	for k < len(t.rows)-1 && t.rows[k].teeth < teeth {
		k++
	}
	a, b := t.rows[k-1], t.rows[k]
	return a.y + (b.y-a.y)*(teeth-a.teeth)/(b.teeth-a.teeth), nil
}

// How far a tooth may be from the one the table was made for and still be called
// the table's own. Own choice: each moves Y by about 1 % or less.
const (
	angleSlack  = 0.1 * math.Pi / 180 // rad
	shiftSlack  = 0.02                // modules
	heightSlack = 0.03                // modules, addendum and tip
	leastDepth  = 1.15                // dedendum, modules: 1.157 of old racks
	mostDepth   = 1.26                // dedendum, modules: 1.25 of ISO 53 profile A
)

// TableFor is the table nearest to the tooth of gear i (0 driver, 1 driven) by
// pressure angle. fits tells whether the tooth is the one the table was made for:
// standard rack and depth, no profile shift, enough teeth. If not, note says in
// words what is different; Y of the table is then an approximation.
func TableFor(p *involute.Pair, i int) (t Table, fits bool, note string) {
	t = FullDepth20
	angle := p.Rack.PressureAngle
	if math.Abs(angle-FullDepth145.PressureAngle) < math.Abs(angle-FullDepth20.PressureAngle) {
		t = FullDepth145
	}
	var differs []string
	add := func(format string, args ...any) { differs = append(differs, fmt.Sprintf(format, args...)) }
	if math.Abs(angle-t.PressureAngle) > angleSlack {
		add("pressure angle %.4g°", angle*180/math.Pi)
	}
	if math.Abs(p.X[i]) > shiftSlack {
		add("profile shift %.3f", p.X[i])
	}
	if math.Abs(p.Rack.Addendum-1) > heightSlack {
		add("rack addendum %.3g modules instead of 1", p.Rack.Addendum)
	} else if h := (p.Tip[i]-p.Reference[i])/2/p.Module - p.X[i]; math.Abs(h-1) > heightSlack {
		add("tip %.3f modules above the shifted reference line instead of 1", h)
	}
	if p.Rack.Dedendum < leastDepth || p.Rack.Dedendum > mostDepth {
		add("rack dedendum %.3g modules instead of 1.157 to 1.25", p.Rack.Dedendum)
	}
	if first := t.rows[0].teeth; p.VirtualTeeth[i] < first {
		add("%.4g equivalent teeth, fewer than the %g the table starts at", p.VirtualTeeth[i], first)
	}
	if len(differs) == 0 {
		return t, true, ""
	}
	return t, false, fmt.Sprintf("%s does not describe this tooth (%s)", t.Name, strings.Join(differs, "; "))
}
