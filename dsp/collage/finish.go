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
	reference, weakest := t.reference(wet)
	high := slices.Clone(noise)
	highPass(high, t.rate, 1000)
	gain := reference / max(rms(high), 1e-12) / fromDB(snr)
	if len(t.firings) > 0 {
		truth.SNR = snr
	}
	t.tape = wet
	for i, v := range noise {
		t.tape[i] += gain * v
	}
	t.hum(p, gain)
	plain := t.plain(weakest, reference/fromDB(truth.SNR), truth.SNR)
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
	room := steady(t.draw, pick(t.draw, t.lib.spectra), t.rate, seconds, t.between(-2, 1))[:n]
	own := steady(t.draw, pick(t.draw, t.lib.spectra), t.rate, seconds, t.between(1, 4))[:n]
	gain := t.gain(-20, 6)
	for i := range room {
		room[i] += gain * own[i]
	}
	return room
}

// reference is what the noise is compared with: the median of the ends' levels above
// 1 kHz. Without firings it is the level that 1 % of the clip reaches. weakest is the
// level of the weaker end of each firing.
func (t *take) reference(wet []float64) (median float64, weakest []float64) {
	high := slices.Clone(wet)
	highPass(high, t.rate, 1000)
	n := int(0.003 * t.rate)
	level := func(s float64) float64 {
		at := max(0, min(int(math.Round(s*t.rate)), len(high)-n))
		return rms(high[at : at+n])
	}
	var ends []float64
	for _, f := range t.firings {
		weak := max(level(f.Open.Start), level(f.Open.Stop))
		ends = append(ends, weak)
		if f.Closes {
			ends = append(ends, max(level(f.Close.Start), level(f.Close.Stop)))
			weak = min(weak, ends[len(ends)-1])
		}
		weakest = append(weakest, weak)
	}
	if len(ends) > 0 {
		slices.Sort(ends)
		return (ends[(len(ends)-1)/2] + ends[len(ends)/2]) / 2, weakest
	}
	for at := 0; at+n < len(high); at += n {
		ends = append(ends, rms(high[at:at+n]))
	}
	slices.Sort(ends)
	return max(ends[len(ends)*99/100], 1e-6), nil
}

const (
	reach   = 18.0    // dB of SNR that a plain firing needs
	above   = 12.0    // dB that each of its ends is over the noise
	fastest = 1. / 64 // s, of a plain firing
	covers  = 0.25    // of the peak of a closing: what is louder may cover one
	beside  = 0.04    // s beside a firing where that matters
)

// plain tells which firings are plain: told of, slow enough, and neither too near the
// noise nor under something else.
func (t *take) plain(weakest []float64, noise, snr float64) []bool {
	plain := make([]bool, len(t.firings))
	for i, f := range t.firings {
		plain[i] = f.Mark != "" && f.Closes && f.Nominal >= fastest && snr >= reach && weakest[i] >= noise*fromDB(above)
		for _, o := range t.others {
			if !o.own && o.peak > covers && o.Start < f.Close.Stop+beside && o.End > f.Open.Start-beside {
				plain[i] = false
			}
		}
	}
	return plain
}
