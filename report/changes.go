package report

import (
	"fmt"
	"math"
	"strings"

	"earshot/report/words"
	"earshot/shutter/judge"
)

// Heading names the lens and the days of both sittings.
func (c Comparison) Heading() string {
	name, number := Document{Lens: c.After.Lens}.Title()
	return fmt.Sprintf("%s: %s compared with %s", name+number, words.Date(c.After.Made), words.Date(c.Before.Made))
}

// WhyNoMean says what stands where a mean would: "-" where the speed was not recorded.
func (f *Found) WhyNoMean() string {
	switch {
	case f == nil:
		return "-"
	case len(f.Symptoms) > 0:
		return strings.Join(f.Symptoms, ", ")
	}
	return "no mean"
}

// ChangeWords is the change as it is spoken of: "0.8 stop faster", "none shown".
func (p SpeedChange) ChangeWords() string {
	switch {
	case p.Change == nil:
		return p.Why
	case p.Real:
		return fmt.Sprintf("%.1f %s %s", math.Abs(*p.Change), strings.Fields(words.InStops("", *p.Change))[0], pace(*p.Change))
	}
	return "none shown"
}

func pace(change float64) string {
	if change < 0 {
		return "faster"
	}
	return "slower"
}

// VerdictWords is the verdict before and after, once where it is the same.
func (p SpeedChange) VerdictWords() string {
	switch {
	case p.Before == nil:
		return p.After.Verdict.String()
	case p.After == nil:
		return p.Before.Verdict.String()
	}
	return fromTo(p.Before.Verdict, p.After.Verdict)
}

func fromTo(before, after judge.Verdict) string {
	if before == after {
		return "still " + after.String()
	}
	return before.String() + " → " + after.String()
}

// Findings say what changed, a part of a sentence each.
func (c Comparison) Findings() []string {
	var parts []string
	for _, way := range []float64{-1, 1} {
		if line := c.shifted(way); line != "" {
			parts = append(parts, line)
		}
	}
	if still := c.those(func(p SpeedChange) bool { return p.Change != nil && !p.Real }); len(still) > 0 {
		parts = append(parts, "no change shown at "+marksOf(still))
	}
	if none := c.those(func(p SpeedChange) bool { return p.Change == nil }); len(none) > 0 {
		parts = append(parts, marksOf(none)+" not compared")
	}
	if len(c.Speeds) == 0 {
		parts = append(parts, "neither record has a speed")
	}
	return parts
}

// shifted says which speeds are really faster (way −1) or slower (+1), and whether they are
// nearer the mark now.
func (c Comparison) shifted(way float64) string {
	least, most := math.Inf(1), 0.0
	nearer, farther := 0, 0
	speeds := c.those(func(p SpeedChange) bool {
		if !p.Real || *p.Change*way < 0 {
			return false
		}
		size := math.Abs(*p.Change)
		least, most = min(least, size), max(most, size)
		if math.Abs(*p.After.Deviation) < math.Abs(*p.Before.Deviation) {
			nearer++
		} else {
			farther++
		}
		return true
	})
	if len(speeds) == 0 {
		return ""
	}
	line := fmt.Sprintf("%s now %s %s", marksOf(speeds), sizes(least, most), pace(way))
	switch {
	case farther == 0:
		line += ", nearer the mark"
	case nearer == 0:
		line += ", farther from the mark"
	}
	return line
}

func sizes(least, most float64) string {
	low, high := fmt.Sprintf("%.1f", least), fmt.Sprintf("%.1f", most)
	if low == high {
		return words.InStops(high, most)
	}
	return low + " to " + words.InStops(high, most)
}

// those are the speeds for which is holds.
func (c Comparison) those(is func(SpeedChange) bool) []Speed {
	var out []Speed
	for _, p := range c.Speeds {
		if is(p) {
			out = append(out, Speed{Marked: p.Marked, Nominal: p.Nominal})
		}
	}
	return out
}
