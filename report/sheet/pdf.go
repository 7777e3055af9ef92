package sheet

import (
	"bytes"
	"fmt"
	"image/png"
	"io"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-pdf/fpdf"

	"earshot/report"
	"earshot/report/chart"
	"earshot/report/internal/pdf"
)

// The page is A4; lengths are in mm.
const (
	left, top, width = 14.0, 11.0, 182.0
	bottom           = 288.0
	smallestChart    = 50.0        // its height
	chartShape       = 300.0 / 600 // of a bare one
)

// WritePDF writes the sheet as one page of A4. The chart takes what room the words leave;
// where they leave too little, the list of findings is cut, which it says, and at last a
// second page is begun.
func WritePDF(w io.Writer, s Sheet) error {
	var drawn bytes.Buffer
	if err := chart.WriteBare(&drawn, s.Record, chart.PNG); err != nil {
		return err
	}
	p := paper{sheet: s, chart: drawn.Bytes(), legible: chart.Legible()}
	for p.room() < smallestChart && len(p.sheet.Findings) > 1 {
		last := len(p.sheet.Findings) - 1
		p.sheet.Findings = append(p.sheet.Findings[:last-1:last-1], "and more, in the record")
	}
	p.long = p.room() < smallestChart
	page := p.set(min(max(p.room(), smallestChart), width*chartShape))
	if err := page.Output(w); err != nil {
		return fmt.Errorf("writing PDF: %w", err)
	}
	return nil
}

// paper sets a sheet.
type paper struct {
	sheet   Sheet
	chart   []byte
	legible func(string) string
	long    bool // more than a page holds, whatever is left out
	pdf     *fpdf.Fpdf
}

// room is what height the words leave for the chart.
func (p paper) room() float64 { return bottom - p.set(0).GetY() }

// set sets the sheet with a chart so high, none for 0.
func (p paper) set(chartHeight float64) *fpdf.Fpdf {
	p.pdf = newPDF(p.sheet.Record, p.sheet.Title+p.sheet.Number)
	p.pdf.SetAutoPageBreak(p.long, 297-bottom)
	p.head()
	if chartHeight > 0 {
		wide := chartHeight / chartShape
		p.picture("chart", p.chart, left+(width-wide)/2, wide, chartHeight)
	}
	p.table()
	p.list("True times to set a meter by", p.sheet.Meter)
	if p.sheet.Strip != nil {
		if size, err := png.DecodeConfig(bytes.NewReader(p.sheet.Strip)); err == nil {
			p.heading(p.sheet.StripWords())
			p.picture("strip", p.sheet.Strip, left, width, width*float64(size.Height)/float64(size.Width))
		}
	}
	p.list(p.seenBy(), p.seen())
	p.list("Tested", p.sheet.Tested)
	p.list("Not tested", p.sheet.NotTested)
	p.list("Take care", p.sheet.Cautions)
	p.list("How it was measured, so that it can be measured again", p.sheet.How)
	return p.pdf
}

func newPDF(d report.Document, title string) *fpdf.Fpdf {
	p := pdf.New(pdf.Portrait, d.Made, d.Tool.Version, title)
	p.AddUTF8FontFromBytes("sans", "B", liberationsansbold.TTF)
	p.SetMargins(left, top, 210-left-width)
	p.AddPage()
	p.SetTextColor(0x14, 0x1E, 0x2A)
	return p
}

func (p paper) head() {
	p.font("B", 16)
	p.pdf.CellFormat(width, 7, p.legible(p.sheet.Title+p.sheet.Number), "", 0, "L", false, 0, "")
	p.font("", 9)
	p.pdf.SetX(left)
	p.pdf.CellFormat(width, 7, p.legible(p.sheet.House), "", 1, "R", false, 0, "")
	p.text("", 10, 4.5, p.sheet.Scope+".")
	p.pdf.Ln(1)
	y := p.pdf.GetY()
	p.pdf.SetXY(left+2, y+1)
	p.font("B", 13)
	p.pdf.CellFormat(width-4, 6, capital(p.sheet.Verdict), "", 1, "L", false, 0, "")
	p.pdf.SetX(left + 2)
	p.font("", 9.5)
	p.pdf.MultiCell(width-4, 4.2, p.sheet.Plainly, "", "L", false)
	p.pdf.SetDrawColor(0x14, 0x1E, 0x2A)
	p.pdf.SetLineWidth(0.4)
	p.pdf.Rect(left, y, width, p.pdf.GetY()-y+1.2, "D")
	p.pdf.Ln(2.5)
	for _, f := range p.sheet.Findings {
		p.text("", 9, 4, "•  "+capital(f)+".")
	}
	p.pdf.Ln(1)
}
