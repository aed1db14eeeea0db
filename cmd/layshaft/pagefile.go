package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"layshaft/reports/page"
)

// pageFile is a flag that names the file a page goes to. It refuses what can't be meant before anything is calculated, and above all to write over a file that is no page
// of ours: a shell turns *.yaml into the names of box files, the first of which would be taken for the page.
type pageFile string

func (p *pageFile) String() string { return string(*p) }
func (p *pageFile) Type() string   { return "file" }
func (p *pageFile) Set(name string) error {
	switch {
	case name == "":
		return errors.New("no name; name a file for the page, such as compare.html")
	case name == "-":
		return errors.New("a page goes to a file, not to standard output; name one, such as compare.html")
	}
	if info, err := os.Stat(name); err == nil && info.IsDir() {
		return fmt.Errorf("%s is a folder; name a file in it", name)
	}
	if ext := strings.ToLower(filepath.Ext(name)); ext != ".html" && ext != ".htm" {
		return errors.New("the name of a page must end in .html or .htm")
	}
	if folder := filepath.Dir(name); !isFolder(folder) {
		return fmt.Errorf("there is no folder %s; make it first", folder)
	}
	if err := ourPage(name); err != nil {
		return err
	}
	*p = pageFile(name)
	return nil
}

func isFolder(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.IsDir()
}

// ourPage refuses an existing file that doesn't begin like a page that layshaft wrote, or that isn't to be written. It is looked at before it is opened: to open a pipe is to wait
// for its other end. A link stands for the file it leads to.
func ourPage(name string) error {
	info, err := os.Stat(name)
	if errors.Is(err, fs.ErrNotExist) {
		if leads, err := os.Readlink(name); err == nil {
			return fmt.Errorf("it is a link to %s, which isn't there; name the page itself", leads)
		}
		return nil
	}
	switch {
	case err != nil:
		return fmt.Errorf("it can't be looked at: %w", bare(err))
	case !info.Mode().IsRegular():
		return errors.New("it is there already and is no ordinary file; name another file")
	case info.Mode().Perm()&0o222 == 0:
		return errors.New("it is there already and is read-only; name another file, or make it writable")
	}
	f, err := os.OpenFile(name, os.O_RDWR, 0)
	if err != nil {
		return fmt.Errorf("it is there already and can't be read and written: %w", bare(err))
	}
	defer f.Close()
	start := make([]byte, page.MarkWithin)
	n, err := io.ReadFull(f, start)
	if err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, io.ErrUnexpectedEOF) {
		return fmt.Errorf("it is there already and can't be read: %w", bare(err))
	}
	if !strings.Contains(string(start[:n]), page.Mark) {
		return fmt.Errorf("%s is there already and is no page of layshaft; name another file, or move that one away", name)
	}
	return nil
}
