package timing

import (
	"cmp"
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"earshot/dsp/describe"
	"earshot/shutter"
	"earshot/shutter/hear/recording"
)

// Beats of an escapement a second (common practice, no source: 60 to 600), with room
// for one that has been slowed down by a stop.
const slowestBeat, fastestBeat = 28, 700

// uncounted is what they are taken for where they could not be counted, of a falter.
const uncounted = 45

// The windows in which beats are counted.
const (
	beatWindow = 0.12 // s: seven beats of the slowest, three of one slowed down as far as that
	beatStray  = 0.25 // of the median: what is further off is no count of beats
	weakBuzz   = 4    // windows at least, all but one alike, by which a buzz is told that is not heard otherwise
)

// counted is the beats a second about one time, s after the opening.
type counted struct{ at, rate float64 }

// listenBetween listens again to what lies between opening and closing: how fast the
// escapement beats, and whether it falters. Beats that come regularly are a buzz,
// however weak.
func listenBetween(ctx context.Context, clip *recording.Clip, f *shutter.Firing) error {
	const ring, shortest = 0.02, 0.1 // s
	if f.Duration() < shortest {
		return nil
	}
	from, to := f.Open+ring, f.Close-SameSound
	fg, err := clip.Foreground(ctx, from, to)
	if err != nil {
		return err
	}
	b := &f.Buzz
	windows := count(b, fg, ring)
	switch {
	case b.Heard:
	case windows < weakBuzz:
		b.Rate, b.Early, b.Late = 0, 0, 0
		return nil
	default:
		b.Heard = true
		b.Level = clip.Level(f.Open+Ringing, f.Close, 0.5) - math.Min(f.Opening.Level, f.Closing.Level)
	}
	least := fg.Values(math.Max(falterLeast, falterMissed/cmp.Or(b.Rate, uncounted)))
	for _, at := range newRun(fg, 0, len(fg.Over), b.Rate).falters(least) {
		b.Falters = append(b.Falters, shutter.Falter{Start: ring + fg.Seconds(at.Start), Length: fg.Seconds(at.Length)})
	}
	return nil
}

// count fills in the beats a second, given the foreground that begins a time after
// the opening, and returns in how many windows they were counted, or 0 where in
// more than one of those that there are they were not.
func count(b *shutter.Buzz, fg *describe.Foreground, after float64) (windows int) {
	all, of := countAll(fg, after)
	if len(all) == 0 {
		return 0
	}
	b.Rate = medianRate(all)
	if len(all) >= of-1 {
		windows = len(all)
	}
	if len(all) < 3 {
		return windows
	}
	first, last := all[0].at, all[len(all)-1].at
	b.Early, b.Late = straight(all, first), straight(all, last)
	return windows
}

// countAll counts the beats in windows half over each other, of which it returns how
// many there are, and leaves out the counts that stray; nothing where most do.
func countAll(fg *describe.Foreground, after float64) (all []counted, windows int) {
	width := min(int(fg.Values(beatWindow)), len(fg.Over))
	for first := 0; first+width <= len(fg.Over) && width > 0; first += max(1, width/2) {
		windows++
		if rate, _ := fg.Repetition(first, first+width, slowestBeat, fastestBeat); rate > 0 {
			all = append(all, counted{after + fg.Seconds(float64(first)+float64(width)/2), rate})
		}
	}
	middle := medianRate(all)
	all = slices.DeleteFunc(all, func(c counted) bool { return math.Abs(c.rate-middle) > beatStray*middle })
	if 2*len(all) < windows || windows == 0 {
		return nil, windows
	}
	return all, windows
}

func medianRate(all []counted) float64 {
	rates := make([]float64, len(all))
	for i, c := range all {
		rates[i] = c.rate
	}
	return shutter.Median(rates)
}

// straight is the value at a time of the straight line through the counts (least
// squares).
func straight(all []counted, at float64) float64 {
	t, y := make([]float64, len(all)), make([]float64, len(all))
	for i, c := range all {
		t[i], y[i] = c.at, c.rate
	}
	start, slope := stat.LinearRegression(t, y, nil, false)
	return start + slope*at
}

// everyBeat doubles the counts of firings in which every other beat was counted: those
// of half as many as most firings of the clip, which have the same escapement.
func everyBeat(firings []shutter.Firing) {
	const alike = 0.12 // of the rate
	var rates []float64
	for _, f := range firings {
		if f.Buzz.Rate > 0 {
			rates = append(rates, f.Buzz.Rate)
		}
	}
	usual := shutter.Median(rates)
	for i := range firings {
		if b := &firings[i].Buzz; b.Rate > 0 && math.Abs(2*b.Rate-usual) < alike*usual {
			b.Rate, b.Early, b.Late = 2*b.Rate, 2*b.Early, 2*b.Late
		}
	}
}
