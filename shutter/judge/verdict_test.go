package judge

import (
	"encoding/json"
	"errors"
	"testing"
)

func TestVerdictsAreWrittenInTheirWordsAndReadBack(t *testing.T) {
	words := map[Verdict]string{NotJudged: `"not judged"`, ServiceAdvised: `"service advised"`, Steady: `"steady"`, Good: `"good"`}
	for v, want := range words {
		text, err := json.Marshal(v)
		if err != nil || string(text) != want {
			t.Errorf("Marshal(%d) = %s, %v, want %s", v, text, err, want)
		}
		var back Verdict
		if err := json.Unmarshal(text, &back); err != nil || back != v {
			t.Errorf("Unmarshal(%s) = %v, %v, want %v", text, back, err, v)
		}
	}
	var v Verdict
	if err := v.UnmarshalText([]byte("fine")); !errors.Is(err, ErrVerdict) {
		t.Errorf("UnmarshalText(fine) = %v, want %v", err, ErrVerdict)
	}
	if got := new(Verdict).String(); got != "not judged" {
		t.Errorf("the zero verdict is %q, want not judged", got)
	}
}

func TestWorstLeavesOutWhatIsNotJudged(t *testing.T) {
	cases := []struct{ a, b, want Verdict }{
		{Good, Steady, Steady}, {Steady, ServiceAdvised, ServiceAdvised}, {Good, Good, Good},
		{NotJudged, Good, Good}, {NotJudged, ServiceAdvised, ServiceAdvised}, {NotJudged, NotJudged, NotJudged},
	}
	for _, c := range cases {
		if got := worst(c.a, c.b); got != c.want {
			t.Errorf("worst(%v, %v) = %v, want %v", c.a, c.b, got, c.want)
		}
		if got := worst(c.b, c.a); got != c.want {
			t.Errorf("worst(%v, %v) = %v, want %v", c.b, c.a, got, c.want)
		}
	}
}
