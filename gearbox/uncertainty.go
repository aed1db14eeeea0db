package gearbox

import "layshaft/gearbox/chance"

// Uncertainty says how what isn't known exactly spreads. Without it chances mean nothing: only ranges can be told.
type Uncertainty struct {
	Readings   chance.Law // of a number between its value less and plus its ±
	Steel      chance.Law // of a strength between the poorest and the best of its band
	Flanks     chance.Law // of flanks out of line from their making, to either side
	Instrument Instrument // whose ± a length of shafts, gears and centres has that the file gives none; none = those are taken as exact
}

// Usually is the uncertainty of a file that says nothing of it.
func Usually() Uncertainty {
	return Uncertainty{Readings: chance.Normal, Steel: chance.Triangular, Flanks: chance.Normal}
}

// Instrument is what a length was measured with.
type Instrument struct {
	Name string
	Plus float64 // between which its readings lie on either side, mm; 0 = none is named
}

// Instruments are those of a workshop, the finest first. Common practice, no source: for a clean part and a careful hand.
func Instruments() []Instrument {
	return []Instrument{{"micrometer", 0.01}, {"caliper", 0.03}, {"depth gauge", 0.05}, {"rule", 0.5}}
}

// FindInstrument is the instrument of a name.
func FindInstrument(name string) (Instrument, bool) {
	for _, i := range Instruments() {
		if i.Name == name {
			return i, true
		}
	}
	return Instrument{}, false
}
