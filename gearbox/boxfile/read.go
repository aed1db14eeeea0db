package boxfile

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"

	"gopkg.in/yaml.v3"
)

// Version is the version of the box file schema that Read understands.
const Version = 1

const largest = 1 << 20 // bytes of a box file

// ReadFile reads the box file at path. It also gives the contents, for diag.List.Render. In the findings the file is called by its path.
func ReadFile(path string) (*gearbox.Box, []byte, diag.List) {
	data, list := Load(path)
	if list != nil {
		return nil, nil, list
	}
	box, list := Read(path, data)
	return box, data, list
}

// Load gives the contents of the box file at path, for Read and Open, or why there are none.
func Load(path string) ([]byte, diag.List) {
	f, err := os.Open(path)
	if err != nil {
		return nil, unread(path, err)
	}
	defer f.Close()
	return LoadFrom(path, f)
}

// LoadFrom gives what stands in a source as Load does for a file; findings call it by its name. It reads at most one byte
// more than Read accepts, so that a huge source is refused without being taken in.
func LoadFrom(name string, source io.Reader) ([]byte, diag.List) {
	data, err := io.ReadAll(io.LimitReader(source, largest+1))
	if err != nil {
		return nil, unread(name, err)
	}
	return data, nil
}

// unread is the finding that a file can't be read.
func unread(name string, err error) diag.List {
	detail := err.Error()
	if e, ok := errors.AsType[*os.PathError](err); ok {
		detail = e.Err.Error()
	}
	return diag.List{{Place: diag.Place{File: name}, Summary: "can't read " + filepath.Base(name), Detail: sentence(detail)}}
}

// Read reads a box file. Name is what the findings call it. The box is nil when there are errors. The findings are in the order of the file.
func Read(name string, data []byte) (*gearbox.Box, diag.List) {
	r := newReader(name)
	return r.finished(r.composed(r.parse(data)))
}

func newReader(name string) *reader {
	return &reader{
		file: name, begins: fmt.Sprintf("A box file begins with \"layshaft: %d\".", Version),
		known:      map[kind][]string{},
		open:       map[*yaml.Node]bool{},
		dimensions: map[string]quantity.Dimension{},
		box:        newBox(),
	}
}

// finished reads the root of a document, nil when there is none, and gives the box or what is wrong.
func (r *reader) finished(root *yaml.Node) (*gearbox.Box, diag.List) {
	if root != nil {
		r.walk(root)
	}
	r.list.Sort()
	if r.list.HasErrors() {
		return nil, r.list
	}
	r.box.Origin.Others = r.others
	return r.box, r.list
}

// newBox is a box with the defaults of everything that a file may leave out.
func newBox() *gearbox.Box {
	return &gearbox.Box{
		Turns:      1,
		Shock:      1,
		Side:       map[string]int{},
		Limits:     gearbox.Limits{Reserve: 0.10},
		Places:     map[string]diag.Place{},
		Tolerances: map[string]float64{},
		Unknown:    map[string]bool{},
	}
}

// walk reads the root of the document into the box and then makes the checks that need all of it.
func (r *reader) walk(root *yaml.Node) {
	at, ok := r.enter(root, "", diag.Place{})
	if !ok {
		return
	}
	at.owner = at.place
	r.box.Places[""] = at.owner
	if r.another(at) {
		return
	}
	before := len(r.list)
	draft := boxDraft{Box: r.box}
	readMap(r, at, boxFields, &draft)
	if r.visits > budget {
		// What was not reached would be reported as missing: only what is sure is said.
		r.list = r.list[:before]
		r.fault(at.place, "", "too many values",
			fmt.Sprintf("With its aliases written out the file has more than %d keys and values: a box has some hundreds.", budget))
		return
	}
	r.finish(&draft)
}
