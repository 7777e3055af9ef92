package main

import (
	"fmt"
	"slices"
	"strings"
)

// addBeside adds how every method did in one clip.
func (t *tally) addBeside(o *outcome) {
	for name, s := range o.beside {
		all := t.beside[name]
		all.add(s)
		t.beside[name] = all
	}
}

// besideFirings is the table of firings found and timed by each method.
func besideFirings(some []*tally) grid {
	g := grid{besideHead("firings", []string{"F1 ±5 ms", "timed %", "95th ms"})}
	for _, t := range some {
		row := []string{t.name, fmt.Sprint(t.beside[ownName].firings.references)}
		row = append(row, t.perMethod(func(s standing) string { return fmt.Sprintf("%.3f", s.firings.f1()) })...)
		row = append(row, t.perMethod(func(s standing) string { return percent(len(s.errors), s.closed) })...)
		row = append(row, t.perMethod(standing.spread)...)
		g = append(g, row)
	}
	return g
}

// besideOnsets is the table of single onsets by each method.
func besideOnsets(some []*tally) grid {
	var heads []string
	for _, w := range windows() {
		heads = append(heads, fmt.Sprintf("F ±%g ms", 1e3*w))
	}
	g := grid{besideHead("onsets", heads)}
	for _, t := range some {
		row := []string{t.name, none}
		if s, ok := t.beside[ownName]; ok {
			row[1] = fmt.Sprint(s.onsets[0].references)
		}
		for i := range windows() {
			row = append(row, t.perMethod(func(s standing) string { return fmt.Sprintf("%.3f", s.onsets[i].f1()) })...)
		}
		g = append(g, row)
	}
	return g
}

// besideHead is a heading with a column of each figure for every method.
func besideHead(what string, figures []string) []string {
	head := []string{"condition", what}
	for _, f := range figures {
		for _, m := range methods() {
			head = append(head, m+" "+f)
		}
	}
	return head
}

// perMethod is one cell for every method; one that was not used shows none.
func (t *tally) perMethod(cell func(s standing) string) []string {
	var cells []string
	for _, m := range methods() {
		if s, ok := t.beside[m]; ok {
			cells = append(cells, cell(s))
		} else {
			cells = append(cells, none)
		}
	}
	return cells
}

// spread is the error, ms, that 95 % of the durations lie within.
func (s standing) spread() string {
	if len(s.errors) == 0 {
		return none
	}
	return fmt.Sprintf("%.3f", 1e3*sizeOf(s.errors, 0.95))
}

// besidePage is both tables of the core conditions and of those beyond.
func (r *results) besidePage() string {
	fired := append(append(r.of(core), r.core), r.of(beyond)...)
	return aboutBeside(fired) + "\n" + besideFirings(fired).String() + "\n" + aboutBesideOnsets + "\n" + besideOnsets(fired).String()
}

// aboutBeside explains the tables, and says so where aubioonset was not used.
func aboutBeside(some []*tally) string {
	about := fmt.Sprintf(aboutYardsticks, besideClips, strings.Join(aubioSettings(48000), " "))
	if slices.ContainsFunc(some, func(t *tally) bool { _, ok := t.beside[aubioName]; return ok }) {
		return about
	}
	return about + "\naubioonset is not installed on the machine of this run (Debian's package\naubio-tools), so its columns are empty.\n"
}

const aboutYardsticks = `The first %d clips of each condition, heard in the same run in two other ways, which know
nothing of shutters and give bare onsets: by aubioonset, the general onset detector of the
library aubio (%s, -B and -H
scaled with the sampling rate; it adds up the channels), and by a plain threshold, halfway
in dB between the median energy of the clip and its highest, in frames of 0.5 ms. Two of
their onsets are taken for a firing where each is the other's nearest. Both are helped by
the truth, and earshot is not: the median lag of each in a clip is taken out. All three
are held against the starts of the blades or against their stops, whichever suits them
better in that clip; only the F1 of earshot goes by what it says itself.

F1 is that of firings, told nothing but the sound, as above. The other two columns are
told where every firing is: for each the onsets nearest to its true opening and closing
are taken. Timed is the share of firings for which both lie within ±5 ms, 95th the 95th
percentile of the error of the durations between them. So F1 shows how firings are told
from other sounds, and 95th how they are timed once they are.
`

const aboutBesideOnsets = `Openings and closings as single onsets: F as mir_eval defines it (C. Raffel et al., ISMIR
2014), within ±1, ±2 and ±5 ms. Of earshot the onsets of the firings found count, of the
others all that they give; so winding and bounces, which have onsets too, count as false.
`
