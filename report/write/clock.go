package write

import (
	"bytes"
	"fmt"
	"io"
	"math"

	"earshot/report"
	"earshot/report/words"
)

// Clock says for a person how far the clock is off, and what to do with that.
func Clock(w io.Writer, c report.Clock) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s: %s timed, %d missed, %s\n", words.Printable(c.File), words.Plural(c.Ticks, "tick"), c.Missed, words.Plural(c.Others, "other sound"))
	fmt.Fprintf(&b, "The recorder's clock is %s, 95 %% sure within %s ppm.\n", clockWords(c), ppmWords(c.U95))
	fmt.Fprintf(&b, "  the ticks scatter by %.2f ms", c.Scatter*1000)
	if math.Abs(c.Uneven) > 2*c.Scatter {
		fmt.Fprintf(&b, "; tick and tock lie %.1f ms off even", math.Abs(c.Uneven)*1000)
	}
	fmt.Fprintf(&b, "\n  100 ppm are 0.00014 stop at every speed: too little to change a verdict\n")
	fmt.Fprintf(&b, "To allow for it: earshot check CLIP --clock-ppm %s\n", clockFlag(c))
	fmt.Fprintf(&b, "The ticking clock is taken for right: one that gains a second a day is off by %.1f ppm.\n", 1e6/86400.0)
	_, err := b.WriteTo(w)
	return err
}

func clockWords(c report.Clock) string {
	switch {
	case ppmWords(c.Error) == ppmWords(0):
		return "right"
	case c.Error > 0:
		return ppmWords(c.Error) + " ppm fast"
	}
	return ppmWords(c.Error) + " ppm slow"
}

func ppmWords(x float64) string { return fmt.Sprintf("%.1f", math.Abs(x)) }

// clockFlag is the error as check takes it, with a half-width that is not too small once
// rounded.
func clockFlag(c report.Clock) string {
	return fmt.Sprintf("%+.1f±%.1f", c.Error, math.Ceil(c.U95*10)/10)
}
