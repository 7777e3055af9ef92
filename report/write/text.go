package write

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"earshot/report"
	"earshot/report/words"
)

// Text writes the document for a person: the lens, a table of its speeds, what
// the figures mean, and every firing that was not counted with the reason. Text from
// outside is made safe for a terminal. Warnings about clips are left to the caller.
func Text(w io.Writer, d report.Document) error {
	var b bytes.Buffer
	writeHead(d, &b)
	if len(d.Speeds) > 0 {
		fmt.Fprintf(&b, "\n%s\n", speedTable(d))
	}
	writeScatter(d, &b)
	writeBuzz(d, &b)
	writeRest(d, &b)
	fmt.Fprintf(&b, "\n%s.\n", words.Printable(d.VerdictWords()))
	if steady := d.SteadyWords(); steady != "" {
		writeList(&b, "", []string{steady})
	}
	writeList(&b, "", d.Reasons())
	writeList(&b, "Symptoms", symptomLines(d))
	writeList(&b, "Next", nextLines(d))
	fmt.Fprintf(&b, "%s.\n", d.CountWords())
	writeList(&b, "Not counted", notCounted(d))
	writeList(&b, "Against the speeds told", d.Warnings)
	_, err := b.WriteTo(w)
	return err
}

func writeHead(d report.Document, b *bytes.Buffer) {
	name, number := d.Title()
	fmt.Fprintf(b, "%s. %s\n", words.Printable(name+number), words.Date(d.Made))
	for _, c := range d.Clips {
		fmt.Fprintf(b, "%s: %s, %.1f s, sha256 %s\n", words.Printable(c.File), words.Printable(c.Format), c.Duration, words.Printable(words.Short(c.SHA256)))
		if len(c.Sound.Limits()) > 0 {
			fmt.Fprintf(b, "  %s earshot sound %s says how.\n", words.Printable(c.Sound.Fitness()), words.Printable(c.File))
		}
	}
	for _, line := range d.ByHandLines() {
		fmt.Fprintln(b, words.Printable(line))
	}
	if label := d.Lens.Words(); label != "" {
		fmt.Fprintln(b, words.Printable(label))
	}
	fmt.Fprintf(b, "Policy %s: good within %s of the mark, service beyond %s.\n",
		words.Printable(d.Policy.Name), words.Stops(d.Policy.Good), words.Stops(d.Policy.Service))
}

// writeScatter lists the single firings of speeds whose mean would mislead.
func writeScatter(d report.Document, b *bytes.Buffer) {
	for _, s := range d.Speeds {
		if s.Deviation != nil || s.Median == nil {
			continue
		}
		var times []string
		for _, i := range s.Firings {
			if f := d.Firings[i]; f.Judged && f.Duration != nil {
				times = append(times, words.Milliseconds(*f.Duration))
			}
		}
		fmt.Fprintf(b, "Single firings at %s: %s ms.\n", words.Printable(words.Mark(s.Marked)), strings.Join(times, ", "))
	}
}

// writeBuzz says how fast the escapement beats at each speed, and how that runs down
// from early to late in a firing; nothing where no beats could be counted.
func writeBuzz(d report.Document, b *bytes.Buffer) {
	var at []string
	for _, s := range d.Speeds {
		if said := d.BeatWords(s); said != "" {
			at = append(at, words.Mark(s.Marked)+" "+said)
		}
	}
	if len(at) > 0 {
		fmt.Fprintf(b, "Escapement, beats a second (start → end of a firing): %s.\n", words.Printable(strings.Join(at, ", ")))
	}
}

// writeRest says what the first firing after the rest did, and what that means;
// nothing where no rest was told or nothing was heard.
func writeRest(d report.Document, b *bytes.Buffer) {
	n, name, ok := d.FirstAfterRest()
	switch {
	case d.Rest == nil || len(d.Firings) == 0:
		return
	case !ok:
		writeList(b, "First after "+words.Printable(d.Lens.TheRest()), []string{"not known, since there are several clips: record all speeds in one"})
		return
	}
	f := d.Firings[n]
	heading := fmt.Sprintf("F%s: firing %d%s", name[1:], n+1, f.AtWords())
	fmt.Fprintf(b, "%s%s.\n", words.Printable(heading), words.Printable(againstLater(d, f)))
	if d.Rest.Slower != nil {
		fmt.Fprintf(b, "  %s.\n", restTells(d))
	}
}

// againstLater says what the first firing did against the later ones at its speed.
func againstLater(d report.Document, f report.Firing) string {
	switch {
	case !f.Judged:
		return ", not counted: " + f.Excuse()
	case d.Rest.Slower == nil:
		return "; no later one at its speed to hold it against"
	case len(d.Rest.Later) == 1 || d.Rest.Spread == nil:
		return ", " + longer(*d.Rest.Slower) + "the later one there"
	}
	return fmt.Sprintf(", %sthe median of the %d later ones there, which differ by %s",
		longer(*d.Rest.Slower), len(d.Rest.Later), words.PlainStops(*d.Rest.Spread))
}

// longer says how much longer a time is than another, in stops.
func longer(stops float64) string {
	switch {
	case words.PlainStops(math.Abs(stops)) == words.PlainStops(0):
		return "as long as "
	case stops < 0:
		return words.PlainStops(-stops) + " shorter than "
	}
	return words.PlainStops(stops) + " longer than "
}

// restTells says what that means: the rest tells where the first firing is slower by
// more than firings at one speed may differ, and by more than these do.
func restTells(d report.Document) string {
	slower, spread := *d.Rest.Slower, d.Rest.Spread
	if slower > d.Policy.SpreadGood && (spread == nil || slower > *spread) {
		return "it was slow to wake, and is counted all the same: once exercised, a shutter behaves for an afternoon"
	}
	return "the rest does not show in it"
}

// symptomLines says of each symptom where it shows, on which firings it rests and
// what usually causes it, and why where the verdict's own reasons do not say it.
func symptomLines(d report.Document) []string {
	var lines []string
	for _, f := range d.Findings() {
		line := f.Words()
		if len(f.Firings) > 0 {
			line += fmt.Sprintf(" (%s)", words.Firings(f.Firings))
		}
		if f.Cause != "" {
			line += ": " + f.Cause
		}
		lines = append(lines, line)
		for _, why := range f.Whys {
			if !slices.Contains(d.Why, why) {
				lines = append(lines, "  "+why)
			}
		}
	}
	return lines
}

func nextLines(d report.Document) []string {
	var lines []string
	seen := map[string]bool{"": true}
	add := func(line string) {
		if !seen[line] {
			lines, seen[line] = append(lines, line), true
		}
	}
	for _, line := range strings.Split(d.Next, "; ") {
		add(line)
	}
	for _, s := range d.Speeds {
		add(s.Next)
	}
	return lines
}

// writeList writes lines under a heading, which may be empty, and nothing where
// there are none.
func writeList(b *bytes.Buffer, heading string, lines []string) {
	if len(lines) > 0 && heading != "" {
		fmt.Fprintf(b, "%s:\n", heading)
	}
	for _, l := range lines {
		fmt.Fprintf(b, "  %s\n", words.Printable(l))
	}
}
