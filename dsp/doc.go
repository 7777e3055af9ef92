// Package dsp hears sudden sounds in a recording: where each begins, how sure
// that is, and what it sounded like. It knows nothing of cameras.
//
// [Listen] reads a [Source] once, in blocks, and returns a [Hearing]: the
// transients of the clip in time order, the level of the sound between them, and
// where samples were lost. What outlives a block is a few hundred bytes a
// transient and 200 bytes a second, so memory hardly grows with the clip.
//
// # Conventions
//
// Samples are float64, full scale is ±1. A level in dBFS is 10·log10 of the mean
// square, so a full-scale sine has −3.01 dBFS (AES17 would call that 0 dBFS).
// Times are in samples from the start of the clip: sample i is the instant i, and
// an onset of 1000 means that sample 1000 is the first of the new sound. Onsets
// are fractional: they are the mean of a probability over samples.
//
// # How a transient is found
//
// Each channel passes a fourth-order Butterworth high-pass at 500 Hz (hum,
// rumble and handling lie below, metal on metal above). The filter is causal, so
// that nothing of a sound appears before its onset; its delay is the same for
// every onset. The energy of all channels, summed over hops of half a
// millisecond, is the characteristic function of an STA/LTA trigger with
// hysteresis [Allen 1978]; summing energies is blind to phase and to a dead
// channel. Where the sound stands out of what an earlier one leaves, its onset is
// then picked at the full rate, on each channel by itself, by the Akaike information
// criterion of two noises of different power [Maeda 1985]; the Akaike weights are
// the probability that it lies at each sample, and give its standard uncertainty
// too. Its spectrum is taken from there on. Of sounds taken for the same movement made
// again, package align then does better than a single pick can; what one stretch of a
// clip is like is told by package describe. Both read it again by [Excerpt].
//
// # Ears
//
// The level over time is kept in four ears as well, from 0.5, 1, 2 and 4 kHz up, 1 ms a
// value and a byte each ([Levels]): 4 kB a second. No corner is best for all clips: speech and rooms are
// loud low down, noise hides what is high. Who explains a whole clip looks at all of them.
//
// # References
//
//   - Allen, R. V. (1978). Automatic earthquake recognition and timing from
//     single traces. Bulletin of the Seismological Society of America 68(5).
//   - Maeda, N. (1985). A method for reading and checking phase times in
//     autoprocessing system of seismic wave data. Zisin 38, 365–379.
//   - Burnham, K. P. and Anderson, D. R. (2002). Model selection and multimodel
//     inference, 2nd ed. (Akaike weights; from memory).
package dsp
