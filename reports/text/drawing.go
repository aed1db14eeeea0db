package text

import (
	"io"

	"layshaft/gearbox"
	"layshaft/reports/view"
)

// Drawing draws a box in characters, 80 columns wide.
func Drawing(w io.Writer, a *gearbox.Arrangement, o Options) error {
	o.Width = leastWidth
	d, err := view.Draw(a, o.Options)
	if err != nil {
		return err
	}
	p := report{Options: o}
	p.title(d.Name)
	p.tell(d.Chosen)
	p.heading("From the left end: axes, and the pitch circle of the largest gear on each")
	p.draw(d.End)
	p.tell(d.Axes...)
	p.heading("From the side: left end on the left")
	p.draw(d.Side)
	p.tell(d.Signs)
	p.show(d.Gears, d.Paths)
	return p.print(w)
}

// draw adds lines as they are, between two empty ones.
func (r *report) draw(lines []string) {
	r.space()
	r.blocks = append(r.blocks, block{drawing: lines})
	r.space()
}
