package main

import (
	"errors"
	"path/filepath"
	"syscall"
)

// errLocked is for a folder that another process has locked.
var errLocked = errors.New("locked by another process")

const (
	fileFlagDeleteOnClose = 0x04000000
	errorSharingViolation = syscall.Errno(32)
)

// lock keeps other processes from locking the folder until unlock is called or this
// process ends, however it ends: the system then removes the file that stands for it.
func lock(dir string) (unlock func(), err error) {
	name, err := syscall.UTF16PtrFromString(filepath.Join(dir, ".in-use"))
	if err != nil {
		return nil, err
	}
	h, err := syscall.CreateFile(name, syscall.GENERIC_WRITE, 0, nil, syscall.OPEN_ALWAYS, syscall.FILE_ATTRIBUTE_NORMAL|fileFlagDeleteOnClose, 0)
	if errors.Is(err, errorSharingViolation) {
		return nil, errLocked
	}
	if err != nil {
		return nil, err
	}
	return func() { syscall.CloseHandle(h) }, nil
}
