// Package quality measures how fit a recording is to be timed: its noise and how far
// sounds stand out of it, its bandwidth, hum, what gates and gain controls did to it,
// and its channels. It measures and does not judge.
//
// A clip is not read through again. [Measure] goes by what was heard in it and reads
// a bounded number of places once more, spread over the whole: the quietest stretches
// between sounds and the loudest sounds. So it costs the same for an hour as for a
// minute.
//
// Spectra are Welch's: the mean of periodograms of windowed segments that overlap by
// half.
//
// Levels are those of package dsp: a full-scale sine has −3.01 dBFS.
//
// # References
//
//   - Welch, P. D. (1967). The use of fast Fourier transform for the estimation of
//     power spectra. IEEE Transactions on Audio and Electroacoustics 15(2).
package quality
