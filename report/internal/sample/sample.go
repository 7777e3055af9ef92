// Package sample holds, for tests, records with everything that can happen.
package sample

import (
	"math"
	"strings"
	"time"

	"earshot/report"
	"earshot/shutter"
	"earshot/shutter/judge"
)

// Firing is a judged firing of a clip at a mark.
func Firing(clip int, open, duration float64, m shutter.Mark) judge.JudgedFiring {
	f := judge.JudgedFiring{Mark: &m, Judged: true, Deviation: math.Log2(duration / m.Nominal)}
	f.Firing = shutter.Firing{Clip: clip, Open: open, Close: open + duration, Closed: true, U: 2e-5, Common: 1.5e-5, Edge: shutter.EdgeStop,
		Buzz:    shutter.Buzz{Heard: true, Rate: 214.3, Level: -24.1, Early: 231.2, Late: 198.4},
		Opening: shutter.Blades{Level: -25.31, Lead: 0.0031, Strength: 0.42, Drawn: 1.02}, Closing: shutter.Blades{Level: -23.7}}
	return f
}

// Check is a sitting with everything that can happen: a good speed, one that hung once,
// one without a mean, one assumed, a firing at no speed and one cut off.
func Check() judge.Check {
	one, half, eighth := shutter.Mark{Label: "1", Nominal: 1}, shutter.Mark{Label: "1/2", Nominal: 0.5}, shutter.Mark{Label: "1/8", Nominal: 0.125}
	hung := Firing(0, 24.5, 1, half)
	hung.Firing.Closed, hung.Close, hung.U, hung.Common, hung.Deviation = false, 0, 0, 0, 0
	hung.Judged, hung.Reason, hung.Symptoms = false, "it never closed", []judge.SymptomName{judge.HangsOpen}
	faltering := Firing(0, 38, 0.75, half)
	faltering.Buzz.Falters, faltering.Bounce = []shutter.Falter{{Start: 0.31, Length: 0.22}}, 0.021
	guess := Firing(1, 3.25, 0.11, eighth)
	guess.Assumed = true
	lost := Firing(1, 9, 0.3, eighth)
	lost.Mark, lost.Deviation, lost.Judged, lost.Reason = nil, 0, false, "could be 1/2 or 1/4: both fit about as well"
	return judge.Check{
		Policy: judge.Standard(),
		Firings: []judge.JudgedFiring{
			Firing(0, 3.8, 1.2, one), Firing(0, 10.1, 1.21, one), Firing(0, 16, 1.2, one),
			hung, Firing(0, 31, 0.52, half), faltering, guess, lost,
		},
		Speeds: []judge.Speed{
			{Mark: one, Firings: []int{0, 1, 2}, Verdict: judge.Good, Why: "0.3 stop slow (more light)",
				Residual: judge.Residual{Known: true, Stops: 0.21, Time: 0.163, U95: 0.04},
				Summary:  judge.Summary{N: 3, Deviation: 0.267, Duration: 1.2033, Median: 0.263, First: 1.2, SD: 0.0069, Spread: 0.012, U95: 0.02, Budget: judge.Budget{Repeatability: 0.018, Onset: 0.0001, Clock: 0.00014, Edge: 0.003}}},
			{Mark: half, Firings: []int{3, 4, 5}, Verdict: judge.ServiceAdvised, Why: "firing 4 opened and did not close again",
				Summary:  judge.Summary{N: 2, Deviation: 0.32, Duration: 0.62, Median: 0.32, First: 0.52, SD: 0.37, Spread: 0.528, U95: 3.3, MeanHidden: true},
				Symptoms: []judge.Symptom{{Name: judge.HangsOpen, Firings: []int{3}, Why: "firing 4 opened and did not close again", Cause: "usually oil on the blades (common practice, no source)"}}},
			{Mark: eighth, Assumed: true, Firings: []int{6}, Why: "one firing only", Next: "tell the settings",
				Summary: judge.Summary{N: 1, Deviation: -0.184, Duration: 0.11, Median: -0.184, First: 0.11, U95: 0.05}},
		},
		Line:    judge.Line{Known: true, Tilt: 0.02},
		Verdict: judge.ServiceAdvised, Partly: true, Why: []string{"1/2: firing 4 opened and did not close again"},
		Next: "tell the settings", Warnings: []string{"1/4: 3 firings told, none heard"},
	}
}

// Document is the record of [Check].
func Document() report.Document {
	cold := 18.0
	return report.New(Check(), report.Facts{
		Version: "v0.1.0", Made: time.Date(2026, 11, 25, 14, 30, 0, 5, time.FixedZone("", 3600)),
		Lens: report.Lens{Name: "Corvane 105 mm f/3.5", Serial: "20417", Note: "from the attic", Rested: "90d", Temperature: &cold, Shutter: "leaf"},
		Clips: []report.Clip{
			{File: "corvane-slow.wav", SHA256: "3f2a9c1be7d04455aa01bb02cc03dd04ee05ff06778899aabbccddeeff001122", Format: "WAV, PCM 16 bit, 48000 Hz, 1 channel", Rate: 48000, Channels: 1, Duration: 41.2},
			{File: "=corvane\x1b[31m.wav", SHA256: "0f2a9c1be7d04455aa01bb02cc03dd04ee05ff06778899aabbccddeeff001122", Format: "WAV, PCM 16 bit, 48000 Hz, 1 channel", Rate: 48000, Channels: 1, Duration: 12,
				Warnings: []report.Warning{{Code: "truncated", Message: "the file ends early"}}},
		},
	})
}

// Serviced is [Document] half a year later: what hung and scattered is in order, and
// 1 s, slow before, is on the mark.
func Serviced() report.Document {
	d := Document()
	d.Made = d.Made.Add(180 * 24 * time.Hour)
	d.Lens.Rested = ""
	d.Clips[0].SHA256, d.Clips[1].SHA256 = strings.Repeat("ab", 32), strings.Repeat("cd", 32)
	scatter, deviation, u95 := 0.007, -0.03, 0.02
	d.Speeds[0].Deviation, d.Speeds[0].Scatter, d.Speeds[0].DF = &deviation, &scatter, 6
	d.Speeds[1].Deviation, d.Speeds[1].U95, d.Speeds[1].Symptoms = &deviation, &u95, []report.Symptom{}
	d.Speeds = d.Speeds[:2]
	return d
}

// BeforeService is what [Serviced] is compared with.
func BeforeService() report.Document {
	d := Document()
	scatter := 0.007
	d.Speeds[0].Scatter, d.Speeds[0].DF = &scatter, 6
	return d
}

// Rested is the record of a lens unused for so long, fired at 1 s.
func Rested(rest string, firings ...judge.JudgedFiring) report.Document {
	c := judge.Check{Policy: judge.Standard(), Firings: firings}
	return report.New(c, report.Facts{Made: time.Date(2026, 11, 25, 14, 30, 0, 0, time.UTC), Lens: report.Lens{Rested: rest},
		Clips: []report.Clip{{File: "a.wav"}}})
}

// Hostile is a name that does harm where it is not escaped: it colours, clears and turns
// around a terminal's text, by the two forms of the escape; it is markup, and a formula.
const Hostile = "=cmd|'/c calc'!A1\x1b[2J\u009b31m\u202eneddih\u2066</text></title><script>alert(1)</script>\x7f\x00\xff,\"\n+1"
