package page

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/involute"
	"layshaft/gearstress/iso6336"
	"layshaft/reports/view"
)

// toothFigure is the teeth of one mesh, which look the same in every speed.
type toothFigure struct {
	Rows  string // numbers of the speeds that load it
	Title string
	Boxes []toothBox
}

type toothBox struct {
	Box   int
	Name  string
	Teeth []toothDrawing
	Note  string // why nothing is drawn
}

type toothDrawing struct {
	Name, Note string
	Picture    template.HTML
}

// Size of a drawing, px: width of all, and room above the tip and below the root for what is written and drawn there.
const (
	toothWidth = 250
	toothAbove = 20
	toothBelow = 22
	toothSteps = 7 // on each fillet, flank, half of the tip and of the root
)

// toothFigures is a figure for each mesh that carries load in some speed.
func (s *set) toothFigures() (out []toothFigure) {
	index := map[string]int{}
	for k, r := range s.rows {
		for _, mesh := range s.meshes(r) {
			if i, ok := index[mesh.name]; ok {
				out[i].Rows += " " + strconv.Itoa(k)
				continue
			}
			index[mesh.name] = len(out)
			out = append(out, s.toothFigure(k, mesh))
		}
	}
	return out
}

func (s *set) toothFigure(k int, mesh meshOf) toothFigure {
	f := toothFigure{Rows: strconv.Itoa(k), Title: mesh.name}
	// One scale for all teeth of the figure: the widest fills its drawing.
	widest := 0.0
	for _, m := range mesh.boxes {
		for i := range 2 {
			if t, err := outline(m, i); err == nil {
				widest = max(widest, t.Root*math.Sin(math.Pi/t.Teeth))
			}
		}
	}
	for b, m := range mesh.boxes {
		box := toothBox{Box: look(b), Name: s.names[b]}
		if m == nil {
			continue
		}
		for i := range 2 {
			t, err := outline(m, i)
			if err != nil {
				box.Note = "The teeth can't be drawn: " + view.Clean(err.Error()) + "."
				continue
			}
			box.Teeth = append(box.Teeth, s.tooth(m, i, t, toothWidth/widest))
		}
		f.Boxes = append(f.Boxes, box)
	}
	return f
}

// outline is a tooth of a mesh.
func outline(m *gearbox.MeshResult, i int) (*involute.Tooth, error) {
	if m == nil || m.Geometry == nil || !(m.Geometry.Module > 0) {
		return nil, fmt.Errorf("the geometry of the pair is not known")
	}
	return m.Geometry.Tooth(i)
}

// tooth draws one tooth: the circles, the outline, and where the rating by ISO 6336-3 looks: the critical section between the two points
// at which a line under 30° to the middle of the tooth touches the fillet, and the load at the outer point of single contact.
func (s *set) tooth(m *gearbox.MeshResult, i int, t *involute.Tooth, scale float64) toothDrawing {
	p := m.Geometry
	d := toothDrawing{Name: view.Clean(m.Gears[i])}
	d.Note = fmt.Sprintf("%d teeth, tip %s, root %s diameter; tip %s thick.", p.Teeth[i],
		s.text(p.Tip[i], quantity.Length, 4), s.text(p.Root[i], quantity.Length, 4), s.text(p.TipThickness[i], quantity.Length, 3))
	top, bottom := t.Tip/2, t.Root/2*math.Cos(math.Pi/t.Teeth)
	w := pencil{scale: scale, top: top, height: toothAbove + (top-bottom)*scale + toothBelow}
	points := t.Outline(toothSteps)

	var body []string
	for _, q := range points {
		body = append(body, w.at(q.X, q.Y))
	}
	// Closed beyond the frame, so that only the outline itself is seen.
	floor := places(w.height, 1)
	w.add(`<path class="tooth" d="M-9,%sL-9,%s %s %d,%s %d,%sZ"/>`, places(w.height+9, 1), after(body[0]), strings.Join(body, " "),
		toothWidth+9, after(body[len(body)-1]), toothWidth+9, places(w.height+9, 1))
	w.circles(t, t.Reference+p.Working[i]-p.Reference[i])
	if m.Rating != nil {
		if form, err := iso6336.NewForm(p, m.Rating.Edition, [2]float64{}); err == nil {
			f := form.Tooth[i]
			w.section(t, &f)
			d.Note += fmt.Sprintf(" Critical section %s thick (s_Fn), fillet radius there %s (ρ_F), bending arm %s (h_Fe); Y_F = %s, Y_S = %s.",
				s.text(f.Chord, quantity.Length, 3), s.text(f.RootRadius, quantity.Length, 3), s.text(f.LoadArm, quantity.Length, 3), figure(f.YF, 3), figure(f.YS, 3))
		}
	}
	d.Picture = template.HTML(fmt.Sprintf(`<svg viewBox="0 0 %d %s" role="img" aria-label="%s">%s</svg>`, toothWidth, floor, template.HTMLEscapeString("Outline of a tooth of "+d.Name), w.String()))
	return d
}

// pencil writes a drawing of a tooth: gear axis below, middle of the tooth in the middle of the width.
type pencil struct {
	strings.Builder
	scale  float64 // px per mm
	top    float64 // radius of the tip, mm
	height float64 // px
}

func (w *pencil) x(mm float64) float64 { return toothWidth/2 + mm*w.scale }
func (w *pencil) y(mm float64) float64 { return toothAbove + (w.top-mm)*w.scale }

func (w *pencil) at(x, y float64) string { return places(w.x(x), 1) + "," + places(w.y(y), 1) }

func after(point string) string { _, y, _ := strings.Cut(point, ","); return y }

func (w *pencil) add(format string, a ...any) { fmt.Fprintf(w, format, a...) }

func (w *pencil) line(class string, x1, y1, x2, y2 float64) {
	w.add(`<path class="%s" d="M%sL%s"/>`, class, w.at(x1, y1), w.at(x2, y2))
}

// circles draws tip, working pitch, base and root circle, each with its name at the right.
func (w *pencil) circles(t *involute.Tooth, working float64) {
	type ring struct {
		name     string
		diameter float64
		y        float64
	}
	rings := []ring{{"tip", t.Tip, 0}, {"pitch", working, 0}, {"base", t.Base, 0}, {"root", t.Root, 0}}
	slices.SortStableFunc(rings, func(a, b ring) int {
		if a.diameter > b.diameter {
			return -1
		}
		return 1
	})
	edge := (toothWidth/2 - 2) / w.scale // half the drawing, mm
	last := math.Inf(-1)
	for i := range rings {
		r := &rings[i]
		radius := r.diameter / 2
		x := min(edge, 0.999*radius)
		y := math.Sqrt(radius*radius - x*x)
		px := places(radius*w.scale, 1)
		w.add(`<path class="ring" d="M%sA%s,%s 0 0 1 %s"/>`, w.at(-x, y), px, px, w.at(x, y))
		r.y = max(w.y(y)-3, last+12)
		last = r.y
		if r.y > w.height-2 {
			continue // below the drawing
		}
		w.add(`<text x="%d" y="%s">%s</text>`, toothWidth-2, places(r.y, 1), r.name)
	}
}

// section draws the critical section, the two lines that find it, and the load. The line of the load touches the base circle, so it meets the
// middle of the tooth at d_b / (2 cos α_Fen) from the axis; the section lies the bending arm below.
func (w *pencil) section(t *involute.Tooth, f *iso6336.ToothForm) {
	meets := t.Base / 2 / math.Cos(f.LoadAngle)
	at, half := meets-f.LoadArm, f.Chord/2
	sin, cos := math.Sincos(math.Pi / 6)
	for _, side := range []float64{-1, 1} {
		up, down := 1.5*t.Module, 0.55*t.Module
		w.line("tangent", side*(half-up*sin), at+up*cos, side*(half+down*sin), at-down*cos)
	}
	w.line("chord", -half, at, half, at)
	w.line("arm", 0, at, 0, meets)

	// The load enters on the right flank.
	r, turn := f.LoadDiameter/2, t.HalfAngle(f.LoadDiameter)
	x, y := r*math.Sin(turn), r*math.Cos(turn)
	w.line("tangent", x, y, 0, meets)
	sinA, cosA := math.Sincos(f.LoadAngle)
	long := 42 / w.scale
	w.line("load", x+long*cosA, y+long*sinA, x, y)
	const head, wide = 9.0, 3.6 // px
	h, v := head/w.scale, wide/w.scale
	w.add(`<path class="tipof" d="M%sL%sL%sZ"/>`, w.at(x, y), w.at(x+h*cosA-v*sinA, y+h*sinA+v*cosA), w.at(x+h*cosA+v*sinA, y+h*sinA-v*cosA))
	w.add(`<circle class="dot" cx="%s" cy="%s" r="2.4"/>`, places(w.x(0), 1), places(w.y(meets), 1))
}
