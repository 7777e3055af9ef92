package quality

import (
	"math"
	"slices"

	"earshot/dsp"
)

// Times, in s, after a loud sound. By the early one a gain control has turned down; by the
// late one it has partly turned up again.
const (
	early  = 0.06
	late   = 0.32
	latest = 2.0
	span   = 0.08 // over which noise is measured: the quietest there is counts, whatever sounds between
	before = 0.03 // the next loud sound
)

// By how much the noise rises. In 40 synthetic clips without a gain control, some with rooms,
// speech and clocks, the median over the sounds of a clip was 0.2 dB at most, and the rise
// after a single sound 3.8 dB at most. With a gain control the median was 1.7 dB or more.
const (
	leastSounds  = 4
	leastRise    = 1.0 // dB, of the usual sound
	leastQuarter = 0.5 // dB, that three of four sounds exceed: noise that comes and goes by itself falls as often
	nearlyLoud   = 15  // dB below the loudest sound: what may turn a gain down
)

// recovery is by how many dB the noise rises again after loud sounds, 0 if it does not. Only a
// gain control makes it rise; echo falls.
func recovery(h *dsp.Hearing) float64 {
	all := rises(h)
	slices.Sort(all)
	n := len(all)
	if n < leastSounds || all[n/2] < leastRise || all[n/4] < leastQuarter {
		return 0
	}
	return all[n/2]
}

// rises is by how much the noise rises after each loud sound that is followed by enough
// time without another.
func rises(h *dsp.Hearing) []float64 {
	loud := h.Noise + standsOut
	for i := range h.Transients {
		loud = max(loud, h.Transients[i].Level-nearlyLoud)
	}
	var all []float64
	last := -1.0 // onset of the last loud sound, samples
	take := func(onset float64) {
		if rise, ok := riseBetween(h, last, onset); last >= 0 && ok {
			all = append(all, rise)
		}
		last = onset
	}
	for i := range h.Transients {
		if t := &h.Transients[i]; t.Level >= loud {
			take(t.Onset)
		}
	}
	take(float64(h.Frames))
	return all
}

// riseBetween is by how much the noise rises between two sounds, each given by the sample at
// which it begins. It is false if the time between them is too short.
func riseBetween(h *dsp.Hearing, from, to float64) (float64, bool) {
	frame := func(sample float64) int { return int(sample) / h.Track.Step }
	end := min(frame(min(to-h.Samples(before), from+h.Samples(latest))), h.Track.Len()-1)
	middle := frame(from + h.Samples(late))
	if middle+frame(h.Samples(span)) > end {
		return 0, false
	}
	return quietestSpan(h, middle, end) - quietestSpan(h, frame(from+h.Samples(early)), middle), true
}

// quietestSpan is the lowest mean level over a span from one frame to another, dB.
func quietestSpan(h *dsp.Hearing, from, to int) float64 {
	n := max(1, int(h.Samples(span))/h.Track.Step)
	least := math.Inf(1)
	for k := from; k+n <= to; k += max(1, n/2) {
		sum := 0.0
		for i := k; i < k+n; i++ {
			sum += h.Track.Mean(i)
		}
		least = min(least, sum/float64(n))
	}
	return least
}
