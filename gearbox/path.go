package gearbox

import (
	"strconv"
	"strings"
)

// path joins the steps to a value: path("gears", "first pinion", "at").
func path(steps ...string) string { return strings.Join(steps, ".") }

// parent is the path one step up: "gears.first pinion.teeth" → "gears.first pinion" → "gears" → "".
func parent(path string) string {
	i := strings.LastIndexByte(path, '.')
	return path[:max(i, 0)]
}

func quoted(name string) string { return strconv.Quote(name) }

// ShaftTitle is how a shaft is spoken of: "output" → "output shaft", "layshaft" → "layshaft".
func ShaftTitle(name string) string {
	if strings.HasSuffix(strings.ToLower(name), "shaft") {
		return name
	}
	return name + " shaft"
}

// MeshTitle calls meshes by their names in a sentence: "mesh first", "meshes first, second and final".
func MeshTitle(names []string) string {
	switch n := len(names); n {
	case 0:
		return ""
	case 1:
		return "mesh " + names[0]
	default:
		return "meshes " + strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
}
