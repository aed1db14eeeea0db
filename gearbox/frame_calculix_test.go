package gearbox

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Two systems in a general-purpose finite element solver, CalculiX 2.20 (ccx): its own beam elements (type U1), springs for bearings and teeth, and linear
// equations for what ties them together. testdata/frame holds the decks and what the solver printed; testdata/frame/README.md tells how a deck is made up.
// With LAYSHAFT_WRITE_DECKS set the decks are written anew, and solved if ccx is there.
//
// U1 bends rightly in one plane only, so each shaft stands in the deck twice, once for each plane. Its deflection is of second order in the length
// of the elements, and 0.5 mm leaves 2·10⁻⁵ of it on a slender cantilever (measured against beam theory), some more on stout shafts; slopes and line loads hardly feel it.

// frameDeck writes a frame in full contact as a deck.
func frameDeck(f *frame, title string) []byte {
	var b bytes.Buffer
	line := func(format string, a ...any) { fmt.Fprintf(&b, format+"\n", a...) }
	// The solver takes a stiffness without a decimal point for no data.
	number := func(v float64) string {
		s := strconv.FormatFloat(v, 'g', 10, 64)
		if !strings.ContainsAny(s, ".e") {
			s += "."
		}
		return s
	}
	nodes := len(f.load) / 6 // of one plane; the second plane's come behind, then those of strips and tilting springs
	node := func(freedom int) (node int, direction string, sign float64) {
		n := freedom/6 + 1
		switch freedom % 6 {
		case 1:
			return n, "2", 1
		case 2:
			return n + nodes, "2", 1
		case 3:
			return n, "4", 1
		case 4:
			return n + nodes, "6", -1 // the slope in plane xz is minus the rotation about y
		case 5:
			return n, "6", 1
		}
		return 0, "", 0 // shafts are held along x
	}
	line("** %s", title)
	line("*NODE, NSET=NBEAM")
	for plane := range 2 {
		for _, s := range f.shafts {
			for k, x := range s.x {
				line("%d,%s", plane*nodes+s.first/6+k+1, number(x))
			}
		}
	}
	next := 2*nodes + 1
	line("*NODE, NSET=NSTRIP")
	for _, strips := range f.meshes {
		for range strips {
			line("%d,0", next)
			next++
		}
	}
	turning := map[int]int{} // freedom of a tilting spring → its node
	for _, k := range f.springs {
		if d := k.i % 6; d == 4 || d == 5 {
			turning[k.i] = next
			line("*NODE, NSET=NTURN")
			line("%d,0", next)
			next++
		}
	}
	line("*USER ELEMENT, TYPE=U1, NODES=2, INTEGRATION POINTS=2, MAXDOF=6")
	element := 0
	for i, s := range f.shafts {
		steel := frameSteel(f.box, f.box.Shafts[i].Steel)
		line("*MATERIAL, NAME=M%d", i)
		line("*ELASTIC")
		line("%s,%s", number(steel.Young), number(steel.Poisson))
		from := 0.0
		for j, c := range f.box.Shafts[i].Sections {
			line("*ELEMENT, TYPE=U1, ELSET=S%dC%d", i, j)
			for plane := range 2 {
				for k := range len(s.x) - 1 {
					if mid := (s.x[k] + s.x[k+1]) / 2; mid > from && mid < from+c.Length {
						element++
						n := plane*nodes + s.first/6 + k + 1
						line("%d,%d,%d", element, n, n+1)
					}
				}
			}
			from += c.Length
			inertia := math.Pi / 64 * (math.Pow(c.Outer, 4) - math.Pow(c.Bore, 4))
			m2 := c.Bore * c.Bore / (c.Outer * c.Outer)
			ring := (1 + m2) * (1 + m2)
			cowper := 6 * (1 + steel.Poisson) * ring / ((7+6*steel.Poisson)*ring + (20+12*steel.Poisson)*m2)
			line("*BEAM SECTION, ELSET=S%dC%d, MATERIAL=M%d, SECTION=GENERAL", i, j, i)
			line("%s,%s,0,%s,%s", number(math.Pi/4*(c.Outer*c.Outer-c.Bore*c.Bore)), number(inertia), number(inertia), number(cowper))
			line("0,1,0")
		}
	}
	spring := func(node int, stiffness float64) {
		element++
		line("*ELEMENT, TYPE=SPRING1, ELSET=K%d", element)
		line("%d,%d", element, node)
		line("*SPRING, ELSET=K%d", element)
		line("2")
		line("%s", number(stiffness))
	}
	type term struct {
		node      int
		direction string
		weight    float64
	}
	equation := func(terms []term) {
		line("*EQUATION")
		line("%d", len(terms))
		for _, t := range terms {
			line("%d,%s,%s", t.node, t.direction, number(t.weight))
		}
	}
	n := 2*nodes + 1
	for _, strips := range f.meshes {
		for _, s := range strips {
			// The strip's own node moves by minus the opening.
			terms := []term{{n, "2", 1}}
			for k, at := range s.opening.at {
				if n, d, sign := node(at); n > 0 && math.Abs(s.opening.weight[k]) > 1e-12 {
					terms = append(terms, term{n, d, sign * s.opening.weight[k]})
				}
			}
			equation(terms)
			spring(n, s.spring)
			n++
		}
	}
	for _, k := range f.springs {
		n, d, _ := node(k.i)
		if own, ok := turning[k.i]; ok {
			equation([]term{{own, "2", 1}, {n, d, -1}})
			n = own
		}
		spring(n, k.value)
	}
	line("*BOUNDARY")
	line("NBEAM,1")
	line("NBEAM,3")
	line("NBEAM,5")
	line("NSTRIP,1")
	line("NSTRIP,3")
	if len(turning) > 0 {
		line("NTURN,1")
		line("NTURN,3")
	}
	for _, s := range f.shafts {
		for k := range s.x {
			line("%d,4", nodes+s.first/6+k+1)
		}
	}
	for i, unknown := range f.number {
		if n, d, _ := node(i); unknown < 0 && n > 0 {
			line("%d,%s", n, d)
		}
	}
	line("*NSET, NSET=NSHOWN")
	for _, at := range f.shown() {
		line("%d", at/6+1)
		line("%d", at/6+1+nodes)
	}
	line("*STEP")
	line("*STATIC")
	line("*CLOAD")
	for i, v := range f.load {
		if n, d, _ := node(i); v != 0 {
			line("%d,%s,%s", n, d, number(v))
		}
	}
	for _, set := range []string{"NSTRIP", "NSHOWN"} {
		line("*NODE PRINT, NSET=%s", set)
		line("U")
	}
	line("*END STEP")
	return b.Bytes()
}

// shown are the first freedoms of the nodes whose movement is compared: of every shaft its bearings and the middles of the meshes.
func (f *frame) shown() (all []int) {
	for i, s := range f.box.Shafts {
		for _, br := range s.Bearings {
			all = append(all, f.at(i, br.At))
		}
		for _, g := range f.box.Gears {
			if g.Shaft == s.Name {
				all = append(all, f.at(i, g.At))
			}
		}
	}
	return all
}

// frameRead takes the movements (x, y, z, about x, y, z) of the nodes from what the solver printed.
func frameRead(t *testing.T, data []byte) map[int][6]float64 {
	t.Helper()
	moved := map[int][6]float64{}
	for line := range strings.Lines(string(data)) {
		fields := strings.Fields(line)
		if len(fields) != 7 {
			continue
		}
		node, err := strconv.Atoi(fields[0])
		if err != nil {
			continue
		}
		var u [6]float64
		for d := range u {
			if u[d], err = strconv.ParseFloat(fields[d+1], 64); err != nil {
				t.Fatalf("%q: %v", line, err)
			}
		}
		moved[node] = u
	}
	return moved
}

func frameRun(t *testing.T, ccx string, deck []byte) []byte {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "deck.inp"), deck, 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(ccx, "deck")
	cmd.Dir = dir
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("ccx: %v\n%s", err, out[max(0, len(out)-2000):])
	}
	data, err := os.ReadFile(filepath.Join(dir, "deck.dat"))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestFrameInCalculiX(t *testing.T) {
	for _, name := range []string{"spur", "helical"} {
		t.Run(name, func(t *testing.T) {
			b := frameSystem(name)
			o := same
			o.spacing = 0.5
			f := frameOf(b, 0, b.Torque, o)
			deck := frameDeck(f, name+": two stepped shafts, one mesh in 21 strips; mm, N, MPa")
			deckPath, resultPath := filepath.Join("testdata", "frame", name+".inp"), filepath.Join("testdata", "frame", name+".dat")
			ccx, missing := exec.LookPath("ccx")
			var fresh []byte
			if missing == nil {
				fresh = frameRun(t, ccx, deck)
			}
			if os.Getenv("LAYSHAFT_WRITE_DECKS") != "" {
				if fresh == nil {
					t.Fatal("no ccx to solve the decks with")
				}
				for path, data := range map[string][]byte{deckPath: deck, resultPath: fresh} {
					if err := os.WriteFile(path, data, 0o644); err != nil {
						t.Fatal(err)
					}
				}
			}
			kept, err := os.ReadFile(deckPath)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(kept, deck) {
				t.Fatal("the deck in testdata/frame is not that of this box; write and solve it anew")
			}
			result, err := os.ReadFile(resultPath)
			if err != nil {
				t.Fatal(err)
			}
			r, err := frameResult(b, b.Torque, Method{NoShoulder: true})
			if err != nil {
				t.Fatal(err)
			}
			frameAgainst(t, f, r, frameRead(t, result))
			if fresh == nil {
				t.Log("ccx isn't installed: its stored results stand alone")
				return
			}
			frameAgainst(t, f, r, frameRead(t, fresh))
		})
	}
}

// frameAgainst holds a coupled solution against the solver's movements. The solver prints seven digits.
func frameAgainst(t *testing.T, f *frame, r *Result, moved map[int][6]float64) {
	t.Helper()
	nodes := len(f.load) / 6
	mesh := &r.Speeds[0].Meshes[0]
	worstLoad, top := 0.0, 0.0
	for i, s := range f.meshes[0] {
		u, ok := moved[2*nodes+1+i]
		if !ok || !(u[1] > 0) {
			t.Fatalf("strip %d moves %v: not in contact, or not printed", i+1, u)
		}
		q := u[1] * s.spring / s.width
		top = max(top, q)
		worstLoad = max(worstLoad, math.Abs(q-mesh.LineLoad[i])/q)
	}
	sum, face := 0.0, 0.0
	for i, s := range f.meshes[0] {
		sum += moved[2*nodes+1+i][1] * s.spring
		face += s.width
	}
	factor := top / (sum / face)
	if math.Abs(factor-mesh.FaceFactor) > 2e-5*factor {
		t.Errorf("K_Hβ %.6f, CalculiX %.6f", mesh.FaceFactor, factor)
	}
	if worstLoad > 3e-5 {
		t.Errorf("line loads differ by up to %.1e", worstLoad)
	}
	worstMove, worstSlope, mostMove, mostSlope := 0.0, 0.0, 0.0, 0.0
	for i := range r.Speeds[0].Shafts {
		s := f.shafts[i]
		for _, at := range f.shown() {
			k := (at - s.first) / 6
			if at < s.first || k >= len(s.x) {
				continue
			}
			y, ok1 := moved[at/6+1]
			z, ok2 := moved[at/6+1+nodes]
			if !ok1 || !ok2 {
				t.Fatalf("node %d isn't printed", at/6+1)
			}
			got := r.Speeds[0].Shafts[i].Solution.At(s.x[k], 0)
			mostMove = max(mostMove, math.Abs(y[1]), math.Abs(z[1]))
			mostSlope = max(mostSlope, math.Abs(y[5]), math.Abs(z[5]))
			worstMove = max(worstMove, math.Abs(got.Y.Deflection-y[1]), math.Abs(got.Z.Deflection-z[1]))
			worstSlope = max(worstSlope, math.Abs(got.Y.Slope-y[5]), math.Abs(got.Z.Slope-z[5]))
		}
	}
	t.Logf("K_Hβ %.6f and %.6f; line load %.1e, deflection %.1e, slope %.1e of the largest", mesh.FaceFactor, factor, worstLoad, worstMove/mostMove, worstSlope/mostSlope)
	if worstMove > 1e-4*mostMove || worstSlope > 5e-5*mostSlope {
		t.Errorf("deflection differs by %.1e, slope by %.1e of the largest", worstMove/mostMove, worstSlope/mostSlope)
	}
}
