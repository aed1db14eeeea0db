package gearbox

import "math"

// Bound is one thing that bounds the torque on its way between engine and ground.
type Bound string

// The bounds.
const (
	ByEngine Bound = "engine"
	ByClutch Bound = "clutch"
	ByTyres  Bound = "tyres"
)

// Reach is what can come to the teeth in one speed, all as sizes of input torque, N·mm > 0: no more than the engine gives, the clutch holds and the tyres pass on. The
// inertia of what turns isn't in it: a wheel that is spun up, or a clutch plate that is stopped, adds its own for as long as that takes.
type Reach struct {
	Reverse bool    // the car goes backwards
	Engine  float64 // the asked torque
	Shocked float64 // its peak by the shock factor
	Clutch  float64 // what the clutch holds; +Inf = not told
	Tyres   float64 // what the tyres pass on before they slip; +Inf = not told
	Force   float64 // the force along the ground that Tyres stands for, N; +Inf = not told
	Lifts   bool    // the undriven axle leaves the ground before the tyres slip

	Peak    Reached // the largest that comes, once
	Running Reached // what comes for as long as it is pulled

	First int // place in the speed's Margins of the limit with the least margin against what reaches it; −1 in brief
}

// Reached is a torque that comes to the teeth, and what bounds it.
type Reached struct {
	Torque float64 // at the input, N·mm
	By     Bound
}

// least bounds an engine's torque by what clutch and tyres let through. Where two are equal the engine goes before the clutch, that before the tyres.
func (r *Reach) least(engine float64) Reached {
	least := Reached{engine, ByEngine}
	if r.Clutch < least.Torque {
		least = Reached{r.Clutch, ByClutch}
	}
	if r.Tyres < least.Torque {
		least = Reached{r.Tyres, ByTyres}
	}
	return least
}

// Bounding is what bounds the torque that a limit of a kind is held against.
func (r *Reach) Bounding(k Kind) Bound {
	if k.Static() {
		return r.Peak.By
	}
	return r.Running.By
}

// bounded reports whether anything but the engine is told that bounds the torque.
func (b *Box) bounded() bool { return b.Clutch != nil || b.Car.gripKnown() }

// reach is what comes to the teeth of a speed when the engine gives a torque (N·mm, > 0 drives, < 0 brakes); nil when neither clutch nor tyres are told.
//
// In drive the ground pushes the car the way it goes, in coast against it. What the tyres hold is F r at the wheels; the losses on the way between them and the input lie on the other
// side in coast: T = F r/(i η) in drive, F r η/i in coast.
func (p *prepared) reach(s Speed, torque float64) *Reach {
	b := p.box
	if !b.bounded() {
		return nil
	}
	r := &Reach{
		Reverse: p.backwards(s), Engine: math.Abs(torque), Shocked: math.Abs(torque) * p.peak(s),
		Clutch: math.Inf(1), Tyres: math.Inf(1), Force: math.Inf(1), First: -1,
	}
	if b.Clutch != nil {
		r.Clutch = b.Clutch.Holds()
	}
	if b.Car.gripKnown() {
		drives := torque >= 0
		r.Force, r.Lifts = b.Car.Holds(drives != r.Reverse)
		f := p.follow(s, float64(b.Turns))
		ratio, efficiency := b.Car.axle()
		ratio *= math.Abs(f.ratio)
		if efficiency *= f.efficiency; drives {
			efficiency = 1 / efficiency
		}
		r.Tyres = r.Force * b.Car.TyreRadius / ratio * efficiency
	}
	r.Peak, r.Running = r.least(r.Shocked), r.least(r.Engine)
	return r
}

// note tells that an axle lifts; nil when none does.
func (r *Reach) note() []string {
	if r == nil || !r.Lifts {
		return nil
	}
	return []string{"The undriven wheels leave the ground before the tyres slip: the tyres are then taken to hold µ times the whole weight."}
}

// backwards reports whether a speed drives the car backwards: its output turns the other way than that of most speeds of the box, or, of as many either way, than that of the first.
func (p *prepared) backwards(s Speed) bool {
	turns := func(s Speed) int { return 1 - 2*(len(s.Path)%2) } // each mesh turns it round
	most := 0
	for _, each := range p.box.Speeds {
		most += turns(each)
	}
	if most == 0 {
		most = turns(p.box.Speeds[0])
	}
	return turns(s)*most < 0
}

// torque is the asked torque with its sign: > 0 drives.
func (v *solver) torque() float64 { return math.Copysign(v.asked, v.engine*float64(v.p.box.Turns)) }

// holdAgainst gives each limit of a speed its margin against what really reaches it. Static limits are held against the peak: theirs is that of the allowable torque with its shock. The
// others are held against what runs; what a duty wears has its margin already.
func (v *solver) holdAgainst(sr *SpeedResult) {
	b, r := v.p.box, sr.Reach
	if r == nil {
		return
	}
	for i := range sr.Margins {
		m := &sr.Margins[i]
		allowable := m.Allowable[m.Level]
		m.Comes = r.Running.Torque
		if m.Kind.Static() {
			m.Comes = r.Peak.Torque
			allowable *= v.p.peak(v.speed)
		}
		if m.LifeReached == 0 {
			m.Reached = allowable/m.Comes - 1
		}
		m.ReachedState = b.stateOf(m.Reached)
		if r.First < 0 || m.Reached < sr.Margins[r.First].Reached && !together(1+m.Reached, 1+sr.Margins[r.First].Reached) {
			r.First = i
		}
	}
}
