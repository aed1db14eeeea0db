// Package page writes results as one HTML file that opens without a network.
//
// The page answers first (a sentence, then a table of what limits each speed), then shows why: torque margins as bars, margins
// against the input torque, what clutch and tyres let through to the teeth, how long each gear lasts, every shaft drawn to scale above its deflection, slope, bending moment and torque, the load along the
// face of each mesh above a flank shaded by it, what tilts each mesh, and the teeth. The numbers behind the charts follow as
// tables, then assumptions, the sources of the limits, and the licences of what the page carries.
//
// Pages of headroom and of sweeps have one answer and its reasons: what is left and what a change buys; the allowable torque over a range as lines, or over two as a map, which needs no script.
// A page of ratios shows engine speed and pull against the speed over ground, and the ratio table.
//
// Nothing is computed here but the place of things on the page. Margins at other torques come from gearbox.Margin.MarginAt, the
// curves from beam.Solution.Curve, outlines of teeth from involute.Pair.Tooth, the critical section from iso6336.NewForm, units
// from quantity. The mean line load is the largest over K_Hβ, as that factor is defined. Two calls with the same results write
// the same bytes: no time, no random names.
//
// # Safety
//
// A box file is not trusted. Names reach the page only through html/template or its HTMLEscapeString, or as JSON whose <, > and &
// are escaped, inside a script element that browsers do not run; the page's own script puts them into the page as text, never as
// HTML. A content security policy lets nothing run but the two scripts that are part of the page, by their SHA-256, and lets
// nothing be loaded. Control characters and marks that turn the direction of writing are shown by their code point.
//
// # Charts
//
// The charts are drawn by Apache ECharts 5.6.0, embedded as published in assets/ with its licence, its notice and the licence of
// the parts it took over. Package go-echarts builds the frame of the options (axes, grids, series) in chart.go and is used for
// nothing else; what cannot be said in JSON (drawing shafts, placing labels, dark mode, paper) is in assets/boot.js. The chart data say
// which box and which curve a series is; boot.js takes its colour and dash from the page's style, so that screen, dark screen and
// paper each have their own.
//
// What tilts a mesh and the teeth are drawn in the page itself, as tables and SVG, and need no script: without one, every speed is
// shown; with one, the speed chosen. A flank is drawn as it is seen when the left end of its shaft is at the left hand.
//
// Along a shaft the charts count x in the box: the shaft's Start plus the place on the shaft, in the sense of +x. Boxes laid over
// each other are therefore aligned where their box files put x = 0. Curves are rounded to four significant digits, other chart data to five.
//
// A number that is not finite is never a silent hole: curves have a gap and a note under the chart, tables say "n/a" for NaN and
// "not reached" for a limit no torque reaches.
package page
