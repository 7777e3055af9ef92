package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sync"

	"earshot/report"
	"earshot/report/chart"
	"earshot/report/chart/paper"
	"earshot/report/drawer"
	"earshot/report/words"
	"earshot/report/write"
	"earshot/shutter"
)

// outcome is what became of one lens; it has neither a record nor a failure where
// work was stopped before.
type outcome struct {
	drawer.Entry
	kept bool // from an earlier run
}

// checkLenses checks the lenses side by side. It stops when ctx is done.
func (a app) checkLenses(ctx context.Context, o drawerOptions, found foundDrawer) []outcome {
	out := make([]outcome, len(found.lenses))
	show := io.Writer(io.Discard)
	if !o.verbose {
		show = a.stderr
	}
	bar := newProgress(show, len(out))
	defer bar.close()
	var saying sync.Mutex
	sideBySide(ctx, len(out), func(i int) {
		bar.begin(found.lenses[i].Lens.Name)
		out[i] = checkLens(ctx, o, found.lenses[i])
		if ctx.Err() != nil {
			return
		}
		bar.done()
		if o.verbose {
			saying.Lock()
			defer saying.Unlock()
			fmt.Fprintf(a.stderr, "earshot: %s\n", words.Printable(out[i].words()))
		}
	})
	return out
}

func (o outcome) words() string {
	words := o.Lens.Title() + ": " + o.Verdict()
	if o.kept {
		words += " (unchanged)"
	}
	return words
}

// checkLens checks one lens, unless an earlier run did and nothing has changed since,
// and writes its files.
func checkLens(ctx context.Context, o drawerOptions, l foundLens) outcome {
	out := outcome{Entry: drawer.Entry{Lens: l.Lens}}
	s := l.sitting(o)
	d, ok := l.kept(ctx, s, o.dir)
	out.kept = ok
	if !ok {
		var (
			missed []error
			err    error
		)
		if d, missed, err = s.examine(ctx); err == nil {
			err = l.write(ctx, d, o.dir)
		}
		for _, m := range missed {
			out.Missed = append(out.Missed, below(o.dir, failureOf(m)))
		}
		if err != nil {
			out.fail(o.dir, err)
			return out
		}
	}
	out.Record = &d
	for _, f := range l.files() {
		out.Files = append(out.Files, f.File)
	}
	return out
}

// fail keeps why a lens could not be checked; that work was stopped is no reason.
func (o *outcome) fail(dir string, err error) {
	if !errors.Is(err, context.Canceled) {
		f := below(dir, failureOf(err))
		o.Failure = &f
	}
}

// below names the file of a failure by its place below the drawer.
func below(dir string, f report.Failure) report.Failure {
	if place, err := filepath.Rel(dir, f.File); err == nil && f.File != "" {
		f.File = filepath.ToSlash(place)
	}
	return f
}

// sitting is the lens as check takes it.
func (l foundLens) sitting(o drawerOptions) sitting {
	s := sitting{steps: l.Steps, kind: shutter.Kind(l.Lens.Shutter), lens: l.Lens.Lens, policy: o.policy, now: o.now}
	s.seen, s.seenBy = l.Observed()
	for _, c := range l.Clips {
		s.clips = append(s.clips, filepath.Join(o.dir, filepath.FromSlash(c.Name)))
	}
	return s
}

// lensFile is a file that is written for each lens.
type lensFile struct {
	drawer.File
	write func(io.Writer, report.Document) error
}

// files are what is written for a lens, in this order: the record comes last, since it
// says that the others are there. A further kind of file is one more line here.
func (l foundLens) files() []lensFile {
	return []lensFile{
		{drawer.File{Kind: "chart", Name: l.stem + ".png"}, drawPNG},
		{drawer.File{Kind: "record", Name: l.stem + ".json"}, write.JSON},
	}
}

func drawPNG(w io.Writer, d report.Document) error { return chart.Write(w, d, paper.PNG) }

func (l foundLens) write(ctx context.Context, d report.Document, dir string) error {
	for _, f := range l.files() {
		if err := ctx.Err(); err != nil {
			return err
		}
		path := filepath.Join(dir, reportFolder, f.Name)
		if err := writeFile(path, func(w *os.File) error { return f.write(w, d) }); err != nil {
			return err
		}
	}
	return nil
}

func entries(outcomes []outcome) []drawer.Entry {
	list := make([]drawer.Entry, len(outcomes))
	for i, o := range outcomes {
		list[i] = o.Entry
	}
	return list
}

func finished(outcomes []outcome) (n int) {
	for _, o := range outcomes {
		if o.Record != nil {
			n++
		}
	}
	return n
}
