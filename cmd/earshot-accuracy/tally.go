package main

import (
	"math"
	"slices"
)

// tally sums up many clips, or the firings of one speed.
type tally struct {
	name     string
	group    group
	clips    int
	counts   []count // at each of windows
	errors   []float64
	covered  int // errors within 1.96 times their stated standard uncertainty
	unfit    int // firings found that are not fit to be timed
	told     laid
	counted  laid // told the counts as well
	means    int
	drawn    int // means within U95 of the shutter's own
	fired    int // means within the onset term of those fired
	duration float64
	beside   map[string]standing // by the name of the method
	fine     []fineness          // of each clip that has one
}

func newTally(name string, g group) *tally {
	return &tally{name: name, group: g, counts: make([]count, len(windows())), beside: map[string]standing{}}
}

// last is the count at the widest window, the one by which firings are right.
func (t *tally) last() count { return t.counts[len(t.counts)-1] }

func (t *tally) addClip(o *outcome) {
	t.clips++
	t.addBeside(o)
	if o.fine != nil {
		t.fine = append(t.fine, *o.fine)
	}
	for i, c := range o.counts {
		t.counts[i].add(c)
	}
	for _, x := range o.timings() {
		t.addTiming(x)
	}
	for _, f := range o.found {
		if f.Unfit != "" {
			t.unfit++
		}
	}
	if len(o.truth.Settings) == 0 {
		return
	}
	t.told.add(o.lay(false))
	t.counted.add(o.lay(true))
	for _, m := range o.means() {
		t.addMean(m)
	}
}

func (t *tally) addTiming(x timing) {
	t.errors = append(t.errors, x.error)
	t.duration += x.true
	if math.Abs(x.error) <= 1.96*x.u {
		t.covered++
	}
}

func (t *tally) addMean(m speedMean) {
	t.means++
	if math.Abs(m.drawn) <= m.u95 {
		t.drawn++
	}
	if math.Abs(m.fired) <= m.onset {
		t.fired++
	}
}

// bias is the mean error of the durations, s.
func (t *tally) bias() float64 {
	sum := 0.0
	for _, e := range t.errors {
		sum += e
	}
	return sum / float64(max(len(t.errors), 1))
}

// off is the error that a share of the durations lies within, s.
func (t *tally) off(share float64) float64 { return sizeOf(t.errors, share) }

// sizeOf is what a share of the errors lies within, either way.
func sizeOf(errors []float64, share float64) float64 {
	sizes := make([]float64, len(errors))
	for i, e := range errors {
		sizes[i] = math.Abs(e)
	}
	slices.Sort(sizes)
	return quantile(sizes, share)
}

// quantile is the value below which a share p of sorted x lies, by linear
// interpolation between the values (type 7 of R. J. Hyndman and Y. Fan, 1996); 0 for
// no values.
func quantile(x []float64, p float64) float64 {
	if len(x) == 0 {
		return 0
	}
	at := p * float64(len(x)-1)
	i := min(int(at), len(x)-1)
	j := min(i+1, len(x)-1)
	return x[i] + (at-float64(i))*(x[j]-x[i])
}
