package main

import (
	"fmt"
	"hash/fnv"
	"math/rand/v2"

	"earshot/dsp/synth"
	"earshot/shutter"
)

// group says what a condition counts towards.
type group string

const (
	core   group = "core"   // held to the targets
	beyond group = "beyond" // held to them only together with all others
	quiet  group = "quiet"  // holds no firing, and none may be found
)

// condition is one row of the benchmark: how its recordings differ from the plain one (see
// plain). The difference is drawn anew for each clip.
type condition struct {
	name   string
	group  group
	clips  int
	change func(r *scene, clip int)
}

// recording is what is played in one clip. Its seed depends on the condition's
// name, so that a row added or moved leaves the others as they were.
func (c condition) recording(seed uint64, clip int) scene {
	h := fnv.New64a()
	fmt.Fprintf(h, "%d/%s/%d", seed, c.name, clip)
	r := scene{Recording: plain(h.Sum64(), clip), kind: shutter.Leaf}
	if c.group == quiet {
		still(&r)
	}
	if c.change != nil {
		c.change(&r, clip)
	}
	return r
}

// perSetting is how often each speed is fired.
const perSetting = 3

// plain is a leaf shutter whose blades start sharply, fired three times at each
// speed from 1 to 1/30, in a quiet room. Clips alternate between the sampling rates
// of telephones, and take turns in how the shutter is wound. The recorder's clock is
// off within ±100 ppm.
//
// The shutter deviates alike at all its speeds, so that the mean deviation it was
// drawn with is the truth for every one of them.
func plain(seed uint64, clip int) synth.Recording {
	rnd := rand.New(rand.NewPCG(seed, 1))
	s := synth.Draw(seed, synth.Leaf)
	s.Soft, s.Uneven = false, 0
	s.Winding = []synth.Winding{synth.RatchetWinding, synth.StrokeWinding, synth.NoWinding}[clip%3]
	return synth.Recording{
		Seed:  seed,
		Take:  synth.Take{Shutter: s, Settings: synth.Fire(synth.Modern()[:6], perSetting)},
		Noise: synth.Noise{Colour: synth.RoomNoise, ClickOver: 40},
		Phone: synth.Phone{Rate: []int{48000, 44100}[clip/3%2], Bits: 16, ClockPPM: 100 * (2*rnd.Float64() - 1)},
	}
}

// stillLength is how long a clip without a firing lasts, s, and stillClips how many
// there are of each kind: each has its own sounds, and together they last 10 minutes.
const (
	stillLength = 60.0
	stillClips  = 10
)

// still takes the firings out of a recording.
func still(r *scene) {
	r.Take.Settings, r.Take.Length = nil, stillLength
	r.Noise.ClickOver = 30
}

// refire changes the kind of shutter and keeps the rest as drawn.
func refire(r *scene, kind synth.Kind) {
	s := synth.Draw(r.Seed, kind)
	s.Soft, s.Uneven = false, 0
	r.Take.Shutter = s
}
