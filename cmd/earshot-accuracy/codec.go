package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"

	"earshot/dsp"
	"earshot/dsp/wavfile"
)

// codec is a lossy coding, by one of ffmpeg's encoders.
type codec struct {
	name    string
	encoder string
	suffix  string // of the file that holds it
	kbits   int    // a second
	rate    int    // sample rate of the file, Hz; 0: that of the clip
}

// codecs are those that telephones and messengers write, at rates from poor to good.
func codecs() []codec {
	var all []codec
	add := func(c codec, kbits ...int) {
		for _, c.kbits = range kbits {
			all = append(all, c)
		}
	}
	add(codec{name: "AAC", encoder: "aac", suffix: ".m4a"}, 32, 64, 128)
	add(codec{name: "Opus", encoder: "libopus", suffix: ".ogg"}, 24, 48, 64)
	add(codec{name: "MP3", encoder: "libmp3lame", suffix: ".mp3"}, 96)
	return all
}

func (c codec) String() string { return fmt.Sprintf("%s, %d kbit/s", c.name, c.kbits) }

// codedClips is how many clips go through each codec: few, since coding takes longer
// than anything else here.
const codedClips = 2

// coded are recordings through each codec.
func coded() []condition {
	var all []condition
	for _, c := range codecs() {
		all = append(all, condition{c.String(), beyond, codedClips, func(r *scene, _ int) {
			r.via, r.Noise.ClickOver = &coding{codec: c}, 30
		}})
	}
	return all
}

// coding is one clip through a codec. It keeps what came back, since coding again for
// every listener would take most of a run.
type coding struct {
	codec
	once sync.Once
	wav  []byte
	err  error
}

// pass returns what came back of the clip that it is given first.
func (c *coding) pass(src dsp.Source) (dsp.Source, error) {
	c.once.Do(func() { c.wav, c.err = c.codec.pass(src) })
	if c.err != nil {
		return nil, c.err
	}
	return wavfile.NewReader(bytes.NewReader(c.wav), int64(len(c.wav)), c.String())
}

// pass codes a clip and decodes it again, to WAV. The delay that coding adds is taken out by
// what the file says of it, as ffmpeg does on its own, so that times stay what they
// were.
func (c codec) pass(src dsp.Source) (wav []byte, err error) {
	dir, err := os.MkdirTemp("", "earshot-accuracy-")
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	plain, coded := filepath.Join(dir, "plain.wav"), filepath.Join(dir, "coded"+c.suffix)
	if err := writeClip(plain, src); err != nil {
		return nil, err
	}
	args := []string{"-i", plain, "-c:a", c.encoder, "-b:a", fmt.Sprintf("%dk", c.kbits)}
	if c.rate > 0 {
		args = append(args, "-ar", fmt.Sprint(c.rate))
	}
	// ffmpeg's own encoder of Vorbis wants to be told that an experiment will do
	if _, err := ffmpeg(append(args, "-strict", "-2", coded)...); err != nil {
		return nil, err
	}
	return ffmpeg("-i", coded, "-f", "wav", "-")
}
