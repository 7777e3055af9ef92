package main

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"
)

// figures are what the few clips give.
type figures struct {
	F1     float64 // of all firings together
	P95    float64 // of the error of duration, s
	False  int     // firings found where there are none
	Worst  float64 // F1 of the worst condition
	Misses string  // and its name
}

// fewClips is how many clips of each of few are heard.
const fewClips = 2

// few are conditions that represent the others: as many kinds of trouble as can be run in a few
// seconds.
func few() []condition {
	names := []string{"white noise, 18 dB", "echo 0.4 s", "ratchet, loud", "reflex body, 1/15 and 1/30", "no buzz at any speed",
		"typing between", "AAC, 64 kbit/s", "1 to 1/250", "lone knocks", "clock alone, tick and tock", "clock alone, ticks alike"}
	some := slices.DeleteFunc(conditions(), func(c condition) bool { return !slices.Contains(names, c.name) })
	for i := range some {
		some[i].clips = fewClips
	}
	return some
}

// namesOf says which conditions some are.
func namesOf(some []condition) string {
	var names []string
	for _, c := range some {
		names = append(names, c.name)
	}
	return strings.Join(names, "; ")
}

// measureFew hears the few clips.
func measureFew(seed uint64) (figures, error) {
	some := few()
	outcomes, err := hearAll(some, seed)
	if err != nil {
		return figures{}, err
	}
	all, of := newTally("", core), map[string]*tally{}
	f := figures{Worst: 1, Misses: "none"}
	for _, o := range outcomes {
		if o.condition.group == quiet {
			f.False += len(o.found)
			continue
		}
		if of[o.condition.name] == nil {
			of[o.condition.name] = newTally(o.condition.name, o.condition.group)
		}
		for _, t := range []*tally{all, of[o.condition.name]} {
			t.addClip(o)
		}
	}
	for _, c := range some {
		if t := of[c.name]; t != nil && t.last().f1() < f.Worst {
			f.Worst, f.Misses = t.last().f1(), c.name
		}
	}
	f.F1, f.P95 = all.last().f1(), all.off(0.95)
	return f, nil
}

// writeFew writes the figures of the few clips as JSON.
func writeFew(w io.Writer, seed uint64) error {
	f, err := measureFew(seed)
	if err != nil {
		return err
	}
	if err := json.NewEncoder(w).Encode(f); err != nil {
		return fmt.Errorf("writing the figures: %w", err)
	}
	return nil
}
