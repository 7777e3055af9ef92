package paper

import (
	"bytes"
	"fmt"
	"html"
	"image/color"
	"regexp"
	"strconv"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// Picture is what can be drawn on a page of its size, in points.
type Picture struct {
	Size func() (width, height vg.Length)
	Draw func(draw.Canvas)
}

// Render is a picture as PNG, 1600 px wide for a page, or as SVG.
func Render(p Picture, f Format) ([]byte, error) {
	switch f {
	case PNG:
		return PNGBytes(p, 192)
	case SVG:
		return svgBytes(p)
	}
	return nil, fmt.Errorf("%w: %q", ErrFormat, f)
}

// Recovered recovers from the drawing library, which panics on what it can't draw.
func Recovered(draw func() ([]byte, error)) (b []byte, err error) {
	defer func() {
		if r := recover(); r != nil {
			b, err = nil, fmt.Errorf("drawing the chart: %v", r)
		}
	}()
	return draw()
}

// PNGBytes is a picture as PNG, in so many dots an inch.
func PNGBytes(p Picture, dpi int) ([]byte, error) {
	width, height := p.Size()
	c := vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(dpi))}
	p.Draw(draw.New(c))
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return nil, fmt.Errorf("writing PNG: %w", err)
	}
	return b.Bytes(), nil
}

// svgBytes draws a picture as SVG. The viewer sets its text. So fonts of the same widths are
// named after Liberation Sans, and each text has its length, which keeps it in place in any
// font if the viewer follows lengths, as browsers do.
func svgBytes(p Picture) ([]byte, error) {
	c := vgsvg.New(p.Size())
	p.Draw(draw.New(c))
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return nil, fmt.Errorf("writing SVG: %w", err)
	}
	l := NewLetters()
	return svgText.ReplaceAllFunc(b.Bytes(), func(text []byte) []byte { return l.withLength(text) }), nil
}

// svgText is a text as the SVG back-end writes it: place, weight, size and words.
var svgText = regexp.MustCompile(`<text ([^>]*?)font-family:Liberation Sans;([^>]*?font-weight:(normal|bold);[^>]*?font-size:([0-9.]+)px[^>]*)>([^<]*)</text>`)

func (l Letters) withLength(text []byte) []byte {
	part := svgText.FindSubmatch(text)
	size, err := strconv.ParseFloat(string(part[4]), 64)
	if err != nil {
		return text
	}
	sty := l.Style(vg.Points(size), color.Black)
	if string(part[3]) == "bold" {
		sty = Bold(sty)
	}
	length := sty.Width(html.UnescapeString(string(part[5]))).Points()
	return fmt.Appendf(nil, `<text textLength="%.2f" lengthAdjust="spacingAndGlyphs" %sfont-family:'Liberation Sans',Arial,Helvetica,sans-serif;%s>%s</text>`,
		length, part[1], part[2], part[5])
}
