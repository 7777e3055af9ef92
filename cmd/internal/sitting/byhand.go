package sitting

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"path/filepath"

	"earshot/cmd/internal/fault"
	"earshot/cmd/internal/files"
	"earshot/report"
	"earshot/report/labels"
	"earshot/shutter"
	"earshot/shutter/assign"
)

// HandSet are the labels of a file in which a person set the times of a clip.
type HandSet struct {
	path, sha256 string
	track        labels.Track
}

// ReadHandSet reads a file of labels to judge from.
func ReadHandSet(path string) (*HandSet, error) {
	f, err := files.Open(path)
	if err != nil {
		return nil, labelFault(path, err)
	}
	defer f.Close()
	sum := sha256.New()
	track, err := labels.Read(io.TeeReader(f, sum))
	if err != nil {
		return nil, labelFault(path, err)
	}
	return &HandSet{path, hex.EncodeToString(sum.Sum(nil)), track}, nil
}

// labelFault names the file of labels beside what is wrong in it.
func labelFault(path string, err error) error {
	var at *labels.Error
	if errors.As(err, &at) {
		return fault.Refused("bad-labels", path, err, "earshot check --labels FILE writes one to begin with")
	}
	return fault.Unreadable(path, "the labels cannot be read", err)
}

// correct takes the times set by hand in place of those heard in the one clip.
func (s *HandSet) correct(all []Heard) error {
	if s == nil {
		return nil
	}
	h := &all[0]
	if err := s.track.Within(h.Facts.Duration); err != nil {
		return labelFault(s.path, err)
	}
	c := h.Correct(s.track.Times(), s.track.Step)
	h.Firings = c.Firings
	h.Facts.ByHand = report.NewByHand(filepath.Base(s.path), s.sha256, c)
	return nil
}

// settle gives the firings the marks that the labels begin with.
func (s *HandSet) settle(l assign.Laying, firings []shutter.Firing, told []shutter.Step) assign.Laying {
	if s == nil {
		return l
	}
	return l.Settle(firings, s.track.Marks(), told)
}
