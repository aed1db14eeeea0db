package gearbox

import (
	"layshaft/gearstress/iso6336"
	"layshaft/material"
)

// compiledKey is a question to ISO 6336 but for torque and K_Hβ.
type compiledKey struct {
	inputKey
	speed float64 // of the mesh's driver, rad/s; 0 = not known
	turns float64 // of it; 0 = static
}

// compiled is what ISO 6336 says of a mesh on the path of a speed at one end of the steel bands, ready for torques on its driver. The
// driver turns at speed, rad/s (0 = not known), and turns times (0 = static). It is kept; still, a search should ask for it once and not at every torque.
func (p *prepared) compiled(mesh int, level material.Level, on Speed, fatigue bool, speed, turns float64) (*iso6336.Compiled, error) {
	key := compiledKey{inputKey{mesh, level, on.Name, fatigue}, speed, turns}
	if c, ok := p.ratings[key]; ok {
		return c, nil
	}
	var c *iso6336.Compiled
	var err error
	if other, ok := p.other[key.inputKey]; ok {
		c, err = other.With(speed, turns)
	} else {
		in := p.input(mesh, level, on, fatigue)
		in.Speed, in.Turns = speed, turns
		c, err = p.pairs[mesh].form.Compile(in)
	}
	if err != nil {
		return nil, err
	}
	p.ratings[key], p.other[key.inputKey] = c, c
	return c, nil
}

// forget drops what was made of the steels as they were.
func (p *prepared) forget() {
	clear(p.inputs)
	clear(p.ratings)
	clear(p.other)
	p.steel++
}

// compiled is that of the mesh at a step of the path, when the input shaft turns at revs, rad/s, and the mesh's driver turns times in all. per is
// the torque on the driver over that of the input shaft: At(per·torque, K_Hβ) rates an input torque of that size, N·mm.
func (v *solver) compiled(step int, level material.Level, fatigue bool, revs, turns float64) (c *iso6336.Compiled, per float64, err error) {
	per, speed := v.driver(step, 1, revs)
	c, err = v.p.compiled(v.p.mesh[v.speed.Path[step]], level, v.speed, fatigue, speed, turns)
	return c, per, err
}
