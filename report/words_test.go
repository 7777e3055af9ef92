package report_test

import (
	"strings"
	"testing"

	"earshot/report"
	"earshot/shutter/judge"
)

func TestMillisecondsKeepFourDigits(t *testing.T) {
	for _, c := range []struct {
		s    float64
		want string
	}{{1.20981, "1210"}, {0.99996, "1000"}, {0.5212, "521.2"}, {0.06251, "62.51"}, {0.0078125, "7.812"}, {0.0099999, "10.00"}, {12, "12000"}} {
		if got := report.Milliseconds(c.s); got != c.want {
			t.Errorf("Milliseconds(%v) = %q, want %q", c.s, got, c.want)
		}
	}
}

func TestExactTimesKeepEveryDigit(t *testing.T) {
	for _, c := range []struct {
		s    float64
		want string
	}{{1, "1000"}, {1.0 / 16, "62.5"}, {1.0 / 256, "3.90625"}, {0.04, "40"}, {4, "4000"}} {
		if got := report.ExactMilliseconds(c.s); got != c.want {
			t.Errorf("ExactMilliseconds(%v) = %q, want %q", c.s, got, c.want)
		}
	}
}

func TestScopeNamesTheSpeedsJudged(t *testing.T) {
	type speed struct {
		marked  string
		nominal float64
		verdict judge.Verdict
	}
	good := judge.Good
	cases := []struct {
		name   string
		speeds []speed
		want   string
	}{
		{"none judged has no scope", []speed{{"1", 1, judge.NotJudged}}, ""},
		{"neighbours are a range", []speed{{"1", 1, good}, {"1/2", .5, good}, {"1/4", .25, good}}, "1 to 1/4 s"},
		{"neighbours of the older series are a range", []speed{{"1/2", .5, good}, {"1/5", .2, good}, {"1/10", .1, good}, {"1/25", .04, good}}, "1/2 to 1/25 s"},
		{"a speed left out breaks the range", []speed{{"1", 1, good}, {"1/4", .25, good}, {"1/8", .125, good}}, "1, 1/4, 1/8 s"},
		{"a speed not judged breaks the range", []speed{{"1", 1, good}, {"1/2", .5, judge.NotJudged}, {"1/4", .25, good}, {"1/8", .125, good}}, "1, 1/4, 1/8 s"},
		{"seconds are not said twice", []speed{{"2s", 2, good}, {"1", 1, good}}, "2, 1 s"},
	}
	for _, c := range cases {
		var d report.Document
		for _, s := range c.speeds {
			d.Speeds = append(d.Speeds, report.Speed{Marked: s.marked, Nominal: s.nominal, Verdict: s.verdict})
		}
		if got := d.Scope(); got != c.want {
			t.Errorf("%s: Scope() = %q, want %q", c.name, got, c.want)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(`{"schema": "earshot/1"}`))
	f.Add([]byte(edited(&testing.T{}, "x", "x")))
	f.Fuzz(func(t *testing.T, b []byte) {
		d, err := report.Read(strings.NewReader(string(b)))
		if err != nil {
			return
		}
		d.Headlines()
		var text, table, again strings.Builder
		if err := report.WriteText(&text, d); err != nil {
			t.Error(err)
		}
		if err := report.WriteCSV(&table, d); err != nil {
			t.Error(err)
		}
		if err := report.WriteJSON(&again, d); err != nil {
			t.Error(err)
		}
	})
}
