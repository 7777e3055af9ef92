// Package synth makes recordings of mechanical shutters whose truth is known: a
// shutter drawn from a seed is fired and wound in a room and recorded by a
// telephone, and the package says exactly when its blades moved. The demo, the
// tests and the accuracy benchmark listen to what it makes.
//
// It shares no code with detection and is written from how the sounds arise, so
// that what is measured on it says something about real recordings.
//
// # Use
//
//	shutter := synth.Draw(7, synth.Leaf)
//	clip, err := synth.Recording{
//		Seed:  7,
//		Take:  synth.Take{Shutter: shutter, Settings: synth.Fire(synth.Modern(), 3)},
//		Noise: synth.Noise{Colour: synth.RoomNoise, ClickOver: 30},
//		Phone: synth.Phone{Rate: 48000, Bits: 16},
//	}.Clip()
//
// A Clip is a [dsp.Source]; Clip.Truth holds the firings and every other sound.
// It renders in blocks as it is read, so an hour takes no more memory than a
// minute but for the list of what sounded. [Loop] makes a long clip of a short
// one at the cost of copying. Everything follows from the seeds alone.
//
// # Time
//
// Times are in s from the clip's start, as the sound arrives at the first
// microphone. They are real numbers: a sound is a sum of functions of continuous
// time, evaluated at the sampling instants, so an onset lies where it lies
// between two samples. They are by the recorder's clock, which is right unless told
// otherwise. An onset is the instant at which the new sound begins to
// grow from exactly nothing; it can be heard a little later, the more so the
// softer it starts.
//
// # Levels
//
// The unit is the shutter's click. A click's level is the RMS of its loudest 2 ms
// in the band above 500 Hz (a fourth-order Butterworth high-pass, −3 dB at
// 500 Hz), of the direct sound alone, without noise and echo. The click level of
// a clip is the median of that over the openings and closings of its first 32
// firings; in a clip without a firing it is what a click as strong as the unit would
// have. Click over noise is the click level over the RMS of the noise in the
// same band, at the clip's own sampling rate (so the band ends at half of it), in
// dB, before the telephone's gain control, gate and clipping. Hum lies below that
// band and is stated apart. The level of every other sound is that of its loudest
// 2 ms over all frequencies, in dB against the click.
//
// # What has a source
//
//   - A struck body sounds in damped modes, and a contact of duration T excites
//     them by the spectrum of a half-sine pulse of length T: theory of impact after
//     Hertz, as in K. L. Johnson, Contact Mechanics, 1985 (from memory).
//   - Diffuse reverberation is noise that decays exponentially by 60 dB in RT60; the
//     direct and the reverberant sound are equally strong at the distance
//     0.057·√(V/RT60) m: H. Kuttruff, Room Acoustics (from memory).
//   - Vowels are pulses through resonances at the formants of G. E. Peterson and
//     H. L. Barney, 1952 (values from memory).
//   - A curtain of a focal-plane shutter needs 10 to 20 ms across the frame, and a
//     blade of a leaf shutter about 2 ms for its stroke, more in big ones (camera
//     repair manuals; the 2 ms follows from published efficiencies).
//   - Nominal times behind the modern marks are binary: ISO 516 and JIS B 7091 fix
//     the marks, the exact values are doublings.
//
// # What is common practice, no source
//
// The strengths of the sounds against each other, the beat rates and strengths of
// escapements, where the pallet drops out, bounce delays, the lead of a reflex
// body, winding, the spread from firing to firing, how faults show, how telephones
// set their gain and gate their noise. Each is drawn from a range wide enough to
// hold what is heard at a table.
package synth
