package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"earshot/report"
)

// problems are what is to be put right before a drawer is checked.
type problems []report.Failure

func (p problems) Error() string {
	lines := make([]string, len(p))
	for i, f := range p {
		lines[i] = f.File + ": " + f.Message
	}
	return strings.Join(lines, "; ")
}

// in gives the files their folder.
func (p problems) in(dir string) problems {
	out := make(problems, len(p))
	for i, f := range p {
		f.File = filepath.Join(dir, filepath.FromSlash(f.File))
		out[i] = f
	}
	return out
}

// sayAll says problems a line each, and leaves how many there are as the error; who
// asked for JSON gets them all in that error.
func (a app) sayAll(err error, json bool) error {
	var all problems
	if !errors.As(err, &all) {
		return err
	}
	message := "nothing was checked"
	if json {
		message += ": " + all.Error()
	} else {
		for _, f := range all {
			a.complain(f)
		}
	}
	hint := fmt.Sprintf("put these %d things right and run it again", len(all))
	if len(all) == 1 {
		hint = "put this right and run it again"
	}
	return fault{report.Failure{Code: all[0].Code, Message: message, Hint: hint}, err}
}
