package hear

import (
	"fmt"
	"slices"

	"earshot/dsp"
	"earshot/shutter"
)

// shortestClip is the time in s below which a clip can't hold a firing: its own
// time, that of its sound dying away, and a little quiet before it to tell it by.
// Common practice, no source.
const shortestClip = 0.1

// standsOut is how far in dB a sound must rise above the noise of its clip to be more
// than noise. Steady noise by itself comes to 10 dB now and then, as the tests show,
// and firings are not expected to be found below 18 dB. Common practice, no source.
const standsOut = 12.0

// Nothing says why no firing was heard in a clip.
type Nothing struct {
	Code    string // stable
	Message string // for a person, with what to do
}

// whyNothing tells why no firing can have been heard in a clip; nil where sounds were
// heard, be they firings or not.
func whyNothing(h *dsp.Hearing) *Nothing {
	switch {
	case h.Peak == 0:
		return &Nothing{"digital-silence", "nothing but digital silence: every sample is zero; see that the microphone was on and the recorder allowed to use it"}
	case h.Duration() < shortestClip:
		return &Nothing{"too-short", fmt.Sprintf("too short to hold a firing: it lasts %s; record a few seconds before and after", shutter.TimeText(h.Duration()))}
	case !slices.ContainsFunc(h.Transients, func(t dsp.Transient) bool { return t.Level > h.Noise+standsOut }):
		return &Nothing{"nothing-stands-out", fmt.Sprintf("nothing stands out of the noise, which is at %.0f dBFS: record nearer the shutter and in a quieter room", h.Noise)}
	}
	return nil
}
