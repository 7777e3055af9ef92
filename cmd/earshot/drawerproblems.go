package main

import (
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
