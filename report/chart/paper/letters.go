package paper

import (
	"image/color"
	"strings"
	"unicode"

	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// PageWidth is how wide a page is, and Margin what is left free around it, in points of
// 1/72 inch: 800 px at 96 dpi.
const PageWidth, Margin = 600, 14

// Letters sets text in Liberation Sans, whose fonts are within the program.
type Letters struct{ cache *font.Cache }

// NewLetters loads the fonts.
func NewLetters() Letters { return Letters{font.NewCache(liberation.Collection())} }

// Style is upright text of a size in points.
func (l Letters) Style(size vg.Length, clr color.Color) draw.TextStyle {
	sans := font.Font{Typeface: "Liberation", Variant: "Sans"}
	return draw.TextStyle{Color: clr, Font: font.From(sans, size), Handler: text.Plain{Fonts: l.cache}}
}

// Bold is a style in bold.
func Bold(s draw.TextStyle) draw.TextStyle {
	s.Font.Weight = xfont.WeightBold
	return s
}

// Aligned is a style that sets text beside its place: −1 before or below it, −0.5 about
// it, 0 from it on.
func Aligned(s draw.TextStyle, x, y float64) draw.TextStyle {
	s.XAlign, s.YAlign = text.XAlignment(x), text.YAlignment(y)
	return s
}

// Legible replaces characters without a glyph in the font by "?", since the back-ends would
// leave them out silently. It also replaces invisible ones, since a change of writing direction
// would turn the words around it.
func (l Letters) Legible(s string) string {
	face := l.cache.Lookup(l.Style(10, color.Black).Font, 10).Face
	var buf sfnt.Buffer
	out := []rune(s)
	for i, r := range out {
		if g, err := face.GlyphIndex(&buf, r); err != nil || g == 0 || !unicode.IsGraphic(r) {
			out[i] = '?'
		}
	}
	return string(out)
}

// Fit makes text legible and shortens it to a width, with an ellipsis.
func (l Letters) Fit(s draw.TextStyle, width vg.Length, txt string) string {
	txt = l.Legible(txt)
	if s.Width(txt) <= width {
		return txt
	}
	runes := []rune(txt)
	if len(runes) > longest {
		runes = runes[:longest]
	}
	for len(runes) > 0 && s.Width(string(runes)+"…") > width {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "…"
}

// Shrink is a style small enough for text to fit a width, or of the smallest size.
func (l Letters) Shrink(s draw.TextStyle, smallest, width vg.Length, txt string) draw.TextStyle {
	for s.Font.Size > smallest && s.Width(l.Legible(txt)) > width {
		s.Font.Size -= vg.Points(0.5)
	}
	return s
}

// Wrap breaks text at spaces into at most so many lines, the last one shortened.
func (l Letters) Wrap(s draw.TextStyle, width vg.Length, txt string, most int) []string {
	words := strings.Fields(l.Legible(txt))
	var lines []string
	for len(words) > 0 && len(lines) < most-1 {
		n := 1
		for n < len(words) && s.Width(strings.Join(words[:n+1], " ")) <= width {
			n++
		}
		lines = append(lines, l.Fit(s, width, strings.Join(words[:n], " ")))
		words = words[n:]
	}
	if len(words) > 0 {
		lines = append(lines, l.Fit(s, width, strings.Join(words, " ")))
	}
	return lines
}

// longest is more letters than any line of a chart can hold.
const longest = 400

// Legible returns what replaces by "?" all that Liberation Sans, which pages are set in
// as well as charts, has no glyph for, and what is not seen.
func Legible() func(string) string { return NewLetters().Legible }
