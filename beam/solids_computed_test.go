package beam

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// solid is a shaft of testdata/solids.txt, which says where the figures are from.
type solid struct {
	name, family, use string
	shaft             Shaft
	stations          []solidStation
	loads             []Load // X and Length to be set from the station
	at                []int
	twist             [3]float64 // solid, plain beam, beam with the rule, µrad
}

type solidStation struct {
	name     string
	x, width float64       // mm
	values   [3][4]float64 // v, w, µm; ψ_xy, ψ_xz, µrad; of the three
}

const (
	ofSolid = iota
	ofPlain
	ofRule
)

func solidsOfRevolution(t testing.TB) []*solid {
	file, err := os.Open("testdata/solids.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	var all []*solid
	lines := bufio.NewScanner(file)
	var lengths []Section
	var bores [][]float64
	for lines.Scan() {
		words := strings.Fields(lines.Text())
		if len(words) == 0 || words[0] == "#" {
			continue
		}
		var v []float64
		for _, w := range words[1:] {
			if f, err := strconv.ParseFloat(w, 64); err == nil {
				v = append(v, f)
			}
		}
		if words[0] == "solid" {
			all = append(all, &solid{name: words[1], family: words[2], use: words[3]})
			lengths, bores = nil, nil
			continue
		}
		c := all[len(all)-1]
		switch words[0] {
		case "outer":
			for i := 0; i < len(v); i += 2 {
				lengths = append(lengths, Section{Length: v[i], Outer: v[i+1]})
			}
		case "bore":
			bores = append(bores, v)
		case "station":
			s := solidStation{name: words[1], x: v[0], width: v[1]}
			for i, f := range v[2:] {
				s.values[i/4][i%4] = f
			}
			c.stations = append(c.stations, s)
		case "load":
			for i, s := range c.stations {
				if s.name == words[1] {
					c.loads = append(c.loads, Load{X: s.x, Length: s.width, Fx: v[0], Fy: v[1], Fz: v[2], Mx: v[3], My: v[4], Mz: v[5]})
					c.at = append(c.at, i)
				}
			}
		case "twist":
			c.twist = [3]float64(v)
			c.shaft = Shaft{Sections: bored(lengths, bores), Young: 206000, Poisson: 0.3}
		default:
			t.Fatalf("testdata/solids.txt: %q", lines.Text())
		}
	}
	if len(all) != 71 {
		t.Fatalf("%d solids, want 71", len(all))
	}
	return all
}

// bored cuts sections at the ends of bores and bores them.
func bored(solid []Section, bores [][]float64) []Section {
	for _, b := range bores {
		var all []Section
		x := 0.0
		for _, c := range solid {
			end := x + c.Length
			from, to := min(max(b[0], x), end), min(max(b[1], x), end)
			for _, part := range []Section{{from - x, c.Outer, c.Bore}, {to - from, c.Outer, b[2]}, {end - to, c.Outer, c.Bore}} {
				if part.Length > 0 {
					all = append(all, part)
				}
			}
			x = end
		}
		solid = all
	}
	return solid
}

// solve finds the values at the stations and the twist, with loads and reactions
// spread over their bands: two supports at A and B find the reactions, which are
// then loads, and the supports only the line to count from.
func (c *solid) solve(t *testing.T, noShoulder bool) (values [][4]float64, twist float64) {
	shaft := c.shaft
	shaft.NoShoulder = noShoulder
	for _, s := range c.stations[:2] {
		shaft.Supports = append(shaft.Supports, Support{X: s.x, Radial: rigid})
	}
	loads := slices.Clone(c.loads)
	for i, r := range solve(t, shaft, Case{Loads: loads}).Reactions() {
		loads = append(loads, Load{X: c.stations[i].x, Length: c.stations[i].width, Fy: r.Fy, Fz: r.Fz})
	}
	s := solve(t, shaft, Case{Loads: loads})
	for _, p := range c.stations {
		v := s.At(p.x, Left)
		y, z := s.Slope(p.x)
		values = append(values, [4]float64{v.Y.Deflection * 1e3, v.Z.Deflection * 1e3, y * 1e6, z * 1e6})
	}
	first, last := c.loads[0].X, c.loads[len(c.loads)-1].X
	return values, (s.At(last, Left).Twist - s.At(first, Left).Twist) * 1e6
}

// differences are the largest of deflection and of slope, relative to the
// largest of the kind, and of the twist.
func (c *solid) differences(values [][4]float64, twist float64, of int) (d [3]float64) {
	var largest [2]float64
	for i, s := range c.stations {
		for k, want := range s.values[of] {
			largest[k/2] = max(largest[k/2], math.Abs(want))
			d[k/2] = max(d[k/2], math.Abs(values[i][k]-want))
		}
	}
	return [3]float64{d[0] / largest[0], d[1] / largest[1], math.Abs(twist/c.twist[of] - 1)}
}

func TestBeamsOfSolidsAgreeWithOthers(t *testing.T) {
	for _, c := range []struct {
		name       string
		of         int
		noShoulder bool
		tolerance  float64
	}{{"plain", ofPlain, true, 1e-3}, {"with the rule", ofRule, false, 5e-3}} {
		t.Run(c.name, func(t *testing.T) {
			var worst [3]float64
			for _, s := range solidsOfRevolution(t) {
				values, twist := s.solve(t, c.noShoulder)
				d := s.differences(values, twist, c.of)
				if max(d[0], d[1], d[2]) > c.tolerance {
					t.Errorf("%s: deflection %.2g, slope %.2g, twist %.2g: want %g at most", s.name, d[0], d[1], d[2], c.tolerance)
				}
				for k := range d {
					worst[k] = max(worst[k], d[k])
				}
			}
			t.Logf("largest differences: deflection %.2g, slope %.2g, twist %.2g", worst[0], worst[1], worst[2])
		})
	}
}

func TestSolidsAgree(t *testing.T) {
	sum := map[string][3]float64{}
	n := map[string]float64{}
	for _, s := range solidsOfRevolution(t) {
		values, twist := s.solve(t, false)
		d := s.differences(values, twist, ofSolid)
		var e [3]float64
		var k [3]float64
		for i, p := range s.stations {
			for j, w := range p.values[ofSolid] {
				if j < 2 && i >= 2 {
					e[0] += math.Pow(values[i][j]/w-1, 2)
					k[0]++
				}
				if j >= 2 && i < 2 {
					e[1] += math.Pow(values[i][j]/w-1, 2)
					k[1]++
				}
			}
		}
		fmt.Printf("%-28s %-8s %-5s %6.4f %6.4f %6.4f   rms %6.4f %6.4f\n", s.name, s.family, s.use, d[0], d[1], d[2], math.Sqrt(e[0]/k[0]), math.Sqrt(e[1]/k[1]))
		for _, key := range []string{s.use, "all"} {
			x := sum[key]
			x[0] += e[0] / k[0]
			x[1] += e[1] / k[1]
			x[2] += d[2] * d[2]
			sum[key] = x
			n[key]++
		}
	}
	for k, v := range sum {
		fmt.Println(k, math.Sqrt(v[0]/n[k]), math.Sqrt(v[1]/n[k]), math.Sqrt(v[2]/n[k]))
	}
}
