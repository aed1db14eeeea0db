package faceload

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// With any gaps and forces a family says of the contact set that Solve finds what Solve says: loads, openings, approaches. Its parameters here are the gap of a problem, its forces, and two more gaps.
func TestFamilySaysWhatSolveSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := problems(sizes, true).Draw(t, "problem")
		n, err := p.validate()
		if err != nil {
			t.Fatal(err)
		}
		meshes := len(p.Meshes)
		gap, force := make([][]float64, 4), make([][]float64, 4)
		for i := range gap {
			gap[i], force[i] = make([]float64, n), make([]float64, meshes)
		}
		k, top := 0, 0.0
		for m, q := range p.Meshes {
			force[1][m] = q.Force
			for i := range q.Slices {
				if q.Gap != nil {
					gap[0][k] = q.Gap[i]
				}
				top = max(top, math.Abs(gap[0][k]))
				gap[2][k], gap[3][k] = rapid.Float64Range(-1, 1).Draw(t, "gap"), float64(i)
				k++
			}
		}
		f, err := NewFamily(p, gap, force, new(Solver))
		if err != nil {
			t.Fatal(err)
		}
		at := []float64{1, rapid.Float64Range(0.05, 20).Draw(t, "scale"), rapid.Float64Range(-1, 1).Draw(t, "more") * top, rapid.Float64Range(-0.1, 0.1).Draw(t, "lean") * top}

		now := Problem{Compliance: p.Compliance, Meshes: slices.Clone(p.Meshes)}
		all := make([]float64, n)
		for k := range all {
			all[k] = gap[0][k] + at[2]*gap[2][k] + at[3]*gap[3][k]
		}
		k = 0
		for m := range now.Meshes {
			q := &now.Meshes[m]
			q.Force *= at[1]
			q.Gap = all[k : k+q.Slices]
			k += q.Slices
		}
		want := solve(t, &now)
		key := make([]byte, n)
		for k, w := range flat(want) {
			if w > 0 {
				key[k] = 1
			}
		}
		set, err := f.Set(key)
		if err != nil {
			t.Fatal(err)
		}
		sum := func(of [][]float64, k int) (sum float64) {
			for i, x := range at {
				sum += x * of[i][k]
			}
			return sum
		}
		open, load, approach := slices.Concat(want.Separation...), make([]float64, n), make([]float64, meshes)
		for k, w := range flat(want) {
			owner := 0
			for m, first := 0, 0; m < meshes; m++ {
				if k >= first {
					owner = m
				}
				first += p.Meshes[m].Slices
			}
			if (set.Carries[k] == 1) != (w > 0) {
				t.Fatalf("station %d carries %v", k, set.Carries[k])
			}
			if got := sum(set.State, k); w > 0 {
				closeTo(t, "load", got, w, 1e-9*now.Meshes[owner].Force)
				load[k] = got
			} else {
				closeTo(t, "opening", got, open[k], 1e-9*(math.Abs(want.Approach[owner])+math.Abs(all[k])))
			}
		}
		for m := range approach {
			approach[m] = sum(set.Approach, m)
			closeTo(t, "approach", approach[m], want.Approach[m], 1e-9*(math.Abs(want.Approach[m])+top))
		}
		got, err := f.Solution(at, load, approach)
		if err != nil {
			t.Fatal(err)
		}
		for m := range approach {
			closeTo(t, "K_Hβ", got.FaceLoadFactor(m), want.FaceLoadFactor(m), 1e-9*want.FaceLoadFactor(m))
			closeTo(t, "contact", got.ContactFraction(m), want.ContactFraction(m), 1e-7)
		}
		// What one gap does to the pull at another is what the other does to the pull at the one, and no gap brings a load of its own.
		for _, pair := range [][2]int{{0, 2}, {2, 3}, {3, 0}} {
			i, j := pair[0], pair[1]
			// On rigid shafts, with the teeth alone to give way, it would be this much at most.
			most := math.Sqrt(stiffest(p, gap[i]) * stiffest(p, gap[j]))
			closeTo(t, "pull", set.Pull[i][j], set.Pull[j][i], 1e-9*most+1e-99) // products of gaps next to nothing underflow
			if set.Pull[i][i] > 1e-9*most+1e-99 || set.Pull[i][i] < -stiffest(p, gap[i])*(1+1e-9)-1e-99 {
				t.Fatalf("a gap pulls at itself by %v", set.Pull[i][i])
			}
		}
	})
}

// stiffest is the work that closes all of a gap against the teeth alone, twice over, N·mm.
func stiffest(p *Problem, gap []float64) (sum float64) {
	k := 0
	for m := range p.Meshes {
		q := &p.Meshes[m]
		for _, width := range Widths(q.Slices, q.Face) {
			sum += q.Stiffness * width * gap[k] * gap[k]
			k++
		}
	}
	return sum
}

// A contact set is worked out once, and one that leaves a mesh without load is refused.
func TestFamilyKeepsItsSets(t *testing.T) {
	p := pairOf(9, 0.01)
	f, err := NewFamily(p, [][]float64{make([]float64, 18)}, [][]float64{{1, 1}}, new(Solver))
	if err != nil {
		t.Fatal(err)
	}
	key := slices.Repeat([]byte{1}, 18)
	first, err := f.Set(key)
	if err != nil {
		t.Fatal(err)
	}
	key[3] = 0
	if _, err := f.Set(key); err != nil {
		t.Fatal(err)
	}
	key[3] = 2
	if again, err := f.Set(slices.Repeat([]byte{1}, 18)); err != nil || again != first || f.Sets() != 2 {
		t.Errorf("%d sets, error %v; want the first of 2", f.Sets(), err)
	}
	if _, err := f.Set(make([]byte, 18)); err == nil {
		t.Error("a mesh without a station that carries was accepted")
	}
}
