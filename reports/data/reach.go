package data

import (
	"layshaft/gearbox"
	"layshaft/reports/view"
)

type dutyJSON struct {
	Passes   number         `json:"passes"`
	Launches number         `json:"launches_per_pass"`
	Steps    []dutyStepJSON `json:"steps"`
}

type dutyStepJSON struct {
	Speed string `json:"speed"`
	Turns number `json:"input_shaft_turns"`
	Time  number `json:"time_s"`
	Revs  number `json:"input_shaft_speed_rpm"`
	Share number `json:"share_of_torque_fraction"`
}

// newDuty is nil when no duty was told.
func newDuty(b *gearbox.Box) *dutyJSON {
	d := b.Duty
	if d == nil {
		return nil
	}
	return &dutyJSON{number(d.Passes), told(d.Launches), view.Each(d.Steps, func(s gearbox.DutyStep) dutyStepJSON {
		return dutyStepJSON{s.Speed, number(b.InputTurns(s)), told(s.Time), told(b.InputRevs(s) * toRpm), number(s.Share)}
	})}
}

// carJSON is what the box drives.
type carJSON struct {
	TyreRadius     number `json:"tyre_radius_mm"`
	AxleRatio      number `json:"axle_ratio"`
	AxleEfficiency number `json:"axle_efficiency_fraction"`
	Mass           number `json:"mass_kg"`
	Drive          string `json:"drive"`
	DrivenShare    number `json:"weight_on_driven_axle_fraction"`
	Wheelbase      number `json:"wheelbase_mm"`
	Height         number `json:"centre_of_gravity_height_mm"`
	Grip           number `json:"friction_coefficient"`
}

func newCar(c *gearbox.Car) *carJSON {
	if c == nil {
		return nil
	}
	return &carJSON{
		number(c.TyreRadius), told(c.AxleRatio), told(c.AxleEfficiency), told(c.Mass), string(c.Drive), told(c.DrivenShare), told(c.Wheelbase), told(c.Height), told(c.Grip),
	}
}

// clutchHolds is NaN, which JSON shows as null, when no clutch is told.
func clutchHolds(c *gearbox.Clutch) number {
	if c == nil {
		return told(0)
	}
	return number(c.Holds() * toNm)
}

// reachJSON is what engine, clutch and tyres let through to the teeth in one speed.
type reachJSON struct {
	Reverse   bool   `json:"reverse"`
	Shocked   number `json:"engine_peak_torque_nm"`
	Clutch    number `json:"clutch_holds_nm"`
	Tyres     number `json:"tyres_hold_at_input_nm"`
	Force     number `json:"tyres_hold_at_ground_n"`
	Lifts     bool   `json:"undriven_axle_lifts"`
	Peak      number `json:"peak_torque_nm"`
	PeakBy    string `json:"peak_bounded_by"`
	Running   number `json:"running_torque_nm"`
	RunningBy string `json:"running_bounded_by"`
	First     int    `json:"first_limit_number"`
}

func newReach(r *gearbox.Reach) *reachJSON {
	if r == nil {
		return nil
	}
	return &reachJSON{
		r.Reverse, number(r.Shocked * toNm), number(r.Clutch * toNm), number(r.Tyres * toNm), number(r.Force), r.Lifts,
		number(r.Peak.Torque * toNm), string(r.Peak.By), number(r.Running.Torque * toNm), string(r.Running.By), r.First,
	}
}

// comesJSON is a limit against what really reaches it.
type comesJSON struct {
	Torque number `json:"torque_nm"`
	Margin number `json:"margin_fraction"`
	State  string `json:"state"`
	Life   number `json:"life_passes"`
}

// newComes is nil where neither clutch nor tyres are told.
func newComes(m *gearbox.Margin) *comesJSON {
	if m.Comes == 0 {
		return nil
	}
	return &comesJSON{number(m.Comes * toNm), number(m.Reached), m.ReachedState.String(), told(m.LifeReached)}
}

// gearLifeJSON is how long a gear lasts the duty.
type gearLifeJSON struct {
	Gear   string   `json:"gear"`
	Speeds []string `json:"speeds"`
	Root   lifeJSON `json:"root"`
	Drive  lifeJSON `json:"drive_flank"`
	Coast  lifeJSON `json:"coast_flank"`
}

type lifeJSON struct {
	Asked   number `json:"as_asked_passes"`
	Reached number `json:"with_what_reaches_it_passes"`
}

func newGearLife(g gearbox.GearLife) gearLifeJSON {
	life := func(l gearbox.Life) lifeJSON { return lifeJSON{told(l.Asked), told(l.Reached)} }
	return gearLifeJSON{g.Gear, view.Each(g.Speeds, unchanged), life(g.Root), life(g.Drive), life(g.Coast)}
}
