package folder

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"time"

	"earshot/cmd/internal/fault"
	"earshot/cmd/internal/files"
	"earshot/cmd/internal/sitting"
	"earshot/report"
	"earshot/report/chart"
	"earshot/report/chart/paper"
	"earshot/report/drawer"
	"earshot/report/write"
	"earshot/shutter"
	"earshot/shutter/judge"
)

// Settings say how the lenses of a drawer are judged.
type Settings struct {
	Policy  judge.Policy
	Now     time.Time
	Version string    // of the program
	Notes   io.Writer // gets a line where a clip takes long to be decoded
}

// Work is the checking of a drawer, which no one else is at.
type Work struct {
	Found
	Settings
	outcomes []outcome
	unlock   func()
}

// Watcher is told how far the work is, by several goroutines at once.
type Watcher interface {
	Begin(lens string) // work on it begins
	Done(words string) // work on a lens has ended: what became of it
}

// Begin makes the folder of the report and keeps others from working there, until end.
func (d Found) Begin(s Settings) (*Work, error) {
	w := &Work{Found: d, Settings: s, outcomes: make([]outcome, len(d.lenses))}
	var err error
	w.unlock, err = openReport(w.Folder())
	return w, err
}

// End lets others work in the drawer.
func (w *Work) End() { w.unlock() }

// Folder is where the report lies.
func (w *Work) Folder() string { return filepath.Join(w.dir, ReportFolder) }

// Check checks the lenses side by side and writes the records and charts of each. It
// stops when ctx is done.
func (w *Work) Check(ctx context.Context, watch Watcher) {
	sideBySide(ctx, len(w.lenses), func(i int) {
		watch.Begin(w.lenses[i].Lens.Name)
		w.outcomes[i] = w.checkLens(ctx, w.lenses[i])
		if ctx.Err() == nil {
			watch.Done(w.outcomes[i].words())
		}
	})
}

// Done is how many of the lenses have a record.
func (w *Work) Done() (done, all int) {
	for _, o := range w.outcomes {
		if o.Record != nil {
			done++
		}
	}
	return done, len(w.outcomes)
}

// Write writes what follows from all the records: the sheets, the summary and the page.
func (w *Work) Write(ctx context.Context) (drawer.Summary, error) {
	all := make([]drawer.Entry, len(w.outcomes))
	for i, o := range w.outcomes {
		all[i] = o.Entry
	}
	if err := w.writeSheets(ctx, all); err != nil {
		return drawer.Summary{}, err
	}
	s := drawer.NewSummary(w.name, w.Version, w.Now, all)
	s.Extra, s.Notes = w.extra, append(w.unlistedWords(), s.Twins()...)
	return s, errors.Join(files.WriteChanged(ctx, filepath.Join(w.Folder(), "summary.csv"), s.WriteCSV), files.WriteChanged(ctx, filepath.Join(w.Folder(), "index.html"), s.WriteHTML))
}

// outcome is the result of one lens. It has neither a record nor a failure if work was stopped
// before.
type outcome struct {
	drawer.Entry
	kept bool // from an earlier run
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
func (w *Work) checkLens(ctx context.Context, l foundLens) outcome {
	out := outcome{Entry: drawer.Entry{Lens: l.Lens}}
	s := w.sitting(l)
	d, ok := w.kept(ctx, l, s)
	out.kept = ok
	if !ok {
		var (
			missed []error
			err    error
		)
		if d, missed, err = s.Examine(ctx); err == nil {
			err = w.writeLens(ctx, l, d)
		}
		for _, m := range missed {
			out.Missed = append(out.Missed, below(w.dir, fault.Of(m)))
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
		f := below(dir, fault.Of(err))
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
func (w *Work) sitting(l foundLens) sitting.Sitting {
	s := sitting.Sitting{Steps: l.Steps, Kind: shutter.Kind(l.Lens.Shutter), Lens: l.Lens.Lens, Policy: w.Policy, Now: w.Now, Version: w.Version, Notes: w.Notes}
	s.Seen, s.SeenBy = l.Observed()
	for _, c := range l.Clips {
		s.Clips = append(s.Clips, filepath.Join(w.dir, filepath.FromSlash(c.Name)))
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

func (w *Work) writeLens(ctx context.Context, l foundLens, d report.Document) error {
	for _, f := range l.files() {
		path := filepath.Join(w.Folder(), f.Name)
		if err := files.Write(ctx, path, func(out *os.File) error { return f.write(out, d) }); err != nil {
			return err
		}
	}
	return nil
}

// sideBySide does the work of 0 to n−1, twice as many at once as there are cores, since each
// waits for the disk now and then. Once ctx is done it begins no more.
func sideBySide(ctx context.Context, n int, work func(i int)) {
	next := make(chan int)
	var workers sync.WaitGroup
	for range min(2*runtime.GOMAXPROCS(0), n) {
		workers.Go(func() {
			for i := range next {
				work(i)
			}
		})
	}
	for i := 0; i < n && ctx.Err() == nil; i++ {
		next <- i
	}
	close(next)
	workers.Wait()
}
