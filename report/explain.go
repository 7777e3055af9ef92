package report

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"

	"earshot/report/words"
)

// WriteExplanation writes for a person why there is a firing or none: what was weighed,
// how it was timed and what became of it, and what was heard near it.
func WriteExplanation(w io.Writer, x Explanation) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s.\n", words.Printable(x.Heading))
	if len(x.Candidates) > 0 {
		b.WriteString("\nEvidence for (+) and against (−), as natural logarithms of odds; 3 is 20 to 1.\n")
	}
	for _, c := range x.Candidates {
		fmt.Fprintf(&b, "\n%s\n", c.heading())
		for _, e := range append(c.Evidence, c.Sum()...) {
			fmt.Fprintf(&b, "  %6s  %s\n", e.Words(), words.Printable(e.What))
		}
		fmt.Fprintf(&b, "  %s\n", words.Printable(words.Sentence(c.Why)))
	}
	separate(&b, x.Notes)
	writeList(&b, "", x.Notes)
	sounds := x.soundLines()
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

func (c Candidate) heading() string {
	if c.Close == nil {
		return fmt.Sprintf("Opening at %.3f s, no closing", c.Open)
	}
	return fmt.Sprintf("Opening at %.3f s, closing at %.3f s", c.Open, *c.Close)
}

// Sum is all the evidence together, as one line more; none where there is no evidence.
func (c Candidate) Sum() []Evidence {
	if len(c.Evidence) == 0 {
		return nil
	}
	return []Evidence{{c.Total, "together: above 0 a firing is likelier than not"}}
}

// Words prints evidence to a tenth with its sign: "+2.0", "−0.8", "0.0".
func (e Evidence) Words() string {
	size := fmt.Sprintf("%.1f", math.Abs(e.Weight))
	switch {
	case size == "0.0":
		return size
	case e.Weight < 0:
		return "−" + size
	}
	return "+" + size
}

func (x Explanation) soundLines() []string {
	var lines []string
	for i, s := range x.Sounds {
		is := ""
		if s.Is != "" {
			is = ": " + s.Is
		}
		level := strings.Replace(fmt.Sprintf("%.1f", s.Level), "-", "−", 1)
		lines = append(lines, fmt.Sprintf("%s  %.3f s, %s dBFS, %.0f dB over what came before%s", SoundLetter(i), s.At, level, s.Over, is))
	}
	return lines
}

// SoundLetter is what the i-th of the sounds told of is called, in words and pictures.
func SoundLetter(i int) string { return string(rune('a' + i)) }
