package main

import (
	"math"

	"gonum.org/v1/gonum/dsp/fourier"
)

// boundLength is how much of a sound, in s, may tell its instant. Later sound is weak, or is a
// bounce, which has a time of its own.
const boundLength = 0.003

// delayBound is the least standard deviation, s, with which any unbiased estimator
// can tell when a known sound arrives: the Cramér–Rao bound. x is that sound without
// noise, sampled at rate, Hz, and 0 before and behind; density is the one-sided power
// density of the Gaussian noise it arrives in, full scale² per Hz, above 0 for
// frequencies above 0. It is +Inf for silence.
//
// In white noise var ≥ 1/(2E/N0·β²), with β² = ∫(2πf)²|S|²df / ∫|S|²df for the sound's
// spectrum S and energy E (S. M. Kay, 1993; A. H. Quazi, 1981; both from memory). In
// coloured noise every frequency counts by its own density N0(f), so that 2E/N0·β²
// is 4∫(2πf)²|S|²/N0(f)df over f > 0.
func delayBound(x []float64, rate float64, density func(freq float64) float64) float64 {
	n := 1
	for n < 4*len(x) { // so fine that the density hardly changes from one to the next
		n *= 2
	}
	spectrum := fourier.NewFFT(n).Coefficients(nil, append(append(make([]float64, 0, n), x...), make([]float64, n-len(x))...))
	step := rate / float64(n)
	sum := 0.0
	for k, c := range spectrum[1:] {
		freq := float64(k+1) * step
		size := (real(c)*real(c) + imag(c)*imag(c)) / (rate * rate)
		sum += 4 * math.Pow(2*math.Pi*freq, 2) * size / density(freq) * step
	}
	return 1 / math.Sqrt(sum)
}

// soundFrom is the part of x, sampled at rate, Hz, from one time to another, s, but no longer than
// boundLength. Its last quarter fades out, since a sharp end would tell the time too.
func soundFrom(x []float64, rate, from, to float64) []float64 {
	first := int(math.Ceil(from * rate))
	last := int(math.Ceil(min(to, from+boundLength) * rate))
	y := append([]float64(nil), x[first:min(last, len(x))]...)
	n := len(y) / 4
	for i := range n {
		y[len(y)-1-i] *= (1 - math.Cos(math.Pi*float64(i)/float64(n))) / 2
	}
	return y
}
