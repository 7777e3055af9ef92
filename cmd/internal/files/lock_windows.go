package files

import (
	"errors"
	"path/filepath"
	"syscall"
)

// ErrLocked is for a folder that another process has locked.
var ErrLocked = errors.New("locked by another process")

const (
	fileFlagDeleteOnClose = 0x04000000
	errorSharingViolation = syscall.Errno(32)
)

// Lock keeps other processes from locking the folder until unlock is called or this
// process ends, however it ends: the system then removes the file that stands for it.
func Lock(dir string) (unlock func(), err error) {
	name, err := syscall.UTF16PtrFromString(filepath.Join(dir, ".in-use"))
	if err != nil {
		return nil, err
	}
	h, err := syscall.CreateFile(name, syscall.GENERIC_WRITE, 0, nil, syscall.OPEN_ALWAYS, syscall.FILE_ATTRIBUTE_NORMAL|fileFlagDeleteOnClose, 0)
	if errors.Is(err, errorSharingViolation) {
		return nil, ErrLocked
	}
	if err != nil {
		return nil, err
	}
	return func() { syscall.CloseHandle(h) }, nil
}
