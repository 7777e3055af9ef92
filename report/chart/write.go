package chart

import (
	"io"

	"earshot/report"
	"earshot/report/chart/paper"
)

// Write draws the chart of a document: PNG 1600 px wide, SVG, or PDF of one page.
func Write(w io.Writer, d report.Document, f paper.Format) error {
	return write(w, f, func() (Figure, paperwork) {
		chart := New(d)
		return chart, paperwork{d.Made, d.Tool.Version, captions(d, chart)}
	})
}

// WriteBare draws no more than the plot and its legend, for a page that says the rest.
func WriteBare(w io.Writer, d report.Document, f paper.Format) error {
	return write(w, f, func() (Figure, paperwork) {
		chart := New(d)
		chart.Bare = true
		return chart, paperwork{made: d.Made, version: d.Tool.Version}
	})
}

func write(w io.Writer, f paper.Format, chart func() (Figure, paperwork)) error {
	b, err := render(chart, f)
	if err != nil {
		return err
	}
	_, err = w.Write(b)
	return err
}

func render(chart func() (Figure, paperwork), f paper.Format) ([]byte, error) {
	return paper.Recovered(func() ([]byte, error) {
		figure, about := chart()
		if f == paper.PDF {
			return pdfBytes(figure, about)
		}
		return paper.Render(paper.Picture{Size: figure.size, Draw: figure.draw}, f)
	})
}
