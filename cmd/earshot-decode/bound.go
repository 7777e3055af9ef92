package main

import (
	"errors"
	"fmt"
	"io"

	"earshot/dsp/clip"
	"earshot/dsp/wavfile"
)

// sampleBytes is what a sample takes once it is decoded.
const sampleBytes = 4

// How much sound a small file may hold: some ten minutes, or a thousand times its size. No
// recording of sound is coded more densely; Opus at 6 kbit/s on two channels reaches half of
// that.
const (
	plentiful = 256 << 20 // bytes
	densest   = 1000
)

// refuse says why a clip is not to be decoded, judged by what its container states: it would fail,
// or hold too much sound. size is that of the file in bytes.
func (k facts) refuse(size int64, f clip.Format) error {
	const hint = "cut it into pieces of an hour"
	bytes := k.duration * float64(k.rate) * float64(k.channels) * sampleBytes
	switch {
	case k.rate < wavfile.MinRate || k.rate > wavfile.MaxRate:
		return &clip.Error{Code: clip.FormatNotRead, Message: fmt.Sprintf("its sampling rate is %d Hz, and %d to %d are read", k.rate, wavfile.MinRate, wavfile.MaxRate), Hint: clip.HintExport}
	case bytes > clip.MaxDecoded:
		return &clip.Error{Code: clip.TooLong, Message: fmt.Sprintf("it states a length of %.1f h, too long to be decoded", k.duration/3600), Hint: hint}
	case bytes > plentiful && bytes > densest*float64(size):
		return damaged(f, fmt.Sprintf("it states a length of %.1f h, and %d KB hold next to no sound", k.duration/3600, size>>10))
	}
	return nil
}

// untilFailed takes the sound until the guard finds an error. It then ends the decoding, since
// a clip that is refused need not be decoded to its end.
type untilFailed struct {
	to io.Writer
	*guard
}

var errFailed = errors.New("refused by the guard")

func (u untilFailed) Write(p []byte) (int, error) {
	if u.reason != "" {
		return 0, errFailed
	}
	return u.to.Write(p)
}
