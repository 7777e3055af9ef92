// Package shutter holds the nouns of judging a shutter: a [Mark] on its dial and the
// [Series] it belongs to, a [Step] told and how steps are written, the [Kind] of shutter,
// a [Firing] as it was heard, the statistics of a few numbers, and the words for a time
// and a deviation. It knows no files, no sample rates, and draws nothing.
//
// Packages below it do the work: hear makes firings of sound, assign lays them against
// the dial, and judge says how far each speed is from its mark, with what uncertainty,
// and what is wrong. judge and assign never import hear: all they know of a sound is in a
// Firing.
//
// Times are in s from the start of a clip, deviations in stops: log2 of the duration over
// the nominal time, + is slow (more light). No firing is dropped: what can't be counted is
// listed with its reason. No NaN or Inf leaves these packages.
//
// Sound tells when metal hits metal, not when half the light is through. The difference is a
// term of every uncertainty, and makes fast speeds impossible to judge.
package shutter
