// Package chart draws the document of one shutter: the deviation of every firing
// over the speeds of the dial, as PNG, SVG or PDF.
//
// [Write] draws a report.Document in one of the formats. [New] first computes what is plotted,
// without any drawing; a chart shows that and nothing else.
//
// Up is slow (more light), in stops. Shape and lightness carry the meaning, never
// hue: the first firing at a speed is a diamond and later ones are discs; what is
// not judged is hollow; an assumed speed stands on hatching. The chart is meant to
// stand alone, in a listing say, so it names lens, date, verdict and what the
// verdict holds for. The same document gives the same bytes.
package chart
