package write

import (
	"fmt"
	"slices"

	"earshot/report"
	"earshot/report/words"
)

// aWall is how many firings in a row that are not counted for the same reason are
// said in one line.
const aWall = 3

// notCounted accounts for the firings that were not counted.
func notCounted(d report.Document) []string {
	var lines []string
	for i := 0; i < len(d.Firings); {
		if d.Firings[i].Judged {
			i++
			continue
		}
		end := i + 1
		for end < len(d.Firings) && alike(d, d.Firings[i], d.Firings[end]) {
			end++
		}
		if end-i >= aWall {
			lines = append(lines, notCountedAlike(d, i, end))
			i = end
			continue
		}
		f := d.Firings[i]
		lines = append(lines, fmt.Sprintf("firing %d at %.3f s%s%s: %s", i+1, f.Open, inClip(d, f), f.AtWords(), f.Excuse()))
		i++
	}
	return lines
}

// alike tells whether two firings were not counted for the same reason at the same
// speed of the same clip.
func alike(d report.Document, f, g report.Firing) bool {
	return !f.Judged && !g.Judged && f.Clip == g.Clip && f.WhereWords() == g.WhereWords() && f.Excuse() == g.Excuse()
}

// notCountedAlike is the line of the firings from first to before end, which are alike.
func notCountedAlike(d report.Document, first, end int) string {
	var times []float64
	for _, f := range d.Firings[first:end] {
		if f.Duration != nil && !f.StayedOpen() {
			times = append(times, *f.Duration)
		}
	}
	span := ""
	if len(times) > 0 {
		span = fmt.Sprintf(", %s to %s ms", words.Milliseconds(slices.Min(times)), words.Milliseconds(slices.Max(times)))
	}
	f, last := d.Firings[first], d.Firings[end-1]
	return fmt.Sprintf("firings %d to %d from %.3f to %.3f s%s%s%s: %s", first+1, end, f.Open, last.Open, inClip(d, f), f.WhereWords(), span, f.Excuse())
}

func inClip(d report.Document, f report.Firing) string {
	if len(d.Clips) < 2 {
		return ""
	}
	return " of " + d.Clips[f.Clip].File
}
