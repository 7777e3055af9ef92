package report

import (
	"bytes"
	"fmt"
	"io"
	"math"

	"earshot/report/words"
)

// Clock is how far the clock of a recorder is off, told by a ticking clock.
type Clock struct {
	File    string  `json:"file"`
	SHA256  string  `json:"sha256"`
	Every   float64 `json:"every_s"`
	Error   float64 `json:"error_ppm"` // + is fast
	U95     float64 `json:"u95_ppm"`   // the ticking clock taken for right
	Ticks   int     `json:"ticks"`
	Missed  int     `json:"missed"`
	Others  int     `json:"others"`
	Scatter float64 `json:"scatter_s"`
	Uneven  float64 `json:"uneven_s"`
}

// WriteClockJSON writes the clock's error as a document of its own.
func WriteClockJSON(w io.Writer, c Clock, version string) error {
	c.Error, c.U95 = round(c.Error, 4), round(c.U95, 4)
	c.Scatter, c.Uneven = seconds(c.Scatter), seconds(c.Uneven)
	return Encode(w, struct {
		Schema string `json:"schema"`
		Tool   Tool   `json:"tool"`
		Clock  Clock  `json:"clock"`
	}{Schema, Tool{version}, c})
}

// WriteClock says for a person how far the clock is off, and what to do with that.
func WriteClock(w io.Writer, c Clock) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s: %s timed, %d missed, %s\n", words.Printable(c.File), words.Plural(c.Ticks, "tick"), c.Missed, words.Plural(c.Others, "other sound"))
	fmt.Fprintf(&b, "The recorder's clock is %s, 95 %% sure within %s ppm.\n", c.words(), ppmWords(c.U95))
	fmt.Fprintf(&b, "  the ticks scatter by %.2f ms", c.Scatter*1000)
	if math.Abs(c.Uneven) > 2*c.Scatter {
		fmt.Fprintf(&b, "; tick and tock lie %.1f ms off even", math.Abs(c.Uneven)*1000)
	}
	fmt.Fprintf(&b, "\n  100 ppm are 0.00014 stop at every speed: no speed of a shutter is judged otherwise for it\n")
	fmt.Fprintf(&b, "To take it out: earshot check CLIP --clock-ppm %s\n", c.flag())
	fmt.Fprintf(&b, "The ticking clock is taken for right: one that gains a second a day is off by %.1f ppm.\n", 1e6/86400.0)
	_, err := b.WriteTo(w)
	return err
}

func (c Clock) words() string {
	switch {
	case ppmWords(c.Error) == ppmWords(0):
		return "right"
	case c.Error > 0:
		return ppmWords(c.Error) + " ppm fast"
	}
	return ppmWords(c.Error) + " ppm slow"
}

func ppmWords(x float64) string { return fmt.Sprintf("%.1f", math.Abs(x)) }

// flag is the error as check takes it, with a half-width that is not too small once
// rounded.
func (c Clock) flag() string {
	return fmt.Sprintf("%+.1f±%.1f", c.Error, math.Ceil(c.U95*10)/10)
}
