// Package describe tells what one stretch of a clip is like, for a picture or for what is
// to be judged by it. It reads that stretch again and no more, and knows nothing of how
// sounds were found.
//
//   - [Outline] is what a stretch looks like on paper, in columns.
//   - [ListenToForeground] is how it stands out of the noise around it, value by value;
//     [Foreground.Repetition] is how often it repeats itself.
//   - [ListenToStrike] is how loud a movement struck, what led to that, and whether it
//     bounced.
//
// Times are in samples from the start of the clip, levels in dBFS, both as in package dsp;
// all is of sound that is conditioned as for detection, so nothing is told of what lies
// below 500 Hz.
package describe
