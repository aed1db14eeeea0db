package study

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"layshaft/beam/bearing"
	"layshaft/gearbox"
)

// PreloadQuestion is what is asked of a tapered pair on the bench.
type PreloadQuestion struct {
	Shaft    string // "" = the only one of the box that runs in such a pair
	Warm     bearing.Warmth
	Case     float64 // stiffness of the case along the shaft between the outer rings, N/mm; +Inf = rigid
	Rib      float64 // lever of the rollers' friction at the rib, mm; 0 = half the diameter of a roller
	Preload  float64 // wanted when hot, N; 0 = none is asked for
	Seen     SeenAt
	Readings []bearing.Reading // mm, and N·mm as read at the shaft in hand
	Unsure   float64           // standard uncertainty of each torque read, N·mm
	Want     float64           // torque wanted at the shaft in hand, N·mm; 0 = no shim is asked for
	Zero     float64           // shim of zero clearance, mm; NaN = not known
	ZeroBand float64           // its standard uncertainty, mm
}

// SeenAt is where the torque is read: at the shaft of the pair itself, or at another that drives it.
type SeenAt struct {
	Turns      float64 // turns of the pair's shaft per turn of the shaft in hand; 1 = it is that shaft
	Efficiency float64 // of the meshes between
	Drag       float64 // of the shaft in hand without the pair, N·mm
}

// Friction at the rib of tapered rollers at hand speed, from well oiled to dry; from memory of a bearing maker's report.
var ribFriction = [3]float64{0.05, 0.15, 0.20}

// PreloadRow is the pair with one shim.
type PreloadRow struct {
	Shim      float64 // thicker than that of zero clearance, cold, mm; negative: there is play
	Cold, Hot PreloadState
	Own       bool // as the box file sets it
	Wanted    bool // it gives the wanted preload when hot
}

// PreloadState is a pair cold or hot.
type PreloadState struct {
	bearing.AtRest
	Torque [3]float64 // to turn the shaft in hand slowly, N·mm: well oiled, usual, dry
}

// PreloadTable is a tapered pair on the bench.
type PreloadTable struct {
	Box         *gearbox.Box
	Shaft       string
	Arrangement bearing.Arrangement
	Rib         float64 // mm
	Grown       float64 // end play gained from cold to hot, mm; negative: lost
	Question    PreloadQuestion
	Rows        []PreloadRow
	Shim        *bearing.ShimAnswer // nil = none was asked for
	Notes       []string
}

// Around the setting of the file the table goes this far, mm.
const (
	shimStep = 0.02
	shimPlay = 0.06
	shimPush = 0.10
)

// Bench sets a tapered pair of a box up by hand.
func Bench(b *gearbox.Box, q PreloadQuestion) (*PreloadTable, error) {
	s, err := pairedShaft(b, q.Shaft)
	if err != nil {
		return nil, err
	}
	bench, ok := s.Bench(q.Case)
	if !ok {
		return nil, fmt.Errorf("of the pair of %s only ratings are known: what a shim does follows from its rollers; give elements of both bearings and an end_play or preload", gearbox.ShaftTitle(s.Name))
	}
	t := &PreloadTable{Box: b, Shaft: s.Name, Arrangement: bench.Arrangement, Question: q, Rib: q.Rib}
	if t.Rib == 0 {
		t.Rib = max(bench.A.Diameter, bench.B.Diameter) / 2
		t.Notes = append(t.Notes, fmt.Sprintf("The rib's lever isn't given; half the diameter of a roller (%.3g mm) is taken, common sense, no source.", t.Rib))
	}
	if q.Warm.Span == 0 {
		t.Question.Warm.Span = math.Abs(s.Bearings[len(s.Bearings)-1].At - s.Bearings[0].At)
		t.Notes = append(t.Notes, "The length over which case and shaft grow apart isn't given; that between the bearings' effective centres is taken, and measured between the seats of the outer rings it may differ.")
	}
	t.Grown = bench.PlayChange(t.Question.Warm)
	shims := []float64{-s.Pair.EndPlay}
	if q.Preload > 0 {
		play, err := bench.Play(q.Preload)
		if err != nil {
			return nil, err
		}
		shims = append(shims, t.Grown-play)
	}
	for k := -math.Round(shimPlay / shimStep); k <= shimPush/shimStep; k++ {
		shims = append(shims, k*shimStep)
	}
	slices.Sort(shims)
	for i, shim := range shims {
		if i > 0 && shim-shims[i-1] < 1e-6 {
			continue
		}
		row := PreloadRow{Shim: shim, Own: math.Abs(shim+s.Pair.EndPlay) < 1e-6}
		if row.Cold, err = t.at(bench, -shim); err != nil {
			return nil, err
		}
		if row.Hot, err = t.at(bench, t.Grown-shim); err != nil {
			return nil, err
		}
		row.Wanted = q.Preload > 0 && math.Abs(row.Hot.Preload-q.Preload) < 1e-6*q.Preload
		t.Rows = append(t.Rows, row)
	}
	t.doubts()
	if q.Want > 0 || len(q.Readings) > 0 {
		return t, t.shim()
	}
	return t, nil
}

// pairedShaft is the shaft that is asked about.
func pairedShaft(b *gearbox.Box, name string) (*gearbox.Shaft, error) {
	var found []*gearbox.Shaft
	for i := range b.Shafts {
		if s := &b.Shafts[i]; s.Pair != nil && (name == "" || s.Name == name) {
			found = append(found, s)
		}
	}
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(found) > 1:
		return nil, errors.New("several shafts run in a tapered pair: say which one")
	case name != "":
		return nil, fmt.Errorf("the box has no shaft %q that runs in a tapered pair", name)
	}
	return nil, errors.New("no shaft of the box runs in a tapered pair: give a shaft its pair (arrangement, and end_play or preload), and its two bearings their elements")
}

// at is the pair with an end play.
func (t *PreloadTable) at(b bearing.Bench, play float64) (s PreloadState, err error) {
	if s.AtRest, err = b.At(play); err != nil {
		return s, err
	}
	seen := t.Question.Seen
	for i, friction := range ribFriction {
		own := 2 * bearing.RibTorque(t.Rib, friction, s.Preload, 0) // of both rows; the angle of a roller's axis against its rib is small
		s.Torque[i] = bearing.SeenThrough(seen.Drag, own, seen.Turns, seen.Efficiency)
	}
	return s, nil
}

// doubts says where the pair has left what is set on a bench.
func (t *PreloadTable) doubts() {
	for _, r := range t.Rows {
		if !r.Own && !r.Wanted {
			continue
		}
		which := "As the box file sets it"
		if r.Wanted {
			which = "With the shim for the preload wanted hot"
		}
		for _, c := range []struct {
			when string
			at   PreloadState
		}{{"cold", r.Cold}, {"hot", r.Hot}} {
			if c.at.Beyond() {
				t.Notes = append(t.Notes, fmt.Sprintf("%s the pair carries %.3g kN %s: its rollers press with %.0f MPa, above the %.0f MPa from which a contact tires whatever its oil. "+
					"The model has left its range: whoever sets a pair so relies on rings and case giving way, or on the other arrangement.", which, c.at.Preload/1e3, c.when, c.at.Pressure, bearing.MostPressure))
			}
		}
		if r.Cold.Preload > 0 && r.Hot.Play > 0 {
			t.Notes = append(t.Notes, fmt.Sprintf("%s the preload is lost when it is warm: %.3g µm of play.", which, 1e3*r.Hot.Play))
		}
	}
}

// shim finds the shim for the wanted torque, from torques read at the shaft in hand.
func (t *PreloadTable) shim() error {
	q := t.Question
	behind := func(torque float64) float64 {
		return bearing.BehindIt(torque, q.Seen.Drag, q.Seen.Turns, q.Seen.Efficiency)
	}
	ask := bearing.ShimQuestion{Want: behind(q.Want), Unsure: q.Unsure * q.Seen.Efficiency / q.Seen.Turns, Zero: q.Zero, ZeroUnsure: q.ZeroBand}
	for _, r := range q.Readings {
		ask.Readings = append(ask.Readings, bearing.Reading{Shim: r.Shim, Torque: behind(r.Torque)})
	}
	if q.Want > 0 && ask.Want <= 0 {
		return errors.New("the wanted torque is no more than the drag of the shaft in hand: nothing of it is left for the pair")
	}
	a, err := ask.Shim()
	if err != nil {
		return err
	}
	t.Shim = &a
	return nil
}
