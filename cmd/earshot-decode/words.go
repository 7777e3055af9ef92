package main

import (
	"fmt"
	"strings"

	"earshot/dsp/clip"
	"earshot/dsp/wavfile"
)

// coding is what is known of a codec, by ffmpeg's name for it.
type coding struct {
	name  string // as a person calls it
	kind  kind
	least float64 // bits a second and channel below which onsets blur; 0 where not so
}

// kind is how a codec treats sound.
type kind int

const (
	lossless kind = iota
	lossy
	speech
)

// codings lists the codings of phones and recorders. The least rates are the lowest at which
// docs/accuracy.md finds errors of a tenth of a millisecond or less. Vorbis was not measured,
// and has the rate of AAC.
func codings() map[string]coding {
	return map[string]coding{
		"aac":    {"AAC", lossy, 64e3},
		"alac":   {"ALAC", lossless, 0},
		"mp3":    {"MP3", lossy, 96e3},
		"flac":   {"FLAC", lossless, 0},
		"vorbis": {"Vorbis", lossy, 64e3},
		"opus":   {"Opus", lossy, 48e3},
		"amr_nb": {"AMR", speech, 0},
		"amr_wb": {"AMR-WB", speech, 0},
	}
}

// coding is what is known of the clip's codec.
func (k facts) coding() coding {
	if c, ok := codings()[k.codec]; ok {
		return c
	}
	if strings.HasPrefix(k.codec, "pcm_") {
		return coding{name: "PCM"}
	}
	return coding{name: k.codec, kind: lossy, least: 64e3}
}

// words names the clip's coding: "AAC in M4A, 128 kbit/s", "FLAC".
func (k facts) words(f clip.Format) string {
	c := k.coding()
	words := c.name
	if strings.HasPrefix(k.profile, "HE-") {
		words = "HE-" + words
	}
	if strings.Contains(string(f), words) {
		words = string(f)
	} else {
		words += " in " + string(f)
	}
	if c.kind != lossless && k.bits > 0 {
		words += fmt.Sprintf(", %.0f kbit/s", k.bits/1000)
	}
	return words
}

// Codes of the doubts that a coding raises; stable.
const (
	speechCodec = "speech-codec"
	lowBitRate  = "low-bit-rate"
	secondSound = wavfile.SecondData
	cutShort    = wavfile.Truncated
)

// warnings are the doubts that the clip's coding raises.
func (k facts) warnings() []clip.Warning {
	var list []clip.Warning
	c := k.coding()
	per := k.bits / float64(k.channels)
	switch {
	case c.kind == speech:
		list = append(list, clip.Warning{Code: speechCodec, Message: fmt.Sprintf(
			"%s at %g kHz is made for speech and blurs clicks: record as WAV or lossless, times from this are rough", c.name, float64(k.rate)/1000)})
	case c.kind == lossy && k.bits > 0 && per < c.least:
		list = append(list, clip.Warning{Code: lowBitRate, Message: fmt.Sprintf(
			"%s of %.0f kbit/s a channel blurs clicks, which takes %.0f: choose the recorder's best quality, or lossless", c.name, per/1000, c.least/1000)})
	}
	if k.streams > 1 {
		list = append(list, clip.Warning{Code: secondSound, Message: fmt.Sprintf("the file holds %d sounds, and only the first is read", k.streams)})
	}
	return list
}
