package text

import (
	"io"

	"layshaft/gearbox"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// Preload writes a tapered pair on the bench: what each shim does, cold and hot, and the shim for a wanted torque.
func Preload(w io.Writer, t *study.PreloadTable, o Options) error {
	if t == nil {
		return view.ErrNoPreload
	}
	p := report{Options: o}
	p.say(view.PreloadHeadline(t, o.Options))
	p.space()
	p.title(view.Clean(t.Box.Name) + ", " + view.Clean(gearbox.ShaftTitle(t.Shaft)))
	p.tell(view.PreloadAsked(t, o.Options))
	p.show(view.PreloadTables(t, o.Options)...)
	if words := view.ShimWords(t, o.Options); words != nil {
		p.space()
		p.tell(words...)
	}
	p.tell(t.Notes...)
	return p.print(w)
}
