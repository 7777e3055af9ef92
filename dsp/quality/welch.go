package quality

import (
	"github.com/mjibson/go-dsp/spectral"
	"github.com/mjibson/go-dsp/window"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"
)

// Spectrum is a power spectral density: Density[k] is the power, as a fraction of
// (full scale)² a Hz, at k·Step Hz; one-sided, so that its sum times Step is the mean
// square.
type Spectrum struct {
	Step    float64 // Hz
	Density []float64
}

// power is the mean square between two frequencies, Hz.
func (s *Spectrum) power(from, to float64) float64 {
	return floats.Sum(s.Density[s.bin(from):s.bin(to)+1]) * s.Step
}

// bin is the nearest one to a frequency, Hz, the last one for what lies beyond.
func (s *Spectrum) bin(hz float64) int {
	return min(max(0, int(hz/s.Step+0.5)), len(s.Density)-1)
}

// mean is the mean density between two frequencies, Hz.
func (s *Spectrum) mean(from, to float64) float64 {
	return stat.Mean(s.Density[s.bin(from):s.bin(to)+1], nil)
}

// averager averages the spectra of blocks. A segment is even and no longer than a
// block.
type averager struct {
	rate, segment int
	blocks        int
	window, sum   []float64
}

// add adds a block, without its mean. A block shorter than a segment, as at the clip's end, is
// skipped.
func (a *averager) add(x []float64) {
	if len(x) < a.segment {
		return
	}
	centred(x)
	if a.sum == nil {
		a.window, a.sum = window.Hann(a.segment), make([]float64, a.segment/2+1)
	}
	density, _ := spectral.Pwelch(x, float64(a.rate), &spectral.PwelchOptions{NFFT: a.segment, Noverlap: a.segment / 2,
		Window: func(int) []float64 { return a.window }}) // it asks for the window of each segment anew
	floats.Add(a.sum, density)
	a.blocks++
}

// spectrum is the mean of the blocks, nil where there was none.
func (a *averager) spectrum() *Spectrum {
	if a.blocks == 0 {
		return nil
	}
	floats.Scale(1/float64(a.blocks), a.sum)
	return &Spectrum{Step: float64(a.rate) / float64(a.segment), Density: a.sum}
}

// noiseSegment is a third of a second or a little less, in samples: long enough to
// tell a hum of 50 Hz from one of 60, short enough to fit between two sounds.
func noiseSegment(rate int) int { return evenBelow(rate, 3) }

// loudSegment is about 20 ms in samples, the length of a click in a room.
func loudSegment(rate int) int { return evenBelow(rate, 40) }

// evenBelow is the smallest power of two above 1/parts of a second, in samples.
func evenBelow(rate, parts int) int {
	n := 64
	for n*parts < rate {
		n *= 2
	}
	return n
}
