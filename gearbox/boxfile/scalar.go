package boxfile

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"layshaft/gearbox/quantity"
)

// A limit is what a number must keep, in inner units and in words: "must be …".
type limit struct {
	holds func(v float64) bool
	words string
}

var (
	anyNumber   = limit{func(float64) bool { return true }, ""}
	positive    = limit{func(v float64) bool { return v > 0 }, "greater than 0"}
	notNegative = limit{func(v float64) bool { return v >= 0 }, "0 or more"}
)

// within is the range from low to high; scale turns them into inner units and unit stands behind them for people.
func within(low, high, scale float64, unit string) limit {
	return limit{
		// A hair of room, so that the end of a range in degrees is in the range in radians.
		func(v float64) bool { const hair = 1e-12; return v >= low*scale-hair && v <= high*scale+hair },
		fmt.Sprintf("from %g%s to %g%s", low, unit, high, unit),
	}
}

// upTo is above 0 and at most so much; scale and unit as within has them.
func upTo(most, scale float64, unit string) limit {
	return limit{
		func(v float64) bool { const hair = 1e-12; return v > 0 && v <= most*scale*(1+hair) },
		"greater than 0 and at most " + strconv.FormatFloat(most, 'f', -1, 64) + unit,
	}
}

const (
	degree = math.Pi / 180
	micron = 1e-3         // mm, µm being the unit in which such lengths are measured
	rpm    = math.Pi / 30 // rad/s
)

// number is a number with the units of a dimension.
func number[T any](d quantity.Dimension, keep limit, part func(*T) *float64) value[T] {
	return value[T]{
		written: written(d, keep),
		number:  numeric{is: true, dimension: d},
		read: func(r *reader, at spot, to *T) {
			if q, ok := r.quantity(at, d, keep); ok {
				*part(to) = q.Value
			}
		},
	}
}

// optional is a number of which it matters whether it was given.
func optional[T any](d quantity.Dimension, keep limit, part func(*T) **float64) value[T] {
	return value[T]{
		written: written(d, keep),
		number:  numeric{is: true, dimension: d},
		read: func(r *reader, at spot, to *T) {
			if q, ok := r.quantity(at, d, keep); ok {
				*part(to) = &q.Value
			}
		},
	}
}

// stiffness is a spring rate, or a word for one: rigid, free.
func stiffness[T any](d quantity.Dimension, words []string, rates map[string]float64, part func(*T) *float64) value[T] {
	return value[T]{
		written: strings.Join(words, ", ") + " or " + written(d, positive),
		number:  numeric{is: true, dimension: d},
		read: func(r *reader, at spot, to *T) {
			text, ok := r.scalar(at, withExample(d))
			if !ok {
				return
			}
			if rate, ok := rates[text]; ok {
				*part(to) = rate
				r.box.Places[at.path] = at.place
				return
			}
			if !strings.ContainsAny(text, "0123456789") {
				r.fault(at.place, at.path, "unknown word "+strconv.Quote(short(text)),
					"Expected: "+strings.Join(words, ", ")+" or a "+d.String()+", such as "+d.Example()+"."+didYouMean(text, words))
				return
			}
			if q, ok := r.quantity(at, d, positive); ok {
				*part(to) = q.Value
			}
		},
	}
}

// written says how a number of a dimension may be written.
func written(d quantity.Dimension, keep limit) string {
	if d == quantity.Number {
		return strings.TrimSpace("number " + keep.words)
	}
	s := d.String()
	if keep.words != "" {
		s += " " + keep.words
	}
	return s + ", such as " + d.Example()
}

func withExample(d quantity.Dimension) string {
	article := "a "
	if d.String()[0] == 'a' {
		article = "an "
	}
	return article + d.String() + ", such as " + d.Example()
}

// quantity reads a number with its unit and tolerance and notes where it stands.
func (r *reader) quantity(at spot, d quantity.Dimension, keep limit) (q quantity.Quantity, ok bool) {
	text, ok := r.scalar(at, withExample(d))
	if !ok {
		return q, false
	}
	q, err := quantity.Parse(text, d)
	if err != nil {
		place, summary, detail := at.place, "not a number", err.Error()
		if e, ok := errors.AsType[*quantity.Error](err); ok {
			place, summary, detail = r.part(at, e.Offset, e.Width), e.Summary, e.Detail
		}
		r.fault(place, at.path, summary, detail)
		return q, false
	}
	if !keep.holds(q.Value) {
		r.outOfRange(at, text, keep.words)
		return q, false
	}
	r.box.Places[at.path] = at.place
	if q.Tolerance > 0 {
		r.box.Tolerances[at.path] = q.Tolerance
	}
	return q, true
}

func (r *reader) outOfRange(at spot, text, words string) {
	r.fault(at.place, at.path, "value out of range", fmt.Sprintf("Found %q; it must be %s.", short(text), words))
}

// count is a whole number from least to most, written with digits alone.
func count[T any](least, most int, part func(*T) *int) value[T] {
	return value[T]{
		written: fmt.Sprintf("whole number from %d to %d", least, most),
		number:  numeric{is: true, whole: true},
		read: func(r *reader, at spot, to *T) {
			text, ok := r.scalar(at, "a whole number")
			if !ok {
				return
			}
			q, ok := r.quantity(at, quantity.Number, anyNumber)
			if !ok {
				return
			}
			n, err := strconv.Atoi(strings.TrimSpace(text))
			if err != nil || float64(n) != q.Value {
				r.fault(at.place, at.path, "not a whole number", fmt.Sprintf("Found %q; a whole number is expected, written with digits alone.", short(text)))
				return
			}
			if n < least || n > most {
				r.outOfRange(at, text, fmt.Sprintf("a whole number from %d to %d", least, most))
				return
			}
			*part(to) = n
		},
	}
}

// word is one of a few fixed words; what is what they stand for, for the message about any other.
func word[T any, W ~string](what string, words []W, set func(*T, W)) value[T] {
	plain := make([]string, len(words))
	for i, w := range words {
		plain[i] = string(w)
	}
	expected := strings.Join(plain, " | ")
	return value[T]{
		written: expected,
		read: func(r *reader, at spot, to *T) {
			text, ok := r.scalar(at, "one of "+strings.Join(plain, ", "))
			if !ok {
				return
			}
			for _, w := range words {
				if string(w) == text {
					r.box.Places[at.path] = at.place
					set(to, w)
					return
				}
			}
			r.fault(at.place, at.path, fmt.Sprintf("unknown %s %q", what, short(text)), "Expected: "+strings.Join(plain, ", ")+"."+didYouMean(text, plain))
		},
	}
}

// yesNo is the answer to a question.
func yesNo[T any](set func(to *T, yes bool)) value[T] {
	return word("answer", []string{"yes", "no"}, func(to *T, w string) { set(to, w == "yes") })
}

// name is the name of the whole box.
func name[T any](part func(*T) *string) value[T] {
	return value[T]{
		written: "text of at most 60 characters",
		read: func(r *reader, at spot, to *T) {
			if text, ok := r.scalar(at, "a name"); ok && r.checkName(text, at.place, at.path) {
				r.box.Places[at.path] = at.place
				*part(to) = text
			}
		},
	}
}

// prose is text of any length.
func prose[T any](part func(*T) *string) value[T] {
	return value[T]{
		written: "text",
		read: func(r *reader, at spot, to *T) {
			text, ok := r.scalar(at, "text")
			if !ok {
				return
			}
			if strings.ContainsFunc(text, func(c rune) bool { return unseen(c) && c != '\n' && c != '\t' }) {
				r.fault(at.place, at.path, "a control character", "The text holds a character that can't be seen. Delete it.")
				return
			}
			r.box.Places[at.path] = at.place
			*part(to) = text
		},
	}
}
