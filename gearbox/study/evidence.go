package study

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/material"
)

// What a single part says of its batch. A band tells the strength that 99 of 100 parts have, as ISO 6336-5 defines its limits; a part that lived or broke tells its own. With strengths
// scattered normally by a share v of their mean, 99 of 100 parts lie above 1 − 2.326 v and below 1 + 2.326 v of it. A survivor may have been that lucky, so the strength it
// must have had counts for the batch by (1 − 2.326 v)/(1 + 2.326 v): were the batch any weaker, less than one part in a hundred would have lived. What broke counts in full:
// were the batch any stronger, less than one part in a hundred would have broken.
//
// Scatter within one steel, from memory: 6 % at roots without shot peening, 3 to 4 % at flanks; 6 % for yield by common practice, no source.
var scatter = map[gearbox.Strength]float64{gearbox.RootStrength: 0.06, gearbox.FlankStrength: 0.04, gearbox.YieldStrength: 0.06}

// onePercent is the quantile of the normal distribution for 1 %.
const onePercent = 2.326

// Survivor is the share of the strength which a survivor must have had itself that counts for the 1 % line of its batch, –.
func Survivor(s gearbox.Strength) float64 {
	v := onePercent * scatter[s]
	return (1 - v) / (1 + v)
}

// EvidenceCaveat says in words what evidence proves and what it doesn't. No-break blanks keep numbers and units together.
func EvidenceCaveat() string {
	share := func(s gearbox.Strength) string { return fmt.Sprintf("%.0f\u00a0%%", 100*Survivor(s)) }
	return "What a part needed is the strength with which its limit would just have been held. A band tells what 99 of 100 parts have, and a part that lived may be one of the best: so " +
		share(gearbox.RootStrength) + " of it count at roots, " + share(gearbox.FlankStrength) + " at flanks and " + share(gearbox.YieldStrength) + " for yield (scatter from memory), while what broke counts in full. " +
		"That is why a box may be over its limit at a torque that it has survived. All parts of a box that name one steel are taken to be of one steel. Evidence speaks of that set of parts alone; a survivor " +
		"proves no life beyond the passes it had, and that its peak says something of long life is the word of the life curves. What failed in a way that isn't judged here proves nothing."
}

// Narrow narrows the steel bands of boxes by their evidence and gives boxes that have it in their Steels, Narrowed and Lessons; the boxes it is given are left as they are.
//
// Parts of one box that name the same steel are of one steel, and so are parts of all boxes whose steels name the same batch. A name of a family alone, such as
// case-carburised, joins nothing across boxes: two steels of which little is known are not the same for that.
//
// What survived, and was opened and found sound, had in every part at least the strength that the part needed (gearbox.Needs): the largest need of a steel is a lower bound. A box that wasn't opened may have pitted flanks, and a shaft a little bent, so it tells of its roots alone. What broke had too little of at least one
// strength in at least one part that may be meant: strength A at most its need, or strength B at most its own, and so on. That is a bound of a single strength only when all the others can
// be ruled out, because even the low end of their bands, or what survived, is beyond their need; else it bounds none. Strengths are independent: a bench that broke roots says nothing of flanks.
// Survivors never lower the high end and what broke never raises the low one; the typical value gives way to an end that passes it.
//
// A survivor that asks for more than the high end is put aside with a warning. What broke below the low end or below what survived is an error that names both. A box that can't be
// worked out at all is left to the one who solves it to report.
func Narrow(boxes []*gearbox.Box, method gearbox.Method) ([]*gearbox.Box, diag.List, error) {
	n := &narrowing{bands: map[claim]*claimed{}}
	for _, b := range boxes {
		n.boxes = append(n.boxes, unnarrowed(b))
	}
	if !slices.ContainsFunc(n.boxes, func(b *gearbox.Box) bool { return len(b.Evidence) > 0 }) {
		return boxes, nil, nil
	}
	n.checkBatches()
	if err := n.collect(method); err != nil {
		return nil, nil, err
	}
	n.weighSurvivors()
	n.weighBroken()
	if n.found.HasErrors() {
		return nil, n.found, nil
	}
	return n.result(), n.found, nil
}

// narrowing is the work of Narrow.
type narrowing struct {
	boxes []*gearbox.Box
	seen  []sighting
	bands map[claim]*claimed
	found diag.List
}

// sighting is one piece of evidence with what it asks of the parts.
type sighting struct {
	box    int
	needs  []gearbox.Need
	lesson gearbox.Lesson
	steels []steelKey // of the bounds of the lesson, in their order
}

// steelKey tells steels apart: by batch in all boxes, else by name in one.
type steelKey struct {
	batch string
	box   int
	name  string
}

// claim is one strength of one steel.
type claim struct {
	steel    steelKey
	strength gearbox.Strength
}

// claimed is what is known of it.
type claimed struct {
	was       material.Band
	low, high *sighting // that set the ends; nil = as they were
	now       material.Band
	// The strictest survivor of all, also one put aside.
	most     float64
	survivor *sighting
}

func keyOf(box int, s *material.Steel) steelKey {
	if s.Batch != "" {
		return steelKey{batch: s.Batch}
	}
	return steelKey{box: box, name: s.Name}
}

// unnarrowed is a box with its bands as they were before any evidence.
func unnarrowed(b *gearbox.Box) *gearbox.Box {
	if len(b.Narrowed) == 0 {
		return b
	}
	c := *b
	c.Steels, c.Narrowed, c.Lessons, c.Alternatives, c.Tried = slices.Clone(b.Steels), nil, nil, nil, nil
	for _, was := range b.Narrowed {
		for i := range c.Steels {
			if c.Steels[i].Name == was.Steel {
				*was.Strength.Of(&c.Steels[i]) = was.Was
			}
		}
	}
	return &c
}

// checkBatches refuses a batch that is described in two ways.
func (n *narrowing) checkBatches() {
	type first struct {
		steel material.Steel
		place diag.Place
	}
	known := map[string]first{}
	for _, b := range n.boxes {
		for _, s := range b.Steels {
			if s.Batch == "" {
				continue
			}
			place := b.Place("steels." + s.Name + ".batch")
			f, ok := known[s.Batch]
			if !ok {
				known[s.Batch] = first{s, place}
				continue
			}
			for _, strength := range gearbox.Strengths() {
				if x, y := *strength.Of(&f.steel), *strength.Of(&s); x.Low != y.Low || x.Typical != y.Typical || x.High != y.High {
					n.found = append(n.found, diag.Diagnostic{Place: place, Path: "steels." + s.Name, Summary: "one batch, two steels",
						Detail: fmt.Sprintf("Batch %q has another %s here than in %s: %s against %s MPa. Describe it the same way, or give it another batch.", s.Batch, strength, where(f.place, "another box"), ends(y), ends(x))})
				}
			}
		}
	}
}

func where(p diag.Place, other string) string { return cmp.Or(p.String(), other) }

func ends(b material.Band) string { return fmt.Sprintf("%.4g to %.4g", b.Low, b.High) }

// collect asks each box what its evidence needed.
func (n *narrowing) collect(method gearbox.Method) error {
	for i, b := range n.boxes {
		for k, e := range b.Evidence {
			needs, err := gearbox.Needs(b, e, method)
			if _, faulty := errors.AsType[diag.List](err); faulty {
				break
			}
			if err != nil {
				return fmt.Errorf("%s, %s: %w", b.Name, e.String(), err)
			}
			key := "survived"
			if e.Broke {
				key = "broke"
			}
			n.seen = append(n.seen, sighting{box: i, needs: needs, lesson: gearbox.Lesson{Box: b.Name, Evidence: e, Place: b.Place(fmt.Sprintf("evidence.%d.%s", k, key))}})
			for _, need := range needs {
				n.know(i, need)
			}
		}
	}
	return nil
}

// know is what is known of the strength that a need in a box asks for.
func (n *narrowing) know(box int, need gearbox.Need) *claimed {
	steel, _ := n.boxes[box].Steel(need.Steel)
	k := claim{keyOf(box, &steel), need.Strength}
	c, ok := n.bands[k]
	if !ok {
		band := *need.Strength.Of(&steel)
		c = &claimed{was: band, now: band}
		n.bands[k] = c
	}
	return c
}

// choices sorts the needs of a sighting by the strength of the steel they ask for and keeps the largest of each.
func (n *narrowing) choices(s *sighting, keep func(gearbox.Need) bool, size func(gearbox.Need) float64) (all []gearbox.Need) {
	at := map[*claimed]int{}
	for _, need := range s.needs {
		if !keep(need) {
			continue
		}
		c := n.know(s.box, need)
		i, ok := at[c]
		switch {
		case !ok:
			at[c] = len(all)
			all = append(all, need)
		case size(need) > size(all[i]):
			all[i] = need
		}
	}
	slices.SortStableFunc(all, func(a, b gearbox.Need) int { return cmp.Compare(a.Strength, b.Strength) })
	return all
}

func (s *sighting) bound(need gearbox.Need, key steelKey, b gearbox.StrengthBound) {
	b.Steel, b.Strength, b.Kind, b.Item, b.Speed = need.Steel, need.Strength, need.Kind, need.Item, need.Speed
	s.lesson.Bounds, s.steels = append(s.lesson.Bounds, b), append(s.steels, key)
}

func (n *narrowing) keyOf(box int, need gearbox.Need) steelKey {
	steel, _ := n.boxes[box].Steel(need.Steel)
	return keyOf(box, &steel)
}

// hair is by how much two strengths must differ to contradict each other, of their size: more than rounding leaves.
const hair = 1e-9

func (n *narrowing) weighSurvivors() {
	for i := range n.seen {
		s := &n.seen[i]
		if s.lesson.Evidence.Broke {
			continue
		}
		seen := func(need gearbox.Need) bool { return s.lesson.Evidence.Opened || need.Strength == gearbox.RootStrength }
		if !s.lesson.Evidence.Opened {
			s.lesson.Why = "That it was opened isn't told, so nothing follows for flanks and shafts."
		}
		all := n.choices(s, seen, func(need gearbox.Need) float64 { return need.Least })
		for _, need := range all {
			c := n.know(s.box, need)
			counted := need.Least * Survivor(need.Strength)
			aside := counted > c.was.High*(1+hair)
			s.bound(need, n.keyOf(s.box, need), gearbox.StrengthBound{Needed: need.Least, Counted: counted, Aside: aside})
			if c.survivor == nil || counted > c.most || counted == c.most && before(s, c.survivor) {
				c.most, c.survivor = counted, s
			}
			if aside {
				why := fmt.Sprintf("For that, %s asks for a %s of at least %.4g MPa, and %s has %.4g MPa at most.", part(need), need.Strength, counted, need.Steel, c.was.High)
				s.lesson.Why = strings.TrimSpace(s.lesson.Why + " " + why + " It isn't counted.")
				n.report(diag.Warning, s, "more than this steel can bear",
					why+" The steel is better than its name says, or something was measured wrong, or the limit is more careful than life. It isn't counted: check the steel, the torque and the duty.")
				continue
			}
			switch low := min(counted, c.was.High); { // rounding may leave it a hair above
			case low > c.now.Low:
				c.now.Low, c.low = low, s
			case low == c.now.Low && c.low != nil && before(s, c.low):
				c.low = s
			}
		}
		if len(all) == 0 {
			s.lesson.Why = "No strength follows from it: it loads nothing whose strength is judged."
		}
	}
}

// before keeps the choice between two that say the same apart from the order in which they were given.
func before(a, b *sighting) bool {
	return cmp.Or(cmp.Compare(a.lesson.Place.String(), b.lesson.Place.String()), cmp.Compare(a.lesson.Box, b.lesson.Box), cmp.Compare(a.lesson.Evidence.String(), b.lesson.Evidence.String())) < 0
}

func (n *narrowing) report(severity diag.Severity, s *sighting, summary, detail string) {
	n.found = append(n.found, diag.Diagnostic{Severity: severity, Place: s.lesson.Place, Path: "evidence", Summary: summary,
		Detail: fmt.Sprintf("%s %s. %s", s.lesson.Box, s.lesson.Evidence.String(), detail)})
}

// part is a part with how it was loaded: "final pinion (flank, peak; 1st)".
func part(need gearbox.Need) string {
	return fmt.Sprintf("%s (%s; %s)", need.Item, need.Kind, need.Speed)
}

func (n *narrowing) weighBroken() {
	for i := range n.seen {
		s := &n.seen[i]
		e := s.lesson.Evidence
		if !e.Broke {
			continue
		}
		meant := func(need gearbox.Need) bool {
			return (e.Gear == "" || need.Gear == e.Gear) && (e.By == "" || need.Strength.Failure() == e.By)
		}
		all := n.choices(s, meant, func(need gearbox.Need) float64 { return need.Most })
		var left []gearbox.Need // what may have been too weak
		for _, need := range all {
			if need.Most >= n.know(s.box, need).now.Low*(1-hair) {
				left = append(left, need)
			}
		}
		switch {
		case len(all) == 0:
			s.lesson.Why = "No strength follows from it: none of what may have broken is judged."
		case len(left) == 0:
			n.contradict(s, all)
		case len(left) == 1:
			c := n.know(s.box, left[0])
			if c.survivor != nil && left[0].Most < c.most*(1-hair) { // by a survivor that was put aside
				n.contradict(s, left)
				continue
			}
			most := max(left[0].Most, c.now.Low)
			s.bound(left[0], n.keyOf(s.box, left[0]), gearbox.StrengthBound{Upper: true, Needed: left[0].Most, Counted: left[0].Most})
			switch {
			case most < c.now.High:
				c.now.High, c.high = most, s
			case most == c.now.High && c.high != nil && before(s, c.high):
				c.high = s
			}
		default:
			var words []string
			for _, need := range left {
				words = append(words, fmt.Sprintf("%s (%s of %.4g MPa or less)", part(need), need.Strength, need.Most))
			}
			s.lesson.Why = "No single strength follows from it, since any of these may have been too weak: " + strings.Join(words, ", ") + ". Name what broke under gear and by."
		}
	}
}

// contradict reports something broken that ought to have held, as far as its steel or what survived is to be believed.
func (n *narrowing) contradict(s *sighting, all []gearbox.Need) {
	var against, too []string
	for _, need := range all {
		c := n.know(s.box, need)
		if c.survivor != nil && need.Most < c.most*(1-hair) {
			o := &c.survivor.lesson
			against = append(against, fmt.Sprintf("If %s broke, its %s was at most %.4g MPa; but %s %s (%s), which asks for at least %.4g MPa.",
				part(need), need.Strength, need.Most, o.Box, o.Evidence.String(), where(o.Place, "no file"), c.most))
			continue
		}
		too = append(too, fmt.Sprintf("If %s broke, its %s was at most %.4g MPa; but %s has %.4g MPa at least.", part(need), need.Strength, need.Most, need.Steel, c.was.Low))
	}
	const advice = "The load was higher than told (a peak beyond the shock factor), or the part was hurt before, or another thing broke, or something was measured wrong"
	if len(against) > 0 {
		n.report(diag.Error, s, "contradictory evidence", strings.Join(append(against, too...), " ")+" Both can't be true of one steel. "+advice+". Correct or delete one of them; --without evidence shows the bands as they are.")
		return
	}
	n.report(diag.Error, s, "broke below what this steel bears", strings.Join(too, " ")+" "+advice+", or the steel is poorer than its name says: then nothing worked out with it can be relied on. Correct the steel or the evidence; --without evidence shows the bands as they are.")
}

// result makes the boxes with their bands narrowed.
func (n *narrowing) result() []*gearbox.Box {
	out := make([]*gearbox.Box, len(n.boxes))
	for i, b := range n.boxes {
		c := *b
		c.Steels = slices.Clone(b.Steels)
		c.Narrowed, c.Lessons, c.Alternatives, c.Tried = nil, nil, nil, nil
		names := map[steelKey]string{}
		for _, name := range b.SteelNames() {
			steel, ok := b.Steel(name)
			if !ok {
				continue
			}
			key := keyOf(i, &steel)
			if _, twice := names[key]; !twice {
				names[key] = steel.Name
			}
			n.narrow(&c, steel, key)
		}
		for k := range n.seen {
			s := &n.seen[k]
			own := s.lesson
			own.Bounds = nil
			for j, bound := range s.lesson.Bounds {
				if name, ok := names[s.steels[j]]; ok {
					bound.Steel = name
					own.Bounds = append(own.Bounds, bound)
				}
			}
			if s.box == i || len(own.Bounds) > 0 {
				c.Lessons = append(c.Lessons, own)
			}
		}
		out[i] = &c
	}
	return out
}

// narrow puts a steel with narrowed bands into a box.
func (n *narrowing) narrow(b *gearbox.Box, steel material.Steel, key steelKey) {
	changed := false
	for _, strength := range gearbox.Strengths() {
		c := n.bands[claim{key, strength}]
		if c == nil || c.low == nil && c.high == nil {
			continue
		}
		var rests []string
		for _, end := range []struct {
			by   *sighting
			word string
		}{{c.low, "low"}, {c.high, "high"}} {
			if end.by != nil {
				rests = append(rests, fmt.Sprintf("%s: %s %s", end.word, end.by.lesson.Box, end.by.lesson.Evidence.String()))
			}
		}
		now := c.now
		now.Typical = math.Min(math.Max(c.was.Typical, now.Low), now.High)
		now.Source = c.was.Source + "; narrowed by evidence (" + strings.Join(rests, "; ") + ")"
		*strength.Of(&steel) = now
		b.Narrowed = append(b.Narrowed, gearbox.Narrowed{Steel: steel.Name, Strength: strength, Was: c.was, Now: now, Rests: rests})
		changed = true
	}
	if !changed {
		return
	}
	if i := slices.IndexFunc(b.Steels, func(s material.Steel) bool { return s.Name == steel.Name }); i >= 0 {
		b.Steels[i] = steel
	} else {
		b.Steels = append(b.Steels, steel)
	}
}
