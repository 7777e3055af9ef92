package report

import (
	"fmt"
	"slices"
	"strings"
)

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
