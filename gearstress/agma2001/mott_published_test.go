package agma2001

import (
	"testing"

	"layshaft/gearstress/involute"
)

// Mott, Machine Elements in Mechanical Design, ch. 9, spur pair 20/70, diametral pitch 8
// (statement seen, results from memory). The book rounds K_v and W_t on the way: 0.4 %.
func TestMott20_70(t *testing.T) {
	const tol = 0.004
	p := pair(t, involute.Spec{Module: inch / 8, Rack: involute.StandardRack, Teeth: [2]int{20, 70}, Face: 1.5 * inch})
	f := form(t, p, ToolOf(involute.StandardRack))
	f.I, f.J = 0.108, [2]float64{0.335, 0.42}
	speed := 1750 * rpm
	g := Gear{Strength: Strength{Root: 300, Flank: 1200, Treatment: CaseCarburised, Source: "not in question"}}
	r, err := Rate(Input{Form: f, Torque: 25 * hp / speed * 1000, Speed: speed, Turns: 1e7, Quality: 6, Overload: 1.5, FaceLoad: 1.21, FaceLoadOrigin: "given", Gear: [2]Gear{g, g}})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"V, ft/min", r.Speed * 60 / foot, 1145}, {"W_t, lbf", r.Tangential / lbf, 720}, {"K_v", r.Kv, 1.45},
		{"s_t pinion, psi", r.Root[0].Stress / psi, 30200}, {"s_t gear, psi", r.Root[1].Stress / psi, 24100},
	} {
		near(t, c.what, c.got, c.want, tol*c.want)
	}
}
