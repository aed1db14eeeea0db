package gearbox

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
