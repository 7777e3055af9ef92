package collage

import (
	"math"
	"slices"

	"earshot/dsp/known"
)

// span is from a sample to before another.
type span struct{ from, to int }

// cutBoth begins the clip within the first firing and ends it within the last. The first
// keeps its opening, before 0; the last doesn't close.
func (t *take) cutBoth(plain []bool) {
	first, last := t.firings[0], &t.firings[len(t.firings)-1]
	from := t.within(first)
	if to := t.within(*last); last.Closes && to > from {
		t.tape = t.tape[:to]
		last.Close, last.Closes = known.Stroke{}, false
		plain[len(plain)-1] = false
	}
	plain[0] = false
	t.drop([]span{{0, from}})
	for i := range t.firings[:1] {
		t.firings[i].Open.Start = first.Open.Start - float64(from)/t.rate
		t.firings[i].Open.Stop = first.Open.Stop - float64(from)/t.rate
	}
}

// within is a sample between opening and closing.
func (t *take) within(f known.Firing) int {
	return int((f.Open.Stop + (f.Close.Start-f.Open.Stop)*t.between(0.2, 0.8)) * t.rate)
}

// skip leaves quiet out after p.skips s of it, and returns p.skips. A firing that it cuts
// isn't plain.
func (t *take) skip(p phone, noise float64, plain []bool) float64 {
	if p.skips == 0 {
		return 0
	}
	quiet := t.quiet(p.skips)
	for i, f := range t.firings {
		for _, q := range quiet {
			if float64(q.from) < (f.Close.Stop+beside)*t.rate && float64(q.to) > (f.Open.Start-beside)*t.rate {
				plain[i] = false
			}
		}
	}
	t.drop(quiet)
	return p.skips
}

// quiet are the stretches that a recorder leaves out: from so many s after anything 10 dB
// over the quietest tenth, until a little before the next such.
func (t *take) quiet(after float64) []span {
	n := int(0.01 * t.rate)
	var levels []float64
	for at := 0; at+n <= len(t.tape); at += n {
		levels = append(levels, rms(t.tape[at:at+n]))
	}
	sorted := slices.Sorted(slices.Values(levels))
	limit := max(1e-5, sorted[len(sorted)/10]*fromDB(10))
	before := t.whole(0, 5)
	var out []span
	last := 0
	for i, level := range levels {
		if level < limit {
			continue
		}
		if from := last + int(after*100); i-before > from {
			out = append(out, span{from * n, (i - before) * n})
		}
		last = i + 1
	}
	return out
}

// drop cuts spans, in order, out of the tape, and moves all times.
func (t *take) drop(spans []span) {
	var kept []float64
	at := 0
	for _, s := range spans {
		kept = append(kept, t.tape[at:s.from]...)
		at = s.to
	}
	t.tape = append(kept, t.tape[at:]...)
	move := func(s *float64) { *s = t.moved(*s, spans) }
	for i := range t.firings {
		f := &t.firings[i]
		move(&f.Open.Start)
		move(&f.Open.Stop)
		if f.Closes {
			move(&f.Close.Start)
			move(&f.Close.Stop)
		}
	}
	var others []other
	for _, o := range t.others {
		move(&o.Start)
		move(&o.End)
		if o.End > 0 && o.Start < t.seconds() && o.Start < o.End {
			o.End = min(o.End, t.seconds())
			others = append(others, o)
		}
	}
	t.others = others
}

// moved is where s comes to lie when spans are cut out; within a span, where it was.
func (t *take) moved(s float64, spans []span) float64 {
	at, gone := s*t.rate, 0.0
	for _, c := range spans {
		gone += max(0, min(at, float64(c.to))-float64(c.from))
	}
	return math.Round(at-gone) / t.rate
}
