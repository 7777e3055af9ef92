package report

import (
	"fmt"
	"strings"

	"earshot/report/words"
)

// Sound says how fit a clip was to be timed.
type Sound struct {
	Transients int      `json:"transients"`      // sudden sounds heard, firings or not
	Noise      *float64 `json:"noise_dbfs"`      // the level the clip is quieter than for a tenth of the time; nil for digital silence
	Peak       *float64 `json:"peak_dbfs"`       // the largest sample; nil for digital silence
	Clipped    int64    `json:"clipped_samples"` // at or beyond 0.999 of full scale
	Lost       float64  `json:"lost_s"`          // time in which samples were lost or muted
	Gated      bool     `json:"gated"`           // a noise gate muted them

	Floor     *float64       `json:"floor_dbfs"`          // the noise between sounds above 500 Hz, on the channel used; nil where the clip shows none
	Click     *float64       `json:"click_dbfs"`          // openings and closings above 500 Hz, each over its loudest 2 ms, or the loudest sounds where there are none
	ClickOver *float64       `json:"click_over_noise_db"` // how far that stands over the noise
	Bandwidth *float64       `json:"bandwidth_hz"`        // nothing is heard beyond; nil where nothing stands out
	Smear     float64        `json:"smear_s"`             // standard uncertainty that a narrow band adds to every duration, one error for the clip
	Recovery  float64        `json:"noise_recovery_db"`   // by how much the noise rises again after loud sounds; 0 where it does not
	Hum       *Hum           `json:"hum"`                 // nil where there is none
	Dead      []int          `json:"dead_channels"`       // the first is 0
	Opposite  []int          `json:"opposite_channels"`   // in phase to the first channel
	Findings  []SoundFinding `json:"findings"`            // in a fixed order
}

// Hum is what the mains put into a clip.
type Hum struct {
	Frequency float64 `json:"frequency_hz"` // of the mains
	Level     float64 `json:"level_dbfs"`
}

// SoundFinding says one thing about a clip, and what to do where it is a fault.
type SoundFinding struct {
	Name     string `json:"name"`
	Fault    bool   `json:"fault"`    // better recorded otherwise
	Limiting bool   `json:"limiting"` // it keeps firings from being heard or judged, or makes their times less fine
	Text     string `json:"text"`     // what was found
	Limits   string `json:"limits"`   // what it limits, or why nothing; empty where it is no fault
	Advice   string `json:"advice"`   // what to do; empty where it is no fault
}

// newSound rounds what was measured of a clip and says what it means. Findings of the program
// that wrote a record are kept.
func newSound(s Sound) Sound {
	s.Lost, s.Smear, s.Recovery = seconds(s.Lost), seconds(s.Smear), round(s.Recovery, 2)
	for _, x := range []**float64{&s.Noise, &s.Peak, &s.Floor, &s.Click, &s.ClickOver, &s.Bandwidth} {
		*x = decibels(*x)
	}
	if s.Hum != nil {
		s.Hum = &Hum{s.Hum.Frequency, round(s.Hum.Level, 2)}
	}
	s.Dead, s.Opposite, s.Findings = each(s.Dead, same), each(s.Opposite, same), each(s.Findings, same)
	return s
}

// WithFindings is the clip with what is found about its sound.
func (c Clip) WithFindings() Clip {
	c.Sound.Findings = c.findings()
	return c
}

// Faults are the findings that are better recorded otherwise.
func (s Sound) Faults() []SoundFinding {
	var faults []SoundFinding
	for _, f := range s.Findings {
		if f.Fault {
			faults = append(faults, f)
		}
	}
	return faults
}

// Fitness sums the findings up in a sentence.
func (s Sound) Fitness() string {
	faults, limits := s.Faults(), s.Limits()
	switch {
	case len(limits) > 0:
		return fmt.Sprintf("Timing is limited by the recording: %s.", strings.Join(limits, ", "))
	case len(faults) > 0:
		return fmt.Sprintf("Fit to be timed; %s better recorded otherwise.", words.Plural(len(faults), "thing"))
	}
	return "Fit to be timed."
}

// Limits names the findings that limit what can be timed or judged.
func (s Sound) Limits() []string {
	var names []string
	for _, f := range s.Findings {
		if f.Limiting {
			names = append(names, f.Name)
		}
	}
	return names
}
