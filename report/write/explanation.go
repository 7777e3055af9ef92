package write

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"earshot/report"
	"earshot/report/words"
)

// Explanation writes for a person why there is a firing or none: what was weighed,
// how it was timed and what became of it, and what was heard near it.
func Explanation(w io.Writer, x report.Explanation) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s.\n", words.Printable(x.Heading))
	if len(x.Candidates) > 0 {
		b.WriteString("\nEvidence for (+) and against (−), as natural logarithms of odds; 3 is 20 to 1.\n")
	}
	for _, c := range x.Candidates {
		fmt.Fprintf(&b, "\n%s\n", candidateHeading(c))
		for _, e := range append(c.Evidence, c.Sum()...) {
			fmt.Fprintf(&b, "  %6s  %s\n", e.Words(), words.Printable(e.What))
		}
		fmt.Fprintf(&b, "  %s\n", words.Printable(words.Sentence(c.Why)))
	}
	separate(&b, x.Notes)
	writeList(&b, "", x.Notes)
	sounds := soundLines(x)
	separate(&b, sounds)
	writeList(&b, "Sounds near it", sounds)
	_, err := b.WriteTo(w)
	return err
}

// separate writes a blank line before lines, where there are any.
func separate(b *bytes.Buffer, lines []string) {
	if len(lines) > 0 {
		b.WriteString("\n")
	}
}

func candidateHeading(c report.Candidate) string {
	if c.Close == nil {
		return fmt.Sprintf("Opening at %.3f s, no closing", c.Open)
	}
	return fmt.Sprintf("Opening at %.3f s, closing at %.3f s", c.Open, *c.Close)
}

func soundLines(x report.Explanation) []string {
	var lines []string
	for i, s := range x.Sounds {
		is := ""
		if s.Is != "" {
			is = ": " + s.Is
		}
		level := strings.Replace(fmt.Sprintf("%.1f", s.Level), "-", "−", 1)
		lines = append(lines, fmt.Sprintf("%s  %.3f s, %s dBFS, %.0f dB over what came before%s", report.SoundLetter(i), s.At, level, s.Over, is))
	}
	return lines
}
