package hear_test

import (
	"errors"
	"testing"

	"earshot/dsp/synth"
	"earshot/shutter"
)

// curtains are the firings of a focal-plane shutter.
func curtains(seed uint64) synth.Take { return take(synth.Draw(seed, synth.FocalPlane), slow(2)) }

// alikeIn counts the clips in which openings and closings sound alike, told of a leaf
// shutter.
func alikeIn(t *testing.T, fire func(seed uint64) synth.Take) (alike, clips int) {
	t.Helper()
	for seed := range seeds {
		src, _ := played16(t, inRoom(fire)(seed))
		clips++
		if hearKind(t, src, 0, shutter.Leaf).Alike {
			alike++
		}
	}
	return alike, clips
}

// Where the mirror returns within 12 ms of the second stop, the two are one sound and
// unlike the first curtain's: it does in three of the twelve clips. In two others so few
// firings that sound alike and never buzz are no shutter's to one that was told of a leaf.
func TestCurtainsSoundAlike(t *testing.T) {
	t.Parallel()
	if alike, clips := alikeIn(t, curtains); alike < clips*7/12 {
		t.Errorf("alike in %d of %d clips, want seven of twelve", alike, clips)
	}
}

func TestBladesDoNotSoundAlike(t *testing.T) {
	t.Parallel()
	for _, kind := range []synth.Kind{synth.Leaf, synth.Reflex} {
		alike, clips := alikeIn(t, func(seed uint64) synth.Take { return take(synth.Draw(seed, kind), slow(2)) })
		if alike > 0 {
			t.Errorf("%s: alike in %d of %d clips, want none", kind, alike, clips)
		}
	}
}

func TestAKindOfShutterIsReadAsItIsWritten(t *testing.T) {
	for _, kind := range []shutter.Kind{shutter.Leaf, shutter.FocalPlane} {
		if got, err := shutter.ParseKind(string(kind)); got != kind || err != nil {
			t.Errorf("ParseKind(%q) = %q, %v", kind, got, err)
		}
	}
	for _, s := range []string{"", "Leaf", "focal plane", "leaf "} {
		if got, err := shutter.ParseKind(s); !errors.Is(err, shutter.ErrKind) {
			t.Errorf("ParseKind(%q) = %q, %v, want ErrKind", s, got, err)
		}
	}
}
