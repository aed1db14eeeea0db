package joint

import "testing"

// Flange couplings (statements of textbook problems, figures recomputed): ten bolts of 20 mm on 400 mm at 40 MPa; eight on 400 and six on
// 300 mm, 10 mm, 60 MPa, where the inner ones carry three quarters of the stress.
func TestFlanges(t *testing.T) {
	same(t, "one row", Rows([]Row{{10, 200, 20}}, 40)/1e6, 25.13274, 1e-6)
	same(t, "two rows", Rows([]Row{{8, 200, 10}, {6, 150, 10}}, 60)/1e6, 10.72068, 1e-6)
}

// A final-drive wheel (reckoned independently): ten bolts at 72 mm, 46.5 kN each, scatter 1.6, 3 kN bedding down, μ 0.12.
func TestRing(t *testing.T) {
	r := Ring{Bolts: 10, Circle: 72, Preload: 46500, Scatter: 1.6, Embedding: 3000, Friction: 0.12}
	same(t, "least", r.Least(), 26062.5, 1e-9)
	same(t, "grip", r.Grip(0), 2251.8e3, 1e-9)
	same(t, "grip with 6 kN off the flange", r.Grip(6000), 2199.96e3, 1e-9)
	same(t, "safety", r.Grip(6000)/2.6e6, 0.8461385, 1e-6)
	// What a torque needs and what the grip is are one thing.
	same(t, "needed at the grip", r.Needed(r.Grip(6000), 6000), r.Least(), 1e-12)
	same(t, "torque that shears the shanks", Rows([]Row{{10, 72, 10}}, 520), 29405.31e3, 1e-6)
	same(t, "shear when friction is lost", r.Shearing(2.6e6, 10), 45.97809, 1e-6)
	same(t, "tilting", r.Tilting(6000*105), 1750, 1e-9)
}
