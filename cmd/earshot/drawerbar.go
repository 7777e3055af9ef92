package main

import (
	"io"
	"os"
	"sync/atomic"

	"github.com/jedib0t/go-pretty/v6/text"
	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"

	"earshot/report"
)

// progress shows how far work on many lenses has come. On anything but a terminal it
// shows nothing.
type progress struct {
	all  *mpb.Progress
	bar  *mpb.Bar
	lens atomic.Pointer[string] // the one begun last
}

// nameWidth is how many columns the name of a lens takes beside the bar.
const nameWidth = 28

func newProgress(w io.Writer, lenses int) *progress {
	if os.Getenv("TERM") == "dumb" {
		w = io.Discard
	}
	p := &progress{all: mpb.New(mpb.WithOutput(w), mpb.WithWidth(64))}
	p.begin("")
	p.bar = p.all.AddBar(int64(lenses), mpb.BarRemoveOnComplete(),
		mpb.PrependDecorators(decor.Any(func(decor.Statistics) string { return *p.lens.Load() })),
		mpb.AppendDecorators(decor.CountersNoUnit("%d of %d"), decor.Name(", "), decor.AverageETA(decor.ET_STYLE_MMSS), decor.Name(" left")),
	)
	return p
}

// begin says which lens is worked on now.
func (p *progress) begin(lens string) {
	lens = text.Pad(text.Snip(report.Printable(lens), nameWidth, "…"), nameWidth, ' ')
	p.lens.Store(&lens)
}

// done counts a lens.
func (p *progress) done() { p.bar.Increment() }

// close takes the bar away.
func (p *progress) close() {
	p.bar.Abort(true)
	p.all.Wait()
}
