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
	Sets      int // contact sets worked out, one factorisation each
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

// work is what a solution took.
func (p *prepared) work(solvers map[work]*solver) Counts {
	w := Counts{Boxes: 1, Bent: p.bent}
	for _, v := range solvers {
		if c := v.fixed; c != nil && c.family != nil {
			w.Sets += c.family.Sets()
			w.Spreads += c.spreads
			w.Fallbacks += c.fallbacks
		}
	}
	return w
}
