package impact

import "gonum.org/v1/gonum/dsp/fourier"

// convolve adds to dst what x becomes by a response, and drops what comes after the end of
// dst. It works block by block, and leaves out blocks of silence.
func convolve(dst, x, response []float64) {
	size := 4096
	for size < 2*len(response) {
		size *= 2
	}
	fft := fourier.NewFFT(size)
	step := size - len(response) + 1
	block := make([]float64, size)
	copy(block, response)
	spectrum := fft.Coefficients(nil, block)
	of := make([]complex128, len(spectrum))
	for at := 0; at < len(x); at += step {
		n := copy(block, x[at:min(len(x), at+step)])
		clear(block[n:])
		if peak(block[:n]) == 0 {
			continue
		}
		fft.Coefficients(of, block)
		for i := range of {
			of[i] *= spectrum[i]
		}
		fft.Sequence(block, of)
		for i := 0; i < size && at+i < len(dst); i++ {
			dst[at+i] += block[i] / float64(size)
		}
	}
}
