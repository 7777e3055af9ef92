package report_test

import (
	"testing"

	"earshot/report"
	"earshot/shutter/judge"
)

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
