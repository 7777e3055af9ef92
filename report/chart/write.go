package chart

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"

	"earshot/report"
)

// Format is a kind of picture.
type Format string

// The formats a chart can be written in.
const (
	PNG Format = "png"
	SVG Format = "svg"
	PDF Format = "pdf"
)

// ErrFormat is for a file name that ends in none of the formats.
var ErrFormat = errors.New("not a picture format")

// FormatOf takes the format from the ending of a file's name.
func FormatOf(file string) (Format, error) {
	f := Format(strings.ToLower(strings.TrimPrefix(filepath.Ext(file), ".")))
	switch f {
	case PNG, SVG, PDF:
		return f, nil
	}
	return "", fmt.Errorf("%w: %q, allowed are .png, .svg and .pdf", ErrFormat, filepath.Ext(file))
}

// Write draws the chart of a document: PNG 1600 px wide, SVG, or PDF of one page.
func Write(w io.Writer, d report.Document, f Format) error {
	return write(w, f, func() (Figure, paperwork) {
		chart := New(d)
		return chart, paperwork{d.Made, d.Tool.Version, captions(d, chart)}
	})
}

// WriteBare draws no more than the plot and its legend, for a page that says the rest.
func WriteBare(w io.Writer, d report.Document, f Format) error {
	return write(w, f, func() (Figure, paperwork) {
		chart := New(d)
		chart.Bare = true
		return chart, paperwork{made: d.Made, version: d.Tool.Version}
	})
}

func write(w io.Writer, f Format, chart func() (Figure, paperwork)) error {
	b, err := render(chart, f)
	if err != nil {
		return err
	}
	_, err = w.Write(b)
	return err
}

// render recovers from the drawing library, which panics on what it can't draw.
func render(chart func() (Figure, paperwork), f Format) (b []byte, err error) {
	defer func() {
		if r := recover(); r != nil {
			b, err = nil, fmt.Errorf("drawing the chart: %v", r)
		}
	}()
	figure, about := chart()
	switch f {
	case PNG:
		return pngBytes(figure, 192)
	case SVG:
		return svgBytes(figure)
	case PDF:
		return pdfBytes(figure, about)
	}
	return nil, fmt.Errorf("%w: %q", ErrFormat, f)
}

func pngBytes(f Figure, dpi int) ([]byte, error) {
	c := vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(pageWidth, f.height()), vgimg.UseDPI(dpi))}
	f.draw(draw.New(c))
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return nil, fmt.Errorf("writing PNG: %w", err)
	}
	return b.Bytes(), nil
}
