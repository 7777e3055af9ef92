// Package impact makes recordings of shutters, and of much that is not one, out of
// impacts: a contact presses on a body for a fraction of a millisecond, the body rings in
// its modes, a room reflects that, and a phone records it. What happened when is known to
// the sample. The package shares nothing with hearing, nor with any other generator.
//
// Make draws a recording of one of the Kinds by a seed; the same seed makes the same
// samples. Every range it draws from is our own idea of what is heard at a table: common
// practice, no source.
//
// Times are those at the microphone. A firing that the clip cuts off at its start has an
// opening at a negative time; one that is cut off at the end does not close.
//
// Levels are in dB over 3 ms and above 1 kHz, where 0 is the loudest sound of a
// shutter's stroke, unless a comment says otherwise.
package impact
