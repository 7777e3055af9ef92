package chart

import (
	"bytes"
	"fmt"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"earshot/report"
	"earshot/report/chart/paper"
	"earshot/report/internal/pdf"
)

// pdfResolution gives 224 dots an inch on paper, where the chart is 227 mm wide.
const pdfResolution = 240

// paperwork is what a PDF says of its chart beside the picture.
type paperwork struct {
	made     time.Time
	version  string
	captions []string
}

// pdfBytes sets the chart as a picture on an A4 page, with what identifies it as
// text below: the PDF back-end of the drawing library garbles letters beyond Latin-1.
func pdfBytes(f Figure, about paperwork) ([]byte, error) {
	drawn, err := paper.PNGBytes(paper.Picture{Size: f.size, Draw: f.draw}, pdfResolution)
	if err != nil {
		return nil, err
	}
	l := paper.NewLetters()
	p := pdf.New(pdf.Landscape, about.made, l.Legible(about.version), l.Legible(f.Title+f.Number))
	p.SetSubject(l.Legible(f.Verdict), true)
	p.AddPage()
	const left, top, width = 15, 12, 267.0
	p.RegisterImageOptionsReader("chart", fpdf.ImageOptions{ImageType: "PNG"}, bytes.NewReader(drawn))
	p.ImageOptions("chart", left+20, top, width-40, 0, false, fpdf.ImageOptions{ImageType: "PNG"}, 0, "")
	p.SetXY(left+20, top+(width-40)*pageHeight/paper.PageWidth+4)
	p.SetFont("sans", "", 8)
	for _, line := range about.captions {
		p.SetX(left + 20)
		p.MultiCell(width-40, 4, l.Legible(line), "", "L", false)
	}
	var b bytes.Buffer
	if err := p.Output(&b); err != nil {
		return nil, fmt.Errorf("writing PDF: %w", err)
	}
	return b.Bytes(), nil
}

// captions identify lens, verdict and clips in full.
func captions(d report.Document, f Figure) []string {
	lines := []string{fmt.Sprintf("%s. %s. %s.", f.Title+f.Number, f.Date, f.Verdict)}
	for _, c := range d.Clips {
		lines = append(lines, fmt.Sprintf("%s: sha256 %s", c.File, c.SHA256))
	}
	return lines
}
