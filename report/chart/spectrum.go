package chart

import (
	"io"
	"math"

	"gonum.org/v1/plot/vg"
)

// Spectrum is what the picture of a clip's sound shows. Densities are in dB of (full
// scale)² a Hz, by rising frequency.
type Spectrum struct {
	Title, About string
	Faults       []string // a sentence each
	Noise, Loud  []Level  // either may be empty
	Heard        float64  // Hz: only what is above is listened to
	Bandwidth    float64  // Hz; 0 where sounds don't end before the sampling does
	Mains        float64  // Hz, of a hum; 0 for none
}

// Level is a density at a frequency.
type Level struct{ Hz, Density float64 }

// WriteSpectrum draws the spectrum: PNG 1600 px wide, or SVG.
func WriteSpectrum(w io.Writer, s Spectrum, f Format) error {
	b, err := recovered(func() ([]byte, error) { return drawn(s, f) })
	if err != nil {
		return err
	}
	_, err = w.Write(b)
	return err
}

func (s Spectrum) size() (width, height vg.Length) { return spectrumWidth, spectrumHeight }

// deepest bounds the axis, dB: silence would press all else together.
const deepest = 100

// span is the range of both axes.
func (s Spectrum) span() (lowHz, highHz, low, high float64) {
	lowHz, highHz, low, high = 20, 1000, math.Inf(1), math.Inf(-1)
	for _, list := range [][]Level{s.Noise, s.Loud} {
		for _, l := range list {
			highHz = max(highHz, l.Hz)
			low, high = min(low, l.Density), max(high, l.Density)
		}
	}
	if math.IsInf(high, 0) {
		return lowHz, 20000, -deepest, 0
	}
	high = math.Ceil(high/10)*10 + 10
	low = max(math.Floor(low/10)*10, high-deepest)
	return lowHz, highHz, min(low, high-40), high
}

// lineAt is the density that a line has at a frequency, the nearest one.
func lineAt(list []Level, hz float64) float64 {
	best := Level{Density: math.Inf(-1)}
	for _, l := range list {
		if math.Abs(l.Hz-hz) < math.Abs(best.Hz-hz) {
			best = l
		}
	}
	return best.Density
}

// The picture is 800 × 400 px at 96 dpi.
const spectrumWidth, spectrumHeight vg.Length = 600, 300
