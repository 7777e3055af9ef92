package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"regexp"
	"strings"
	"testing"

	"earshot/report"
	"earshot/shutter/judge"
)

// dial is half a second, an eighth and a fifteenth fired so often each, with these verdicts.
func dial(whole judge.Verdict, firings int, verdicts ...judge.Verdict) Sheet {
	d := report.Document{Verdict: whole}
	for i, v := range verdicts {
		s := report.Speed{Marked: []string{"1/2", "1/8", "1/15"}[i], Verdict: v}
		for range firings {
			s.Firings = append(s.Firings, len(d.Firings))
			d.Firings = append(d.Firings, report.Firing{})
		}
		d.Speeds = append(d.Speeds, s)
	}
	return Sheet{Record: d}
}

func TestTheFiringsShownAreOfTheSlowestSpeedThatDecides(t *testing.T) {
	const none, service, steady, good = judge.NotJudged, judge.ServiceAdvised, judge.Steady, judge.Good
	for name, c := range map[string]struct {
		sheet Sheet
		want  []int
		at    string
	}{
		"the slowest of those that need service":         {dial(service, 3, good, service, service), []int{3, 4, 5}, "1/8 s"},
		"a symptom of the whole shutter":                 {dial(service, 3, steady, steady, good), []int{0, 1, 2}, "1/2 s"},
		"a symptom of a shutter with a speed not judged": {dial(service, 3, none, steady, good), []int{0, 1, 2}, "1/2 s"},
		"nothing was judged":                             {dial(none, 1, none, none), []int{0}, "1/2 s"},
		"more than a strip holds":                        {dial(good, 9, good), []int{0, 1, 2, 3, 4, 5}, "1/2 s"},
	} {
		if got := c.sheet.Heard(); fmt.Sprint(got) != fmt.Sprint(c.want) || !strings.Contains(c.sheet.StripWords(), "at "+c.at+" as they were heard") {
			t.Errorf("%s: Heard() = %v, %q, want %v at %s", name, got, c.sheet.StripWords(), c.want, c.at)
		}
	}
	if got := dial(service, 0, service).Heard(); len(got) > 0 {
		t.Errorf("no firing at all: Heard() = %v", got)
	}
}

func TestASheetOfWhatCouldNotBeJudgedSaysSo(t *testing.T) {
	s, err := New(sitting(1, fired{mark("1/500", 1/512.0), []float64{0.002, 0.00201, 0.00199}, false}), nil)
	if err != nil {
		t.Fatal(err)
	}
	if s.Scope != "No speed could be judged. Recorded 25 November 2026" || s.Plainly != "The recording does not allow a judgement." {
		t.Errorf("it says %q, %q", s.Scope, s.Plainly)
	}
	if s.NotTested[0] != "Fired, and not judged: 1/500 s." {
		t.Errorf("not tested: %q", s.NotTested)
	}
	if got := s.Listing(); !strings.Contains(got, "at no speed, and the verdict is: not judged") {
		t.Errorf("Listing() = %s", got)
	}
}

func TestAPDFStaysOnePageWithAStripAndMoreFindingsThanItHolds(t *testing.T) {
	d := steady()
	d.Observed, d.ObservedBy = []report.Observation{{What: "glass", Seen: "clean"}}, "R. Marrable"
	s, err := New(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var strip, b bytes.Buffer
	if err := errors.Join(png.Encode(&strip, image.NewGray(image.Rect(0, 0, 60, 9))), WritePDF(&b, s)); err != nil {
		t.Fatal(err)
	}
	bare := b.Len()
	s.Strip = strip.Bytes()
	for range 60 {
		s.Findings = append(s.Findings, "one thing more that is out of order at 1/4 s")
	}
	b.Reset()
	if err := WritePDF(&b, s); err != nil {
		t.Fatal(err)
	}
	if pages := len(regexp.MustCompile(`/Type /Page\b`).FindAll(b.Bytes(), -1)); pages != 1 {
		t.Errorf("%d pages, want 1", pages)
	}
	if images := bytes.Count(b.Bytes(), []byte("/Subtype /Image")); images != 2 || b.Len() == bare {
		t.Errorf("%d pictures, want the chart and the strip", images)
	}
	if n := len(s.Findings); n != 60+len(findings(d)) {
		t.Errorf("writing the page left %d findings of the sheet", n)
	}
}
