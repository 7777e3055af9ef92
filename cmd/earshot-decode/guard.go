package main

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// guard reads ffmpeg's log while it decodes, and finds what would shift the time axis: damage
// that it reports, a frame that does not begin where the one before ended, a rate that
// changes, or a length other than the container's. It is an io.Writer for the log, which has
// a line of the filter ashowinfo for each frame.
type guard struct {
	facts
	partial []byte // of a line
	frames  int64  // samples of one channel so far
	first   int64  // time of the first, in samples
	next    int64  // when the next frame is due, in samples
	longest int64  // length of a frame, in samples
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
	if !ok1 || !ok2 || !ok3 || n < 1 {
		g.fail("a piece of its sound has no time or no length")
		return
	}
	g.frame(pts, n, rate)
}

// frame takes up one decoded frame: it begins at sample pts and holds n.
func (g *guard) frame(pts, n, rate int64) {
	if rate != int64(g.rate) {
		g.fail("its sampling rate changes at %.3f s from %d to %d Hz", g.seconds(g.frames), g.rate, rate)
	}
	g.longest = max(g.longest, n)
	if g.frames == 0 {
		g.first, g.next = pts, pts
	}
	if gap := pts - g.next; math.Abs(float64(gap)) > g.allowed() {
		g.lost(gap)
	}
	g.next = pts + n
	g.frames += n
	if over := g.seconds(g.frames) - g.duration; g.duration > 0 && over > g.mayDiffer() {
		g.fail("it states a length of %.3f s and holds more", g.duration)
	}
}

// mayDiffer is by how many s a clip may be longer or shorter than its container states:
// coding adds up to two frames, which some containers count and others don't.
func (g *guard) mayDiffer() float64 { return g.seconds(2*g.longest) + 2*g.tick }

func (g *guard) lost(samples int64) {
	g.fail("%.1f ms of sound are missing or doubled before %.3f s", 1e3*math.Abs(g.seconds(samples)), g.seconds(g.frames))
}

// exact is the tolerance of times, in s, if the container states them to the sample. It is less
// than any frame of the codings that are read.
const exact = 1e-3

// allowed is by how many samples a frame may begin early or late. Within a page of Ogg
// the times of Vorbis are guessed from frames of one length; other containers state
// times to the millisecond, or by a clock of their own (a browser's recorder). A whole
// frame lost or doubled is told apart from either.
func (g *guard) allowed() float64 {
	if g.codec == "vorbis" || g.coarse() {
		return float64(g.longest) / 2
	}
	return exact * float64(g.rate)
}

// coarse tells whether the container states times less well than to the sample.
func (g *guard) coarse() bool { return g.tick*float64(g.rate) > 1.5 }

// end checks the length once all is decoded. It compares it with the times of the frames, and
// with the length that the container states, if any.
func (g *guard) end() {
	if gap := g.next - g.first - g.frames; !g.coarse() && math.Abs(float64(gap)) > exact*float64(g.rate) {
		g.lost(gap)
	}
	if g.duration == 0 {
		return
	}
	got := g.seconds(g.frames)
	if math.Abs(got-g.duration) > g.mayDiffer() {
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
