package dsp

import (
	"errors"
	"fmt"
	"io"
	"math"
)

// Times, in s, around a trigger. What a sound is like is settled by its first
// 10 ms (bands) and by what is left of it after 15 to 30 ms (decay); the 4 ms
// before it are enough to tell the power of the sound it rises from.
const (
	hopTime    = 0.0005
	minHop     = 16     // samples: fewer make the energy of noise too uneven to trigger on
	beforeTime = 0.004  // noise looked at before a trigger, for the pick
	attackTime = 0.0025 // a sound is at its loudest this soon, for the pick
	levelTime  = 0.008  // for the level
	decayFrom  = 0.015
	decayTo    = 0.030
	trackTime  = 0.010
	gapTime    = 0.004 // shorter runs of zeros are just quiet
)

// blockFrames is how much is read at a time: small enough for the cache.
const blockFrames = 4096

// Listen reads src from end to end and tells what was heard. It returns the
// error of the source, wrapped, if that fails; a clip with nothing in it is no
// error.
func Listen(src Source) (*Hearing, error) {
	l := newListener(src.Format())
	block := make([]float64, blockFrames*l.Channels)
	for {
		n, err := src.ReadFrames(block)
		l.take(block[:n*l.Channels])
		if errors.Is(err, io.EOF) {
			return l.finish(), nil
		}
		if err != nil {
			return nil, fmt.Errorf("listen: %w", err)
		}
	}
}

// listener holds the last few hundredths of a second of a clip, conditioned, and
// what was found before that.
type listener struct {
	Format
	hop      int       // samples
	raw      []float64 // frames not yet making up a hop, interleaved
	channels []channel // one for each
	energy   []float64 // mean square of each hop held, channels summed
	base     int64     // the first hop held
	trigger  trigger
	pending  []onsetHop // hops that triggered and are not described yet
	last     int64      // the hop that triggered before those
	meter    meter      // levels, gaps and clipping
	levels   leveller   // the level in each ear
	spectra  *spectrometer
	picker   *picker
}

// onsetHop is a hop in which a sound begins, and the noise floor under it.
type onsetHop struct {
	at    int64
	floor float64
}

func newListener(f Format) *listener {
	hop := max(minHop, int(math.Round(hopTime*float64(f.Rate))))
	l := &listener{Format: f, hop: hop, last: math.MinInt32,
		meter:   newMeter(f, hop),
		levels:  leveller{hop: hop, levels: Levels{Step: hop * hopsOfLevel}},
		spectra: newSpectrometer(f.Rate),
		picker:  newPicker(int(0.01 * float64(f.Rate))),
	}
	for range f.Channels {
		l.channels = append(l.channels, channel{highpass: newHighpass(f.Rate), ears: newEarFilter(f.Rate)})
	}
	return l
}

// hops is the number of hops that last s seconds, at least 1.
func (l *listener) hops(s float64) int64 {
	return max(1, int64(math.Round(s*float64(l.Rate)/float64(l.hop))))
}

// take listens to the next frames.
func (l *listener) take(frames []float64) {
	if l.meter.frames == 0 && len(frames) > 0 {
		for c := range l.channels {
			l.channels[c].highpass.prime(frames[c])
		}
	}
	l.meter.frames += int64(len(frames) / l.Channels)
	size := l.hop * l.Channels
	if len(l.raw) > 0 { // what the last block left of a hop comes first
		n := min(size-len(l.raw), len(frames))
		l.raw = append(l.raw, frames[:n]...)
		frames = frames[n:]
		if len(l.raw) == size {
			l.takeHop(l.raw)
			l.raw = l.raw[:0]
		}
	}
	for len(frames) >= size {
		l.takeHop(frames[:size])
		frames = frames[size:]
	}
	l.raw = append(l.raw, frames...)
	for c := range l.channels {
		l.channels[c].highpass.settle()
		l.channels[c].ears.settle()
	}
	l.describe(l.spectraEnd())
	l.forget()
}

func (l *listener) takeHop(frames []float64) {
	sum := 0.0
	for c := range l.channels {
		e := &l.channels[c]
		n := len(e.signal)
		e.signal = grow(e.signal, l.hop)
		energy := e.highpass.filter(e.signal[n:], frames, c, l.Channels)
		sum += energy
		l.levels.sums[0] += energy
		e.ears.energies(e.signal[n:], &l.levels.sums)
	}
	l.levels.endHop()
	energy := sum / float64(l.hop)
	at := l.base + int64(len(l.energy))
	if at == 0 {
		l.trigger.start(energy)
	}
	l.energy = append(l.energy, energy)
	if l.trigger.push(energy) {
		l.pending = append(l.pending, onsetHop{at, l.trigger.floor.level})
	}
	l.meter.take(frames, energy)
}

// grow lengthens x by n samples, whose values are left to the caller.
func grow(x []float64, n int) []float64 {
	if len(x)+n <= cap(x) {
		return x[:len(x)+n]
	}
	return append(x, make([]float64, n)...)
}

// spectraEnd is the last hop whose transient can be described with what is held.
func (l *listener) spectraEnd() int64 {
	return l.base + int64(len(l.energy)) - l.hops(decayTo+attackTime)
}

// forget drops what no later transient will look at.
func (l *listener) forget() {
	from := l.base + int64(len(l.energy))
	if len(l.pending) > 0 {
		from = l.pending[0].at
	}
	drop := from - l.hops(2*trackTime+beforeTime) - l.base
	if drop < int64(len(l.energy))/2 {
		return
	}
	l.energy = append(l.energy[:0], l.energy[drop:]...)
	for c := range l.channels {
		e := &l.channels[c]
		e.signal = append(e.signal[:0], e.signal[drop*int64(l.hop):]...)
	}
	l.base += drop
}

func (l *listener) finish() *Hearing {
	if rest := len(l.raw); rest > 0 { // the last hop is filled up with its own last frame
		frames := l.raw
		for len(frames) < l.hop*l.Channels {
			frames = append(frames, frames[rest-l.Channels:rest]...)
		}
		l.takeHop(frames)
	}
	l.describe(math.MaxInt64)
	h := l.meter.hearing()
	h.Format = l.Format
	h.Channel = l.choose()
	h.Levels = l.levels.levels
	if len(l.channels) > 0 {
		h.Transients = l.channels[h.Channel].heard
	}
	return h
}

// choose returns the channel in which the transients stand out best.
func (l *listener) choose() int {
	best := 0
	for c := range l.channels {
		if l.channels[c].contrast > l.channels[best].contrast {
			best = c
		}
	}
	return best
}
