package main

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"time"

	"earshot/report"
	"earshot/report/chart"
	"earshot/report/chart/paper"
	"earshot/report/drawer"
	"earshot/report/write"
	"earshot/shutter"
)

// outcome is what became of one lens; it has neither a record nor a failure where
// work was stopped before.
type outcome struct {
	drawer.Entry
	kept bool // from an earlier run
}

// drawerSettings say how the lenses of a drawer are judged.
type drawerSettings struct {
	policy  shutter.Policy
	now     time.Time
	version string    // of the program
	notes   io.Writer // gets a line where a clip takes long to be decoded
}

// drawerWork is the checking of a drawer, which no one else is at.
type drawerWork struct {
	foundDrawer
	drawerSettings
	outcomes []outcome
	unlock   func()
}

// watcher is told how far the work is, by several goroutines at once.
type watcher interface {
	Begin(lens string) // work on it begins
	Done(words string) // work on a lens has ended: what became of it
}

// begin makes the folder of the report and keeps others from working there, until end.
func (d foundDrawer) begin(s drawerSettings) (*drawerWork, error) {
	w := &drawerWork{foundDrawer: d, drawerSettings: s, outcomes: make([]outcome, len(d.lenses))}
	var err error
	w.unlock, err = openReport(w.folder())
	return w, err
}

// end lets others work in the drawer.
func (w *drawerWork) end() { w.unlock() }

// folder is where the report lies.
func (w *drawerWork) folder() string { return filepath.Join(w.dir, reportFolder) }

// check checks the lenses side by side and writes the records and charts of each. It
// stops when ctx is done.
func (w *drawerWork) check(ctx context.Context, watch watcher) {
	sideBySide(ctx, len(w.lenses), func(i int) {
		watch.Begin(w.lenses[i].Lens.Name)
		w.outcomes[i] = w.checkLens(ctx, w.lenses[i])
		if ctx.Err() == nil {
			watch.Done(w.outcomes[i].words())
		}
	})
}

// done is how many of the lenses have a record.
func (w *drawerWork) done() (done, all int) {
	for _, o := range w.outcomes {
		if o.Record != nil {
			done++
		}
	}
	return done, len(w.outcomes)
}

// write writes what follows from all the records: the sheets, the summary and the page.
func (w *drawerWork) write(ctx context.Context) (drawer.Summary, error) {
	all := make([]drawer.Entry, len(w.outcomes))
	for i, o := range w.outcomes {
		all[i] = o.Entry
	}
	if err := w.writeSheets(ctx, all); err != nil {
		return drawer.Summary{}, err
	}
	s := drawer.NewSummary(w.name, w.version, w.now, all)
	s.Extra, s.Notes = w.extra, append(w.unlistedWords(), s.Twins()...)
	return s, errors.Join(writeChanged(filepath.Join(w.folder(), "summary.csv"), s.WriteCSV), writeChanged(filepath.Join(w.folder(), "index.html"), s.WriteHTML))
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
func (w *drawerWork) checkLens(ctx context.Context, l foundLens) outcome {
	out := outcome{Entry: drawer.Entry{Lens: l.Lens}}
	s := w.sitting(l)
	d, ok := w.kept(ctx, l, s)
	out.kept = ok
	if !ok {
		var (
			missed []error
			err    error
		)
		if d, missed, err = s.examine(ctx); err == nil {
			err = w.writeLens(ctx, l, d)
		}
		for _, m := range missed {
			out.Missed = append(out.Missed, below(w.dir, faultOf(m)))
		}
		if err != nil {
			out.fail(w.dir, err)
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
		f := below(dir, faultOf(err))
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
func (w *drawerWork) sitting(l foundLens) sitting {
	s := sitting{steps: l.Steps, kind: shutter.Kind(l.Lens.Shutter), lens: l.Lens.Lens, policy: w.policy, now: w.now, version: w.version, notes: w.notes}
	s.seen, s.seenBy = l.Observed()
	for _, c := range l.Clips {
		s.clips = append(s.clips, filepath.Join(w.dir, filepath.FromSlash(c.Name)))
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

func (w *drawerWork) writeLens(ctx context.Context, l foundLens, d report.Document) error {
	for _, f := range l.files() {
		if err := ctx.Err(); err != nil {
			return err
		}
		path := filepath.Join(w.folder(), f.Name)
		if err := writeFile(path, func(out *os.File) error { return f.write(out, d) }); err != nil {
			return err
		}
	}
	return nil
}
