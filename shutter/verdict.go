package shutter

import (
	"errors"
	"fmt"
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
