package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"earshot/report/words"
	"earshot/shutter"
)

// warmer is the least difference of temperature, in °C, that is pointed out, since oil and
// springs change with it (common practice, no source).
const warmer = 5

// comparability points out what makes two records hard to compare.
func comparability(before, after Document, sameSetUp bool) []string {
	lines := []string{}
	add := func(differs bool, format string, args ...any) {
		if differs {
			lines = append(lines, fmt.Sprintf(format, args...))
		}
	}
	name, number := before.Title()
	name2, number2 := after.Title()
	add(name+number != name2+number2, "these are records of two lenses: %s before, %s after", name+number, name2+number2)
	add(before.Lens.Shutter != after.Lens.Shutter, "they are told to be of two kinds of shutter, %s and %s", before.Lens.Shutter, after.Lens.Shutter)
	add(after.Made.Before(before.Made), "the first record is the newer one: %s, and %s", words.Date(before.Made), words.Date(after.Made))
	add(sharesClip(before, after), "both judge the same recording")
	add(before.Policy != after.Policy, "they were judged by different limits: policy %s before, %s after", before.Policy.words(), after.Policy.words())
	add(before.Lens.Rested != after.Lens.Rested, "rest differs (before: %s; after: %s): a shutter behaves better after exercise", restWords(before.Lens), restWords(after.Lens))
	add(temperaturesDiffer(before.Lens, after.Lens), "temperature differs (before: %s; after: %s): oil and springs change with it", warmthWords(before.Lens), warmthWords(after.Lens))
	add(slices.ContainsFunc(append(slices.Clone(before.Speeds), after.Speeds...), func(s Speed) bool { return s.Assumed }),
		"some speeds were assumed, not told: a change holds only if the marks are right")
	add(before.ByHandWords()+after.ByHandWords() != "", "times were set by hand (before: %s; after: %s): another hand, or the program, may place them elsewhere in a sound",
		before.handWords(), after.handWords())
	if edgesDiffer(before, after) {
		line := fmt.Sprintf("they were timed by different parts of the blades' movement, %s before and %s after", edgesWords(before), edgesWords(after))
		add(sameSetUp, "%s: the set-up cannot count as the same", line)
		add(!sameSetUp, "%s: the edge term covers the difference", line)
	}
	return lines
}

func (p Policy) words() string {
	return fmt.Sprintf("%s (%s and %s)", p.Name, words.Stops(p.Good), words.Stops(p.Service))
}

func restWords(l Lens) string {
	if l.Rested == "" {
		return "not told"
	}
	return l.Rested
}

func warmthWords(l Lens) string {
	if l.Temperature == nil {
		return "not told"
	}
	return fmt.Sprintf("%g °C", *l.Temperature)
}

func temperaturesDiffer(a, b Lens) bool {
	if a.Temperature == nil || b.Temperature == nil {
		return false
	}
	return math.Abs(*a.Temperature-*b.Temperature) >= warmer
}

func sharesClip(a, b Document) bool {
	return slices.ContainsFunc(a.Clips, func(c Clip) bool {
		return slices.ContainsFunc(b.Clips, func(o Clip) bool { return o.SHA256 == c.SHA256 && c.SHA256 != "" })
	})
}

// handWords says what was done to the times of a record by hand.
func (d Document) handWords() string {
	for _, c := range d.Clips {
		if c.ByHand != nil && c.ByHand.any() {
			return c.ByHand.words()
		}
	}
	return "none"
}

// edgesDiffer tells whether the two records have firings that were timed by different parts of
// the blades' movement.
func edgesDiffer(a, b Document) bool {
	return slices.ContainsFunc(a.Firings, func(f Firing) bool {
		return slices.ContainsFunc(b.Firings, func(o Firing) bool { return f.Edge != o.Edge })
	})
}

// edgesWords names what the firings were timed by.
func edgesWords(d Document) string {
	var edges []string
	for _, f := range d.Firings {
		edge := f.Edge
		if edge != string(shutter.EdgeHand) {
			edge = "the " + edge
		}
		if !slices.Contains(edges, edge) {
			edges = append(edges, edge)
		}
	}
	return strings.Join(edges, " and ")
}
