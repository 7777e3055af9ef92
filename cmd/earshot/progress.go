package main

import (
	"fmt"
	"io"
	"os"
	"sync"
	"sync/atomic"
	"time"

	"github.com/jedib0t/go-pretty/v6/text"
	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"

	"earshot/report/words"
)

// progress shows how far work on many lenses has come. On anything but a terminal it
// shows nothing.
type progress struct {
	all  *mpb.Progress
	bar  *mpb.Bar
	lens atomic.Pointer[string] // the one begun last

	each   io.Writer // gets a line on each lens when it is done; nil for none
	saying sync.Mutex
}

// nameWidth is how many columns the name of a lens takes beside the bar.
const nameWidth = 28

func newProgress(w io.Writer, lenses int) *progress {
	if os.Getenv("TERM") == "dumb" {
		w = io.Discard
	}
	p := &progress{all: mpb.New(mpb.WithOutput(w), mpb.WithWidth(64))}
	p.Begin("")
	p.bar = p.all.AddBar(int64(lenses), mpb.BarRemoveOnComplete(),
		mpb.PrependDecorators(decor.Any(func(decor.Statistics) string { return *p.lens.Load() })),
		mpb.AppendDecorators(decor.CountersNoUnit("%d of %d"), decor.Any(timeLeft(time.Now()))),
	)
	return p
}

// timeLeft says how long the rest will take if each lens takes as long as those done.
func timeLeft(begun time.Time) func(decor.Statistics) string {
	return func(s decor.Statistics) string {
		if s.Current == 0 {
			return ""
		}
		left := time.Since(begun) * time.Duration(s.Total-s.Current) / time.Duration(s.Current)
		return fmt.Sprintf(", %d:%02d left", int(left.Minutes()), int(left.Seconds())%60)
	}
}

// Begin says which lens is worked on now.
func (p *progress) Begin(lens string) {
	lens = text.Pad(text.Snip(words.Printable(lens), nameWidth, "…"), nameWidth, ' ')
	p.lens.Store(&lens)
}

// Done counts a lens, of which words say what became of it.
func (p *progress) Done(said string) {
	p.bar.Increment()
	if p.each == nil {
		return
	}
	p.saying.Lock()
	defer p.saying.Unlock()
	fmt.Fprintf(p.each, "earshot: %s\n", words.Printable(said))
}

// close takes the bar away.
func (p *progress) close() {
	p.bar.Abort(true)
	p.all.Wait()
}
