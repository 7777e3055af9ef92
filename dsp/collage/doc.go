// Package collage pieces test recordings together from real recorded sounds, with known
// truth. Nothing in it is a wave form that somebody thought of: the clicks of a shutter
// are keys of a keyboard, rims, wood, chips and a camera, recorded; the noise has the
// spectrum of recorded hiss; the room is a recorded decay; speech, typing, doors, steps
// and music are recordings. It shares nothing with any other generator, nor with hearing.
//
// Open a Library once with a function that decodes a file, ask for Kinds, and Make a clip
// of a kind and a seed; the same kind and seed give the same samples.
//
// # Convention
//
// A recorded click is cut where it first passes 5 % of its peak. Only such are used as
// have their peak within 2.5 ms from there and nothing as loud again within 40 ms. The
// first sample after the cut is laid on the sample that Stroke.Start or Stop tells, and
// echoes come after it, so these times are exact to the sample. What a phone does later
// (suppressing noise, coding) may smear a sound ahead of its time, as phones do.
//
// A firing is Plain at 18 dB of SNR or more, at 1/60 or slower, where each end is 12 dB
// over the noise and rises by 4 dB out of what was before it, and nothing else that is
// loud lies within 40 ms. A firing that the clip's beginning cuts off has its opening
// before 0. Strokes of a leaf shutter that make one sound have the same Start and Stop.
// Duration is told start to start for leaf shutters, stop to stop for focal-plane ones.
//
// SNR compares the louder of start and stop of each opening and closing, the median of
// them, with the noise as it is before the phone turns gain up or suppresses anything.
//
// # Packages
//
// The sounds are in these packages of Debian:
//
//   - sound-theme-freedesktop, CC-BY-SA-3.0: a camera
//   - bucklespring-data, GPL-2+: keys pressed and let go
//   - sonic-pi-samples, CC0: percussion, loops, hiss, guitar
//   - minetest-data, CC-BY-SA-3.0, CC-BY-3.0 and MIT: steps, doors, digging, fire, water
//   - lmms-common, GPL-2+: percussion and beats
//   - pokerth-data, BSD-3-clause and GPL-2+: chips and cards
//   - tuxpaint-data, GPL-2+: typewriter, clicks
//   - sound-icons, GPL-2+: percussion, instruments
//   - asterisk-core-sounds-en-wav, -es-wav and -fr-wav, CC-BY-SA-3.0: speech
//   - asterisk-core-sounds-it-wav and -ru-wav, CC-BY-3.0: speech
//   - pocketsphinx-testdata, BSD-2-clause: speech
//
// # Limits
//
// Clicks are of things the size of a shutter, not of shutters, and a firing is laid out
// by rules, not recorded whole. No recording of a crowd or of rain is among the packages.
package collage
