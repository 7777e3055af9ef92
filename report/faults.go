package report

import (
	"fmt"
	"slices"
	"strings"
)

// Limits beyond which a recording has a fault. Firings are found down to 18 dB of click over
// noise (docs/accuracy.md). The others are common practice, no source.
const (
	leastClick     = -48.0 // dBFS: the recorder's own noise is not far below
	clippedAtAll   = 4     // samples: a clip scaled up to full scale reaches it once or twice
	leastClickOver = 18.0  // dB
)

// findings says everything that was found of a clip, a line each, in the same order for every
// clip. Of digital silence there is nothing else to say.
func (c Clip) findings() []SoundFinding {
	if c.Sound.Peak == nil {
		return []SoundFinding{limiting("level", "Every sample is zero.",
			"Nothing can be judged.", "See that the microphone is on and that the recorder may use it.")}
	}
	return []SoundFinding{c.level(), c.clipping(), c.noise(), c.bandwidth(), c.gate(), c.gain(), c.gaps(), c.sides(), c.hum()}
}

func fine(name, text string, args ...any) SoundFinding {
	return SoundFinding{Name: name, Text: fmt.Sprintf(text, args...)}
}

// fault is a finding to be avoided in the next recording. It may limit nothing that is timed
// or judged; limits says so.
func fault(name, text, limits, advice string) SoundFinding {
	return SoundFinding{Name: name, Fault: true, Text: text, Limits: limits, Advice: advice}
}

// limiting is a fault that does.
func limiting(name, text, limits, advice string) SoundFinding {
	f := fault(name, text, limits, advice)
	f.Limiting = true
	return f
}

func (c Clip) level() SoundFinding {
	text := fmt.Sprintf("The loudest sample is at %.0f dBFS.", *c.Sound.Peak)
	click := c.Sound.Click
	if click != nil {
		text = fmt.Sprintf("Clicks are at %.0f dBFS, the loudest sample at %.0f.", *click, *c.Sound.Peak)
	}
	if click == nil || *click >= leastClick {
		return fine("level", "%s", text)
	}
	return fault("level", text+" That is too quiet.", "It limits nothing by itself: what the recorder's own noise hides is seen under noise.",
		"Put the phone 10 to 30 cm from the shutter, or turn the recording level up.")
}

func (c Clip) clipping() SoundFinding {
	n := c.Sound.Clipped
	if n < clippedAtAll {
		return fine("clipping", "None.")
	}
	return fault("clipping", fmt.Sprintf("%d samples are cut off at full scale.", n),
		"It limits nothing: a sound is timed by how it begins, before it is loudest. Openings and closings are harder to tell apart.",
		"Put the phone farther away, or turn the recording level down.")
}

func (c Clip) noise() SoundFinding {
	floor, over := c.Sound.Floor, c.Sound.ClickOver
	const quieter = "Record nearer the shutter and in a quieter room, without fans or a radio."
	switch {
	case floor == nil && c.Sound.Lost > 0:
		return fine("noise", "What noise there was is muted.")
	case floor == nil && c.Sound.Click != nil:
		return fine("noise", "The clip is too short to tell.")
	case floor == nil:
		return limiting("noise", "The clip is too short to hold a sound and the quiet to tell it by.", "Nothing can be judged.", "Record a few seconds before and after.")
	case over == nil:
		return limiting("noise", fmt.Sprintf("Nothing stands out of the noise, which is at %.0f dBFS.", *floor), "Nothing can be judged.", quieter)
	}
	text := fmt.Sprintf("Clicks stand %.0f dB over the noise, which is at %.0f dBFS.", *over, *floor)
	if *over >= leastClickOver {
		return fine("noise", "%s", text)
	}
	return limiting("noise", text+" That is too little.",
		fmt.Sprintf("Firings may be missed, and other sounds taken for them: they are found reliably from %.0f dB on. Those found are timed less precisely.", leastClickOver), quieter)
}

func (c Clip) bandwidth() SoundFinding {
	b := c.Sound.Bandwidth
	if b == nil {
		return fine("bandwidth", "Nothing stands out by which to tell.")
	}
	text := fmt.Sprintf("Sounds reach up to %.1f kHz.", *b/1000)
	limits := fmt.Sprintf("Onsets are smeared: all durations may be off alike, by a standard uncertainty of %.2f ms, which is added to theirs.", 1000*c.Sound.Smear)
	switch {
	case c.Sound.Smear == 0:
		return fine("bandwidth", "%s", text)
	case *b >= float64(c.Rate)/2:
		return limiting("bandwidth", text+fmt.Sprintf(" That is all that %g kHz of sampling holds.", float64(c.Rate)/1000), limits, "Record at 44.1 kHz or more.")
	}
	return limiting("bandwidth", text+" A lossy format or a voice mode has cut off the rest.", limits,
		"Record as WAV, or lossless, without voice mode, and copy the file itself: messengers encode sound anew.")
}

func (c Clip) gate() SoundFinding {
	if !c.Sound.Gated {
		return fine("gate", "None.")
	}
	return limiting("gate", fmt.Sprintf("A noise gate has muted the pauses, %.1f s in all.", c.Sound.Lost),
		"Firings that hold a muted stretch, or begin or end beside one, are not judged: the sound that tells when may be in it.",
		"Turn off noise reduction and voice modes.")
}

func (c Clip) gain() SoundFinding {
	if c.Sound.Recovery == 0 {
		return fine("gain", "It stays the same.")
	}
	return fault("gain", fmt.Sprintf("The recorder turns itself down at loud sounds: after each the noise rises again, by %.1f dB and more.", c.Sound.Recovery),
		"It limits no time: a sound begins before the recorder turns down. How loud movements are can't be compared, so lazy blades are not looked for.",
		"Turn off automatic gain, or lay the phone farther away so that it has less to do.")
}

func (c Clip) gaps() SoundFinding {
	if c.Sound.Gated || c.Sound.Lost == 0 {
		return fine("gaps", "No sample is missing that would show.")
	}
	return limiting("gaps", fmt.Sprintf("Samples were lost and filled with zeros, %.0f ms in all.", c.Sound.Lost*1000),
		"Firings that hold a gap, or begin or end beside one, are not judged: time may be missing.",
		"Close other apps, record to the phone's own memory, and use another recorder if it comes again.")
}

func (c Clip) hum() SoundFinding {
	h := c.Sound.Hum
	if h == nil {
		return fine("hum", "None.")
	}
	return fault("hum", fmt.Sprintf("The mains hum at %.0f Hz and its multiples, %.0f dBFS in all.", h.Frequency, h.Level),
		"It limits nothing: only what is above 500 Hz is listened to.",
		"Keep the phone off its charger and away from lamps and transformers.")
}

// sides says what the channels are worth, and which was used.
func (c Clip) sides() SoundFinding {
	used := fmt.Sprintf("Channel %d of %d was used.", c.Channel+1, c.Channels)
	const limits = "It limits nothing: channels are never mixed, and the one in which sounds stand out best is used."
	switch dead, opposite := c.Sound.Dead, c.Sound.Opposite; {
	case c.Channels == 1:
		return fine("channels", "One.")
	case len(dead) > 0:
		return fault("channels", fmt.Sprintf("%s %s. %s", numbered("Channel", dead), oneOrMore(dead, "holds nothing", "hold nothing"), used), limits,
			"See whether that microphone is covered or broken, or record one channel.")
	case len(opposite) > 0:
		return fault("channels", fmt.Sprintf("%s %s opposite in phase to channel 1. %s", numbered("Channel", opposite), oneOrMore(opposite, "is", "are"), used), limits,
			"Don't mix the channels into one: they would cancel each other. Name this file as it is.")
	}
	return fine("channels", "%s", used)
}

// numbered names channels, counted from 1.
func numbered(noun string, channels []int) string {
	numbers := make([]string, len(channels))
	for i, c := range slices.Sorted(slices.Values(channels)) {
		numbers[i] = fmt.Sprint(c + 1)
	}
	return oneOrMore(channels, noun, noun+"s") + " " + strings.Join(numbers, ", ")
}

func oneOrMore(channels []int, one, more string) string {
	if len(channels) == 1 {
		return one
	}
	return more
}
