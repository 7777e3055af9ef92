// Package paper is what every picture of a report is drawn with: letters whose fonts are
// within the program, shades told apart in grey, shapes, legends, and the formats a
// picture is written in.
//
// A [Picture] has a size and draws itself; [Render] makes PNG or SVG of it, the same
// bytes each time. Lengths are in points of 1/72 inch. What a picture is about is
// unknown here.
package paper
