package files

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"os"
	"strings"
	"syscall"
)

// errNotAFile is for what can't be read as a file: a folder, a device, a pipe.
var errNotAFile = errors.New("this is not a file")

// Open opens a file that is one: no folder, device or pipe, nor one that was put
// in its place since.
func Open(path string) (*os.File, error) {
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

// Checksum is the SHA-256 of a file, in hexadecimal digits.
func Checksum(path string) (string, error) {
	f, err := Open(path)
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

// EscapeGlob makes a folder's name one that a pattern takes as it is.
func EscapeGlob(dir string) string {
	return strings.NewReplacer(`*`, `[*]`, `?`, `[?]`, `[`, `[[]`).Replace(dir)
}
