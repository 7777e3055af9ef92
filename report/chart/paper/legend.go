package paper

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Entry names a mark.
type Entry struct {
	Name  string
	Width float64 // from the middle of the mark to its name, pt
	Draw  func(draw.Canvas, vg.Point)
}

// LegendRow is the height of a row of the legend, in pt.
const LegendRow = 15

// InRows sets entries in rows of a width.
func (l Letters) InRows(entries []Entry, width vg.Length) [][]Entry {
	var rows [][]Entry
	room := vg.Length(0)
	for _, e := range entries {
		if room -= l.EntryWidth(e); room < 0 {
			rows, room = append(rows, nil), width-l.EntryWidth(e)
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], e)
	}
	return rows
}

// EntryWidth is how much room an entry takes in its row.
func (l Letters) EntryWidth(e Entry) vg.Length {
	return vg.Points(e.Width+16) + l.Style(9, Ink).Width(e.Name)
}

// DrawEntries draws rows of entries below one another, from the left of a place on,
// the middle of the first row at it.
func (l Letters) DrawEntries(c draw.Canvas, at vg.Point, rows [][]Entry) {
	sty := Aligned(l.Style(9, Ink), 0, -0.4)
	for _, row := range rows {
		x := at.X + vg.Points(5)
		for _, e := range row {
			e.Draw(c, vg.Point{X: x, Y: at.Y})
			c.FillText(sty, vg.Point{X: x + vg.Points(e.Width), Y: at.Y}, e.Name)
			x += l.EntryWidth(e)
		}
		at.Y -= LegendRow
	}
}
