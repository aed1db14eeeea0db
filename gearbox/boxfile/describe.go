package boxfile

import "layshaft/gearbox/quantity"

// Key describes one key of a box file.
type Key struct {
	Path    string // "gears.NAME.teeth"; NAME stands for any name, [] for the items of a list
	Meaning string
	Written string // how its value is written: "length greater than 0, such as 25.4 mm"
	Need    bool   // whether it must be given where the map it belongs to is
	Default string // what holds when it is left out; "" when it must be given

	Number    bool               // the value is a number
	Whole     bool               // a whole one, as of teeth
	Dimension quantity.Dimension // of a number
}

// Schema lists every key of a box file in the order in which people should write them.
func Schema() []Key { return describe("", boxFields) }

func describe[T any](prefix string, fields []field[T]) []Key {
	var keys []Key
	for _, f := range fields {
		path := join(prefix, f.key)
		keys = append(keys, Key{Path: path, Meaning: f.about, Written: f.value.written, Need: f.need, Default: f.fallback,
			Number: f.value.number.is, Whole: f.value.number.whole, Dimension: f.value.number.dimension})
		if f.value.keys != nil {
			keys = append(keys, f.value.keys(path)...)
		}
	}
	return keys
}
