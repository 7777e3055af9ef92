package main

import (
	"earshot/dsp"
	"earshot/dsp/synth"
	"earshot/shutter"
)

// scene is what is played in one clip: a synthesised recording, with recorded sounds
// beside the shutter or none, kept as it is or through a codec.
type scene struct {
	synth.Recording
	kind   shutter.Kind // that hearing is told
	beside *beside      // nil: nothing but what is synthesised
	via    *coding      // nil: the samples as they are
}

// misheard tells whether a clip is heard as of another kind of shutter than it is of.
func (s scene) misheard() bool {
	return s.Take.Shutter != nil && (s.Take.Shutter.Kind == synth.FocalPlane) != (s.kind == shutter.FocalPlane)
}

// Clip plays the scene and returns its truth. It plays alike each time.
func (s scene) Clip() (dsp.Source, synth.Truth, error) {
	clip, err := s.Recording.Clip()
	if err != nil {
		return nil, synth.Truth{}, err
	}
	var src dsp.Source = clip
	truth := clip.Truth
	if s.beside != nil {
		if src, truth, err = s.beside.mixInto(clip, s.Seed); err != nil {
			return nil, truth, err
		}
	}
	if s.via != nil {
		src, err = s.via.pass(src)
	}
	return src, truth, err
}
