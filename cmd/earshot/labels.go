package main

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"path/filepath"

	"earshot/report"
	"earshot/report/labels"
	"earshot/shutter"
)

// handSet are the labels of a file in which a person set the times of a clip.
type handSet struct {
	path, sha256 string
	track        labels.Track
}

// checkLabels refuses labels for several clips: their times are those of one.
func (o *checkOptions) checkLabels() error {
	if len(o.clips) > 1 && (o.labels != "" || o.useLabels != "") {
		return fmt.Errorf("labels are of one clip, and %d were named: check each by itself", len(o.clips))
	}
	return nil
}

// readLabels reads the labels to judge from; nil where none were named.
func (o checkOptions) readLabels() (*handSet, error) {
	if o.useLabels == "" {
		return nil, nil
	}
	f, err := openRegular(o.useLabels)
	if err != nil {
		return nil, labelFault(o.useLabels, err)
	}
	defer f.Close()
	sum := sha256.New()
	track, err := labels.Read(io.TeeReader(f, sum))
	if err != nil {
		return nil, labelFault(o.useLabels, err)
	}
	return &handSet{o.useLabels, hex.EncodeToString(sum.Sum(nil)), track}, nil
}

// labelFault names the file of labels beside what is wrong in it.
func labelFault(path string, err error) error {
	var at *labels.Error
	if errors.As(err, &at) {
		return refused("bad-labels", path, err, "earshot check --labels FILE writes one to begin with")
	}
	return unreadable(path, "the labels cannot be read", err)
}

// correct takes the times set by hand in place of those heard in the one clip.
func (s *handSet) correct(all []Heard) error {
	if s == nil {
		return nil
	}
	h := &all[0]
	if err := s.track.Within(h.facts.Duration); err != nil {
		return labelFault(s.path, err)
	}
	c := h.Correct(s.track.Times(), s.track.Step)
	h.Firings = c.Firings
	h.facts.ByHand = report.NewByHand(filepath.Base(s.path), s.sha256, c)
	return nil
}

// settle gives the firings the marks that the labels begin with.
func (s *handSet) settle(l shutter.Laying, firings []shutter.Firing, told []shutter.Step) shutter.Laying {
	if s == nil {
		return l
	}
	return l.Settle(firings, s.track.Marks(), told)
}
