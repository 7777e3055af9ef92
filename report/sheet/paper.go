package sheet

import (
	"bytes"

	"codeberg.org/go-pdf/fpdf"
)

func (p paper) picture(name string, b []byte, x, wide, high float64) {
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

func (p paper) table() {
	p.pdf.SetLineWidth(0.1)
	p.pdf.SetDrawColor(0xC4, 0xC4, 0xC4)
	p.row("B", headings)
	for _, r := range p.sheet.Rows {
		style := ""
		if r.Strong {
			style = "B"
		}
		p.row(style, []string{r.Marked, r.Exact, r.Measured, r.Off, r.Sure, r.Spread, r.Firings, r.Verdict})
	}
	p.pdf.Ln(1)
}

func (p paper) row(style string, cells []string) {
	for i, c := range cells {
		size := 8.0
		for p.font(style, size); size > 5 && p.pdf.GetStringWidth(p.legible(c)) > widths[i]-1.6; p.font(style, size) {
			size -= 0.25
		}
		p.pdf.CellFormat(widths[i], 4.3, p.legible(c), "B", 0, aligns[i], false, 0, "")
	}
	p.pdf.Ln(-1)
}

func (p paper) seenBy() string {
	if p.sheet.ObservedBy == "" {
		return "Seen by the inspector, not measured"
	}
	return "Seen by " + p.sheet.ObservedBy + ", not measured"
}

func (p paper) seen() []string {
	var lines []string
	for _, o := range p.sheet.Observed {
		lines = append(lines, o.What+": "+o.Seen)
	}
	return lines
}

// list sets a heading with lines below, nothing where there are none.
func (p paper) list(heading string, lines []string) {
	if len(lines) == 0 {
		return
	}
	p.heading(heading)
	for _, l := range lines {
		p.text("", 7.6, 3.3, l)
	}
	p.pdf.Ln(0.6)
}

func (p paper) heading(words string) { p.text("B", 8.6, 4.2, words) }

func (p paper) text(style string, size, leading float64, words string) {
	p.font(style, size)
	p.pdf.SetX(left)
	p.pdf.MultiCell(width, leading, p.legible(words), "", "L", false)
}

func (p paper) font(style string, size float64) { p.pdf.SetFont("sans", style, size) }
