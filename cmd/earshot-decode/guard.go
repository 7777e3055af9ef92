package main

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// guard follows what ffmpeg says while it decodes and finds what would shift the time
// axis: damage that it reports, a frame that does not begin where the one before ended,
// a rate that changes, a length other than the container's. It is an io.Writer for
// ffmpeg's log, with the line that its filter ashowinfo writes for each frame.
type guard struct {
	facts
	partial []byte // of a line
	frames  int64  // frames a second × s: samples of one channel so far
	next    int64  // where the next frame is due, in samples; known from the first on
	longest int64  // frame, in samples
	begun   bool
	reason  string // the first trouble, as a person reads it
}

// maxLine bounds a line of the log, of which a file could choose the text.
const maxLine = 64 << 10

// Write implements io.Writer.
func (g *guard) Write(p []byte) (int, error) {
	for rest := p; len(rest) > 0; {
		line, after, whole := bytes.Cut(rest, []byte("\n"))
		if g.partial = append(g.partial, line...); len(g.partial) > maxLine {
			g.partial = g.partial[:maxLine]
		}
		if whole {
			g.line(string(g.partial))
			g.partial = g.partial[:0]
		}
		rest = after
	}
	return len(p), nil
}

func (g *guard) line(line string) {
	if what := trouble(line); what != "" {
		g.fail("%s", what)
	}
	if !strings.Contains(line, "_ashowinfo_") || !strings.Contains(line, " nb_samples:") {
		return
	}
	pts, ok1 := field(line, " pts:")
	n, ok2 := field(line, " nb_samples:")
	rate, ok3 := field(line, " rate:")
	if !ok1 || !ok2 || !ok3 {
		g.fail("a piece of its sound has no time")
		return
	}
	g.frame(pts, n, rate)
}

// frame takes up one decoded frame: it begins at sample pts and holds n.
func (g *guard) frame(pts, n, rate int64) {
	if rate != int64(g.rate) {
		g.fail("its sampling rate changes at %.3f s from %d to %d Hz", g.seconds(g.frames), g.rate, rate)
	}
	if gap := pts - g.next; g.begun && math.Abs(float64(gap)) > g.allowed(n) {
		g.fail("%.1f ms of sound are missing or doubled at %.3f s", 1e3*math.Abs(g.seconds(gap)), g.seconds(g.frames))
	}
	g.begun = true
	g.next = pts + n
	g.frames += n
	g.longest = max(g.longest, n)
}

// allowed is by how many samples a frame of n may begin early or late. Most containers
// state times to the sample. Where they are coarser, to the millisecond, or a clock of
// their own (a browser's recorder), whole frames are still told apart from that.
func (g *guard) allowed(n int64) float64 {
	const exact = 1e-3 // s: no frame of the codings read is as short
	if g.tick*float64(g.rate) > 1.5 {
		return float64(n) / 2
	}
	return exact * float64(g.rate)
}

// end checks the length, once all is decoded. Coding adds up to two frames, which some
// containers count and others don't; where the container states no length there is
// nothing to check.
func (g *guard) end() {
	if g.duration == 0 {
		return
	}
	got := g.seconds(g.frames)
	if off := math.Abs(got - g.duration); off > g.seconds(2*g.longest)+2*g.tick {
		g.fail("it states a length of %.3f s and holds %.3f s", g.duration, got)
	}
}

func (g *guard) seconds(samples int64) float64 { return float64(samples) / float64(g.rate) }

// fail notes the first trouble.
func (g *guard) fail(format string, args ...any) {
	if g.reason == "" {
		g.reason = fmt.Sprintf(format, args...)
	}
}

// field is the whole number that follows key in line.
func field(line, key string) (int64, bool) {
	_, after, found := strings.Cut(line, key)
	if !found {
		return 0, false
	}
	word, _, _ := strings.Cut(strings.TrimLeft(after, " "), " ")
	x, err := strconv.ParseInt(word, 10, 64)
	return x, err == nil
}

// trouble is what a line of the log reports of damage; empty where it reports none.
func trouble(line string) string {
	for _, level := range []string{"[error] ", "[fatal] ", "[panic] "} {
		if _, what, found := strings.Cut(line, level); found {
			return "the decoder says: " + strings.TrimSpace(what)
		}
	}
	return ""
}

// firstTrouble is the first of a log, or words for none.
func firstTrouble(log string) string {
	for line := range strings.Lines(log) {
		if what := trouble(line); what != "" {
			return what
		}
	}
	return "the decoder does not say why"
}
