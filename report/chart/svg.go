package chart

import (
	"bytes"
	"fmt"
	"html"
	"image/color"
	"regexp"
	"strconv"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// svgBytes draws a picture as SVG. Its text is set by whoever shows it, so fonts of
// the same widths are named behind Liberation Sans, and each text is told its length,
// which keeps it in place in any font where the viewer heeds lengths (browsers do).
func svgBytes(p picture) ([]byte, error) {
	c := vgsvg.New(p.size())
	p.draw(draw.New(c))
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return nil, fmt.Errorf("writing SVG: %w", err)
	}
	l := newLetters()
	return svgText.ReplaceAllFunc(b.Bytes(), func(text []byte) []byte { return l.withLength(text) }), nil
}

// svgText is a text as the SVG back-end writes it: place, weight, size and words.
var svgText = regexp.MustCompile(`<text ([^>]*?)font-family:Liberation Sans;([^>]*?font-weight:(normal|bold);[^>]*?font-size:([0-9.]+)px[^>]*)>([^<]*)</text>`)

func (l letters) withLength(text []byte) []byte {
	part := svgText.FindSubmatch(text)
	size, err := strconv.ParseFloat(string(part[4]), 64)
	if err != nil {
		return text
	}
	sty := l.style(vg.Points(size), color.Black)
	if string(part[3]) == "bold" {
		sty = bold(sty)
	}
	length := sty.Width(html.UnescapeString(string(part[5]))).Points()
	return fmt.Appendf(nil, `<text textLength="%.2f" lengthAdjust="spacingAndGlyphs" %sfont-family:'Liberation Sans',Arial,Helvetica,sans-serif;%s>%s</text>`,
		length, part[1], part[2], part[5])
}
