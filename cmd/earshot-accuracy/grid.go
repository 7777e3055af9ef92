package main

import (
	"strings"
	"unicode/utf8"
)

// grid is a table; its first row is the heading. It is written in Markdown with its
// columns aligned, so that it reads as well in a terminal: the first column to the
// left, figures to the right.
type grid [][]string

func (g grid) String() string {
	width := make([]int, len(g[0]))
	for _, row := range g {
		for i, cell := range row {
			width[i] = max(width[i], utf8.RuneCountInString(cell))
		}
	}
	var b strings.Builder
	for n, row := range g {
		for i, cell := range row {
			pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell))
			if i == 0 {
				b.WriteString("| " + cell + pad + " ")
			} else {
				b.WriteString("| " + pad + cell + " ")
			}
		}
		b.WriteString("|\n")
		if n == 0 {
			b.WriteString(rule(width))
		}
	}
	return b.String()
}

// rule is the line under the heading.
func rule(width []int) string {
	var b strings.Builder
	for i, w := range width {
		if i == 0 {
			b.WriteString("| " + strings.Repeat("-", w) + " ")
		} else {
			b.WriteString("| " + strings.Repeat("-", w-1) + ": ")
		}
	}
	return b.String() + "|\n"
}
