package clip

import (
	"io/fs"
	"os"
)

// openRegular opens the file at path if it is a regular one that holds bytes, and
// returns its size. It looks before it opens, and again at what it opened.
func openRegular(path string) (*os.File, int64, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, 0, openError(path, err)
	}
	if err := refuseSpecial(path, info); err != nil {
		return nil, 0, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, 0, openError(path, err)
	}
	size, err := regularSize(f, path)
	if err != nil {
		f.Close()
		return nil, 0, err
	}
	return f, size, nil
}

// regularSize is the size of what was opened, which may have been put in the
// place of what was looked at.
func regularSize(f *os.File, path string) (int64, error) {
	info, err := f.Stat()
	if err != nil {
		return 0, openError(path, err)
	}
	return info.Size(), refuseSpecial(path, info)
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
