package report

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"earshot/report/words"
)

// WriteSound writes what was found about a clip's sound for a person: a line each,
// those that are better recorded otherwise with what they limit and what to do. Text from
// outside is made safe for a terminal. Warnings about the clip are left to the caller.
func WriteSound(w io.Writer, c Clip, firings int) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s: %s, %.1f s, %s heard\n", words.Printable(c.File), words.Printable(c.Format), c.Duration, words.Plural(firings, "firing"))
	for _, f := range c.Sound.Findings {
		sign := "ok"
		if f.Fault {
			sign = "!!"
		}
		fmt.Fprintf(&b, "  %s  %-9s  %s\n", sign, f.Name, words.Printable(f.words()))
	}
	fmt.Fprintf(&b, "%s\n", c.Sound.Fitness())
	if firings == 0 {
		fmt.Fprintln(&b, "No firing was heard in it.")
	}
	_, err := b.WriteTo(w)
	return err
}

// words is a finding in one line.
func (f SoundFinding) words() string {
	if !f.Fault {
		return f.Text
	}
	return f.Text + " " + f.Limits + " To do: " + f.Advice
}

// Fitness sums the findings up in a sentence.
func (s Sound) Fitness() string {
	faults, limits := s.Faults(), s.Limits()
	switch {
	case len(limits) > 0:
		return fmt.Sprintf("Timing is limited by the recording: %s.", strings.Join(limits, ", "))
	case len(faults) > 0:
		return fmt.Sprintf("Fit to be timed; %s better recorded otherwise.", words.Plural(len(faults), "thing"))
	}
	return "Fit to be timed."
}

// Limits names the findings that limit what can be timed or judged.
func (s Sound) Limits() []string {
	var names []string
	for _, f := range s.Findings {
		if f.Limiting {
			names = append(names, f.Name)
		}
	}
	return names
}

// WriteSoundJSON writes the clip with its findings.
func WriteSoundJSON(w io.Writer, c Clip, version string) error {
	return Encode(w, struct {
		Schema string `json:"schema"`
		Tool   Tool   `json:"tool"`
		Clip   Clip   `json:"clip"`
	}{Schema, Tool{version}, newClip(c)})
}
