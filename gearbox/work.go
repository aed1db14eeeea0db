package gearbox

import "sync"

// Work is what solutions take, counted. Several goroutines may add to it.
type Work struct {
	mu    sync.Mutex
	total Counts
}

// Counts are those of a Work.
type Counts struct {
	Boxes     int // solved, every layout by itself
	Sets      int // contact sets worked out
	Spreads   int // loads along the faces found
	Fallbacks int // of them without contact sets
	Bent      int // shafts bent as a whole
}

// Counts are what was taken so far.
func (w *Work) Counts() Counts {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.total
}

func (w *Work) add(c Counts) {
	w.mu.Lock()
	defer w.mu.Unlock()
	t := &w.total
	t.Boxes, t.Sets, t.Spreads, t.Fallbacks, t.Bent = t.Boxes+c.Boxes, t.Sets+c.Sets, t.Spreads+c.Spreads, t.Fallbacks+c.Fallbacks, t.Bent+c.Bent
}

// work is what a solution took, without what its speeds had taken in boxes before that share their mechanics.
func (p *prepared) work(solvers map[work]*solver) Counts {
	w := Counts{Boxes: 1, Bent: p.bent}
	for _, v := range solvers {
		now := v.counts()
		w.Sets += now.Sets - v.taken.Sets
		w.Spreads += now.Spreads - v.taken.Spreads
		w.Fallbacks += now.Fallbacks - v.taken.Fallbacks
	}
	return w
}

// counts are what the load along the faces took so far.
func (t *train) counts() (n Counts) {
	if c := t.fixed; c != nil && c.family != nil {
		n = Counts{Sets: c.family.Sets(), Spreads: c.spreads, Fallbacks: c.fallbacks}
	}
	return n
}
