package judge

import (
	"math"
	"strings"
	"testing"

	"earshot/shutter"
	"earshot/shutter/assign"
)

// judgeSpeed is one dial setting fired in a test: the deviations of its firings in
// stops, NaN for one that never closes.
type judgeSpeed struct {
	label   string
	assumed bool
	silent  bool // no buzz
	x       []float64
	u       float64 // standard uncertainty of each duration, s
	common  float64 // the part of it that all share, s
}

// judgeHung is a firing that never closes.
var judgeHung = math.NaN()

// judgeFired returns the firings of the settings in their order, each setting a run.
func judgeFired(t testing.TB, speeds ...judgeSpeed) ([]shutter.Firing, assign.Laying) {
	t.Helper()
	var firings []shutter.Firing
	var laying assign.Laying
	at := 0.5
	for _, s := range speeds {
		mark, ok := shutter.Binary().Find(s.label)
		if !ok {
			t.Fatalf("no mark %s", s.label)
		}
		run := assign.Run{Mark: mark, Assumed: s.assumed}
		for _, x := range s.x {
			f := shutter.Firing{Open: at, U: s.u, Common: s.common, Edge: shutter.EdgeStop, Buzz: shutter.Buzz{Heard: !s.silent}}
			if !math.IsNaN(x) {
				f.Closed = true
				f.Close = at + mark.Nominal*math.Exp2(x)
			}
			run.Firings = append(run.Firings, len(firings))
			firings = append(firings, f)
			at += 6 + mark.Nominal
		}
		laying.Runs = append(laying.Runs, run)
	}
	return firings, laying
}

// judgeOne judges one speed beside three that scatter by 0.01 stop and are on
// their marks.
func judgeOne(t testing.TB, s judgeSpeed) Speed {
	t.Helper()
	on := []float64{0, -0.01, 0.01}
	firings, laying := judgeFired(t, s,
		judgeSpeed{label: "1", x: on}, judgeSpeed{label: "1/2", x: on}, judgeSpeed{label: "1/4", x: on},
		judgeSpeed{label: "1/15", silent: true, x: on})
	for _, speed := range Judge(firings, laying, Standard()).Speeds {
		if speed.Mark.Label == s.label {
			return speed
		}
	}
	t.Fatalf("%s was not judged at all", s.label)
	return Speed{}
}

func TestVerdictOfASpeed(t *testing.T) {
	eighth := func(x ...float64) judgeSpeed { return judgeSpeed{label: "1/8", x: x} }
	cases := []struct {
		name  string
		speed judgeSpeed
		want  Verdict
		why   string // a part of it
	}{
		{"three firings near the mark are good", eighth(0.11, 0.12, 0.1), Good, "0.1 stop slow (more light)"},
		{"two firings near the mark are steady, too few to call good", eighth(0.05, 0.06), Steady, "2 firings are too few"},
		{"one firing near the mark is not judged", eighth(0.05), NotJudged, "one firing only"},
		{"one firing far beyond the service limit advises service", eighth(0.9), ServiceAdvised, "0.9 stop slow (more light)"},
		{"a speed off but alike is steady with its true time", eighth(0.4, 0.41, 0.39), Steady, "its true time is 165 ms; set a meter 1/3 stop slower than the mark"},
		{"a speed fast but alike is steady the other way", eighth(-0.4, -0.41, -0.39), Steady, "0.4 stop fast (less light)"},
		{"a mean inside the good limit by less than U95 is steady", eighth(0.32, 0.33, 0.31), Steady, "too near the limit of 1/3 stop"},
		{"a mean beyond the service limit by less than U95 is steady", eighth(0.51, 0.52, 0.50), Steady, "0.5 stop slow"},
		{"a mean well beyond the service limit advises service", eighth(0.6, 0.61, 0.59), ServiceAdvised, "beyond 1/2 stop"},
		{"a mean as far beyond on the fast side does too", eighth(-0.6, -0.61, -0.59), ServiceAdvised, "0.6 stop fast (less light)"},
		{"a spread beyond the service limit advises service", eighth(-0.1, 0.3, 0), ServiceAdvised, "its 3 firings differ by 0.40 stop"},
		{"a spread between the limits leaves U95 too large for three firings", eighth(0, 0.2, -0.1), NotJudged, "differ too much for their number"},
		{"the same spread over six firings is steady", eighth(0.1, -0.1, 0.11, -0.12, 0.1, -0.11), Steady, "its firings differ by 0.23 stop"},
		{"an assumed speed that repeats is not judged", judgeSpeed{label: "1/8", assumed: true, x: []float64{0, 0.01, 0.02}}, NotJudged, "assumed"},
		{"an assumed speed far off is not judged by the distance", judgeSpeed{label: "1/8", assumed: true, x: []float64{0.6, 0.61, 0.62}}, NotJudged, "assumed"},
		{"an assumed speed that does not repeat advises service", judgeSpeed{label: "1/8", assumed: true, x: []float64{0, 0.4, -0.1}}, ServiceAdvised, "differ by 0.50 stop"},
		{"1/60 on its mark is steady: the edge leaves too much open to call it good", judgeSpeed{label: "1/60", silent: true, x: []float64{0.2, 0.21, 0.19}}, Steady, "too near the limit"},
		{"1/125 is too fast for the ear", judgeSpeed{label: "1/125", silent: true, x: []float64{0, 0.01, -0.01}}, NotJudged, "too fast for the ear"},
		{"onsets that cannot be told are the recording's fault", judgeSpeed{label: "1/8", u: 0.03, x: []float64{0, 0.01, -0.01}}, NotJudged, "the recording shows opening and closing too vaguely"},
	}
	for _, c := range cases {
		got := judgeOne(t, c.speed)
		if got.Verdict != c.want || !strings.Contains(got.Why, c.why) {
			t.Errorf("%s: %v, %q, want %v, %q", c.name, got.Verdict, got.Why, c.want, c.why)
		}
	}
}

// The figures of three firings worked by hand: 0.1, 0.2, 0.3 stop at 1/4.
func TestFiguresOfASpeed(t *testing.T) {
	firings, laying := judgeFired(t, judgeSpeed{label: "1/4", x: []float64{0.1, 0.3, 0.2}})
	got := Judge(firings, laying, Standard()).Speeds[0].Summary
	want := map[string][2]float64{
		"deviation": {got.Deviation, 0.2}, "duration": {got.Duration, 0.287175}, "median": {got.Median, 0.2},
		"first": {got.First, 0.267943}, "sd": {got.SD, 0.1}, "spread": {got.Spread, 0.2},
		"repeatability": {got.Budget.Repeatability, 0.248414}, // 4.30265 · 0.1/√3
		"edge":          {got.Budget.Edge, 0.009545},          // 0.95 · 2 ms/(287.2 ms · ln 2)
	}
	for name, v := range want {
		if math.Abs(v[0]-v[1]) > 1e-6 {
			t.Errorf("%s = %.6f, want %.6f", name, v[0], v[1])
		}
	}
	if got.N != 3 || got.MeanHidden {
		t.Errorf("n = %d, mean hidden %v, want 3, false", got.N, got.MeanHidden)
	}
}

func TestEveryFiringIsAccountedFor(t *testing.T) {
	firings, laying := judgeFired(t, judgeSpeed{label: "1/8", x: []float64{0, 0.01, 0.02, 0.9, judgeHung, 0.3, 0.03}})
	firings[3].Unfit = "samples lost inside"
	firings[6].Close = firings[6].Open - 1
	firings = append(firings, shutter.Firing{Open: 90, Close: 90.1, Closed: true})
	laying.Doubts = []assign.Doubt{{Firing: 5, Reason: "1/8 or 1/4"}, {Firing: 7, Reason: "an extra firing"}}
	got := Judge(firings, laying, Standard())
	reasons := []string{"", "", "", "samples lost inside", "it stayed open", "1/8 or 1/4", "its closing does not follow", "an extra firing"}
	for i, want := range reasons {
		f := got.Firings[i]
		if f.Judged != (want == "") || !strings.HasPrefix(f.Reason, want) || (f.Mark != nil) != (i < 7) {
			t.Errorf("firing %d: judged %v, reason %q, mark %v, want reason %q", i, f.Judged, f.Reason, f.Mark, want)
		}
	}
	if s := got.Speeds[0].Summary; s.N != 3 || len(got.Speeds[0].Firings) != 7 {
		t.Errorf("%d of %d firings counted, want 3 of 7", s.N, len(got.Speeds[0].Firings))
	}
}

func TestRunsOfOneSpeedAreJudgedTogetherInDialOrder(t *testing.T) {
	firings, laying := judgeFired(t,
		judgeSpeed{label: "1/4", x: []float64{0, 0.01}}, judgeSpeed{label: "1", x: []float64{0}}, judgeSpeed{label: "1/4", x: []float64{0.02}})
	got := Judge(firings, laying, Standard()).Speeds
	if len(got) != 2 || got[0].Mark.Label != "1" || got[1].Summary.N != 3 {
		t.Errorf("speeds %+v, want 1 and 1/4 with three firings", got)
	}
}

func TestVerdictOfTheShutter(t *testing.T) {
	on, off := []float64{0, 0.01, -0.01}, []float64{0.4, 0.41, 0.39}
	speed := func(label string, x ...float64) judgeSpeed { return judgeSpeed{label: label, x: x} }
	cases := []struct {
		name   string
		speeds []judgeSpeed
		want   Verdict
		partly bool
		why    string // a part of the reasons
		next   string // a part of it
	}{
		{"four good speeds are good", []judgeSpeed{speed("1", on...), speed("1/2", on...), speed("1/4", on...), speed("1/8", on...)}, Good, false, "1, 1/2, 1/4, 1/8", "nothing more is needed"},
		{"the worst speed decides", []judgeSpeed{speed("1", on...), speed("1/2", off...), speed("1/4", on...), speed("1/8", on...)}, Steady, false, "1/2: it repeats", "state the true speeds when you sell it"},
		{"a shutter that wants service is sent there", []judgeSpeed{speed("1", on...), speed("1/2", 0, 0.6, -0.2), speed("1/4", on...), speed("1/8", on...)}, ServiceAdvised, false, "1/2: its 3 firings differ", "have the shutter serviced"},
		{"three speeds are a partial check", []judgeSpeed{speed("1", on...), speed("1/2", on...), speed("1/4", on...)}, Good, true, "partly checked: 3 speeds were judged", "record at least four speeds"},
		{"a check without its slowest speed is partial", []judgeSpeed{speed("1", 0), speed("1/2", on...), speed("1/4", on...), speed("1/8", on...), speed("1/15", on...)}, Good, true, "partly checked: the slowest speed, 1,", "fire 1 at least three times: 2 firings more"},
		{"a speed that cannot be judged does not decide", []judgeSpeed{speed("1", on...), speed("1/2", on...), speed("1/4", on...), speed("1/8", on...), speed("1/250", on...)}, Good, false, "1/250 is not judged: too fast", "1/250 needs a test by light"},
		{"one more speed whose firings differ too much for their number keeps it from good", []judgeSpeed{speed("1", on...), speed("1/2", on...), speed("1/4", on...), speed("1/8", on...), {label: "1/15", silent: true, x: []float64{0.12, -0.05, 0.22}}}, Steady, true, "1, 1/2, 1/4, 1/8; not called good as a whole, since 1/15 may not be", "fire 1/15"},
		{"so do two firings that agree too little for two", []judgeSpeed{speed("1", on...), speed("1/2", on...), speed("1/4", on...), speed("1/8", on...), {label: "1/15", silent: true, x: []float64{0, 0.06}}}, Steady, true, "partly checked: fired, but not judged at 1/15", "fire 1/15"},
		{"a single firing near its mark does not", []judgeSpeed{speed("1", on...), speed("1/2", on...), speed("1/4", on...), speed("1/8", 0), speed("1/15", on...)}, Good, true, "partly checked: fired, but not judged at 1/8", "fire 1/8 at least three times: 2 firings more"},
		{"a single firing further off does", []judgeSpeed{speed("1", on...), speed("1/2", on...), speed("1/4", on...), speed("1/8", 0.4), speed("1/15", on...)}, Steady, true, "since 1/8 may not be", "fire 1/8"},
		{"1/125 so slow that sound could judge it is left open by its firings", []judgeSpeed{speed("1", on...), speed("1/2", on...), speed("1/4", on...), speed("1/8", on...), {label: "1/125", silent: true, x: []float64{0.2, 0.31, 0.2}}}, Steady, true, "not judged at 1/125", "fire 1/125"},
		{"perhaps beyond the service limit is partly checked", []judgeSpeed{speed("1", on...), speed("1/2", on...), speed("1/4", on...), speed("1/8", 0.5, 0.54, 0.58), speed("1/15", on...)}, Steady, true, "partly checked: the firings at 1/8 leave open whether it is off by more than 1/2 stop", "fire 1/8"},
		{"nothing judged is not judged", []judgeSpeed{speed("1", 0), speed("1/2", 0)}, NotJudged, false, "1 is not judged: one firing only", "fire 1 at least three times"},
		{"nothing heard is not judged", nil, NotJudged, false, "no firing was heard", "record each slow speed"},
	}
	for _, c := range cases {
		firings, laying := judgeFired(t, c.speeds...)
		got := Judge(firings, laying, Standard())
		if got.Verdict != c.want || got.Partly != c.partly || !strings.Contains(strings.Join(got.Why, "\n"), c.why) {
			t.Errorf("%s: %v, partly %v, %q, want %v, %v, %q", c.name, got.Verdict, got.Partly, got.Why, c.want, c.partly, c.why)
		}
		if !strings.Contains(got.Next, c.next) || (c.next == "") != (got.Next == "") {
			t.Errorf("%s: next %q, want %q", c.name, got.Next, c.next)
		}
	}
}

func TestASpeedToldAndNotHeardMakesTheCheckPartial(t *testing.T) {
	on := []float64{0, 0.01, -0.01}
	var speeds []judgeSpeed
	for _, label := range []string{"1/2", "1/4", "1/8", "1/15"} {
		speeds = append(speeds, judgeSpeed{label: label, x: on})
	}
	firings, laying := judgeFired(t, speeds...)
	laying.Unheard = []shutter.Mark{{Label: "1", Nominal: 1}, {Label: "1/30", Nominal: 1.0 / 32}}
	got := Judge(firings, laying, Standard())
	if got.Verdict != Good || !got.Partly {
		t.Errorf("%v, partly %v, want good, true", got.Verdict, got.Partly)
	}
	if why := got.Why[len(got.Why)-1]; why != "partly checked: told, but no firing heard at 1 and 1/30" {
		t.Errorf("why: %q", why)
	}
	if got.Next != "record 1 and 1/30 as well, fired three times or more" {
		t.Errorf("next: %q", got.Next)
	}
}

func TestPolicyMovesTheLimits(t *testing.T) {
	x := []float64{0.6, 0.61, 0.59}
	firings, laying := judgeFired(t, judgeSpeed{label: "1/8", x: x})
	if got := Judge(firings, laying, Standard()).Verdict; got != ServiceAdvised {
		t.Errorf("standard: %v, want service advised", got)
	}
	if got := Judge(firings, laying, NegativeFilm()).Verdict; got != Steady {
		t.Errorf("negative-film: %v, want steady", got)
	}
}

func TestAMarkWithoutANominalTimeIsAProgrammersError(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("Judge did not panic")
		}
	}()
	Judge([]shutter.Firing{{Close: 1, Closed: true}}, assign.Laying{Runs: []assign.Run{{Firings: []int{0}}}}, Standard())
}
