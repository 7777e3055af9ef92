package write

import (
	"slices"
	"testing"

	"earshot/report"
)

func TestFiringsNotCountedForOneReasonAreSaidOnce(t *testing.T) {
	mark, times := "1/2", []float64{0.51, 0.5, 0.52}
	var d report.Document
	add := func(reason string, marked *string, duration *float64) {
		d.Firings = append(d.Firings, report.Firing{Open: float64(len(d.Firings)), Reason: reason, Marked: marked, Duration: duration, Judged: reason == ""})
	}
	add("which?", &mark, &times[0])
	add("which?", &mark, &times[1])
	add("", &mark, &times[1])
	add("which?", &mark, &times[0])
	add("which?", &mark, &times[1])
	add("which?", &mark, &times[2])
	add("which?", nil, &times[2])
	add("another", nil, nil)
	want := []string{
		"firing 1 at 0.000 s, at 1/2 s, 510.0 ms: which?",
		"firing 2 at 1.000 s, at 1/2 s, 500.0 ms: which?",
		"firings 4 to 6 from 3.000 to 5.000 s, at 1/2 s, 500.0 to 520.0 ms: which?",
		"firing 7 at 6.000 s, at no speed, 520.0 ms: which?",
		"firing 8 at 7.000 s, at no speed: another",
	}
	if got := notCounted(d); !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
}
