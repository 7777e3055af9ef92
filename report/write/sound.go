package write

import (
	"bytes"
	"fmt"
	"io"

	"earshot/report"
	"earshot/report/words"
)

// Sound writes what was found about a clip's sound for a person: a line each,
// those that are better recorded otherwise with what they limit and what to do. Text from
// outside is made safe for a terminal. Warnings about the clip are left to the caller.
func Sound(w io.Writer, c report.Clip, firings int) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s: %s, %.1f s, %s heard\n", words.Printable(c.File), words.Printable(c.Format), c.Duration, words.Plural(firings, "firing"))
	for _, f := range c.Sound.Findings {
		sign := "ok"
		if f.Fault {
			sign = "!!"
		}
		fmt.Fprintf(&b, "  %s  %-9s  %s\n", sign, f.Name, words.Printable(findingWords(f)))
	}
	fmt.Fprintf(&b, "%s\n", c.Sound.Fitness())
	if firings == 0 {
		fmt.Fprintln(&b, "No firing was heard in it.")
	}
	_, err := b.WriteTo(w)
	return err
}

// findingWords is a finding in one line.
func findingWords(f report.SoundFinding) string {
	if !f.Fault {
		return f.Text
	}
	return f.Text + " " + f.Limits + " To do: " + f.Advice
}
