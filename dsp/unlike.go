package dsp

import "math"

// Unlike is how much two spectra differ in shape: the RMS difference in dB over the bands
// in which at least one of them is heard, their overall levels set equal. A band lost in
// the noise of either is taken to be just audible there, so that noise neither likens nor
// tells apart. Spectra of which nothing can be compared are 0 apart.
func (s *Spectrum) Unlike(t *Spectrum) float64 {
	const audible = 3 // dB that a band must stand above the noise to tell anything
	var n, sum, squares float64
	for i := range NumBands {
		floor := float64(max(s.Noise[i], t.Noise[i])) + audible
		ofS, ofT := float64(s.Bands[i]), float64(t.Bands[i])
		if max(ofS, ofT) > floor {
			n++
		}
		d := max(ofS, floor) - max(ofT, floor) // 0 for a band lost in both
		sum += d
		squares += d * d
	}
	if n < 2 {
		return 0
	}
	return math.Sqrt(max(0, squares-sum*sum/n) / (n - 1))
}
