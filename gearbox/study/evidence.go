package study

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

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
var scatter = map[gearbox.Failure]float64{gearbox.BrokenRoot: 0.06, gearbox.PittedFlank: 0.04, gearbox.BentShaft: 0.06}

// onePercent is the quantile of the normal distribution for 1 %.
const onePercent = 2.326

// Survivor is the share of the strength which a survivor must have had itself that counts for the 1 % line of its batch, –.
func Survivor(s gearbox.Strength) float64 {
	v := onePercent * scatter[s.Failure()]
	return (1 - v) / (1 + v)
}

// EvidenceCaveat says in words what service history proves and what it doesn't. No-break blanks keep numbers and units together.
func EvidenceCaveat() string {
	share := func(s gearbox.Strength) string { return fmt.Sprintf("%.0f\u00a0%%", 100*Survivor(s)) }
	return "The strength required is that with which a limit would just have been held under the load that counts: of what survived the least that surely arrived, without shock unless a peak is given, and no " +
		"more than clutch and tyres let through; of what broke the largest that may have arrived. A peak speaks of static strength alone, and the limits of fatigue are bounded as far as the passes at that load say so. Static strength is told as the limit (σ_Flim, σ_Hlim) that it follows from by the life curves. " +
		"A band tells what 99 of 100 parts have, and a part that survived may be one of the best: so " +
		share(gearbox.RootStrength) + " of it count at roots, " + share(gearbox.FlankStrength) + " at flanks and " + share(gearbox.YieldStrength) + " for yield (scatter from memory), while what broke counts in full. " +
		"That is why a box may be over its limit at a torque that it has survived. All parts of a box that name one steel are taken to be of one steel. Service history speaks of that set of parts alone, and " +
		"proves no life beyond the passes it had. What failed in a way that isn't judged here proves nothing."
}

// Narrow narrows the steel bands of boxes by their service history and gives boxes that have it in their Steels, Narrowed, Lessons and Survived;
// the boxes it is given are left as they are.
//
// Parts of one box that name the same steel are of one steel, and so are parts of all boxes whose steels name the same batch. A name of a family alone, such as
// case-carburised, joins nothing across boxes: two steels of which little is known are not the same for that.
//
// What survived, and was opened and found sound, had in every part at least the strength that the part needed (gearbox.BorneBy): the largest need of a steel is a lower bound. A box that
// wasn't opened may have pitted flanks, and a shaft a little bent, so it tells of its roots alone. What broke had too little of at least one
// strength in at least one part that may be meant: strength A at most its need, or strength B at most its own, and so on. That is a bound of a single strength only when all the others can
// be ruled out, because even the low end of their bands, or what survived, is beyond their need; else it bounds none. Roots, flanks and shafts are independent: a bench that broke roots says
// nothing of flanks. Of the two strengths of a root or flank, the static one is never below that of fatigue.
// Survivors never lower the high end and what broke never raises the low one; the typical value gives way to an end that passes it.
//
// A survivor that asks for more than the high end is put aside with a warning, but for what of it is possible. What broke below the low end or below what survived is an error that names
// both. A box that can't be worked out at all is left to the one who solves it to report.
func Narrow(boxes []*gearbox.Box, method gearbox.Method) ([]*gearbox.Box, diag.List, error) {
	n := &narrowing{method: method, bands: map[claim]*claimed{}}
	for _, b := range boxes {
		n.boxes = append(n.boxes, unnarrowed(b))
	}
	if !slices.ContainsFunc(n.boxes, func(b *gearbox.Box) bool { return len(b.Evidence) > 0 }) {
		return boxes, nil, nil
	}
	n.checkBatches()
	if err := n.collect(); err != nil {
		return nil, nil, err
	}
	if err := n.weighSurvivors(); err != nil {
		return nil, nil, err
	}
	n.link()
	n.weighBroken()
	n.link()
	if n.found.HasErrors() {
		return nil, n.found, nil
	}
	return n.result(), n.found, nil
}

// narrowing is the work of Narrow.
type narrowing struct {
	method gearbox.Method
	boxes  []*gearbox.Box
	seen   []sighting
	bands  map[claim]*claimed
	found  diag.List
}

// sighting is one piece of service history with what it asks of the parts.
type sighting struct {
	box    int
	borne  *gearbox.Borne
	guides []gearbox.Survived // of what of it is counted
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
	// The strictest survivor, also one that the low end was above already.
	most     float64
	survivor *sighting
}

func keyOf(box int, s *material.Steel) steelKey {
	if s.Batch != "" {
		return steelKey{batch: s.Batch}
	}
	return steelKey{box: box, name: s.Name}
}

// unnarrowed is a box with its bands as they were before any history.
func unnarrowed(b *gearbox.Box) *gearbox.Box {
	if len(b.Narrowed) == 0 {
		return b
	}
	c := *b
	c.Steels, c.Narrowed, c.Lessons, c.Survived = slices.Clone(b.Steels), nil, nil, nil
	c.Alternatives, c.Tried = nil, nil
	for _, was := range b.Narrowed {
		for i := range c.Steels {
			if s := &c.Steels[i]; s.Name == was.Steel {
				if _, static := was.Strength.Fatigue(); !static {
					*was.Strength.Of(s) = was.Was
				}
				s.RootStatic, s.FlankStatic = material.Band{}, material.Band{} // no file gives them: they come from history alone
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
				if x, y := strength.Band(&f.steel), strength.Band(&s); x.Low != y.Low || x.Typical != y.Typical || x.High != y.High {
					n.found = append(n.found, diag.Diagnostic{Place: place, Path: "steels." + s.Name, Summary: "one batch, two steels",
						Detail: fmt.Sprintf("Batch %q has another %s here than in %s: %s against %s MPa. Describe it the same way, or give it another batch.", s.Batch, strength, where(f.place, "another box"), ends(y), ends(x))})
				}
			}
		}
	}
}

func where(p diag.Place, other string) string { return cmp.Or(p.String(), other) }

func ends(b material.Band) string { return fmt.Sprintf("%.4g to %.4g", b.Low, b.High) }

// collect asks each box what its history needed.
func (n *narrowing) collect() error {
	for i, b := range n.boxes {
		for k, e := range b.Evidence {
			key := "survived"
			if e.Broke {
				key = "broke"
			}
			path := fmt.Sprintf("history.%d.%s", k, key)
			place := b.Place(path)
			borne, err := gearbox.BorneBy(b, e, n.method)
			if _, faulty := errors.AsType[diag.List](err); faulty {
				break
			}
			if _, fromFile := b.Places[path]; err != nil && fromFile {
				n.found = append(n.found, diag.Diagnostic{Place: place, Path: path, Summary: "a service history that can't be worked out",
					Detail: fmt.Sprintf("At %.6g N·m the balance of forces in the box can't be found. Some stiffness, seat, clearance or length is likely out by a unit, or this torque is.", e.Torque/1e3)})
				break
			}
			if err != nil {
				return fmt.Errorf("%s, %s: %w", b.Name, e.String(), err)
			}
			n.seen = append(n.seen, sighting{box: i, borne: borne, guides: borne.Guides,
				lesson: gearbox.Lesson{Box: b.Name, Evidence: e, Place: place, Loads: borne.Loads}})
			for _, need := range borne.Needs {
				n.know(i, need)
			}
		}
	}
	return nil
}

// know is what is known of the strength that a need in a box asks for.
func (n *narrowing) know(box int, need gearbox.Need) *claimed {
	steel, _ := n.boxes[box].Steel(need.Steel)
	key := keyOf(box, &steel)
	c, ok := n.bands[claim{key, need.Strength}]
	if !ok {
		for _, strength := range gearbox.Strengths() { // all of the steel, since some are bound to one another
			band := strength.Band(&steel)
			n.bands[claim{key, strength}] = &claimed{was: band, now: band}
		}
		c = n.bands[claim{key, need.Strength}]
	}
	return c
}

// link keeps the static strength of teeth from falling below that of fatigue: what bounds the one from below bounds the other, and the
// other way round from above.
func (n *narrowing) link() {
	for k, static := range n.bands {
		strength, ok := k.strength.Fatigue()
		if !ok {
			continue
		}
		fatigue := n.bands[claim{k.steel, strength}]
		if fatigue.now.Low > static.now.Low {
			static.now.Low, static.low = fatigue.now.Low, fatigue.low
		}
		if fatigue.most > static.most {
			static.most, static.survivor = fatigue.most, fatigue.survivor
		}
		if static.now.High < fatigue.now.High {
			fatigue.now.High, fatigue.high = static.now.High, static.high
		}
	}
}

// choices sorts needs of a box by the strength of the steel they ask for and keeps the largest of each.
func (n *narrowing) choices(box int, needs []gearbox.Need, keep func(gearbox.Need) bool, size func(gearbox.Need) float64) (all []gearbox.Need) {
	at := map[*claimed]int{}
	for _, need := range needs {
		if !keep(need) {
			continue
		}
		c := n.know(box, need)
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

func (n *narrowing) report(severity diag.Severity, s *sighting, summary, detail string) {
	n.found = append(n.found, diag.Diagnostic{Severity: severity, Place: s.lesson.Place, Path: "history", Summary: summary,
		Detail: fmt.Sprintf("%s %s. %s", s.lesson.Box, s.lesson.Evidence.String(), detail)})
}

// part is a part with how it was loaded: "final pinion (flank, peak; 1st)".
func part(need gearbox.Need) string {
	return fmt.Sprintf("%s (%s; %s)", need.Item, need.Kind, need.Speed)
}
