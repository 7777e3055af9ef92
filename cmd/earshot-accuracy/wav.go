package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"earshot/dsp"
	"earshot/dsp/wavfile"
)

// writeClips writes the clips in which something went wrong into a folder, each with
// a label track beside it.
func writeClips(dir string, outcomes []*outcome) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, o := range outcomes {
		if o.explain() == "" {
			continue
		}
		words := strings.FieldsFunc(o.condition.name, func(r rune) bool { return strings.ContainsRune(" ,/", r) })
		path := filepath.Join(dir, fmt.Sprintf("%s-%d", strings.Join(words, "-"), o.clip))
		if err := os.WriteFile(path+".txt", []byte(o.labels()), 0o644); err != nil {
			return err
		}
		clip, _, err := o.recording.Clip()
		if err != nil {
			return err
		}
		if err := writeClip(path+".wav", clip); err != nil {
			return fmt.Errorf("%s.wav: %w", path, err)
		}
	}
	return nil
}

func writeClip(path string, src dsp.Source) (err error) {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	return wavfile.Copy(f, src)
}
