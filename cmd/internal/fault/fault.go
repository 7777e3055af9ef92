// Package fault is what went wrong, as a person and a program read it: which file, what
// is wrong, what to do. [Of] says it of any error.
package fault

import (
	"context"
	"errors"
	"io/fs"

	"earshot/dsp/clip"
	"earshot/report"
)

// Error is an error with what to do about it.
type Error struct {
	report.Failure
	err error
}

// New is an error that says of a failure what to do about it; err is what caused it.
func New(f report.Failure, err error) error { return Error{f, err} }

func (f Error) Error() string { return f.Message }

func (f Error) Unwrap() error { return f.err }

// Is tells whether an error is one of a file, with what to do about it.
func Is(err error) bool { return errors.As(err, new(Error)) }

// Known is an error as a person and a program read it, and whether it is of a kind
// that is known.
func Known(err error) (f report.Failure, known bool) {
	var (
		ofClip *clip.Error
		one    Error
	)
	switch {
	case errors.Is(err, context.Canceled):
		return report.Failure{Code: "interrupted", Message: "interrupted", Hint: "run it again"}, true
	case errors.As(err, &one):
		return one.Failure, true
	case errors.As(err, &ofClip):
		return report.Failure{Code: string(ofClip.Code), File: ofClip.File, Message: ofClip.Message, Hint: ofClip.Hint}, true
	}
	return report.Failure{Code: "failed", Message: err.Error()}, false
}

// Of is an error as a person and a program read it.
func Of(err error) report.Failure {
	f, _ := Known(err)
	return f
}

// File is for a file that can't be read or written; the system's error names it
// a second time, so only its reason is kept.
func File(code, file, doing string, err error, hint string) error {
	var path *fs.PathError
	reason := err.Error()
	if errors.As(err, &path) {
		reason = path.Err.Error()
	}
	return New(report.Failure{Code: code, File: file, Message: doing + ": " + reason, Hint: hint}, err)
}

// Unreadable is for a file that was named and can't be opened.
func Unreadable(path, doing string, err error) error {
	return File("unreadable", path, doing, err, "check the name, the folder and its permissions")
}

// Refused is for a file that was read and doesn't hold what it should; err says why.
func Refused(code, path string, err error, hint string) error {
	return New(report.Failure{Code: code, File: path, Message: err.Error(), Hint: hint}, err)
}

// CannotWrite is for a file or folder that could not be written.
func CannotWrite(path string, err error) error {
	return File("cannot-write", path, "the file cannot be written", err, "see that its folder is there, may be written to and has room")
}
