package sitting

import (
	"context"
	"encoding/hex"
	"errors"
	"io"

	"earshot/cmd/internal/fault"
	"earshot/dsp/clip"
	"earshot/dsp/describe"
	"earshot/report"
)

func PathsOf(all []Heard) []string {
	var paths []string
	for _, h := range all {
		paths = append(paths, h.path)
	}
	return paths
}

// Again reads clips once more, in the places that pictures show.
type Again struct {
	ctx      context.Context
	document report.Document
	paths    []string // of the document's clips
	notes    io.Writer
	open     []*clip.Clip
}

// HearAgain reads the clips of a document, at these paths, once more.
func HearAgain(ctx context.Context, d report.Document, paths []string, notes io.Writer) *Again {
	return &Again{ctx: ctx, document: d, paths: paths, notes: notes}
}

// Look implements chart.Look.
func (l *Again) Look(i int, from, to float64, columns int) ([]describe.Column, error) {
	if err := l.ctx.Err(); err != nil {
		return nil, err
	}
	c, err := l.clip(i)
	if err != nil {
		return nil, err
	}
	f := c.Format()
	return describe.Outline(c, l.document.Clips[i].Channel, f.Samples(from), f.Samples(to), columns)
}

func (l *Again) clip(i int) (*clip.Clip, error) {
	if l.open == nil {
		l.open = make([]*clip.Clip, len(l.paths))
	}
	if l.open[i] == nil {
		c, err := reopen(l.ctx, l.paths[i], l.document.Clips[i].SHA256, l.notes)
		if err != nil {
			return nil, err
		}
		l.open[i] = c
	}
	return l.open[i], nil
}

// reopen opens a clip that was heard before, and compares its checksum: a picture must show what
// was heard.
func reopen(ctx context.Context, path, sha256 string, notes io.Writer) (*clip.Clip, error) {
	c, err := clip.OpenContext(ctx, path, notes)
	if err != nil {
		return nil, err
	}
	sum, err := c.SHA256()
	if err == nil && hex.EncodeToString(sum[:]) != sha256 {
		err = fault.New(report.Failure{Code: "changed", File: path, Message: "the file is not the one that was heard", Hint: "leave it as it is until all is done, and try again"}, ErrOtherClip)
	}
	if err != nil {
		c.Close()
		return nil, err
	}
	return c, nil
}

func (l *Again) Close() {
	for _, c := range l.open {
		if c != nil {
			c.Close()
		}
	}
}

// ErrOtherClip is for a recording that a record was not made from.
var ErrOtherClip = errors.New("another recording")
