package main

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"earshot/cmd/internal/files"
	"earshot/cmd/internal/sitting"
	"earshot/report"
	"earshot/report/chart/heard"
	"earshot/report/words"
)

// drawFirings draws every firing of d into files: the one named, and those beside it that
// many firings take.
func (a app) drawFirings(ctx context.Context, o checkOptions, paths []string, d report.Document) error {
	again := sitting.HearAgain(ctx, d, paths, a.stderr)
	defer again.Close()
	pictures, err := heard.NewFirings(d, again.Look)
	if err != nil {
		return err
	}
	for i := range pictures.Pages() {
		b, err := pictures.Page(i, o.firingsFormat)
		if err != nil {
			return err
		}
		if err := o.writePicture(ctx, pageName(o.firings, i), b); err != nil {
			return err
		}
	}
	if n := pictures.Pages(); n > 1 {
		fmt.Fprintf(a.stderr, "earshot: the firings take %d pictures: %s to %s\n", n, words.Printable(o.firings), words.Printable(pageName(o.firings, n-1)))
	}
	return nil
}

func (o checkOptions) writePicture(ctx context.Context, path string, b []byte) error {
	if err := files.RefuseClobber(path, o.Clips); err != nil {
		return err
	}
	return files.WriteBytes(ctx, path, b)
}

// pageName is the file of the i-th page, from 0: x.png, x-2.png, x-3.png.
func pageName(path string, i int) string {
	if i == 0 {
		return path
	}
	ext := filepath.Ext(path)
	return fmt.Sprintf("%s-%d%s", strings.TrimSuffix(path, ext), i+1, ext)
}
