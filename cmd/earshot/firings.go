package main

import (
	"context"
	"encoding/hex"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"earshot/dsp"
	"earshot/dsp/clip"
	"earshot/report"
	"earshot/report/chart/heard"
	"earshot/report/words"
)

// drawFirings draws every firing of d into files: the one named, and those beside it that
// many firings take.
func (a app) drawFirings(ctx context.Context, o checkOptions, paths []string, d report.Document) error {
	again := hearAgain(ctx, d, paths, a.stderr)
	defer again.close()
	pictures, err := heard.NewFirings(d, again.look)
	if err != nil {
		return err
	}
	for i := range pictures.Pages() {
		b, err := pictures.Page(i, o.firingsFormat)
		if err != nil {
			return err
		}
		if err := o.writePicture(pageName(o.firings, i), b); err != nil {
			return err
		}
	}
	if n := pictures.Pages(); n > 1 {
		fmt.Fprintf(a.stderr, "earshot: the firings take %d pictures: %s to %s\n", n, words.Printable(o.firings), words.Printable(pageName(o.firings, n-1)))
	}
	return nil
}

func pathsOf(all []Heard) []string {
	var paths []string
	for _, h := range all {
		paths = append(paths, h.path)
	}
	return paths
}

func (o checkOptions) writePicture(path string, b []byte) error {
	if err := refuseClobber(path, o.clips); err != nil {
		return err
	}
	return writeBytes(path, b)
}

// pageName is the file of the i-th page, from 0: x.png, x-2.png, x-3.png.
func pageName(path string, i int) string {
	if i == 0 {
		return path
	}
	ext := filepath.Ext(path)
	return fmt.Sprintf("%s-%d%s", strings.TrimSuffix(path, ext), i+1, ext)
}

// listenAgain reads clips once more, in the places that pictures show.
type listenAgain struct {
	ctx      context.Context
	document report.Document
	paths    []string // of the document's clips
	notes    io.Writer
	open     []*clip.Clip
}

// hearAgain reads the clips of a document, at these paths, once more.
func hearAgain(ctx context.Context, d report.Document, paths []string, notes io.Writer) *listenAgain {
	return &listenAgain{ctx: ctx, document: d, paths: paths, notes: notes}
}

// look implements chart.Look.
func (l *listenAgain) look(i int, from, to float64, columns int) ([]dsp.Column, error) {
	if err := l.ctx.Err(); err != nil {
		return nil, err
	}
	c, err := l.clip(i)
	if err != nil {
		return nil, err
	}
	f := c.Format()
	return dsp.Outline(c, l.document.Clips[i].Channel, f.Samples(from), f.Samples(to), columns)
}

func (l *listenAgain) clip(i int) (*clip.Clip, error) {
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

// reopen opens a clip that was heard before, and holds it to its checksum: a picture shows
// what was heard, or nothing.
func reopen(ctx context.Context, path, sha256 string, notes io.Writer) (*clip.Clip, error) {
	c, err := clip.OpenContext(ctx, path, notes)
	if err != nil {
		return nil, err
	}
	sum, err := c.SHA256()
	if err == nil && hex.EncodeToString(sum[:]) != sha256 {
		err = newFault(report.Failure{Code: "changed", File: path, Message: "the file is not the one that was heard", Hint: "leave it as it is until all is done, and try again"}, errOtherClip)
	}
	if err != nil {
		c.Close()
		return nil, err
	}
	return c, nil
}

func (l *listenAgain) close() {
	for _, c := range l.open {
		if c != nil {
			c.Close()
		}
	}
}
