package main

import (
	"fmt"
	"math"
	"strings"

	"earshot/dsp/synth"
	"earshot/shutter"
)

// tooFar is the error of a duration, s, from which on a firing is listed.
const tooFar = 0.1e-3

// explain lists what went wrong in a clip, in the order of time, with what was
// really heard at the times found. It is empty where nothing did.
func (o *outcome) explain() string {
	var b strings.Builder
	for i, f := range o.of {
		if f < 0 {
			t := o.truth.Firings[i]
			fmt.Fprintf(&b, "  missed %s (firing %d): %s\n", t.Label, i, span(t.Open.Start, t.Close.Start))
		}
	}
	for f, t := range o.origin() {
		if t < 0 {
			b.WriteString(o.explainFalse(o.found[f]))
		}
	}
	for _, x := range o.timings() {
		if math.Abs(x.error) >= tooFar {
			b.WriteString(o.explainTiming(x))
		}
	}
	if b.Len() == 0 {
		return ""
	}
	return o.heading() + b.String()
}

func (o *outcome) explainFalse(f shutter.Firing) string {
	line := fmt.Sprintf("  false  %s: from %s", span(f.Open, f.Close), o.whatIs(f.Open))
	if f.Closed {
		line += " to " + o.whatIs(f.Close)
	}
	return line + "\n"
}

func (o *outcome) explainTiming(x timing) string {
	t, f := o.truth.Firings[x.firing], o.found[o.of[x.firing]]
	open, close := onsets(t, f.Edge)
	return fmt.Sprintf("  off    %s (firing %d, %s, by %s): %+.3f ms, stated u %.3f; opening %+.3f, closing %+.3f ms\n",
		t.Label, x.firing, span(t.Open.Start, t.Close.Start), f.Edge, 1e3*x.error, 1e3*x.u, 1e3*(f.Open-open), 1e3*(f.Close-close))
}

// heading names the clip and what its shutter is like.
func (o *outcome) heading() string {
	head := fmt.Sprintf("%s, clip %d, %d Hz", o.condition.name, o.clip, o.recording.Phone.Rate)
	if o.lag != 0 {
		head += fmt.Sprintf(", all onsets %+.3f ms, taken out", 1e3*o.lag)
	}
	s := o.recording.Take.Shutter
	if s == nil {
		return head + "\n"
	}
	winding := s.Winding
	if winding == synth.NoWinding {
		winding = "none"
	}
	return head + fmt.Sprintf(": winding %s at %+.0f dB, size %.1f, lever %t, %.0f beats/s at %.0f dB down to %.0f ms\n",
		winding, s.Loud, s.Size, s.Lever, s.BeatRate, s.BuzzLevel, 1e3*s.DropOut)
}

func span(open, close float64) string {
	if close == 0 {
		return fmt.Sprintf("%.4f s, never closes", open)
	}
	return fmt.Sprintf("%.4f to %.4f s (%.1f ms)", open, close, 1e3*(close-open))
}

// whatIs names the true sound nearest to a time, s, and how long after it that is. For a sound
// that lasts it says how far into the sound; of several such, it takes the latest.
func (o *outcome) whatIs(at float64) string {
	name, off, began := "nothing", math.Inf(1), math.Inf(-1)
	consider := func(from, to float64, format string, args ...any) {
		d := at - min(max(at, from), to)
		if math.Abs(d) > math.Abs(off) || math.Abs(d) == math.Abs(off) && from <= began {
			return
		}
		name, off, began = fmt.Sprintf(format, args...), d, from
		if d == 0 && to > from {
			name += fmt.Sprintf(" (%.0f ms into %.0f)", 1e3*(at-from), 1e3*(to-from))
		}
	}
	for i, f := range o.truth.Firings {
		consider(f.Open.Start, f.Open.Start, "the opening of firing %d", i)
		consider(f.Open.Stop, f.Open.Stop, "the opening's stop of firing %d", i)
		if f.Closes {
			consider(f.Close.Start, f.Close.Start, "the closing of firing %d", i)
			consider(f.Close.Stop, f.Close.Stop, "the closing's stop of firing %d", i)
		}
	}
	for _, s := range o.truth.Sounds {
		consider(s.Start, s.End, "%s", s.Kind)
	}
	if off == 0 || math.IsInf(off, 1) {
		return name
	}
	return fmt.Sprintf("%s %+.2f ms", name, 1e3*off)
}

// labels are the true and the found firings as a label track: start, end and name,
// separated by tabs.
func (o *outcome) labels() string {
	var b strings.Builder
	line := func(open, close float64, name string) {
		fmt.Fprintf(&b, "%.6f\t%.6f\t%s\n", open, max(open, close), name)
	}
	for i, f := range o.truth.Firings {
		line(f.Open.Start, f.Close.Start, fmt.Sprintf("true %d, %s", i, f.Label))
	}
	for i, f := range o.found {
		line(f.Open, f.Close, fmt.Sprintf("found %d%s", i, map[bool]string{true: ", by " + string(shutter.EdgeStop)}[f.Edge == shutter.EdgeStop]))
	}
	return b.String()
}
