package study

import (
	"slices"

	"layshaft/gearbox"
)

// naming leads from what a box calls its shafts and meshes to what the first of several boxes calls them.
type naming struct{ shafts, meshes map[string]string }

func (n *naming) shaft(name string) string { return n.of(n.shafts, name) }
func (n *naming) mesh(name string) string  { return n.of(n.meshes, name) }

func (n *naming) of(names map[string]string, name string) string {
	if first, ok := names[name]; ok {
		return first
	}
	return name
}

// namings finds parts that are the same under other names, of each box against the first.
func namings(results []*gearbox.Result) (all []naming, renamed [][]Rename) {
	all, renamed = make([]naming, len(results)), make([][]Rename, len(results))
	for i := 1; i < len(results); i++ {
		a, b := results[0].Box, results[i].Box
		if sameNames(shaftNames(a), shaftNames(b)) && sameNames(meshNames(a), meshNames(b)) && sameNames(gearNames(a), gearNames(b)) {
			continue
		}
		p := paired(a, b)
		all[i] = naming{map[string]string{}, map[string]string{}}
		for _, r := range p.renamed {
			switch r.Sort {
			case ShaftSort:
				all[i].shafts[r.Second] = r.First
			case MeshSort:
				all[i].meshes[r.Second] = r.First
			}
		}
		renamed[i] = p.renamed
		// What has no partner keeps its name, unless another part is called so in the first box.
		for _, u := range p.alone {
			for sort, names := range map[PartSort]map[string]string{ShaftSort: all[i].shafts, MeshSort: all[i].meshes} {
				if u.Box == 1 && u.Sort == sort && slices.ContainsFunc(p.renamed, func(r Rename) bool { return r.Sort == sort && r.First == u.Name }) {
					names[u.Name] = u.Name + "′"
				}
			}
		}
	}
	return all, renamed
}

func sameNames(a, b []string) bool {
	slices.Sort(a)
	slices.Sort(b)
	return slices.Equal(a, b)
}
