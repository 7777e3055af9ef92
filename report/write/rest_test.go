package write_test

import (
	"bytes"
	"strings"
	"testing"

	"earshot/report"
	"earshot/report/internal/sample"
	"earshot/report/write"
	"earshot/shutter"
	"earshot/shutter/judge"
)

func TestTheTableSaysWhatTheFirstFiringAfterARestDid(t *testing.T) {
	one := shutter.Mark{Label: "1", Nominal: 1}
	at := func(duration float64) judge.JudgedFiring { return sample.Firing(0, 1, duration, one) }
	hung := at(1)
	hung.Closed, hung.Judged, hung.Symptoms = false, false, []judge.SymptomName{judge.HangsOpen}
	const wakes, sleeps = "\n  it was slow to wake, and is counted all the same: once exercised, a shutter behaves for an afternoon.", "\n  the rest does not show in it."
	for _, c := range []struct {
		name string
		d    report.Document
		want string
	}{
		{"slow at first", sample.Rested("90d", at(1.25), at(1), at(1)), "First after 90 d rest: firing 1, at 1 s, 1250 ms, 0.32 stop longer than the median of the 2 later ones there, which differ by 0.00 stop." + wakes},
		{"slow, but the others differ as much", sample.Rested("90d", at(1.25), at(1.3), at(1), at(1)), "First after 90 d rest: firing 1, at 1 s, 1250 ms, 0.32 stop longer than the median of the 3 later ones there, which differ by 0.38 stop." + sleeps},
		{"alike", sample.Rested("2y", at(1), at(1), at(1)), "First after 2 years' rest: firing 1, at 1 s, 1000 ms, as long as the median of the 2 later ones there, which differ by 0.00 stop." + sleeps},
		{"faster than the one other", sample.Rested("1w", at(1), at(1.25)), "First after 1 week rest: firing 1, at 1 s, 1000 ms, 0.32 stop shorter than the later one there." + sleeps},
		{"alone", sample.Rested("12h", at(1)), "First after 12 h rest: firing 1, at 1 s, 1000 ms; no later one at its speed to hold it against."},
		{"hung", sample.Rested("90d", hung, at(1)), "First after 90 d rest: firing 1, at 1 s, not counted: stayed open."},
		{"no rest told", sample.Rested("", at(1.25), at(1)), ""},
		{"nothing heard", sample.Rested("90d"), ""},
	} {
		var b bytes.Buffer
		if err := write.Text(&b, c.d); err != nil {
			t.Fatal(err)
		}
		_, got, _ := strings.Cut(b.String(), "service beyond 1/2 stop.\n")
		got, _, _ = strings.Cut(got, "\n\n")
		if strings.TrimSpace(got) != c.want && !(c.want == "" && !strings.Contains(b.String(), "First after")) {
			t.Errorf("%s: says\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}
