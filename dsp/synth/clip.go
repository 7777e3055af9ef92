package synth

import (
	"io"
	"sort"

	"earshot/dsp"
)

// blockFrames is how many frames are rendered at a time at least.
const blockFrames = 1 << 15

// leastHeard is the amplitude against full scale at which a sound has died away for
// a recorder: 120 dB below it, a thirtieth of a step of 16-bit quantisation.
const leastHeard = 1e-6

// Clip is a recording being played: a [dsp.Source] with its truth. It is not safe
// for use by several goroutines.
type Clip struct {
	Truth Truth

	format  dsp.Format
	phone   Phone
	seed    uint64
	events  []event
	heard   map[int][]grain // of the events that sound in the loaded block
	player  player
	echo    *echo // nil without a room
	shelves []shelf
	noise   float64 // factor of the noise
	wave    wave
	hum     float64 // factor of the hum
	gain    float64
	losses  []lost

	total  int64    // frames of the sound before losses
	block  int      // frames of a block
	states []memory // the recorder's memory at the start of each block reached
	loaded int      // the block in buf; −1: none
	buf    []float64
	pos    int64 // next frame of ReadFrames
}

// Format returns how the samples are laid out.
func (c *Clip) Format() dsp.Format { return c.format }

// Frames is the length of the clip.
func (c *Clip) Frames() int64 { return c.total - dropped(c.losses, c.total) }

// Duration is the length of the clip in s.
func (c *Clip) Duration() float64 { return float64(c.Frames()) / float64(c.format.Rate) }

// ReadFrames reads on, as [dsp.Source] says.
func (c *Clip) ReadFrames(dst []float64) (int, error) {
	n, err := c.ReadFramesAt(dst, c.pos)
	c.pos += int64(n)
	if n == 0 && len(dst) > 0 {
		return 0, io.EOF
	}
	return n, err
}

// ReadFramesAt reads from a frame on, as [dsp.Source] says. Jumping far ahead
// renders what lies between, jumping back does not.
func (c *Clip) ReadFramesAt(dst []float64, frame int64) (int, error) {
	ch := c.format.Channels
	n := 0
	for frame >= 0 && n < len(dst)/ch && frame < c.Frames() {
		k := c.blockOf(frame)
		c.load(k)
		got := copy(dst[n*ch:], c.buf[(frame-c.start(k))*int64(ch):]) / ch
		n += got
		frame += int64(got)
	}
	return n, nil
}

// Samples renders the whole clip, one slice a channel.
func (c *Clip) Samples() [][]float64 {
	out := make([][]float64, c.format.Channels)
	for ch := range out {
		out[ch] = make([]float64, 0, c.Frames())
	}
	for k := range c.blocks() {
		c.load(k)
		for i, v := range c.buf {
			ch := i % len(out)
			out[ch] = append(out[ch], v)
		}
	}
	return out
}

// blocks is the number of blocks.
func (c *Clip) blocks() int { return int((c.total + int64(c.block) - 1) / int64(c.block)) }

// start is the frame of the clip at which a block begins.
func (c *Clip) start(k int) int64 {
	first := int64(k) * int64(c.block)
	return first - dropped(c.losses, first)
}

// blockOf is the block that holds a frame of the clip.
func (c *Clip) blockOf(frame int64) int {
	return sort.Search(c.blocks(), func(k int) bool { return c.start(k) > frame }) - 1
}

// load puts block k into buf, rendering those before it that the recorder has not
// yet been through.
func (c *Clip) load(k int) {
	if c.loaded == k {
		return
	}
	for len(c.states) <= k {
		c.record(len(c.states) - 1)
	}
	c.record(k)
	c.loaded = k
}

// sounding finds the events heard from one time to another, s, and their grains.
func (c *Clip) sounding(from, to float64) [][]grain {
	last := sort.Search(len(c.events), func(i int) bool { return c.events[i].start >= to })
	for i := range c.heard {
		if c.events[i].end < from || c.events[i].start >= to {
			delete(c.heard, i)
		}
	}
	var out [][]grain
	for i, e := range c.events[:last] {
		if e.end < from {
			continue
		}
		if c.heard[i] == nil {
			c.heard[i] = e.play(newDice(e.seed, 0))
		}
		out = append(out, c.heard[i])
	}
	return out
}
