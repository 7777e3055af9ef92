package main

import (
	"io"
	"io/fs"
	"time"
)

// clipName is what the only file of the sandbox is called.
const clipName = "clip"

// oneFile is a file system with one file, read only. No link leads out of it, and no other file
// can be opened.
type oneFile struct {
	r    io.ReaderAt
	size int64
}

// Open implements fs.FS.
func (f oneFile) Open(name string) (fs.File, error) {
	switch name {
	case ".":
		return folder{}, nil
	case clipName:
		return &opened{io.NewSectionReader(f.r, 0, f.size), f.size}, nil
	}
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}

// opened is the file, opened. It can be read from any place.
type opened struct {
	*io.SectionReader
	size int64
}

func (o *opened) Stat() (fs.FileInfo, error) { return info{clipName, 0o444, o.size}, nil }
func (o *opened) Close() error               { return nil }

// folder is the folder that holds the file; it lists nothing.
type folder struct{}

func (folder) Stat() (fs.FileInfo, error)           { return info{".", fs.ModeDir | 0o555, 0}, nil }
func (folder) Read([]byte) (int, error)             { return 0, fs.ErrInvalid }
func (folder) ReadDir(n int) ([]fs.DirEntry, error) { return nil, nil }
func (folder) Close() error                         { return nil }

// info describes either.
type info struct {
	name string
	mode fs.FileMode
	size int64
}

func (i info) Name() string       { return i.name }
func (i info) Size() int64        { return i.size }
func (i info) Mode() fs.FileMode  { return i.mode }
func (i info) ModTime() time.Time { return time.Time{} }
func (i info) IsDir() bool        { return i.mode.IsDir() }
func (i info) Sys() any           { return nil }
