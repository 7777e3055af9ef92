package report

import (
	"fmt"
	"math"
	"strings"
	"time"

	"earshot/shutter/judge"
)

// NotTested says what a judgement by sound leaves out; it goes wherever a verdict is
// shown to a buyer.
const NotTested = "Timed by sound, not by light. Fast speeds, aperture, flash contacts and film transport are not tested."

// StopsWords says a size in stops: "1/3 stop", "0.27 stop", "1.50 stops".
func StopsWords(x float64) string {
	for _, f := range []struct {
		x    float64
		word string
	}{{1.0 / 6, "1/6"}, {1.0 / 4, "1/4"}, {1.0 / 3, "1/3"}, {1.0 / 2, "1/2"}, {2.0 / 3, "2/3"}, {1, "1"}} {
		if math.Abs(x-f.x) < 0.001 {
			return f.word + " stop"
		}
	}
	return stopsWords(fmt.Sprintf("%.2f", x), x)
}

func stopsWords(size string, x float64) string {
	if math.Abs(x) > 1 {
		return size + " stops"
	}
	return size + " stop"
}

// Milliseconds prints a time in s as ms to four significant digits, and at least to
// the whole ms: "1210", "62.51", "7.813".
func Milliseconds(s float64) string {
	ms := s * 1000
	decimals := 3
	for limit := 9.9995; decimals > 0 && ms >= limit; limit *= 10 {
		decimals--
	}
	return fmt.Sprintf("%.*f", decimals, ms)
}

// ExactMilliseconds prints a nominal time in s as ms with every digit it has, to
// 0.1 ns: "62.5", "7.8125".
func ExactMilliseconds(s float64) string {
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.7f", s*1000), "0"), ".")
}

// Date prints a day as a person writes it, in the zone it was recorded in.
func Date(t time.Time) string { return t.Format("2 January 2006") }

// MarkWords prints a mark with its unit: "1/15 s", "2 s".
func MarkWords(marked string) string {
	return strings.TrimSuffix(marked, "s") + " s"
}

// Title names the lens, and number is its serial number where there is one.
func (d Document) Title() (name, number string) {
	name = d.Lens.Name
	if name == "" {
		name = "Unnamed lens"
	}
	if d.Lens.Serial != "" {
		number = ", no. " + d.Lens.Serial
	}
	return name, number
}

// VerdictWords is the verdict with what it holds for, so that it never stands for
// the whole lens: "Shutter: good at the speeds measured, 1 to 1/30 s".
func (d Document) VerdictWords() string {
	scope := d.Scope()
	if scope == "" {
		return "Shutter: " + d.Verdict.String()
	}
	words := fmt.Sprintf("Shutter: %s at the speeds measured, %s", d.Verdict, scope)
	if d.Partly {
		words += " (partly checked)"
	}
	return words
}

// Scope lists the speeds that were judged; empty where none was.
func (d Document) Scope() string {
	var judged []Speed
	for _, s := range d.Speeds {
		if s.Verdict != judge.NotJudged {
			judged = append(judged, s)
		}
	}
	return marksOf(judged)
}

// marksOf lists speeds, as a range where no speed of the dial is left out between
// three or more: "1 to 1/30 s", "1, 1/8 s".
func marksOf(speeds []Speed) string {
	var marks []string
	gap, last := false, 0.0
	for _, s := range speeds {
		gap = gap || last/s.Nominal > widestStep
		last = s.Nominal
		marks = append(marks, strings.TrimSuffix(s.Marked, "s"))
	}
	switch {
	case len(marks) == 0:
		return ""
	case len(marks) < 3 || gap:
		return strings.Join(marks, ", ") + " s"
	}
	return marks[0] + " to " + marks[len(marks)-1] + " s"
}

// widestStep is the largest ratio between neighbours on a dial, from 1/2 to 1/5 and
// 1/10 to 1/25 of the older series, with a little room.
const widestStep = 2.55

// MedianTime is the duration in s behind the median deviation, the nominal time
// where there is none.
func (s Speed) MedianTime() float64 {
	if s.Median == nil {
		return s.Nominal
	}
	return s.Nominal * math.Exp2(*s.Median)
}
