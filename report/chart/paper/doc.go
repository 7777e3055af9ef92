// Package paper holds what every picture of a report is drawn with: letters with the fonts in the
// program, shades that differ in grey too, shapes, legends, and the formats of pictures.
//
// A [Picture] has a size and draws itself; [Render] makes PNG or SVG of it, the same
// bytes each time. Lengths are in points of 1/72 inch. What a picture is about is
// unknown here.
package paper
