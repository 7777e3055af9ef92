//go:build unix

package main

import (
	"errors"
	"os"
	"syscall"
)

// errLocked is for a folder that another process has locked.
var errLocked = errors.New("locked by another process")

// lock keeps other processes from locking the folder until unlock is called or this
// process ends, however it ends. Where the file system knows no locks there is none.
func lock(dir string) (unlock func(), err error) {
	f, err := os.Open(dir)
	if err != nil {
		return nil, err
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); errors.Is(err, syscall.EWOULDBLOCK) {
		f.Close()
		return nil, errLocked
	}
	return func() { f.Close() }, nil
}
