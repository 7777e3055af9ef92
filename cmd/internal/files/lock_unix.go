//go:build unix

package files

import (
	"errors"
	"os"
	"syscall"
)

// ErrLocked is for a folder that another process has locked.
var ErrLocked = errors.New("locked by another process")

// Lock keeps other processes from locking the folder until unlock is called or this process
// ends in any way. On a file system without locks it does nothing.
func Lock(dir string) (unlock func(), err error) {
	f, err := os.Open(dir)
	if err != nil {
		return nil, err
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); errors.Is(err, syscall.EWOULDBLOCK) {
		f.Close()
		return nil, ErrLocked
	}
	return func() { f.Close() }, nil
}
