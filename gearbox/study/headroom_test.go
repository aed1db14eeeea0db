package study

import (
	"context"
	"math"
	"testing"

	"layshaft/gearbox"
)

func headroom(t *testing.T, b *gearbox.Box, changed []Changed, before float64, load gearbox.Load) *Headroom {
	t.Helper()
	h, err := FindHeadroom(context.Background(), b, changed, before, load, nil)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// Each torque that headroom tells, asked of the box, leaves a margin of zero at that limit. They go from a twentieth to
// twenty times the box's own.
func TestHeadroomPutBack(t *testing.T) {
	t.Parallel()
	alder, birch := demoBoxes(t)
	for b, torques := range map[*gearbox.Box][]float64{alder: {270e3, -40e3, 3.8e6}, birch: {9.5e3}} {
		for _, torque := range torques {
			h := headroom(t, b, nil, torque, gearbox.Load{Torque: torque})
			for _, s := range h.Speeds {
				for n, l := range s.Limits {
					r, err := gearbox.Solve(b, gearbox.Load{Torque: math.Copysign(l.Torque, torque), Speeds: []string{s.Speed}})
					if err != nil {
						t.Fatal(err)
					}
					found := math.Inf(1)
					for _, m := range r.Speeds[0].Margins {
						if m.Kind == l.Kind && m.Item == l.Item {
							found = m.Margin
						}
					}
					if !(math.Abs(found) < 1e-9) {
						t.Errorf("%s, %s, asked %g: limit %d (%v, %s) is told at %.9g N·mm, where its margin is %g", b.Name, s.Speed, torque, n, l.Kind, l.Item, l.Torque, found)
					}
					if n == 0 && !(math.Abs(r.Speeds[0].Governing().Margin) < 1e-9) {
						t.Errorf("%s, %s, asked %g: at %.9g N·mm another limit is exceeded by %g", b.Name, s.Speed, torque, l.Torque, r.Speeds[0].Governing().Margin)
					}
					if n > 0 && l.Torque < s.Limits[n-1].Torque*(1-1e-9) {
						t.Errorf("%s, %s, asked %g: limit %d is reached before limit %d", b.Name, s.Speed, torque, n, n-1)
					}
				}
			}
		}
	}
}

// The torque limit for a controller leaves the wanted reserve, neither more nor less.
func TestHoldingTorqueLeavesTheReserve(t *testing.T) {
	alder, _ := demoBoxes(t)
	h := headroom(t, alder, nil, 190e3, gearbox.Load{Torque: 270e3})
	for _, s := range h.Speeds {
		again := headroom(t, alder, nil, s.Holding, gearbox.Load{Torque: s.Holding, Speeds: []string{s.Speed}})
		if left := again.Speeds[0].Asked; math.Abs(left-alder.Limits.Reserve) > 1e-8 {
			t.Errorf("%s held to %g leaves %g, want %g", s.Speed, s.Holding, left, alder.Limits.Reserve)
		}
	}
	if h.Added != 80e3 || h.Before != 190e3 || h.Total() != 270e3 {
		t.Errorf("from %g by %g to %g", h.Before, h.Added, h.Total())
	}
}

// Fatigue and peak of one tooth are one trouble, and so are the flanks of one mesh; the same kind at another part is another.
func TestDistinctLimits(t *testing.T) {
	at := func(k gearbox.Kind, gear string, torque float64) gearbox.Margin {
		return gearbox.Margin{Kind: k, Gear: gear, Item: gear, Allowable: [3]float64{torque, torque, torque}}
	}
	s := &gearbox.SpeedResult{
		Meshes: []gearbox.MeshResult{{Name: "m", Gears: [2]string{"a", "b"}}},
		Margins: []gearbox.Margin{
			at(gearbox.RootFatigue, "a", 1), at(gearbox.RootPeak, "a", 2), at(gearbox.FlankFatigue, "a", 3), at(gearbox.FlankPeak, "b", 3.5), at(gearbox.RootPeak, "b", 4), at(gearbox.MeshTilt, "", 5),
		},
	}
	got := distinct(s)
	if len(got) != 3 || got[0].Torque != 1 || got[1].Torque != 3 || got[2].Torque != 4 {
		t.Errorf("%+v", got)
	}
}

// A variant is judged as the box itself would be.
func TestVariantIsABoxOfItsOwn(t *testing.T) {
	alder, birch := demoBoxes(t)
	h := headroom(t, alder, []Changed{{[]string{"all of it"}, birch}}, 190e3, gearbox.Load{Torque: 190e3})
	alone := headroom(t, birch, nil, 190e3, gearbox.Load{Torque: 190e3})
	for _, s := range alone.Speeds {
		if v := h.Variants[0].Reserve(s.Speed); v == nil || v.Allowable() != s.Allowable() || v.State != s.State {
			t.Errorf("%s: %+v, alone %+v", s.Speed, v, s)
		}
	}
	if h.Variants[0].Reserve("crawler") != nil {
		t.Error("a speed that isn't there has a reserve")
	}
}

func TestHeadroomRefusesAndStops(t *testing.T) {
	alder, _ := demoBoxes(t)
	for _, c := range [][2]float64{{0, 100e3}, {100e3, 0}, {-100e3, 100e3}} {
		if _, err := FindHeadroom(context.Background(), alder, nil, c[0], gearbox.Load{Torque: c[1]}, nil); err == nil {
			t.Errorf("from %g to %g: no error", c[0], c[1])
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := FindHeadroom(ctx, alder, nil, 1e5, gearbox.Load{Torque: 1e5}, nil); err != context.Canceled {
		t.Errorf("%v, want that it was ended", err)
	}
}
