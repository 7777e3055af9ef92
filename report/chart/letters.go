package chart

import (
	"image/color"
	"strings"
	"unicode"

	"golang.org/x/image/font/sfnt"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	xfont "golang.org/x/image/font"
)

// letters sets text in Liberation Sans, whose fonts are within the program.
type letters struct{ cache *font.Cache }

func newLetters() letters { return letters{font.NewCache(liberation.Collection())} }

func (l letters) style(size vg.Length, clr color.Color) draw.TextStyle {
	sans := font.Font{Typeface: "Liberation", Variant: "Sans"}
	return draw.TextStyle{Color: clr, Font: font.From(sans, size), Handler: text.Plain{Fonts: l.cache}}
}

func bold(s draw.TextStyle) draw.TextStyle {
	s.Font.Weight = xfont.WeightBold
	return s
}

func aligned(s draw.TextStyle, x, y float64) draw.TextStyle {
	s.XAlign, s.YAlign = text.XAlignment(x), text.YAlignment(y)
	return s
}

// legible replaces what the font has no glyph for by "?", since the back-ends would
// leave it out without a word, and what is not seen, since a change of writing direction
// would turn the words around it.
func (l letters) legible(s string) string {
	face := l.cache.Lookup(l.style(10, color.Black).Font, 10).Face
	var buf sfnt.Buffer
	out := []rune(s)
	for i, r := range out {
		if g, err := face.GlyphIndex(&buf, r); err != nil || g == 0 || !unicode.IsGraphic(r) {
			out[i] = '?'
		}
	}
	return string(out)
}

// fit makes text legible and shortens it to a width, with an ellipsis.
func (l letters) fit(s draw.TextStyle, width vg.Length, txt string) string {
	txt = l.legible(txt)
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

// shrink is a style small enough for text to fit a width, or of the smallest size.
func (l letters) shrink(s draw.TextStyle, smallest, width vg.Length, txt string) draw.TextStyle {
	for s.Font.Size > smallest && s.Width(l.legible(txt)) > width {
		s.Font.Size -= vg.Points(0.5)
	}
	return s
}

// wrap breaks text at spaces into at most so many lines, the last one shortened.
func (l letters) wrap(s draw.TextStyle, width vg.Length, txt string, most int) []string {
	words := strings.Fields(l.legible(txt))
	var lines []string
	for len(words) > 0 && len(lines) < most-1 {
		n := 1
		for n < len(words) && s.Width(strings.Join(words[:n+1], " ")) <= width {
			n++
		}
		lines = append(lines, l.fit(s, width, strings.Join(words[:n], " ")))
		words = words[n:]
	}
	if len(words) > 0 {
		lines = append(lines, l.fit(s, width, strings.Join(words, " ")))
	}
	return lines
}

// longest is more letters than any line of a chart can hold.
const longest = 400

// Legible returns what replaces by "?" all that Liberation Sans, which pages are set in
// as well as charts, has no glyph for, and what is not seen.
func Legible() func(string) string { return newLetters().legible }
