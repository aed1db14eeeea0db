package boxfile

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"layshaft/gearbox/quantity"
)

// A limit is what a number must keep, in inner units and in words: "must be …".
type limit struct {
	holds   func(v float64) bool
	words   string
	example string                              // a value that holds; "" = that of the dimension does
	hint    func(text string, v float64) string // what may be meant by a value that doesn't hold, as a sentence; nil = nobody knows
	usual   *usual                              // what is asked about when a value holds but lies outside; nil = nothing
}

// such is the limit with an example of its own.
func (l limit) such(example string) limit {
	l.example = example
	return l
}

// hinting is the limit with a hint of its own.
func (l limit) hinting(hint func(text string, v float64) string) limit {
	l.hint = hint
	return l
}

// percent is the range from low to high of a share, in per cent. A plain number that was meant so is told.
func percent(low, high float64) limit {
	l := within(low, high, 0.01, " %")
	return l.hinting(func(text string, v float64) string {
		if !strings.Contains(text, "%") && l.holds(v/100) {
			return "Did you mean " + strings.TrimSpace(text) + " %?"
		}
		return ""
	})
}

var (
	anyNumber   = limit{holds: func(float64) bool { return true }}
	positive    = limit{holds: func(v float64) bool { return v > 0 }, words: "greater than 0"}
	notNegative = limit{holds: func(v float64) bool { return v >= 0 }, words: "0 or more"}
)

// within is the range from low to high; scale turns them into inner units and unit stands behind them for people.
func within(low, high, scale float64, unit string) limit {
	return limit{
		// A hair of room, so that the end of a range in degrees is in the range in radians.
		holds: func(v float64) bool { const hair = 1e-12; return v >= low*scale-hair && v <= high*scale+hair },
		words: "from " + plainly(low) + unit + " to " + plainly(high) + unit,
	}
}

// upTo is above 0 and at most so much; scale and unit as within has them.
func upTo(most, scale float64, unit string) limit {
	return limit{
		holds: func(v float64) bool { const hair = 1e-12; return v > 0 && v <= most*scale*(1+hair) },
		words: "greater than 0 and at most " + plainly(most) + unit,
	}
}

// plainly writes a number without an exponent.
func plainly(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

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
func stiffness[T any](d quantity.Dimension, keep limit, words []string, rates map[string]float64, part func(*T) *float64) value[T] {
	return value[T]{
		written: strings.Join(words, ", ") + " or " + written(d, keep),
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
			if q, ok := r.quantity(at, d, keep); ok {
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
	example := d.Example()
	if keep.example != "" {
		example = keep.example
	}
	return s + ", such as " + example
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
	text, plus := byInstrument(text, d)
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
		hint := ""
		switch {
		case keep.hint != nil:
			hint = keep.hint(text, q.Value)
		case keep.usual != nil:
			hint = keep.usual.hint(q.Value)
		}
		r.outOfRange(at, text, keep.words, hint)
		return q, false
	}
	r.box.Places[at.path] = at.place
	r.checkUsual(at, text, keep, q.Value)
	r.dimensions[at.path] = d
	if plus > 0 {
		r.box.Tolerances[at.path] = plus
	}
	if q.Tolerance > 0 {
		r.box.Tolerances[at.path] = q.Tolerance
		r.checkTolerance(at, d, keep, q)
	}
	return q, true
}

// A tolerance of more than this share of a dimension was hardly meant, such as 67.5 mm ± 1 in; common practice, no source. What any caliper reads is never asked about, and a place,
// which is counted from somewhere and may be 0, not within a millimetre.
const (
	wide         = 0.02
	caliper      = 0.1 // mm
	placeOnShaft = 1   // mm
)

// checkTolerance asks about a tolerance that is wide for a length. Lengths of a few hundredths are Deflections, and told with whatever ± they have.
func (r *reader) checkTolerance(at spot, d quantity.Dimension, keep limit, q quantity.Quantity) {
	room := caliper
	if keep.holds(0) {
		room = placeOnShaft
	}
	if d != quantity.Length || q.Tolerance <= max(wide*math.Abs(q.Value), room)*(1+1e-9) {
		return
	}
	r.warn(at.place, at.path, "a wide tolerance", fmt.Sprintf("The ± is %.3g mm on %.5g mm, %.2g %%. More than %.0f %% is rarely measured: check the number behind ± and its unit.",
		q.Tolerance, q.Value, 100*q.Tolerance/math.Abs(q.Value), 100*wide))
}

// outOfRange reports a value that isn't what words say it must be; hint, "" for none, is a sentence about what may be meant.
func (r *reader) outOfRange(at spot, text, words, hint string) {
	r.fault(at.place, at.path, "value out of range", strings.TrimSpace(fmt.Sprintf("Found %q; it must be %s. %s", short(text), words, hint)))
}

// labelled is a whole number with a word for what it counts: 36t, 36 teeth.
var labelled = regexp.MustCompile(`^\s*([1-9][0-9]*)\s*\p{L}+\.?\s*$`)

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
			if m := labelled.FindStringSubmatch(text); m != nil {
				r.fault(at.place, at.path, "not a whole number", fmt.Sprintf("Found %q: write %s alone.", short(text), m[1]))
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
				r.outOfRange(at, text, fmt.Sprintf("a whole number from %d to %d", least, most), "")
				return
			}
			*part(to) = n
		},
	}
}

// word is one of a few fixed words, or one that says the same in the workshop; what is what they stand for, for the message about any other.
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
			if said, ok := understood(what, text, plain); ok {
				r.box.Places[at.path] = at.place
				set(to, W(said))
				return
			}
			r.fault(at.place, at.path, fmt.Sprintf("unknown %s %q", what, short(text)), "Expected: "+strings.Join(plain, ", ")+"."+perhaps(what, text, plain))
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

// longestProse is the length of a remark in characters: some half a page, so that reports stay readable.
const longestProse = 2000

// prose is a remark.
func prose[T any](part func(*T) *string) value[T] {
	return value[T]{
		written: fmt.Sprintf("text of at most %d characters", longestProse),
		read: func(r *reader, at spot, to *T) {
			text, ok := r.scalar(at, "text")
			if !ok {
				return
			}
			if n := utf8.RuneCountInString(text); n > longestProse {
				r.fault(at.place, at.path, "a text too long", fmt.Sprintf("The text has %d characters; at most %d are read, so that reports stay readable.", n, longestProse))
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
