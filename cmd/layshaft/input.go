package main

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"github.com/spf13/pflag"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// torqueFlag is an input torque with its unit.
type torqueFlag struct {
	text  string
	value float64 // N·mm; 0 = not given
}

func (t *torqueFlag) String() string { return t.text }
func (t *torqueFlag) Type() string   { return "torque" }
func (t *torqueFlag) Set(s string) error {
	q, err := quantity.Parse(s, quantity.Torque)
	switch {
	case err != nil:
		return err
	case q.Value == 0:
		return errors.New("a torque of zero loads nothing; give one that isn't zero")
	case q.Tolerance != 0:
		return errors.New("give one torque, without a tolerance")
	}
	if err := gearbox.CheckTorque(q.Value); err != nil {
		return err
	}
	t.text, t.value = s, q.Value
	return nil
}

// question holds the flags that say what is asked of the boxes.
type question struct {
	torque  torqueFlag
	speeds  []string
	without several
	limits  several
	second  several

	samples int // of everything that isn't known exactly; 0 = none

	chosen gearbox.Method // what without says, once the boxes are solved
}

func (q *question) declare(set *pflag.FlagSet) {
	q.declareAsked(set)
	q.second = several{words: []string{string(gearbox.AGMA), string(gearbox.Lewis)}, also: "; ISO 6336 is always there"}
	set.Var(&q.second, "method", "rate the teeth by `METHOD` too, agma or lewis, as a second opinion beside ISO 6336; may be repeated")
}

// declareAsked declares what is asked without second opinions.
func (q *question) declareAsked(set *pflag.FlagSet) {
	set.Var(&q.torque, "torque", "input `TORQUE` in place of the file's, such as \"480 N·m\" or \"350 lb-ft\"; negative is coast")
	set.StringArrayVar(&q.speeds, "speed", nil, "work out only the speed with this `NAME`; may be repeated")
	q.limits = several{words: limitWords()}
	set.Var(&q.limits, "limit", "let only `LIMIT` decide: a class (breaks, wears_out, guide) or a kind such as flank_peak or bearing_slope; may be repeated")
	q.without = several{words: []string{"shear", "shoulders", "twist", leftHistory}, once: map[string]string{"evidence": leftHistory}}
	set.Var(&q.without, "without", "leave `PART` out: shear, shoulders or twist of the shaft model, to meet a printed table, or history, to see the steel bands as they were without it; may be repeated")
}

// solve reads the files and works out every box. What is wrong with any of them is shown all at once. besides, if it isn't nil, is done with the boxes meanwhile.
func (q *question) solve(files []string, e env, colour bool, besides func([]*gearbox.Box)) ([]*gearbox.Result, error) {
	var (
		boxes   []*gearbox.Box
		found   diag.List
		sources = map[string][]byte{}
		notes   [][]string // by box
		checks  [][]string // likewise
	)
	for _, name := range files {
		box, source, list := read(name, e)
		sources[sourceName(name)] = source
		found = append(found, list...)
		if list.HasErrors() {
			continue
		}
		boxes = append(boxes, box)
		var told, doubts []string
		for _, d := range list {
			doubts = append(doubts, fmt.Sprintf("%s. %s", d.Summary, d.Detail))
		}
		if len(box.Evidence) > 0 && !q.history() {
			told = append(told, "The service history of the box is left out, as asked.")
		}
		notes, checks = append(notes, told), append(checks, doubts)
	}
	q.chosen = q.method()
	var err error
	if boxes, err = q.learn(boxes, q.chosen, &found); err != nil {
		return nil, err
	}
	solved, faults := make([]*gearbox.Result, len(boxes)), make([]error, len(boxes))
	var all sync.WaitGroup
	for i, box := range boxes {
		all.Go(func() {
			solved[i], faults[i] = gearbox.Solve(box, q.load(box, q.chosen, q.opinions()))
		})
	}
	if besides != nil && !found.HasErrors() {
		besides(boxes)
	}
	all.Wait()
	var results []*gearbox.Result
	for i := range boxes {
		r, err := solved[i], faults[i]
		if list, ok := errors.AsType[diag.List](err); ok {
			found = append(found, list...)
			continue
		}
		if err != nil {
			return nil, err
		}
		r.Notes = append(r.Notes, notes[i]...)
		r.Checks = append(r.Checks, checks[i]...)
		found = append(found, r.Warnings...)
		results = append(results, r)
	}
	if len(found) > 0 {
		found.Sort()
		if err := found.Render(e.stderr, withOthers(sources, found), diag.Style{Colour: colour, Width: columns(e.stderr)}); err != nil {
			return nil, err
		}
	}
	if found.HasErrors() {
		return nil, errShown
	}
	if err := q.checkSpeeds(boxes); err != nil {
		return nil, err
	}
	return results, nil
}

// limitWords are the words that limits can be chosen by: classes, and kinds that aren't second opinions.
func limitWords() (words []string) {
	for _, c := range gearbox.Classes() {
		words = append(words, c.Key())
	}
	for _, k := range gearbox.Kinds() {
		if !k.Reference() {
			words = append(words, k.Key())
		}
	}
	return words
}

// kinds are the limits that were chosen to decide; nil = the usual ones.
func (q *question) kinds() (kinds []gearbox.Kind) {
	for _, k := range gearbox.Kinds() {
		if !k.Reference() && (slices.Contains(q.limits.values, k.Key()) || slices.Contains(q.limits.values, k.Class().Key())) {
			kinds = append(kinds, k)
		}
	}
	return kinds
}

// load is what is asked of a box.
func (q *question) load(b *gearbox.Box, method gearbox.Method, second []gearbox.Opinion) gearbox.Load {
	return gearbox.Load{Torque: q.torque.value, Speeds: q.known(b), Method: method, Second: second, Kinds: q.kinds()}
}

// equalSteel sets the boxes of a comparison at the steel of the first, where theirs differ.
func (q *question) equalSteel(c *study.Comparison) error {
	return c.EqualSteel(func(b *gearbox.Box) gearbox.Load { return q.load(b, q.chosen, nil) })
}

// known are the wanted speeds that this box has; nil when all are wanted.
func (q *question) known(b *gearbox.Box) []string {
	if len(q.speeds) == 0 {
		return nil
	}
	wanted := []string{}
	for _, s := range b.Speeds {
		if contains(q.speeds, s.Name) {
			wanted = append(wanted, s.Name)
		}
	}
	return wanted
}

// checkSpeeds refuses a wanted speed that no box has; of several boxes some may lack it, which the report then says.
func (q *question) checkSpeeds(boxes []*gearbox.Box) error {
	var all, each []string
	for _, b := range boxes {
		var names []string
		for _, s := range b.Speeds {
			names = append(names, s.Name)
		}
		all = append(all, names...)
		each = append(each, fmt.Sprintf("%s has %s", b.Name, strings.Join(names, ", ")))
	}
	for _, w := range q.speeds {
		if len(boxes) == 0 || contains(all, w) {
			continue
		}
		u := usageError{message: fmt.Sprintf("there is no speed %q; %s", w, strings.Join(each, "; "))}
		if near, ok := diag.Nearest(w, all); ok {
			u.hint = fmt.Sprintf("Did you mean %q?", near)
		}
		return u
	}
	return nil
}

func contains(names []string, want string) bool {
	for _, n := range names {
		if strings.EqualFold(n, want) {
			return true
		}
	}
	return false
}

// sourceName is how a file is called in findings; "-" is standard input.
func sourceName(name string) string {
	if name == "-" {
		return "standard input"
	}
	return name
}

func read(name string, e env) (box *gearbox.Box, source []byte, found diag.List) {
	source, found = contents(name, e)
	if found != nil {
		return nil, source, found
	}
	box, found = boxfile.Read(sourceName(name), source)
	if box != nil {
		others := box.Origin.Others
		box.Origin = origin(name, source)
		box.Origin.Others = others
	}
	return box, source, found
}

// withOthers are the sources of all findings: those of files that a box was composed of are read for it.
func withOthers(sources map[string][]byte, found diag.List) map[string][]byte {
	for _, d := range found {
		if _, known := sources[d.Place.File]; known || d.Place.File == "" || d.Place.Line == 0 {
			continue
		}
		if data, list := boxfile.Load(d.Place.File); list == nil {
			sources[d.Place.File] = data
		}
	}
	return sources
}

// origin is what is told of a file: its name and its fingerprint. Neither folders nor dates are: the same file gives the same answer wherever it lies.
func origin(name string, source []byte) gearbox.Origin {
	o := gearbox.Origin{File: sourceName(name), Sum: fmt.Sprintf("%x", sha256.Sum256(source))}
	if name != "-" {
		o.File = filepath.Base(name)
	}
	return o
}

// contents are the bytes of a box file.
func contents(name string, e env) ([]byte, diag.List) {
	if name != "-" {
		return boxfile.Load(name)
	}
	return boxfile.LoadFrom(sourceName(name), e.stdin)
}

const leftHistory = "history"

// history reports whether the service history is to be counted.
func (q *question) history() bool { return !slices.Contains(q.without.values, leftHistory) }

// method reads the parts to leave out.
func (q *question) method() (m gearbox.Method) {
	m.NoShear, m.NoShoulder, m.NoTwist = slices.Contains(q.without.values, "shear"), slices.Contains(q.without.values, "shoulders"), slices.Contains(q.without.values, "twist")
	return m
}

// learn narrows the steels of boxes by their service history; where that is left out, the boxes have none.
func (q *question) learn(boxes []*gearbox.Box, method gearbox.Method, found *diag.List) ([]*gearbox.Box, error) {
	if !q.history() {
		return withoutHistory(boxes), nil
	}
	narrowed, list, err := study.Known(boxes, method)
	if err != nil {
		return nil, err
	}
	if *found = append(*found, list...); list.HasErrors() {
		return boxes, nil
	}
	return narrowed, nil
}

// withoutHistory are boxes of which nothing is known but how they were described.
func withoutHistory(boxes []*gearbox.Box) []*gearbox.Box {
	bare := make([]*gearbox.Box, len(boxes))
	for i, b := range boxes {
		c := *b
		c.Evidence = nil
		bare[i] = &c
	}
	return bare
}

// opinions reads the second opinions.
func (q *question) opinions() (all []gearbox.Opinion) {
	for _, w := range q.second.values {
		all = append(all, gearbox.Opinion(w))
	}
	return all
}
