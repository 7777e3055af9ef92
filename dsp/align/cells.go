package align

import (
	"math"

	"github.com/mjibson/go-dsp/window"
	"gonum.org/v1/gonum/dsp/fourier"

	"earshot/dsp"
	"earshot/dsp/internal/num"
)

// Cells of a sound in time and frequency.
const (
	cellTime  = 0.002                        // s, over which each has the power: what movements follow each other by at least
	cellHop   = cellTime / 4                 // s from one to the next
	cellBands = 5                            // octaves from the corner of the conditioning on
	hannWidth = 1.5 / cellTime               // Hz: the noise bandwidth of a Hann window
	distinct  = cellHop / (0.514 * cellTime) // of a cell is its own: the squares of a Hann window span half of it
)

// cells are the powers of a sound in octaves, from one hop to the next.
type cells [][cellBands]float64

// sliced gives the cells of x.
func sliced(x []float64, rate float64) cells {
	n, hop := int(math.Round(cellTime*rate)), int(math.Round(cellHop*rate))
	fft, hann := fourier.NewFFT(n), window.Hann(n)
	frame, bins := make([]float64, n), make([]complex128, n/2+1)
	var all cells
	for from := 0; from+n <= len(x); from += hop {
		for i, w := range hann {
			frame[i] = x[from+i] * w
		}
		var c [cellBands]float64
		for k, v := range fft.Coefficients(bins, frame)[1:] {
			if b := octave(float64(k+1) * rate / float64(n)); b >= 0 && b < cellBands {
				c[b] += real(v)*real(v) + imag(v)*imag(v)
			}
		}
		all = append(all, c)
	}
	return all
}

// octave is the band of a frequency in Hz, negative below all.
func octave(hz float64) int { return int(math.Floor(math.Log2(hz/dsp.HighpassHz) + 1e-9)) }

// free is how many values in band b of one cell are independent of each other and of
// those of other cells.
func free(b int) float64 {
	return distinct * math.Max(1, math.Exp2(float64(b))*dsp.HighpassHz/hannWidth)
}

// steadily is the median of each band over the cells.
func (c cells) steadily() (level [cellBands]float64) {
	x := make([]float64, len(c))
	for b := range level {
		for k := range c {
			x[k] = c[k][b]
		}
		level[b] = num.Median(x)
	}
	return level
}

// loudest is the largest power of each band over the cells.
func (c cells) loudest() (level [cellBands]float64) {
	for k := range c {
		for b, p := range c[k] {
			level[b] = math.Max(level[b], p)
		}
	}
	return level
}

// lasting is c made n cells long: what is not known of it dies away as sounds do.
func (c cells) lasting(n int) cells {
	fades := math.Pow(10, -dsp.Fading*cellHop/10)
	out := make(cells, n)
	for k := copy(out, c); k < n; k++ {
		for b := range out[k] {
			out[k][b] = out[k-1][b] * fades
		}
	}
	return out
}
