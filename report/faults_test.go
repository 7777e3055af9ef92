package report_test

import (
	"bytes"
	"strings"
	"testing"

	"earshot/report"
	"earshot/report/internal/sample"
	"earshot/report/write"
)

// wellRecorded is a clip with which no fault is found.
func wellRecorded() report.Clip {
	peak, floor, click, over, band := -13.2, -58.0, -26.1, 31.9, 24000.0
	return report.Clip{File: "corvane.wav", Format: "WAV, 16-bit PCM, 48 kHz, 2 channels", Rate: 48000, Channels: 2, Duration: 41.2,
		Sound: report.Sound{Peak: &peak, Floor: &floor, Click: &click, ClickOver: &over, Bandwidth: &band}}
}

func faultNames(c report.Clip) string {
	var names []string
	for _, f := range c.WithFindings().Sound.Faults() {
		names = append(names, f.Name)
	}
	return strings.Join(names, ", ")
}

func TestEachFaultOfARecordingIsFoundByItself(t *testing.T) {
	to := func(x float64) *float64 { return &x }
	for name, c := range map[string]struct {
		change func(s *report.Sound)
		found  string
		says   string
	}{
		"nothing":                 {func(*report.Sound) {}, "", "Channel 1 of 2 was used."},
		"clicks too quiet":        {func(s *report.Sound) { s.Click = to(-55) }, "level", "Clicks are at -55 dBFS"},
		"clipped":                 {func(s *report.Sound) { s.Clipped = 120 }, "clipping", "120 samples"},
		"touching full scale":     {func(s *report.Sound) { s.Clipped = 2 }, "", "None."},
		"noisy":                   {func(s *report.Sound) { s.ClickOver = to(14.2) }, "noise", "14 dB over the noise"},
		"nothing heard":           {func(s *report.Sound) { s.Click, s.ClickOver, s.Bandwidth = nil, nil, nil }, "noise", "Nothing stands out"},
		"too short":               {func(s *report.Sound) { s.Floor, s.Click, s.ClickOver, s.Bandwidth = nil, nil, nil, nil }, "noise", "too short to hold a sound"},
		"short, but heard":        {func(s *report.Sound) { s.Floor, s.ClickOver = nil, nil }, "", "too short to tell"},
		"cut off by a codec":      {func(s *report.Sound) { s.Bandwidth, s.Smear = to(7900), 0.6e-3 }, "bandwidth", "A lossy format"},
		"pauses muted":            {func(s *report.Sound) { s.Gated, s.Lost, s.Floor, s.ClickOver = true, 21.4, nil, nil }, "gate", "21.4 s in all"},
		"gain turned up and down": {func(s *report.Sound) { s.Recovery = 4.2 }, "gain", "4.2 dB"},
		"samples lost":            {func(s *report.Sound) { s.Lost = 0.043 }, "gaps", "43 ms in all"},
		"a dead microphone":       {func(s *report.Sound) { s.Dead = []int{1} }, "channels", "Channel 2 holds nothing. Channel 1 of 2"},
		"opposite phases":         {func(s *report.Sound) { s.Opposite = []int{1} }, "channels", "Channel 2 is opposite in phase"},
		"hum":                     {func(s *report.Sound) { s.Hum = &report.Hum{Frequency: 60, Level: -41} }, "hum", "60 Hz"},
		"digital silence":         {func(s *report.Sound) { *s = report.Sound{Lost: 41.2} }, "level", "Every sample is zero."},
	} {
		clip := wellRecorded()
		c.change(&clip.Sound)
		if got := faultNames(clip); got != c.found {
			t.Errorf("%s: found %q, want %q", name, got, c.found)
		}
		var b bytes.Buffer
		if err := write.Sound(&b, clip.WithFindings(), 3); err != nil || !strings.Contains(b.String(), c.says) {
			t.Errorf("%s: %q is not said in\n%s%v", name, c.says, &b, err)
		}
	}
}

func TestSlowSamplingIsNamedAsSuch(t *testing.T) {
	c := wellRecorded()
	band := 8000.0
	c.Rate, c.Sound.Bandwidth, c.Sound.Smear = 16000, &band, 0.17e-3
	faults := c.WithFindings().Sound.Faults()
	if len(faults) != 1 || !strings.Contains(faults[0].Text, "16 kHz of sampling") {
		t.Errorf("%+v", faults)
	}
}

func TestEveryFaultSaysWhatItLimitsAndWhatToDo(t *testing.T) {
	c := wellRecorded()
	low, band := -55.0, 7000.0
	c.Sound = report.Sound{Peak: &low, Floor: &low, Click: &low, ClickOver: &low, Bandwidth: &band, Smear: 0.6e-3, Clipped: 99, Gated: true, Lost: 1, Recovery: 3,
		Dead: []int{0}, Hum: &report.Hum{Frequency: 50, Level: -40}}
	faults := c.WithFindings().Sound.Faults()
	if len(faults) < 8 {
		t.Errorf("%d faults, want 8 and more", len(faults))
	}
	for _, f := range faults {
		if f.Text == "" || f.Limits == "" || f.Advice == "" {
			t.Errorf("%+v", f)
		}
	}
}

func TestTheNameOfAClipIsMadeSafeForTheTerminal(t *testing.T) {
	c := wellRecorded()
	c.File = "a\x1b[31m.wav"
	var b bytes.Buffer
	if err := write.Sound(&b, c.WithFindings(), 0); err != nil || strings.Contains(b.String(), "\x1b") {
		t.Errorf("%q, %v", &b, err)
	}
}

func TestTheTableSaysWhereARecordingLimitsTiming(t *testing.T) {
	d := sample.Document()
	for _, c := range []struct {
		finding report.SoundFinding
		says    bool
	}{
		{report.SoundFinding{Name: "noise", Fault: true, Limiting: true}, true},
		{report.SoundFinding{Name: "hum", Fault: true}, false},
	} {
		d.Clips[0].Sound.Findings = []report.SoundFinding{c.finding}
		var b bytes.Buffer
		if err := write.Text(&b, d); err != nil {
			t.Fatal(err)
		}
		if says := strings.Contains(b.String(), "Timing is limited by the recording: "+c.finding.Name+". earshot sound corvane-slow.wav says how."); says != c.says {
			t.Errorf("%s: said %v, want %v\n%s", c.finding.Name, says, c.says, &b)
		}
	}
}
