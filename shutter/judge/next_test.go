package judge

import "testing"

func TestNextSaysWhatWouldSettleTheVerdict(t *testing.T) {
	eighth := func(x ...float64) judgeSpeed { return judgeSpeed{label: "1/8", x: x} }
	cases := []struct {
		name  string
		speed judgeSpeed
		want  string
	}{
		{"nothing for a good speed", eighth(0, 0.01, 0.02), ""},
		{"nothing for a speed surely off", eighth(0.4, 0.41, 0.39), ""},
		{"nothing for a speed with a fault", eighth(0, 0.5, 0.1), ""},
		{"three firings where there is one", eighth(0.05), "fire 1/8 at least three times: 2 firings more"},
		{"three firings where there are two", eighth(0.05, 0.06), "fire 1/8 at least three times: 1 firing more"},
		{"five more where it falls but proves nothing", eighth(0.3, 0.2, 0.1), "fire 1/8 five more times: it may be freeing up as it is fired"},
		{"five more where an erratic speed falls", eighth(0.5, 0.2, 0.1), "fire 1/8 five more times: it may be freeing up as it is fired"},
		// s = 0.035 on n − 1 degrees: with the edge's 0.022, U95 is 0.091 for 3 and 0.060 for
		// 4; the mean lies 0.068 inside the limit.
		{"more than three where two have shown that three will not do", eighth(0.29, 0.24), "fire 1/8 2 times more"},
		{"a test by light where the edge hides on which side of a limit it lies", judgeSpeed{label: "1/60", silent: true, x: []float64{0.3, 0.31, 0.29}}, "1/60 lies too near a limit for sound to tell, a test by light would"},
		{"rest and another recording where it frees up", eighth(0.5, 0.42, 0.4, 0.38, 0.3), "fire 1/8 some twenty times, let it rest for a day and record it again: what frees up may stiffen again"},
		// s = 0.06: with t for n − 1, U95 is 0.149, 0.095, 0.074, 0.063, 0.055 for 3 to 7;
		// the mean lies 0.063 inside the limit of 1/3 and the edge adds 0.018.
		{"as many as bring the limit out of reach", eighth(0.27, 0.33, 0.21), "fire 1/8 4 times more"},
		{"a test by light where sound cannot tell", judgeSpeed{label: "1/125", silent: true, x: []float64{0, 0.01, 0.02}}, "1/125 needs a test by light: no number of firings makes sound surer of it"},
		{"a better recording where the onsets are vague", judgeSpeed{label: "1/8", u: 0.03, x: []float64{0, 0.01, 0.02}}, "record 1/8 again, nearer the shutter and in a quieter room"},
		{"the settings of the dial where they are assumed", judgeSpeed{label: "1/8", assumed: true, x: []float64{0, 0.01, 0.02}}, "tell the settings of the dial with --speeds, so that the speeds are judged against their marks"},
	}
	for _, c := range cases {
		if got := judgeOne(t, c.speed); got.Next != c.want {
			t.Errorf("%s: %q, want %q (%v, %s)", c.name, got.Next, c.want, got.Verdict, got.Why)
		}
	}
}
