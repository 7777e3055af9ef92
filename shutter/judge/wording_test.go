package judge

import (
	"testing"

	"earshot/shutter"
)

func TestDeviationsAreSaidInTheTradesWords(t *testing.T) {
	cases := map[float64]string{
		0.3: "0.3 stop slow (more light)", -0.26: "0.3 stop fast (less light)", 1: "1.0 stop slow (more light)",
		1.26: "1.3 stops slow (more light)", 0.04: "on the mark", -0.04: "on the mark", 0.06: "0.1 stop slow (more light)",
	}
	for stops, want := range cases {
		if got := shutter.DeviationText(stops); got != want {
			t.Errorf("DeviationText(%v) = %q, want %q", stops, got, want)
		}
	}
}

func TestTimesAreSaidToThreeDigits(t *testing.T) {
	cases := map[float64]string{
		1.2098: "1.21 s", 0.0625: "62.5 ms", 0.25: "250 ms", 0.9996: "1.00 s", 0.99: "990 ms",
		0.0078125: "7.81 ms", 12.34: "12.3 s", 1234: "1234 s", 0.000976: "0.976 ms",
	}
	for seconds, want := range cases {
		if got := shutter.TimeText(seconds); got != want {
			t.Errorf("timeText(%v) = %q, want %q", seconds, got, want)
		}
	}
}

func TestMetersAreSetToTheNearestThird(t *testing.T) {
	cases := map[float64]string{
		0.1: "at the mark", 0.2: "1/3 stop slower than the mark", -0.6: "2/3 stop faster than the mark",
		1.05: "1 stop slower than the mark", 1.6: "1 2/3 stops slower than the mark",
	}
	for stops, want := range cases {
		if got := shutter.MeterText(stops); got != want {
			t.Errorf("MeterText(%v) = %q, want %q", stops, got, want)
		}
	}
}

func TestFiringsAreNumberedFromOne(t *testing.T) {
	cases := map[string][]int{"firing 2": {1}, "firings 1 and 3": {0, 2}, "firings 1, 2 and 6": {0, 1, 5}}
	for want, indices := range cases {
		if got := firingsText(indices); got != want {
			t.Errorf("firingsText(%v) = %q, want %q", indices, got, want)
		}
	}
}

func TestLimitsAreSaidAsFractionsWhereTheyAreOne(t *testing.T) {
	cases := map[float64]string{1.0 / 3: "1/3 stop", 0.333: "1/3 stop", 0.5: "1/2 stop", 1: "1 stop", 0.4: "0.4 stop", 1.5: "1.5 stops"}
	for stops, want := range cases {
		if got := shutter.LimitText(stops); got != want {
			t.Errorf("limitText(%v) = %q, want %q", stops, got, want)
		}
	}
}
