package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"earshot/dsp/clip"
	"earshot/report"
	"earshot/report/words"
)

// exitStatus ends the program with a code after all has been said.
type exitStatus int

func (s exitStatus) Error() string { return fmt.Sprintf("exit status %d", int(s)) }

// fault is an error with what to do about it.
type fault struct {
	report.Failure
	err error
}

func newFault(f report.Failure, err error) error { return fault{f, err} }

func (f fault) Error() string { return f.Message }

func (f fault) Unwrap() error { return f.err }

// isFault tells whether an error is one of a file, with what to do about it.
func isFault(err error) bool { return errors.As(err, new(fault)) }

// anyFault is an error as a person and a program read it, and whether it is of a kind
// that is known.
func anyFault(err error) (f report.Failure, known bool) {
	var (
		ofClip *clip.Error
		one    fault
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

// faultOf is an error as a person and a program read it.
func faultOf(err error) report.Failure {
	f, _ := anyFault(err)
	return f
}

// failureOf is an error of a command as a person and a program read it.
func failureOf(err error) report.Failure {
	var usage usageError
	f, known := anyFault(err)
	if !known && errors.As(err, &usage) {
		return report.Failure{Code: "usage", Message: usage.Error(), Hint: "see " + usage.command.CommandPath() + " --help"}
	}
	return f
}

// complain writes a failure on one line: file, what is wrong, what to do.
func (a app) complain(f report.Failure) {
	line := f.Message
	if f.File != "" {
		line = f.File + ": " + line
	}
	switch {
	case f.Hint == "":
	case strings.HasSuffix(line, "?"):
		line += " " + f.Hint
	default:
		line += "; " + f.Hint
	}
	fmt.Fprintln(a.stderr, "earshot: "+words.Printable(strings.TrimSpace(line)))
}

// fileFault is for a file that can't be read or written; the system's error names it
// a second time, so only its reason is kept.
func fileFault(code, file, doing string, err error, hint string) error {
	var path *fs.PathError
	reason := err.Error()
	if errors.As(err, &path) {
		reason = path.Err.Error()
	}
	return newFault(report.Failure{Code: code, File: file, Message: doing + ": " + reason, Hint: hint}, err)
}

// unreadable is for a file that was named and can't be opened.
func unreadable(path, doing string, err error) error {
	return fileFault("unreadable", path, doing, err, "check the name, the folder and its permissions")
}

// refused is for a file that was read and doesn't hold what it should; err says why.
func refused(code, path string, err error, hint string) error {
	return newFault(report.Failure{Code: code, File: path, Message: err.Error(), Hint: hint}, err)
}
