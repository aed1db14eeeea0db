package iso6336

import "math"

// Compiled is a pair with everything settled but the torque and K_Hβ, for what is rated again and again, as in the search for a
// torque. It is not changed once it is made, and may be used by several goroutines.
type Compiled struct {
	form *Form
	in   Input // with a torque of 1 N·mm and a K_Hβ of 1

	specific     float64    // F_t/b of a torque of 1 N·mm, 1/mm²
	gamma        float64    // K_γ, –
	stiffness    Stiffness  // from 100 N/mm on
	reducedMass  float64    // m_red, kg/mm of face
	cv           [8]float64 // C_v1 … C_v7, –
	faceExponent float64    // N_F, –
	ze           float64    // Z_E, √MPa
	pitting      float64    // σ_H0 over √(F_t/b), √MPa/√mm
	nominal      [2]float64 // σ_F0 over F_t/b, 1/mm
	zbd          [2]float64 // Z_B, Z_D, –
	yb           [2]float64 // Y_B, –
	ydt          float64    // Y_DT, –
	root         [2]strength

	// What depends on speed and turns.
	velocity  float64 // v, at the reference circles, mm/s
	deviation Deviation
	flank     [2]strength
	hardness  [2]bool // whether those that Z_W needs are known
}

// Utilisation is a stress against what the steel bears.
type Utilisation struct {
	Stress float64 // σ_H or σ_F, MPa
	Limit  float64 // σ_HG or σ_FG, what the steel bears for the number of load cycles, MPa
	Static float64 // what it bears of this kind of stress once, MPa
}

// OfLimit is the stress over the limit, –; OfStatic that over the static strength, –.
func (u Utilisation) OfLimit() float64  { return u.Stress / u.Limit }
func (u Utilisation) OfStatic() float64 { return u.Stress / u.Static }

// Stresses are those of one load. Index 0 is the driver.
type Stresses struct {
	Flank, Root [2]Utilisation
}

// Compile settles everything but the torque and K_Hβ, which are not read from in. Everything missing or impossible comes
// back in one error. With gives another speed or number of turns for little.
func (f *Form) Compile(in Input) (*Compiled, error) {
	in.Torque, in.KHb = 1, 1
	if err := in.validate(); err != nil {
		return nil, err
	}
	c := new(Compiled)
	c.compile(f, in)
	return c, nil
}

// With is the same at another speed of the driver, rad/s, and for another number of its turns; 0 means what it means in Input.
func (c *Compiled) With(speed, turns float64) (*Compiled, error) {
	other := *c
	other.in.Speed, other.in.Turns = speed, turns
	if err := other.in.validate(); err != nil {
		return nil, err
	}
	other.run()
	return &other, nil
}

// At is what Rate finds for the stresses of a torque on the driver, N·mm, and a face load factor K_Hβ, without words and without
// allocation. That torque > 0 and K_Hβ ≥ 1, both finite, is the caller's to know.
func (c *Compiled) At(torque, khb float64) Stresses {
	var l load
	c.put(&l, torque, khb)
	return c.stresses(&l)
}

// FlankDamage is what a stress (MPa) adds to the Miner sum of the flank of gear i in the turns that are compiled, –: cycles over those
// that it is borne for, +Inf above the static strength.
func (c *Compiled) FlankDamage(i int, stress float64) float64 {
	return c.flank[i].curve.Damage(stress, c.flank[i].cycles)
}

// RootDamage is the same of its root.
func (c *Compiled) RootDamage(i int, stress float64) float64 {
	return c.root[i].curve.Damage(stress, c.root[i].cycles)
}

// compile takes an input that is known to be good.
func (c *Compiled) compile(f *Form, in Input) {
	p := f.Pair
	a, b := &in.Gear[0], &in.Gear[1]
	*c = Compiled{form: f, in: in, specific: 2 / (p.Reference[0] * p.Face), gamma: or(in.KGamma, 1)}
	c.stiffness = fullStiffness(p, [2]float64{a.Strength.Young, b.Strength.Young}, [2]Body{a.Body, b.Body})
	c.reducedMass = f.reducedMass(&in)
	c.cv = coefficients(p.TransverseContactRatio + p.OverlapRatio)
	c.faceExponent = rootFaceExponent(p.Face, max(f.Height[0], f.Height[1]))
	c.ze = elasticityFactor(a.Strength, b.Strength)
	c.pitting = f.ZH * c.ze * f.ZEps * f.ZBeta * math.Sqrt(1/p.Reference[0]+1/p.Reference[1])
	grade := 0 // the coarser of both counts, and unknown is coarse
	if a.Grade > 0 && b.Grade > 0 {
		grade = max(a.Grade, b.Grade)
	}
	c.ydt = deepToothFactor(f.NormalContact, grade)
	for i := range sides {
		t := &f.Tooth[i]
		c.zbd[i] = tipContactFactor(f.Edition, f.M[i], p.OverlapRatio, in.Relief)
		c.yb[i] = rimFactor(in.Gear[i].Body.Rim, f.Height[i])
		c.nominal[i] = t.YF * t.YS * f.YBeta * c.yb[i] * c.ydt / p.Module
		c.root[i] = f.rootStrength(&in, i)
	}
	c.run()
}

// run settles what depends on speed and turns.
func (c *Compiled) run() {
	f := c.form
	c.velocity = c.in.Speed * f.Pair.Reference[0] / 2
	c.deviation = f.effective(&c.in, c.velocity)
	for i := range sides {
		c.flank[i], c.hardness[i] = f.flankStrength(&c.in, i, c.velocity)
		cycles := c.in.cycles(f, i)
		c.flank[i].reach(cycles)
		c.root[i].reach(cycles)
	}
}

// load is a torque on its way to the teeth.
type load struct {
	line      float64 // F_t/b, N/mm
	applied   float64 // K_A K_γ F_t/b, N/mm
	stiffness Stiffness
	dynamic   Dynamic
	k         LoadFactors
}

// put works out the load factors in the order of the standard: K_v from the nominal
// load, K_Hα and K_Fα from the load that K_v and K_Hβ have made. It writes in place to save copying.
func (c *Compiled) put(l *load, torque, khb float64) {
	in := &c.in
	l.line = torque * c.specific
	l.applied = l.line * in.KA * c.gamma
	l.stiffness = c.stiffness.scaled(softening(l.applied))
	l.dynamic = c.dynamic(&l.stiffness, l.applied)
	l.k = LoadFactors{A: in.KA, Gamma: c.gamma, V: l.dynamic.KV, HBeta: khb, FBeta: rootFaceFactor(khb, c.faceExponent), HBetaOrigin: in.KHbOrigin}
	l.k.HAlpha, l.k.FAlpha = c.form.transverse(&l.stiffness, c.deviation, l.applied*l.k.V*khb)
	l.k.HAlpha, l.k.FAlpha = or(in.KHa, l.k.HAlpha), or(in.KFa, l.k.FAlpha)
}

func (c *Compiled) stresses(l *load) (s Stresses) {
	contact := c.pitting * math.Sqrt(l.line*l.k.flank())
	bending := l.line * l.k.root()
	for i := range sides {
		s.Flank[i] = Utilisation{c.zbd[i] * contact, c.flank[i].limit, c.flank[i].curve.Static()}
		s.Root[i] = Utilisation{c.nominal[i] * bending, c.root[i].limit, c.root[i].curve.Static()}
	}
	return s
}
