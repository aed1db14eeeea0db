package main

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
)

// bare is the reason of an error of the file system without the names of files, which may be those of a temporary one.
func bare(err error) error {
	if path, ok := errors.AsType[*fs.PathError](err); ok {
		return path.Err
	}
	if link, ok := errors.AsType[*os.LinkError](err); ok {
		return link.Err
	}
	return err
}

// writeFile puts a whole file in place at once: a run that fails leaves what was there before. A link is followed. A file
// that was there keeps who may read and write it; a new one has what the user's mask leaves.
func writeFile(name string, content []byte) error {
	if leads, err := filepath.EvalSymlinks(name); err == nil {
		name = leads
	}
	folder := filepath.Dir(name)
	if !isFolder(folder) {
		return usageError{message: fmt.Sprintf("there is no folder %s; make it first", folder)}
	}
	if err := replaceFile(name, folder, content); err != nil {
		return unsaidError{fmt.Errorf("can't write %s: %w", name, bare(err))}
	}
	return nil
}

// replaceFile writes a file beside the one of that name and then gives it the name.
func replaceFile(name, folder string, content []byte) error {
	temp, err := temporary(folder)
	if err != nil {
		return err
	}
	defer os.Remove(temp.Name())
	_, err = temp.Write(content)
	if before, missing := os.Stat(name); missing == nil && err == nil {
		err = temp.Chmod(before.Mode().Perm())
	}
	if cerr := temp.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		return err
	}
	return os.Rename(temp.Name(), name)
}

// temporary is a new file in a folder, open to those to whom the user's mask opens new files; os.CreateTemp opens its to the user alone.
func temporary(folder string) (*os.File, error) {
	const tries = 100
	for i := 0; ; i++ {
		name := filepath.Join(folder, fmt.Sprintf(".layshaft-%08x", rand.Uint32()))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) || i == tries {
			return f, err
		}
	}
}
