package page

import (
	"math"

	"layshaft/gearbox/quantity"
	"layshaft/reports/view"
)

// reachFigure is what engine, clutch and tyres of one box let through to the teeth.
type reachFigure struct {
	Box  int
	Name string
	Rows []reachRow
}

// reachRow is one speed. Lengths are those of its drawing, 200 wide: the engine's peak hollow, what is transmitted of it solid, a line where the clutch slips and one where the tyres do.
type reachRow struct {
	Speed                string
	Engine, Comes        rounded
	Clutch, Tyres        rounded // 0 = beyond the drawing, or not given
	Shocked, Slips, Hold string
	Peak, By             string
	Running, RunningBy   string
}

// reachWidth is the width of the drawings of a reachFigure.
const reachWidth = 200

// reachFigures are those of the boxes of which clutch or tyres are given. All are drawn to one scale.
func (s *set) reachFigures() (all []reachFigure) {
	most := 0.0
	for _, r := range s.results {
		for i := range r.Speeds {
			if reach := r.Speeds[i].Reach; reach != nil {
				most = max(most, reach.Shocked)
			}
		}
	}
	within := func(v float64) rounded {
		if v > most {
			return 0
		}
		return rounded(reachWidth * v / most)
	}
	for b, r := range s.results {
		f := reachFigure{Box: look(b), Name: s.names[b]}
		for i := range r.Speeds {
			sp := &r.Speeds[i]
			reach := sp.Reach
			if reach == nil {
				continue
			}
			shown := func(v float64) string {
				if math.IsInf(v, 1) {
					return view.Absent
				}
				return s.number(v, quantity.Torque, 3)
			}
			f.Rows = append(f.Rows, reachRow{
				Speed: view.Clean(sp.Name), Engine: within(reach.Shocked), Comes: within(reach.Peak.Torque), Clutch: within(reach.Clutch), Tyres: within(reach.Tyres),
				Shocked: shown(reach.Shocked), Slips: shown(reach.Clutch), Hold: shown(reach.Tyres),
				Peak: shown(reach.Peak.Torque), By: string(reach.Peak.By), Running: shown(reach.Running.Torque), RunningBy: string(reach.Running.By),
			})
		}
		if len(f.Rows) == 0 {
			continue
		}
		all = append(all, f)
	}
	return all
}
