package shutter

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// DeviationText prints a deviation in stops the way the trade says it, to a tenth
// of a stop: "0.3 stop slow (more light)".
func DeviationText(stops float64) string {
	size := math.Round(math.Abs(stops)*10) / 10
	switch {
	case size == 0:
		return "on the mark"
	case stops > 0:
		return fmt.Sprintf("%.1f %s slow (more light)", size, stopWord(size))
	}
	return fmt.Sprintf("%.1f %s fast (less light)", size, stopWord(size))
}

// TimeText prints a time in s to three digits, in s from 1 s on and in ms below:
// "1.21 s", "62.5 ms".
func TimeText(seconds float64) string {
	if seconds >= 0.9995 {
		return threeDigits(seconds) + " s"
	}
	return threeDigits(seconds*1000) + " ms"
}

// threeDigits prints a positive number to three digits, more before the point.
func threeDigits(x float64) string {
	exponent := strconv.FormatFloat(x, 'e', 2, 64)[len("1.23e"):]
	power, _ := strconv.Atoi(exponent) // of the rounded number: 0.9996 is 1.00
	return strconv.FormatFloat(x, 'f', max(2-power, 0), 64)
}

// MeterText says how to set a meter, to the nearest third of a stop, for a speed
// that is off by the given stops: "1/3 stop slower than the mark".
func MeterText(stops float64) string {
	thirds := int(math.Round(math.Abs(stops) * 3))
	if thirds == 0 {
		return "at the mark"
	}
	way := "slower"
	if stops < 0 {
		way = "faster"
	}
	return fmt.Sprintf("%s %s than the mark", thirdsText(thirds), way)
}

// thirdsText prints a positive number of thirds of a stop: "1 2/3 stops".
func thirdsText(thirds int) string {
	var parts []string
	if whole := thirds / 3; whole > 0 {
		parts = append(parts, fmt.Sprint(whole))
	}
	if rest := thirds % 3; rest > 0 {
		parts = append(parts, fmt.Sprintf("%d/3", rest))
	}
	return strings.Join(parts, " ") + " " + stopWord(float64(thirds)/3)
}

func stopWord(size float64) string {
	if size <= 1 {
		return "stop"
	}
	return "stops"
}

// LimitText prints a limit in stops as it is spoken of: "1/3 stop", "0.4 stop".
func LimitText(stops float64) string {
	for _, d := range []int{1, 2, 3, 4, 6} {
		if math.Abs(stops*float64(d)-1) < 0.005 {
			return strings.TrimSuffix(fmt.Sprintf("1/%d", d), "/1") + " stop"
		}
	}
	return fmt.Sprintf("%.2g %s", stops, stopWord(stops))
}

// FiringsCount prints a number of firings: "1 firing", "3 firings".
func FiringsCount(n int) string {
	if n == 1 {
		return "1 firing"
	}
	return fmt.Sprintf("%d firings", n)
}
