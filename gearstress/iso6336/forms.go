package iso6336

import (
	"sync"

	"layshaft/gearstress/involute"
)

// mostForms is how many forms are remembered; a study of mixed boxes has a few dozen.
const mostForms = 512

// Forms remembers forms by what they follow from, for boxes that share pairs. The zero value is empty and ready; several
// goroutines may use it.
type Forms struct {
	mu    sync.Mutex
	found map[formKey]*Form
}

type formKey struct {
	spec     involute.Spec
	edition  Edition
	residual [2]float64
}

// Of is NewForm for a pair as involute.New made it: a pair changed by hand isn't what its Spec says, and must go to NewForm. The form may
// stand on an earlier pair of the same Spec. It is shared and must not be changed.
func (fs *Forms) Of(p *involute.Pair, edition Edition, residual [2]float64) (*Form, error) {
	if p == nil {
		return NewForm(p, edition, residual)
	}
	key := formKey{p.Spec, edition, residual}
	fs.mu.Lock()
	f := fs.found[key]
	fs.mu.Unlock()
	if f != nil {
		return f, nil
	}
	f, err := NewForm(p, edition, residual)
	if err != nil {
		return nil, err
	}
	fs.mu.Lock()
	defer fs.mu.Unlock()
	if fs.found == nil || len(fs.found) >= mostForms {
		fs.found = map[formKey]*Form{} // all at once: which of them will be asked for again isn't known
	}
	fs.found[key] = f
	return f, nil
}
