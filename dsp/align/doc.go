// Package align times a movement that repeats. Sounds that are taken for one movement made
// again and again are laid over each other, and what all have in common is picked once, so
// that times between them are known to a fraction of a sample.
//
//   - [LocateMovements] finds the start and the end stop of such a movement in every sound.
//   - [Movements.Template] makes a mould of them, and [Overlay] looks with two moulds for one
//     movement closely followed by another, both in one sound.
//
// Who calls it says which sounds are alike; it is told where the loudest part of each
// begins, and reads the clip again around that. A sound that is unlike the others keeps
// its own pick. All times are in samples from the start of the clip, as in package dsp.
//
// # How sounds are laid
//
// First by their envelopes, so that no cycle is skipped, then by their waveforms against
// the most typical of them, then against the mean of the others; for either the lag is the
// vertex of a parabola through the largest correlation. Start and end stop are told from
// the median of the envelopes, then each is laid by itself, since strokes vary from shot
// to shot, and picked by [dsp.PickOnset] in the mean of those that are alike.
//
// # Limits
//
// Of fewer than three sounds it can't be told which strays: each keeps its own pick. At
// a low likeness a cycle may be skipped, and the uncertainty stated is then too small.
// What comes before every one of them in the same way is taken for a part of the movement.
package align
