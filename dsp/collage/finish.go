package collage

import (
	"cmp"
	"math"
	"slices"

	"earshot/dsp/known"
)

// finish puts the tape into its room and noise and through the phone, and completes the
// truth.
func (t *take) finish(k kind, p phone, truth known.Truth, snr float64) known.Recording {
	t.sort()
	wet := convolve(t.tape, t.room())
	noise := t.noise(p, len(wet))
	e := t.ends(wet)
	high := slices.Clone(noise)
	highPass(high, t.rate, 1000)
	gain := e.median / max(rms(high), 1e-12) / fromDB(snr)
	if len(t.firings) > 0 {
		truth.SNR = snr
	}
	t.tape = wet
	for i, v := range noise {
		t.tape[i] += gain * v
	}
	t.hum(p, gain)
	plain := t.plain(e, truth.SNR)
	t.through(p, gain, plain)
	if k.scene.cuts {
		t.cutBoth(plain)
	}
	truth.Skips = t.skip(p, gain, plain)
	for i := range t.firings {
		t.firings[i].Plain = plain[i]
	}
	truth.Firings = t.firings
	for _, o := range t.others {
		truth.Others = append(truth.Others, o.Other)
	}
	return known.Recording{Name: k.name, Rate: p.rate, Channels: t.channels(p), Coding: p.coding, Truth: truth}
}

// sort puts firings and other sounds in the order of time.
func (t *take) sort() {
	slices.SortStableFunc(t.firings, func(a, b known.Firing) int { return cmp.Compare(a.Open.Start, b.Open.Start) })
	slices.SortStableFunc(t.others, func(a, b other) int { return cmp.Compare(a.Start, b.Start) })
}

// noise is what a room and a phone have of themselves, with an RMS of 1.
func (t *take) noise(p phone, n int) []float64 {
	if p.live {
		x := t.fetch(pick(t.draw, t.lib.sounds[live]))
		return grains(t.draw, x, n, int(t.between(0.3, 1.5)*t.rate))
	}
	seconds := float64(n+1) / t.rate
	room := steady(t.draw, pick(t.draw, t.lib.spectra), t.rate, seconds, t.between(-1.5, 3))[:n]
	own := steady(t.draw, pick(t.draw, t.lib.spectra), t.rate, seconds, t.between(1, 4))[:n]
	gain := t.gain(-20, 6)
	for i := range room {
		room[i] += gain * own[i]
	}
	return room
}

// ends is what is measured of the ends of firings, above 1 kHz and before any noise.
type ends struct {
	median  float64   // level over 3 ms; without firings what 1 % of the clip reaches
	weakest []float64 // level of the weaker end of each firing
	rises   []float64 // by which factor the less clear end of each rises over what was before it
}

func (t *take) ends(wet []float64) ends {
	high := slices.Clone(wet)
	highPass(high, t.rate, 1000)
	n := int(0.003 * t.rate)
	level := func(s float64) float64 {
		at := max(0, min(int(math.Round(s*t.rate)), len(high)-n))
		return rms(high[at : at+n])
	}
	var e ends
	var levels []float64
	measure := func(s known.Stroke) (weak, rise float64) {
		a, b := level(s.Start), level(s.Stop)
		levels = append(levels, max(a, b))
		return max(a, b), max(a/max(level(s.Start-0.003), 1e-9), b/max(level(s.Stop-0.003), 1e-9))
	}
	for _, f := range t.firings {
		weak, rise := measure(f.Open)
		if f.Closes {
			w, r := measure(f.Close)
			weak, rise = min(weak, w), min(rise, r)
		}
		e.weakest, e.rises = append(e.weakest, weak), append(e.rises, rise)
	}
	for at := 0; len(t.firings) == 0 && at+n < len(high); at += n {
		levels = append(levels, rms(high[at:at+n]))
	}
	slices.Sort(levels)
	e.median = levels[len(levels)*99/100]
	if n := len(levels); len(t.firings) > 0 {
		e.median = (levels[(n-1)/2] + levels[n/2]) / 2
	}
	e.median = max(e.median, 1e-6)
	return e
}

const (
	reach   = 18.0    // dB of SNR that a plain firing needs
	above   = 12.0    // dB that each of its ends is over the noise
	fastest = 1. / 64 // s, of a plain firing
	rising  = 1.6     // factor by which each of its ends rises over what was before it
	covers  = 0.25    // of the peak of a closing: what is louder may cover one
	beside  = 0.04    // s beside a firing where that matters
)

// plain tells which firings are plain: told of, slow enough, and neither too near the
// noise nor under something else.
func (t *take) plain(e ends, snr float64) []bool {
	least := e.median * fromDB(above-snr)
	plain := make([]bool, len(t.firings))
	for i, f := range t.firings {
		plain[i] = f.Mark != "" && f.Closes && f.Nominal >= fastest && snr >= reach &&
			e.weakest[i] >= least && e.rises[i] >= rising
		for _, o := range t.others {
			if !o.own && o.peak > covers && o.Start < f.Close.Stop+beside && o.End > f.Open.Start-beside {
				plain[i] = false
			}
		}
	}
	return plain
}
