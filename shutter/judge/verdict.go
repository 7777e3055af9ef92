package judge

import (
	"errors"
	"fmt"
	"math"

	"earshot/shutter"
)

// Verdict judges the shutter at the speeds measured. The zero Verdict judges nothing.
type Verdict int

// The verdicts, from none over worst to best.
const (
	NotJudged Verdict = iota
	ServiceAdvised
	Steady
	Good
)

// ErrVerdict is what a text that is no verdict is refused with.
var ErrVerdict = errors.New("unknown verdict")

// String returns the verdict in the words it is written in everywhere.
func (v Verdict) String() string {
	switch v {
	case Good:
		return "good"
	case Steady:
		return "steady"
	case ServiceAdvised:
		return "service advised"
	}
	return "not judged"
}

// MarshalText writes the verdict as String does.
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// UnmarshalText reads what MarshalText wrote, and refuses all else with ErrVerdict.
func (v *Verdict) UnmarshalText(text []byte) error {
	for _, known := range []Verdict{NotJudged, ServiceAdvised, Steady, Good} {
		if string(text) == known.String() {
			*v = known
			return nil
		}
	}
	return fmt.Errorf("%w %q: one of good, steady, service advised, not judged", ErrVerdict, text)
}

// worst returns the worse of two verdicts; one that judges nothing does not count.
func worst(a, b Verdict) Verdict {
	if a == NotJudged || b == NotJudged {
		return max(a, b)
	}
	return min(a, b)
}

// The limits of judging that no policy moves.
const (
	mostU95     = 1.0 / 3 // U95 beyond which a speed is not judged, stops
	goodFirings = 3       // fewest firings that can be called good
	fullSpeeds  = 4       // fewest speeds judged in a check that is not partial
)

// judgement returns the verdict of a speed, the first that holds, and why.
func (j *judging) judgement(t *trial) (Verdict, string) {
	f := t.figures
	for _, s := range t.speed.Symptoms {
		if s.Name.advisesService() {
			return ServiceAdvised, s.Why
		}
	}
	if j.wellBeyond(t) {
		return ServiceAdvised, fmt.Sprintf("%s, 95 %% sure within %.2f stop: beyond %s", shutter.DeviationText(f.Deviation), f.U95, shutter.LimitText(j.policy.Service))
	}
	if why := t.unjudged(); why != "" {
		return NotJudged, why
	}
	if why := j.shortOfGood(t); why != "" {
		return Steady, fmt.Sprintf("it repeats well enough, but %s: its true time is %s; set a meter %s", why, shutter.TimeText(f.Duration), shutter.MeterText(f.Deviation))
	}
	return Good, fmt.Sprintf("%s, 95 %% sure within %.2f stop, and its %d firings agree within %.2f", shutter.DeviationText(f.Deviation), f.U95, f.N, f.Spread)
}

// wellBeyond tells whether mean ± U95 lies wholly beyond the service limit. An
// assumed mark proves no deviation, nor does a mean whose scatter is not known.
func (j *judging) wellBeyond(t *trial) bool {
	if t.speed.Assumed || t.scatter.df == 0 {
		return false
	}
	return math.Abs(t.figures.Deviation)-t.figures.U95 > j.policy.Service
}

// unjudged says why a speed without fault is not judged; empty where it is.
func (t *trial) unjudged() string {
	f := t.figures
	switch {
	case f.N == 0:
		return "no firing of it can be counted"
	case f.N == 1:
		return "one firing only"
	case t.speed.Assumed:
		return "its mark is assumed from the times, and a shutter half a stop out would be taken for its neighbour"
	case f.U95 <= mostU95:
		return ""
	case f.Budget.systematic() > mostU95:
		return fmt.Sprintf("too fast for the ear: sound is 95 %% sure of it only within %.2f stop", f.U95)
	case f.Budget.Onset > f.Budget.Repeatability:
		return fmt.Sprintf("the recording shows opening and closing too vaguely: 95 %% sure only within %.2f stop", f.U95)
	}
	return fmt.Sprintf("its %d firings differ too much for their number: 95 %% sure only within %.2f stop", f.N, f.U95)
}

// shortOfGood says what keeps a speed that is judged from being good; empty where
// nothing does.
func (j *judging) shortOfGood(t *trial) string {
	f := t.figures
	spreadGood := j.spreadLimits(f.N).good
	far := math.Abs(f.Deviation)
	switch {
	case far > j.policy.Good:
		return "it is " + shutter.DeviationText(f.Deviation)
	case far+f.U95 > j.policy.Good:
		return fmt.Sprintf("it is %s, 95 %% sure within %.2f stop, too near the limit of %s to call it good", shutter.DeviationText(f.Deviation), f.U95, shutter.LimitText(j.policy.Good))
	case f.Spread > spreadGood:
		return fmt.Sprintf("its firings differ by %.2f stop, more than the %.2f of a good one; it is %s", f.Spread, spreadGood, shutter.DeviationText(f.Deviation))
	case f.N < goodFirings:
		return fmt.Sprintf("%d firings are too few to call it good; it is %s", f.N, shutter.DeviationText(f.Deviation))
	}
	return ""
}
