package main

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"os"
	"syscall"
)

// errNotAFile is for what can't be read as a file: a folder, a device, a pipe.
var errNotAFile = errors.New("this is not a file")

// openRegular opens a file that is one: no folder, device or pipe, nor one that was put
// in its place since.
func openRegular(path string) (*os.File, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errNotAFile
	}
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, err
	}
	if info, err = f.Stat(); err == nil && !info.Mode().IsRegular() {
		err = errNotAFile
	}
	if err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

// checksum is the SHA-256 of a file, in hexadecimal digits.
func checksum(path string) (string, error) {
	f, err := openRegular(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, f); err != nil {
		return "", err
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}
