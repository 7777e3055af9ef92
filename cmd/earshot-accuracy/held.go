package main

import (
	"earshot/dsp"
	"earshot/dsp/synth"
)

// holding is a clip of one channel held in memory, for which no sound is rendered twice.
func holding(c *synth.Clip) *dsp.Held {
	return &dsp.Held{Layout: c.Format(), Frames: c.Samples()[0]}
}
