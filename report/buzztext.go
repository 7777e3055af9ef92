package report

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"earshot/report/words"
)

// writeBuzz says how fast the escapement beats at each speed, and how that runs down
// from early to late in a firing; nothing where no beats could be counted.
func (d Document) writeBuzz(b *bytes.Buffer) {
	var at []string
	for _, s := range d.Speeds {
		if said := d.BeatWords(s); said != "" {
			at = append(at, words.Mark(s.Marked)+" "+said)
		}
	}
	if len(at) > 0 {
		fmt.Fprintf(b, "Beats a second of the escapement in a firing: %s.\n", words.Printable(strings.Join(at, ", ")))
	}
}

// BeatWords says how many beats a second the escapement made at a speed: "214", or "231
// early and 198 late"; empty where none were counted.
func (d Document) BeatWords(s Speed) string {
	var rates, early, late []float64
	for _, i := range s.Firings {
		if z := d.Firings[i].Buzz; z.Rate != nil {
			rates = append(rates, *z.Rate)
			if z.Early != nil && z.Late != nil {
				early, late = append(early, *z.Early), append(late, *z.Late)
			}
		}
	}
	switch {
	case len(rates) == 0:
		return ""
	case 2*len(early) <= len(rates):
		return fmt.Sprintf("%.0f", middle(rates))
	}
	return fmt.Sprintf("%.0f early and %.0f late", middle(early), middle(late))
}

// middle is the upper median of one value or more.
func middle(x []float64) float64 {
	return slices.Sorted(slices.Values(x))[len(x)/2]
}
