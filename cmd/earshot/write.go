package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// writeFile writes a file whole or not at all: beside its place under a name of its
// own, then synced and renamed. What is there already is replaced if it is a file,
// and only then.
func writeFile(path string, write func(*os.File) error) error {
	if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return fileFault("cannot-write", path, "the file cannot be written", errors.New("there is something else of that name"), "name another file")
	}
	f, err := createBeside(path)
	if err != nil {
		return cannotWrite(path, err)
	}
	err = errors.Join(write(f), f.Sync(), f.Close())
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		os.Remove(f.Name())
		return cannotWrite(path, err)
	}
	return nil
}

// writeBytes writes a file of these bytes as writeFile does.
func writeBytes(path string, b []byte) error {
	return writeFile(path, func(f *os.File) error { return writeAll(f, b) })
}

func writeAll(w io.Writer, b []byte) error {
	_, err := w.Write(b)
	return err
}

// createBeside creates a file in the folder of path that nothing else uses.
func createBeside(path string) (*os.File, error) {
	for i := 0; ; i++ {
		name := filepath.Join(filepath.Dir(path), fmt.Sprintf(".earshot-%d-%d.tmp", os.Getpid(), i))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
}

func cannotWrite(path string, err error) error {
	return fileFault("cannot-write", path, "the file cannot be written", err, "see that its folder is there, may be written to and has room")
}

// refuseClobber refuses to write over one of the files that are read.
func refuseClobber(path string, read []string) error {
	target, err := os.Stat(path)
	if err != nil {
		return nil
	}
	for _, c := range read {
		if info, err := os.Stat(c); err == nil && os.SameFile(info, target) {
			return fileFault("cannot-write", path, "the file cannot be written", errors.New("it is one of the files to be read"), "name another file")
		}
	}
	return nil
}
