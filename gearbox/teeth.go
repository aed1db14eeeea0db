package gearbox

import (
	"math"
	"sync"

	"layshaft/gearstress/involute"
	"layshaft/gearstress/iso6336"
	"layshaft/gearstress/lewis"
)

// teeth is what follows from the geometry of a pair alone: not from steels, shafts and names. Boxes share it, so it must not be changed.
type teeth struct {
	geometry *involute.Pair
	form     *iso6336.Form // nil where ISO 6336 doesn't go
	unrated  error         // why
	lewis    [2]lewisForm
	section  [2]func() (involute.Section, error) // transverse section of each gear, worked out when it is asked for
}

// lewisForm is the form factor Y of one tooth by Lewis, –; NaN = there is none.
type lewisForm struct {
	table, real float64
	unlike      string   // in what the tooth differs from those of the table; "" = in nothing
	notes       []string // why there is none
}

func newTeeth(spec involute.Spec) (*teeth, error) {
	pair, err := involute.New(spec)
	if err != nil {
		return nil, err
	}
	t := &teeth{geometry: pair}
	t.form, t.unrated = iso6336.NewForm(pair, iso6336.Edition2019, [2]float64{})
	for k := range t.lewis {
		t.lewis[k] = newLewisForm(pair, k)
		t.section[k] = sync.OnceValues(func() (involute.Section, error) { return pair.Section(k) })
	}
	return t, nil
}

func newLewisForm(pair *involute.Pair, k int) (f lewisForm) {
	known := func(y float64, err error) float64 {
		if err != nil {
			f.notes = append(f.notes, err.Error())
			return math.NaN()
		}
		return y
	}
	table, _, unlike := lewis.TableFor(pair, k)
	f.unlike = unlike
	f.table = known(table.Y(pair.VirtualTeeth[k]))
	f.real = known(lewis.RealForm(pair, k))
	return f
}

// mostTeeth is how many pairs are remembered. A study of mixed boxes has some dozens.
const mostTeeth = 512

// teethCache remembers pairs by what they follow from. Several goroutines may use it.
type teethCache struct {
	mu    sync.Mutex
	found map[involute.Spec]*teeth
}

// knownTeeth are those of all boxes: mixed boxes of a study, and the steps of a sweep, share nearly all of theirs.
var knownTeeth teethCache

// of is newTeeth, or what it gave before.
func (c *teethCache) of(spec involute.Spec) (*teeth, error) {
	c.mu.Lock()
	t := c.found[spec]
	c.mu.Unlock()
	if t != nil {
		return t, nil
	}
	t, err := newTeeth(spec)
	if err != nil {
		return nil, err
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.found == nil || len(c.found) >= mostTeeth {
		c.found = map[involute.Spec]*teeth{} // all at once: which of them will be asked for again isn't known
	}
	c.found[spec] = t
	return t, nil
}
