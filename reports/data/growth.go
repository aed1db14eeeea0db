package data

import "layshaft/gearbox"

type spotJSON struct {
	Torque     number `json:"input_torque_nm"`
	FaceFactor number `json:"face_load_factor"`
	InContact  number `json:"in_contact_fraction"`
	Middle     number `json:"load_acts_at_mm"`
}

func newSpot(s gearbox.Spot) spotJSON {
	return spotJSON{number(s.Torque * toNm), number(s.FaceFactor), number(s.InContact), number(s.Middle)}
}
