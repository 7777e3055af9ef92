// Package files reads regular files, and writes files whole or not at all.
//
// [Open] refuses what is no regular file: a folder, a pipe, a device. [Write] writes beside
// the place, syncs and renames, so that a kill at any moment leaves no half of a file under
// its name. [Abandon] ends all writing before the program exits. [Lock] keeps other
// processes from a folder.
package files

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"earshot/cmd/internal/fault"
)

// Write writes a file whole or not at all: beside its place under a name of its
// own, then synced and renamed. What is there already is replaced if it is a file,
// and only then. Once ctx is done, no file takes its name.
func Write(ctx context.Context, path string, write func(*os.File) error) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return fault.File("cannot-write", path, "the file cannot be written", errors.New("there is something else of that name"), "name another file")
	}
	f, err := createBeside(path)
	if err != nil {
		return fault.CannotWrite(path, err)
	}
	err = errors.Join(write(f), f.Sync(), f.Close(), ctx.Err())
	if err == nil {
		err = unfinished.rename(f.Name(), path)
	}
	if err != nil {
		unfinished.remove(f.Name())
		return fault.CannotWrite(path, err)
	}
	return nil
}

// WriteBytes writes a file of these bytes as Write does.
func WriteBytes(ctx context.Context, path string, b []byte) error {
	return Write(ctx, path, func(f *os.File) error { return WriteAll(f, b) })
}

// WriteAll writes bytes to what is open.
func WriteAll(w io.Writer, b []byte) error {
	_, err := w.Write(b)
	return err
}

// createBeside creates a file in the folder of path that nothing else uses.
func createBeside(path string) (*os.File, error) {
	for i := 0; ; i++ {
		name := filepath.Join(filepath.Dir(path), fmt.Sprintf(".earshot-%d-%d.tmp", os.Getpid(), i))
		f, err := unfinished.create(name)
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
}

// ClearHalfWritten takes away what runs that were killed left half written in a folder.
func ClearHalfWritten(dir string) {
	left, _ := filepath.Glob(filepath.Join(EscapeGlob(dir), ".earshot-*.tmp"))
	for _, name := range left {
		os.Remove(name)
	}
}

// RefuseClobber refuses to write over one of the files that are read.
func RefuseClobber(path string, read []string) error {
	target, err := os.Stat(path)
	if err != nil {
		return nil
	}
	for _, c := range read {
		if info, err := os.Stat(c); err == nil && os.SameFile(info, target) {
			return fault.File("cannot-write", path, "the file cannot be written", errors.New("it is one of the files to be read"), "name another file")
		}
	}
	return nil
}

// WriteChanged writes a file as Write does, unless it is there with the same bytes.
func WriteChanged(ctx context.Context, path string, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	if info, err := os.Lstat(path); err == nil && info.Mode().IsRegular() && info.Size() == int64(b.Len()) {
		if old, err := os.ReadFile(path); err == nil && bytes.Equal(old, b.Bytes()) {
			return nil
		}
	}
	return WriteBytes(ctx, path, b.Bytes())
}
