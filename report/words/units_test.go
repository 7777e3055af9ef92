package words_test

import (
	"testing"

	"earshot/report/words"
)

func TestMillisecondsKeepFourDigits(t *testing.T) {
	for _, c := range []struct {
		s    float64
		want string
	}{{1.20981, "1210"}, {0.99996, "1000"}, {0.5212, "521.2"}, {0.06251, "62.51"}, {0.0078125, "7.812"}, {0.0099999, "10.00"}, {12, "12000"}} {
		if got := words.Milliseconds(c.s); got != c.want {
			t.Errorf("Milliseconds(%v) = %q, want %q", c.s, got, c.want)
		}
	}
}

func TestExactTimesKeepEveryDigit(t *testing.T) {
	for _, c := range []struct {
		s    float64
		want string
	}{{1, "1000"}, {1.0 / 16, "62.5"}, {1.0 / 256, "3.90625"}, {0.04, "40"}, {4, "4000"}} {
		if got := words.ExactMilliseconds(c.s); got != c.want {
			t.Errorf("ExactMilliseconds(%v) = %q, want %q", c.s, got, c.want)
		}
	}
}

func TestACapitalIsOneOfAnyLetter(t *testing.T) {
	for s, want := range map[string]string{"": "", "slow": "Slow", "état": "État", "1/15": "1/15"} {
		if got := words.Capital(s); got != want {
			t.Errorf("Capital(%q) = %q, want %q", s, got, want)
		}
		if want != "" {
			want += "."
		}
		if got := words.Sentence(s); got != want {
			t.Errorf("Sentence(%q) = %q, want %q", s, got, want)
		}
	}
}
