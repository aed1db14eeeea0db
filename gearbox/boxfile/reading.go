package boxfile

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"layshaft/gearbox/quantity"
	"layshaft/gearstress/gauge"
)

// by stands between a reading and the instrument it was taken with.
const by = " by "

// dimensionOf is the dimension of a reading of a kind.
func dimensionOf(k gauge.Kind) quantity.Dimension {
	if k.Angle() {
		return quantity.Angle
	}
	return quantity.Length
}

// exampleOf is a reading of a kind as a person writes it.
func exampleOf(k gauge.Kind) string {
	if k.Angle() {
		return "24.5° ± 1°"
	}
	return "43.35 mm" + by + string(k.Instruments()[0])
}

// ParseReading reads a reading with its ± or the instrument that it was taken with:
//
//	43.35 mm    43.35 ± 0.02 mm    43.35 mm by micrometer
//
// The error, if any, is a *quantity.Error.
func ParseReading(k gauge.Kind, text string) (gauge.Reading, error) {
	r := gauge.Reading{Kind: k}
	number, instrument, named := strings.Cut(text, by)
	if named {
		instrument = strings.TrimSpace(instrument)
		r.By = gauge.Instrument(instrument)
		if all := k.Instruments(); !slices.Contains(all, r.By) {
			var words []string
			for _, i := range all {
				words = append(words, string(i))
			}
			return r, &quantity.Error{Offset: utf8.RuneCountInString(number + by), Width: utf8.RuneCountInString(instrument),
				Summary: "unknown instrument",
				Detail: fmt.Sprintf("Found %q; the %s is read by %s. For any other give its ±.", short(instrument),
					k, strings.Join(words, ", ")) + didYouMean(instrument, words)}
		}
	}
	q, err := quantity.Parse(number, dimensionOf(k))
	if err != nil {
		return r, err
	}
	if !(q.Value > 0) {
		return r, &quantity.Error{Width: utf8.RuneCountInString(number), Summary: "value out of range",
			Detail: fmt.Sprintf("Found %q; a reading of the %s is greater than 0.", short(number), k)}
	}
	r.Value, r.Tolerance = q.Value, q.Tolerance
	return r, nil
}

// ParseSpan reads "3: 17.843 mm", a span over so many teeth.
func ParseSpan(text string) (gauge.Reading, error) {
	count, rest, ok := strings.Cut(text, ":")
	n, err := quantity.Parse(count, quantity.Number)
	if !ok || err != nil || n.Value != float64(int(n.Value)) || n.Value < 1 {
		return gauge.Reading{}, &quantity.Error{Width: utf8.RuneCountInString(text), Summary: "not a span",
			Detail: fmt.Sprintf("Found %q; expected the teeth spanned and the reading, such as \"3: 17.843 mm by micrometer\".",
				short(text))}
	}
	r, err := ParseReading(gauge.Span, strings.TrimSpace(rest))
	r.Teeth = int(n.Value)
	return r, err
}

// ParseSized reads "4.5 mm: 44.377 mm": a reading over balls of a size, or of a chord at a height below the tip.
func ParseSized(k gauge.Kind, text string) (gauge.Reading, error) {
	size, rest, ok := strings.Cut(text, ":")
	n, err := quantity.Parse(size, quantity.Length)
	if !ok || err != nil || !(n.Value > 0) {
		return gauge.Reading{}, &quantity.Error{Width: utf8.RuneCountInString(text), Summary: "not a reading",
			Detail: fmt.Sprintf("Found %q; expected a size and the reading, such as \"4.5 mm: 44.377 mm by micrometer\".", short(text))}
	}
	r, err := ParseReading(k, strings.TrimSpace(rest))
	r.Size = n.Value
	return r, err
}

// reading is a reading of a kind.
func reading[T any](k gauge.Kind, add func(*T, gauge.Reading)) value[T] {
	return value[T]{
		written: "reading, such as " + exampleOf(k),
		read: func(r *reader, at spot, to *T) {
			if found, ok := r.reading(at, k); ok {
				add(to, found)
			}
		},
	}
}

func (r *reader) reading(at spot, k gauge.Kind) (found gauge.Reading, ok bool) {
	text, ok := r.scalar(at, "a reading, such as "+exampleOf(k))
	if !ok {
		return found, false
	}
	found, err := ParseReading(k, text)
	if err != nil {
		r.notQuantity(at, err)
		return found, false
	}
	r.box.Places[at.path] = at.place
	return found, true
}

// notQuantity reports why a value can't be read.
func (r *reader) notQuantity(at spot, err error) {
	place, summary, detail := at.place, "not a number", err.Error()
	if e, ok := errors.AsType[*quantity.Error](err); ok {
		place, summary, detail = r.part(at, e.Offset, e.Width), e.Summary, e.Detail
	}
	r.fault(place, at.path, summary, detail)
}

// readings is a map from counts or sizes to readings of a kind.
func readings[T any](k gauge.Kind, key string, add func(*T, gauge.Reading)) value[T] {
	expected := "a map from " + key + " to readings"
	return value[T]{
		written: "map from " + key + " to readings",
		read: func(r *reader, at spot, to *T) {
			pairs, ok := r.pairs(at, expected)
			if !ok {
				return
			}
			if len(pairs) == 0 {
				r.fault(at.owner, at.path, "missing value", "Expected: "+expected+".")
			}
			r.inside(at, func() {
				for _, p := range pairs {
					path := join(at.path, p.key)
					child, ok := r.enter(p.value, path, p.place)
					if !ok || p.refused {
						continue
					}
					size := quantity.Length
					if k == gauge.Span {
						size = quantity.Number
					}
					q, err := quantity.Parse(p.key, size)
					switch {
					case err != nil:
						r.fault(p.place, path, "not a key here", fmt.Sprintf("Found %q; expected %s.", short(p.key), expected))
						continue
					case !(q.Value > 0) || k == gauge.Span && q.Value != float64(int(q.Value)):
						r.fault(p.place, path, "value out of range", fmt.Sprintf("Found %q; expected %s.", short(p.key), expected))
						continue
					}
					if found, ok := r.reading(child, k); ok {
						if k == gauge.Span {
							found.Teeth = int(q.Value)
						} else {
							found.Size = q.Value
						}
						add(to, found)
					}
				}
			})
		},
	}
}
