package files

import (
	"context"
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

// Open opens a regular file: no folder, device or pipe, even if one takes its place meanwhile.
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

// Checksum is the SHA-256 of a file, in hexadecimal digits. Once ctx is done, it ends with
// the error of ctx.
func Checksum(ctx context.Context, path string) (string, error) {
	f, err := Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, until{ctx, f}); err != nil {
		return "", err
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}

// until reads r until ctx is done.
type until struct {
	ctx context.Context
	r   io.Reader
}

func (u until) Read(p []byte) (int, error) {
	if err := u.ctx.Err(); err != nil {
		return 0, err
	}
	return u.r.Read(p)
}

// EscapeGlob makes a folder's name one that a pattern takes as it is.
func EscapeGlob(dir string) string {
	return strings.NewReplacer(`*`, `[*]`, `?`, `[?]`, `[`, `[[]`).Replace(dir)
}
