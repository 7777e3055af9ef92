package words

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// Stops says a size in stops: "1/3 stop", "0.27 stop", "1.50 stops".
func Stops(x float64) string {
	for _, f := range []struct {
		x    float64
		word string
	}{{1.0 / 6, "1/6"}, {1.0 / 4, "1/4"}, {1.0 / 3, "1/3"}, {1.0 / 2, "1/2"}, {2.0 / 3, "2/3"}, {1, "1"}} {
		if math.Abs(x-f.x) < 0.001 {
			return f.word + " stop"
		}
	}
	return InStops(fmt.Sprintf("%.2f", x), x)
}

// InStops gives a size its unit: "0.5 stop", "1.5 stops". The size is that of x stops.
func InStops(size string, x float64) string {
	if math.Abs(x) > 1 {
		return size + " stops"
	}
	return size + " stop"
}

// PlainStops says a size in stops to a hundredth, whatever it is: "0.33 stop".
func PlainStops(x float64) string { return InStops(fmt.Sprintf("%.2f", x), x) }

// Signed prints stops with their sign: "+0.27", "−0.05", "0.00".
func Signed(x float64) string {
	size := fmt.Sprintf("%.2f", math.Abs(x))
	switch {
	case size == "0.00":
		return size
	case x < 0:
		return "−" + size
	}
	return "+" + size
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

// Mark prints a mark with its unit: "1/15 s", "2 s".
func Mark(marked string) string {
	return strings.TrimSuffix(marked, "s") + " s"
}

// Date prints a day as a person writes it, in the zone it was recorded in.
func Date(t time.Time) string { return t.Format("2 January 2006") }
