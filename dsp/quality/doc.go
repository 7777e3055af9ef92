// Package quality measures how well a recording can be timed: its noise and how far sounds
// stand out of it, its bandwidth and hum, what gates and gain controls did to it, and its
// channels. It measures and does not judge.
//
// The whole clip is not read again. [Measure] uses what was heard in it, and reads a bounded
// number of places, spread over the clip: the quietest stretches between sounds and the
// loudest sounds. So its time does not depend on the length of the clip.
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
