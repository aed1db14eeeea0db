package data

import "layshaft/gearbox"

type measuredJSON struct {
	Gear   string `json:"gear"`
	What   string `json:"size"`
	Read   number `json:"measured_mm"`
	Within number `json:"within_mm"`
	Made   number `json:"made_mm"`
	Doubt  string `json:"doubt"`
}

func newMeasured(m gearbox.Measured) measuredJSON {
	return measuredJSON{m.Gear, m.What, number(m.Read), number(m.Within), number(m.Made), m.Doubt}
}
