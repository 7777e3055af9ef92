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
	"earshot/report/chart/paper"
	"earshot/report/internal/pdf"
	"earshot/report/words"
)

// The page is A4; lengths are in mm.
const (
	left, top, width = 14.0, 11.0, 182.0
	bottom           = 288.0
	smallestChart    = 50.0        // its height
	chartShape       = 300.0 / 600 // of a bare one
)

// WritePDF writes the sheet as one page of A4. The chart takes the room that the words leave. If
// that is too little, the list of findings is cut, and the sheet says so. If it still is, there
// is a second page.
func WritePDF(w io.Writer, s Sheet) error {
	var drawn bytes.Buffer
	if err := chart.WriteBare(&drawn, s.Record, paper.PNG); err != nil {
		return err
	}
	p := printed{sheet: s, chart: drawn.Bytes(), legible: paper.Legible()}
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

// printed sets a sheet.
type printed struct {
	sheet   Sheet
	chart   []byte
	legible func(string) string
	long    bool // more than a page holds, whatever is left out
	pdf     *fpdf.Fpdf
}

// room is what height the words leave for the chart.
func (p printed) room() float64 { return bottom - p.set(0).GetY() }

// set sets the sheet with a chart so high, none for 0.
func (p printed) set(chartHeight float64) *fpdf.Fpdf {
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

func (p printed) head() {
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
	p.pdf.CellFormat(width-4, 6, words.Capital(p.sheet.Verdict), "", 1, "L", false, 0, "")
	p.pdf.SetX(left + 2)
	p.font("", 9.5)
	p.pdf.MultiCell(width-4, 4.2, p.sheet.Plainly, "", "L", false)
	p.pdf.SetDrawColor(0x14, 0x1E, 0x2A)
	p.pdf.SetLineWidth(0.4)
	p.pdf.Rect(left, y, width, p.pdf.GetY()-y+1.2, "D")
	p.pdf.Ln(2.5)
	for _, f := range p.sheet.Findings {
		p.text("", 9, 4, "•  "+words.Capital(f)+".")
	}
	p.pdf.Ln(1)
}

func (p printed) picture(name string, b []byte, x, wide, high float64) {
	options := fpdf.ImageOptions{ImageType: "PNG"}
	p.pdf.RegisterImageOptionsReader(name, options, bytes.NewReader(b))
	y := p.pdf.GetY()
	p.pdf.ImageOptions(name, x, y, wide, high, false, options, 0, "")
	p.pdf.SetXY(left, y+high+1)
}

// columns of the table: their widths, in all that of the page, and how they are aligned.
var (
	widths = []float64{14, 19, 27, 40, 27, 18, 15, 22}
	aligns = []string{"L", "R", "R", "L", "R", "R", "R", "L"}
)

func (p printed) table() {
	p.pdf.SetLineWidth(0.1)
	p.pdf.SetDrawColor(0xC4, 0xC4, 0xC4)
	p.row("B", headings)
	for _, r := range p.sheet.Rows {
		style := ""
		if r.Strong {
			style = "B"
		}
		p.row(style, []string{r.Marked, r.Exact, r.Measured, r.Off, r.U95, r.Spread, r.Firings, r.Verdict})
	}
	p.pdf.Ln(1)
}

func (p printed) row(style string, cells []string) {
	for i, c := range cells {
		size := 8.0
		for p.font(style, size); size > 5 && p.pdf.GetStringWidth(p.legible(c)) > widths[i]-1.6; p.font(style, size) {
			size -= 0.25
		}
		p.pdf.CellFormat(widths[i], 4.3, p.legible(c), "B", 0, aligns[i], false, 0, "")
	}
	p.pdf.Ln(-1)
}

func (p printed) seenBy() string {
	if p.sheet.ObservedBy == "" {
		return "Seen by the inspector, not measured"
	}
	return "Seen by " + p.sheet.ObservedBy + ", not measured"
}

func (p printed) seen() []string {
	var lines []string
	for _, o := range p.sheet.Observed {
		lines = append(lines, o.What+": "+o.Seen)
	}
	return lines
}

// list sets a heading with lines below, nothing where there are none.
func (p printed) list(heading string, lines []string) {
	if len(lines) == 0 {
		return
	}
	p.heading(heading)
	for _, l := range lines {
		p.text("", 7.6, 3.3, l)
	}
	p.pdf.Ln(0.6)
}

func (p printed) heading(words string) { p.text("B", 8.6, 4.2, words) }

func (p printed) text(style string, size, leading float64, words string) {
	p.font(style, size)
	p.pdf.SetX(left)
	p.pdf.MultiCell(width, leading, p.legible(words), "", "L", false)
}

func (p printed) font(style string, size float64) { p.pdf.SetFont("sans", style, size) }
