package quality

import (
	"math"
	"slices"

	"earshot/dsp/internal/num"
)

// A codec or a voice mode makes a cliff in the spectrum, while sounds and rooms fade towards
// high frequencies, and a recorder's own filter lies near half of its sampling rate. So the
// bandwidth ends at a cliff: everything within a fifth of the frequency below it, with the
// noise between the tones of a sound, is this far over everything above it. A fourth-order
// filter falls by 6 dB over that range.
const (
	cliff        = 12.0 // dB
	belowEdge    = 0.8  // of the edge: from where on
	ofBelow      = 0.2  // of what lies below may be lower
	noEdgeBelow  = 1500 // Hz: less is no speech either
	nearlyItself = 0.92 // of half the sampling rate, beyond which a recorder's own filter lies
)

// Standard uncertainties that a narrow band adds to a time between two onsets; the error is
// the same in all of a clip. They are half of the 95th percentiles measured over whole
// recordings: 1.18 ms after AAC at 32 kbit/s, and 0.66 ms at a sampling rate of 8 kHz, which
// is 5.3 samples (docs/accuracy.md). If sounds reach the whole band, the errors of a codec
// stay within the uncertainty of each onset.
const (
	wholeBand      = 18000.0 // Hz
	smearOfCodec   = 0.6e-3  // s
	smearOfSamples = 2.65    // samples
)

// Smear is the standard uncertainty, in s, that the bandwidth adds to a time between two
// onsets. It is one error for the whole clip, and 0 if sounds reach the whole band.
func (q *Quality) Smear() float64 {
	switch nyquist := float64(q.rate) / 2; {
	case q.Loud == nil || q.Bandwidth >= wholeBand:
		return 0
	case q.Bandwidth < nyquist:
		return smearOfCodec
	default:
		return smearOfSamples / float64(q.rate)
	}
}

// cutoff is the frequency in Hz above which a spectrum holds nothing, half the sampling
// rate where it does not end before. Of several cliffs the steepest counts.
func cutoff(s *Spectrum) float64 {
	nyquist := s.Step * float64(len(s.Density)-1)
	above := s.aboveEach()
	best, steepest := nyquist, cliff
	for k := s.bin(noEdgeBelow); float64(k)*s.Step < nyquist*nearlyItself; k++ {
		hz, beyond := float64(k)*s.Step, math.Max(above[s.bin(float64(k+2)*s.Step)], leastDensity)
		if s.mean(hz*belowEdge, hz) < beyond { // most is below what is above: it is not worth looking at
			continue
		}
		below := slices.Clone(s.Density[s.bin(hz*belowEdge):k])
		if fall := num.Decibel(num.Nth(below, int(ofBelow*float64(len(below)))) / beyond); fall > steepest {
			best, steepest = hz, fall
		}
	}
	return best
}

// aboveEach is, for each bin, the highest density at or above it, smoothed over a fiftieth of
// the frequency.
func (s *Spectrum) aboveEach() []float64 {
	above := make([]float64, len(s.Density))
	most := 0.0
	for k := len(above) - 1; k >= 0; k-- {
		hz := float64(k) * s.Step
		most = max(most, s.mean(hz, hz*1.02))
		above[k] = most
	}
	return above
}
