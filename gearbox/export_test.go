package gearbox

// Work is what an answer took.
type Work struct {
	Sets      int // contact sets worked out
	Spreads   int // loads along the faces found
	Fallbacks int // of them without contact sets
	Bent      int // shafts bent as a whole
}

// WorkOf counts the work of all speeds of a box at its own torque.
func WorkOf(b *Box, brief bool) (w Work, err error) {
	p := prepare(b, Method{})
	if p.found.HasErrors() {
		return w, p.found
	}
	p.brief = brief
	solvers, chosen := p.choose(b.Torque, nil)
	for _, v := range chosen {
		if _, err := v.result(solvers); err != nil {
			return w, err
		}
	}
	for _, v := range solvers {
		if c := v.fixed; c != nil && c.family != nil {
			w.Sets += c.family.Sets()
			w.Spreads += c.spreads
			w.Fallbacks += c.fallbacks
		}
	}
	w.Bent = p.bent
	return w, nil
}

// Faces is one speed of a box, ready to be asked for the load along its faces.
type Faces struct{ v *solver }

// FacesOf readies the first speed whose path has two meshes.
func FacesOf(b *Box) (Faces, error) {
	p := prepare(b, Method{})
	if p.found.HasErrors() {
		return Faces{}, p.found
	}
	for i, s := range b.Speeds {
		if len(s.Path) == 2 {
			v := p.solverFor(s, p.layouts[i][0], b.Torque)
			return Faces{v}, v.ready()
		}
	}
	return Faces{}, nil
}

// Factor is K_Hβ of the first mesh at a torque that wasn't asked before, and how many seats lean on the way.
func (f Faces) Factor(torque float64) (float64, int, error) {
	s, err := f.v.find(torque, making{})
	if err != nil {
		return 0, 0, err
	}
	return f.v.fixed.factor(s, 0), len(f.v.fixed.seated), nil
}
