package folder

import (
	"path/filepath"
	"strings"

	"earshot/report"
)

// Problems are what is to be put right before a drawer is checked.
type Problems []report.Failure

func (p Problems) Error() string {
	lines := make([]string, len(p))
	for i, f := range p {
		lines[i] = f.File + ": " + f.Message
	}
	return strings.Join(lines, "; ")
}

// in gives the files their folder.
func (p Problems) in(dir string) Problems {
	out := make(Problems, len(p))
	for i, f := range p {
		f.File = filepath.Join(dir, filepath.FromSlash(f.File))
		out[i] = f
	}
	return out
}
