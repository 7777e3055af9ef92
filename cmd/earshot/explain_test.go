package main

import (
	"math"
	"testing"
)

func TestWhatIsToBeExplainedIsAFiringOrATime(t *testing.T) {
	for s, want := range map[string]explained{"3": {firing: 3}, "120": {firing: 120}, "12.5s": {at: 12.5}, "0s": {}, "3s": {at: 3}} {
		if got, err := parseExplained(s); err != nil || *got != want {
			t.Errorf("parseExplained(%q) = %+v, %v, want %+v", s, got, err, want)
		}
	}
	for _, s := range []string{"", "0", "-1", "+1", "s", "-1s", "NaNs", "Infs", "1e300s", "3.5", "3 s", "99999999999999999999"} {
		if got, err := parseExplained(s); err == nil {
			t.Errorf("parseExplained(%q) = %+v, want an error", s, got)
		}
	}
}

func FuzzParseExplained(f *testing.F) {
	for _, s := range []string{"3", "12.5s", "0", "NaNs", "-1s"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		e, err := parseExplained(s)
		if err != nil {
			return
		}
		if e.firing < 0 || e.firing > 0 && e.at != 0 || !(e.at >= 0 && e.at <= math.MaxInt32) {
			t.Errorf("parseExplained(%q) = %+v", s, e)
		}
	})
}

func TestFurtherPicturesStandBesideTheFirst(t *testing.T) {
	for _, c := range []struct {
		i          int
		path, want string
	}{{0, "a/x.png", "a/x.png"}, {1, "a/x.png", "a/x-2.png"}, {2, "a.b/x", "a.b/x-3"}} {
		if got := pageName(c.path, c.i); got != c.want {
			t.Errorf("pageName(%q, %d) = %q, want %q", c.path, c.i, got, c.want)
		}
	}
}
