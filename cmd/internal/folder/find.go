// Package folder checks a drawer: a folder with the clips of many lenses.
//
// [Find] finds the lenses, by the folder's list or by names. [Found.Begin] keeps others
// out, [Work.Check] checks several lenses at once and writes a record and a chart of each,
// [Work.Write] what follows from them all: the sheets, the summary and the page. A lens
// that is as it was is not checked again: its record alone tells. Terminals, flags and exit
// codes are unknown here, and so is how a summary or a page is laid out.
package folder

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"earshot/cmd/internal/fault"
	"earshot/report"
	"earshot/report/drawer"
)

// foundLens is a lens of a drawer with every clip of it.
type foundLens struct {
	drawer.Lens
	stem string // of its files' names
}

// Found is what lies in a folder.
type Found struct {
	dir      string
	name     string
	lenses   []foundLens
	extra    []string // names of further columns of the list
	unlisted []string // clips that the list does not name
}

// listName is the list of a drawer, in capitals or not.
const listName = "drawer.csv"

// Find finds the lenses of a folder, by its list or by the names of clips and
// folders. Whatever is wrong is told at once, as problems, before any clip is opened.
// Nothing that lies outside of the folder is found. It ends once ctx is done.
func Find(ctx context.Context, dir string) (Found, error) {
	root, err := openFolder(dir)
	if err != nil {
		return Found{}, fault.File("unreadable", dir, "the folder cannot be read", err, "name the folder that holds the clips")
	}
	defer root.Close()
	found := Found{dir: dir, name: baseName(dir)}
	all, err := scan(ctx, root)
	if err != nil {
		return found, fault.File("unreadable", dir, "the folder cannot be read", err, "check its permissions")
	}
	if all.list == "" {
		found.lenses, all.problems = byName(all, found.name)
	} else if err := found.readList(root, &all); err != nil {
		return found, err
	}
	if len(all.problems) > 0 {
		return found, all.problems.in(dir)
	}
	if len(found.lenses) == 0 {
		return found, fault.New(report.Failure{Code: "no-clip", File: dir, Message: "there is no recording in this folder", Hint: "put the clips there, or one folder a lens"}, errNoClip)
	}
	nameFiles(found.lenses)
	return found, nil
}

// openFolder opens a folder; of a pipe it does not wait for the other end.
func openFolder(dir string) (*os.Root, error) {
	info, err := os.Stat(dir)
	if err == nil && !info.IsDir() {
		err = errors.New("this is no folder")
	}
	if err != nil {
		return nil, err
	}
	return os.OpenRoot(dir)
}

var errNoClip = errors.New("no clip")

func baseName(dir string) string {
	if whole, err := filepath.Abs(dir); err == nil {
		dir = whole
	}
	return filepath.Base(dir)
}

// readList takes the lenses from the list.
func (d *Found) readList(root *os.Root, all *scanned) error {
	file, err := readSmall(root, all.list)
	if err != nil {
		return fault.File("unreadable", filepath.Join(root.Name(), all.list), "the list cannot be read", err, "save it there as CSV")
	}
	list, problems := drawer.Read(file)
	lenses, wrong := list.Lenses()
	located, unlisted, missing := locate(root, *all, lenses)
	for _, p := range drawer.InOrder(slices.Concat(problems, wrong, missing)) {
		all.problems = append(all.problems, report.Failure{Code: "list", File: all.list, Message: p.Error()})
	}
	d.lenses, d.unlisted, d.extra = located, unlisted, list.Extra
	if len(lenses) == 0 && len(all.problems) == 0 {
		all.problems = append(all.problems, report.Failure{Code: "list", File: all.list, Message: "no lens stands in it: write a line for each clip"})
	}
	return nil
}

// readSmall reads a regular file, up to a little more than a list may hold.
func readSmall(root *os.Root, name string) ([]byte, error) {
	info, err := root.Stat(name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New("this is no file")
	}
	f, err := root.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, drawer.MaxList+1))
}

// unlistedWords says which clips the list leaves out.
func (d Found) unlistedWords() []string {
	const named = 5
	n := len(d.unlisted)
	switch {
	case n == 0:
		return nil
	case n > named:
		return []string{fmt.Sprintf("%d clips are not in %s and were not checked: %s and others", n, listName, strings.Join(d.unlisted[:named], ", "))}
	case n == 1:
		return []string{fmt.Sprintf("%s is not in %s and was not checked", d.unlisted[0], listName)}
	}
	return []string{fmt.Sprintf("%d clips are not in %s and were not checked: %s", n, listName, strings.Join(d.unlisted, ", "))}
}

// isMissing tells whether there is nothing of a name.
func isMissing(err error) bool { return errors.Is(err, fs.ErrNotExist) }
