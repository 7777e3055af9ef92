package clip

import (
	"io/fs"
	"os"
	"syscall"
)

// openRegular opens the file at path if it is a regular one that holds bytes, and
// returns what the system knows of it. It looks before it opens, and again at what it
// opened, which may have been put in the place of what was looked at; opening does not
// wait even for a pipe.
func openRegular(path string) (*os.File, fs.FileInfo, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, nil, openError(path, err)
	}
	if err := refuseSpecial(path, info); err != nil {
		return nil, nil, err
	}
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, nil, openError(path, err)
	}
	if info, err = f.Stat(); err != nil {
		err = openError(path, err)
	} else {
		err = refuseSpecial(path, info)
	}
	if err != nil {
		f.Close()
		return nil, nil, err
	}
	return f, info, nil
}

// refuseSpecial refuses what is no regular file, or an empty one.
func refuseSpecial(path string, info fs.FileInfo) error {
	const save = "save the recording to a file first and name that"
	refuse := func(code Code, message, hint string) error {
		return &Error{Code: code, File: path, Message: message, Hint: hint}
	}
	switch mode := info.Mode(); {
	case mode.IsDir():
		return refuse(NotAFile, "this is a folder", "name the clips in it")
	case mode&fs.ModeNamedPipe != 0:
		return refuse(NotAFile, "this is a pipe, and a clip must be read more than once", save)
	case mode&fs.ModeSocket != 0:
		return refuse(NotAFile, "this is a socket", save)
	case !mode.IsRegular():
		return refuse(NotAFile, "this is a device", save)
	case info.Size() == 0:
		return refuse(Empty, "the file is empty", "record again, and see that the recorder saves the file before it is copied")
	}
	return nil
}
