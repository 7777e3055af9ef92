package main

import (
	"errors"
	"fmt"
	"strings"

	"earshot/cmd/internal/fault"
	"earshot/report"
	"earshot/report/words"
)

// exitStatus ends the program with a code after all has been said.
type exitStatus int

func (s exitStatus) Error() string { return fmt.Sprintf("exit status %d", int(s)) }

// failureOf is an error of a command as a person and a program read it.
func failureOf(err error) report.Failure {
	var usage usageError
	f, known := fault.Known(err)
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
