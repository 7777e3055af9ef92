// Package shutter makes judged speeds of sudden sounds: it finds the firings of a
// shutter among what was heard, lays them against the dial, and says how far each speed
// is from its mark, how sure that is, and what is wrong. It knows no files and draws
// nothing.
//
// [Hear] finds and times the firings of one clip, [Lay] lays them against the settings
// told ([LayNamed] against marks from the names of clips, or the nearest ones), and
// [Judge] makes a [Check] of both. [Compare] holds two sittings with one shutter against
// each other.
//
// Times are in s from the start of a clip, deviations in stops: log2 of the duration over
// the nominal time, + is slow (more light). No firing is dropped: what can't be counted is
// listed with its reason. No NaN or Inf leaves the package, and the zero [Verdict] judges
// nothing.
//
// Sound tells when metal hits metal, not when half the light is through. What that may
// cost is a term of every [Budget], and ends the ear's reach at fast speeds.
package shutter
