package chart

import (
	"bytes"
	"fmt"
	"io"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"

	"earshot/report"
)

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

// picture is what can be drawn on a page of its size, in points.
type picture interface {
	size() (width, height vg.Length)
	draw(draw.Canvas)
}

func render(chart func() (Figure, paperwork), f Format) ([]byte, error) {
	return recovered(func() ([]byte, error) {
		figure, about := chart()
		if f == PDF {
			return pdfBytes(figure, about)
		}
		return drawn(figure, f)
	})
}

// drawn is a picture as PNG, 1600 px wide for a page, or as SVG.
func drawn(p picture, f Format) ([]byte, error) {
	switch f {
	case PNG:
		return pngBytes(p, 192)
	case SVG:
		return svgBytes(p)
	}
	return nil, fmt.Errorf("%w: %q", ErrFormat, f)
}

// recovered recovers from the drawing library, which panics on what it can't draw.
func recovered(draw func() ([]byte, error)) (b []byte, err error) {
	defer func() {
		if r := recover(); r != nil {
			b, err = nil, fmt.Errorf("drawing the chart: %v", r)
		}
	}()
	return draw()
}

func pngBytes(p picture, dpi int) ([]byte, error) {
	width, height := p.size()
	c := vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(dpi))}
	p.draw(draw.New(c))
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return nil, fmt.Errorf("writing PNG: %w", err)
	}
	return b.Bytes(), nil
}
