package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"earshot/dsp/clip"
)

// facts is what the container says of the sound in it.
type facts struct {
	codec    string  // as ffmpeg names it
	profile  string  // of the codec, where it has any
	rate     int     // frames a second
	channels int     // of sound
	streams  int     // of sound, of which the first is read
	tick     float64 // what times are stated to, s
	duration float64 // s; 0 where the container states none
	bits     float64 // a second; 0 where not known
}

// probed is ffprobe's answer; numbers in quotes are left out where not known.
type probed struct {
	Streams []struct {
		Codec    string `json:"codec_name"`
		Profile  string `json:"profile"`
		Rate     string `json:"sample_rate"`
		Channels int    `json:"channels"`
		TimeBase string `json:"time_base"`
		Duration string `json:"duration"`
		BitRate  string `json:"bit_rate"`
	} `json:"streams"`
	Format struct {
		Duration string `json:"duration"`
		BitRate  string `json:"bit_rate"`
	} `json:"format"`
}

// probe asks what the container says.
func (e *engine) probe(ctx context.Context, file oneFile, f clip.Format) (facts, error) {
	var out, said bytes.Buffer
	rc, err := e.run(ctx, "ffprobe", file, &out, &said, append(input(f),
		"-loglevel", "repeat+level+warning", "-select_streams", "a", "-of", "json", "-show_entries",
		"stream=codec_name,profile,sample_rate,channels,time_base,duration,bit_rate:format=duration,bit_rate")...)
	if err != nil {
		return facts{}, err
	}
	var p probed
	switch err := json.Unmarshal(out.Bytes(), &p); {
	case rc != 0 || err != nil:
		return facts{}, damaged(f, firstTrouble(said.String()))
	case len(p.Streams) == 0:
		return facts{}, &clip.Error{Code: clip.Empty, Message: fmt.Sprintf("there is no sound in this %s", f), Hint: hintRecord}
	}
	k := p.facts()
	if strings.Contains(said.String(), "Estimating duration from bitrate") {
		k.duration = 0
	}
	if k.rate <= 0 || k.channels <= 0 {
		return facts{}, damaged(f, "it does not say how its sound is coded")
	}
	return k, nil
}

// input names the file to either program, and how to read it, whatever else it looks
// like.
func input(f clip.Format) []string {
	return []string{"-hide_banner", "-protocol_whitelist", "file", "-f", f.Demuxer(), "-i", "/" + clipName}
}

func (p probed) facts() facts {
	s := p.Streams[0]
	k := facts{codec: s.Codec, profile: s.Profile, channels: s.Channels, streams: len(p.Streams)}
	k.rate = int(number(s.Rate))
	ticks, per, _ := strings.Cut(s.TimeBase, "/")
	if n := number(per); n > 0 {
		k.tick = number(ticks) / n
	}
	k.duration, k.bits = number(s.Duration), number(s.BitRate)
	if k.duration == 0 {
		k.duration = number(p.Format.Duration)
	}
	if k.bits == 0 && len(p.Streams) == 1 {
		k.bits = number(p.Format.BitRate)
	}
	return k
}

// number reads a number; what is none, "N/A" say, is 0.
func number(s string) float64 {
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return 0
	}
	return x
}
