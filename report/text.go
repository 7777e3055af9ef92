package report

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"earshot/report/words"
	"earshot/shutter"
)

// WriteText writes the document for a person: the lens, a table of its speeds, what
// the figures mean, and every firing that was not counted with the reason. Text from
// outside is made safe for a terminal. Warnings about clips are left to the caller.
func WriteText(w io.Writer, d Document) error {
	var b bytes.Buffer
	d.writeHead(&b)
	if len(d.Speeds) > 0 {
		fmt.Fprintf(&b, "\n%s\n", d.table())
	}
	d.writeScatter(&b)
	d.writeBuzz(&b)
	d.writeRest(&b)
	fmt.Fprintf(&b, "\n%s.\n", words.Printable(d.VerdictWords()))
	if steady := d.SteadyWords(); steady != "" {
		writeList(&b, "", []string{steady})
	}
	writeList(&b, "", d.Reasons())
	writeList(&b, "Symptoms", d.symptomLines())
	writeList(&b, "Next", d.nextLines())
	fmt.Fprintf(&b, "%s.\n", d.CountWords())
	writeList(&b, "Not counted", d.notCounted())
	writeList(&b, "Against the speeds told", d.Warnings)
	_, err := b.WriteTo(w)
	return err
}

func (d Document) writeHead(b *bytes.Buffer) {
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

// Words are what was told of the lens beside its name: "Rested 90d, 18 °C".
func (l Lens) Words() string {
	var parts []string
	if l.Shutter == string(shutter.FocalPlane) {
		parts = append(parts, "Focal-plane shutter, timed from stop to stop")
	}
	if l.Rested != "" {
		parts = append(parts, "Rested "+l.rest())
	}
	if l.Temperature != nil {
		parts = append(parts, fmt.Sprintf("%g °C", *l.Temperature))
	}
	if l.Note != "" {
		parts = append(parts, l.Note)
	}
	return strings.Join(parts, ", ")
}

// writeScatter lists the single firings of speeds whose mean would mislead.
func (d Document) writeScatter(b *bytes.Buffer) {
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

func (d Document) nextLines() []string {
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
