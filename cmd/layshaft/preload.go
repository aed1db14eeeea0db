package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/spf13/pflag"

	"layshaft/beam/bearing"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/data"
	"layshaft/reports/text"
)

// benchFlag is a number of the bench with its unit.
type benchFlag struct {
	of        quantity.Dimension
	bare      bool // a tolerance is refused
	below     bool // it may be below zero
	text      string
	value     float64
	tolerance float64
}

func (f *benchFlag) String() string { return f.text }
func (f *benchFlag) Type() string   { return "value" }
func (f *benchFlag) Set(s string) error {
	q, err := quantity.Parse(s, f.of)
	switch {
	case err != nil:
		return err
	case f.bare && q.Tolerance != 0:
		return errors.New("give one value, without a tolerance")
	case !f.below && q.Value < 0:
		return errors.New("give a value of zero or more")
	}
	f.text, f.value, f.tolerance = s, q.Value, q.Tolerance
	return nil
}

// torqueReadings is a trial on the bench: "50 µm: 0.4 N·m". It may be repeated.
type torqueReadings struct {
	texts []string
	all   []bearing.Reading
}

func (f *torqueReadings) String() string { return strings.Join(f.texts, ", ") }
func (f *torqueReadings) Type() string   { return "reading" }
func (f *torqueReadings) Set(s string) error {
	shim, torque, ok := strings.Cut(s, ":")
	if !ok {
		return errors.New(`a reading is a shim and the torque with it, such as "50 µm: 0.4 N·m"`)
	}
	thick, turn := benchFlag{of: quantity.Deflection, bare: true, below: true}, benchFlag{of: quantity.Torque, bare: true}
	if err := errors.Join(thick.Set(strings.TrimSpace(shim)), turn.Set(strings.TrimSpace(torque))); err != nil {
		return err
	}
	f.texts = append(f.texts, s)
	f.all = append(f.all, bearing.Reading{Shim: thick.value, Torque: turn.value})
	return nil
}

func preloadCommand() command {
	return command{
		name: "preload", args: "FILE [flags]", files: true,
		short: "set a tapered pair up on the bench: shims, preload and torque, cold and warm",
		long: `Takes a shaft of the box that runs in two tapered bearings whose rollers are given, and tells for each shim the end play or preload, the torque to turn it by
hand, and its two stiffnesses: that which a force on the shaft meets, and that which a shim meets, about a quarter of it. Warm, a case that grows more than the
shaft takes preload from a pair that is face to face, and adds to it back to back. From two or three readings of shim and torque it finds the shim for a wanted
torque, with its uncertainty; the shim of zero clearance, from a squeezed strip of soft wire, is the better base.`,
		example: `  layshaft preload my-box.yaml --reading "50 µm: 0.4 N·m" --reading "80 µm: 1.3 N·m" --want "1 N·m"`,
		flags: func(set *pflag.FlagSet) action {
			var (
				shaft                                      string
				rise, shaftRise, growth, turns, efficiency float64
				readings                                   torqueReadings
				o                                          output
			)
			span, cup := benchFlag{of: quantity.Length, bare: true}, benchFlag{of: quantity.Deflection, bare: true}
			stiffness, rib := benchFlag{of: quantity.RadialStiffness, bare: true}, benchFlag{of: quantity.Length, bare: true}
			preload, drag := benchFlag{of: quantity.Force, bare: true}, benchFlag{of: quantity.Torque, bare: true}
			want, unsure, zero := benchFlag{of: quantity.Torque, bare: true}, benchFlag{of: quantity.Torque, bare: true}, benchFlag{of: quantity.Deflection, below: true}
			set.StringVar(&shaft, "shaft", "", "the shaft with this `NAME`; needed where several run in a tapered pair")
			set.Float64Var(&rise, "rise", 60, "by how many `K` case and shaft get warmer")
			set.Float64Var(&shaftRise, "shaft-rise", 0, "by how many `K` the shaft gets warmer; as much as the case if not given")
			set.Float64Var(&growth, "case-growth", bearing.AluminiumGrowth, "growth of the case per K; 23.5e-6 aluminium, 26e-6 magnesium, 10.5e-6 cast iron")
			set.Var(&span, "span", "`LENGTH` between the seats of the outer rings; else between the effective centres")
			set.Var(&cup, "cup-growth", "by how much the radius of each outer ring grows as its seat lets go, such as \"5 µm\"")
			set.Var(&stiffness, "case-stiffness", "`STIFFNESS` of the case along the shaft, such as \"250 N/µm\"; else rigid")
			set.Var(&rib, "rib", "lever of the friction at the ribs, such as \"4 mm\"; else half a roller")
			set.Var(&preload, "preload", "`FORCE` of preload that is wanted warm, such as \"1500 N\"")
			set.Float64Var(&turns, "turns", 1, "turns of the pair's shaft per turn of the shaft in hand, where the torque is read at another one")
			set.Float64Var(&efficiency, "efficiency", 1, "of the meshes between the two shafts, such as 0.98")
			set.Var(&drag, "drag", "`TORQUE` that turns the shaft in hand without the pair")
			set.Var(&readings, "reading", "a `SHIM: TORQUE` that was read, such as \"50 µm: 0.4 N·m\"; may be repeated")
			set.Var(&unsure, "unsure", "standard uncertainty of each `TORQUE` read")
			set.Var(&want, "want", "`TORQUE` for which the shim is wanted")
			set.Var(&zero, "zero", "`SHIM` of zero clearance with its uncertainty, such as \"55 ± 3 µm\"")
			o.declare(set, false)
			return func(args []string, e env) (int, error) {
				if len(args) != 1 {
					return exitUsage, usageError{message: "which box? Name one box file", hint: `"layshaft new my-box.yaml" writes one to start from.`}
				}
				if !(turns > 0) || !(efficiency > 0 && efficiency <= 1) || !(growth >= 0 && growth < 1e-3) {
					return exitUsage, usageError{message: "turns are above 0, an efficiency is above 0 and at most 1, and a growth per K lies below 1e-3"}
				}
				if (want.value > 0) != (len(readings.all) > 0) {
					return exitUsage, usageError{message: "a wanted torque needs readings, and readings a wanted torque: give both --want and --reading"}
				}
				q := study.PreloadQuestion{
					Shaft: shaft, Case: math.Inf(1), Rib: rib.value, Preload: preload.value, Seen: study.SeenAt{Turns: turns, Efficiency: efficiency, Drag: drag.value},
					Warm:     bearing.Warmth{Span: span.value, Case: growth, Shaft: bearing.SteelGrowth, CaseRise: rise, ShaftRise: rise, Cup: cup.value},
					Readings: readings.all, Unsure: unsure.value, Want: want.value, Zero: math.NaN(), ZeroBand: zero.tolerance,
				}
				if set.Changed("shaft-rise") {
					q.Warm.ShaftRise = shaftRise
				}
				if stiffness.value > 0 {
					q.Case = stiffness.value
				}
				if zero.text != "" {
					q.Zero = zero.value
				}
				return benched(args[0], q, &o, e)
			}
		},
	}
}

// benched reads the file, sets the pair up and writes what comes of it.
func benched(name string, q study.PreloadQuestion, o *output, e env) (int, error) {
	box, source, found := read(name, e)
	if len(found) > 0 {
		if err := found.Render(e.stderr, map[string][]byte{sourceName(name): source}, diag.Style{Colour: o.coloured(e), Width: 100}); err != nil {
			return exitUsage, err
		}
	}
	if found.HasErrors() {
		return exitUsage, errShown
	}
	table, err := study.Bench(box, q)
	if err != nil {
		return exitUsage, fmt.Errorf("%s: %w", sourceName(name), err)
	}
	o.heed(box)
	opt := o.options(e)
	err = o.write(e, writers{
		text: func(w io.Writer) error { return text.Preload(w, table, opt) },
		json: func(w io.Writer) error { return data.PreloadJSON(w, table, opt.Options) },
		csv:  func(w io.Writer) error { return data.PreloadCSV(w, table, opt.Options) },
	})
	if err != nil {
		return exitUsage, err
	}
	return exitHolds, nil
}
