package report

import (
	"math"
	"time"

	"earshot/shutter"
	"earshot/shutter/judge"
)

// Facts are what a Check does not know: by which program, when, of which lens and
// from which clips. Clips are in the order of shutter.Firing.Clip.
type Facts struct {
	Version string
	Made    time.Time
	Lens    Lens
	Told    []shutter.Step
	Clips   []Clip

	Observed   []Observation // by a person
	ObservedBy string
}

// New makes the document of a judged shutter. A figure that is not finite becomes
// null, or 0 where the document has no null for it.
func New(c judge.Check, f Facts) Document {
	return Document{
		Schema:   Schema,
		Tool:     Tool{Version: f.Version},
		Made:     f.Made.Truncate(time.Second),
		Lens:     f.Lens,
		Told:     shutter.FormatSteps(f.Told),
		Policy:   newPolicy(c.Policy),
		Clips:    each(f.Clips, Clip.Rounded),
		Firings:  each(c.Firings, newFiring),
		Speeds:   each(c.Speeds, newSpeed),
		Line:     newLine(c.Line),
		Symptoms: each(c.Symptoms, newSymptom),
		Verdict:  c.Verdict,
		Partly:   c.Partly,
		Why:      each(c.Why, same),
		Next:     c.Next,
		Observed: each(f.Observed, same), ObservedBy: f.ObservedBy,
		Rest:     newRest(c, f.Lens),
		Warnings: each(c.Warnings, same),
	}
}

// each maps a list, and a nil one to an empty one.
func each[A, B any](list []A, f func(A) B) []B {
	out := make([]B, 0, len(list))
	for _, a := range list {
		out = append(out, f(a))
	}
	return out
}

func same[A any](a A) A { return a }

func newPolicy(p judge.Policy) Policy {
	return Policy{
		Name: p.Name, Good: round(p.Good, 4), Service: round(p.Service, 4),
		SpreadGood: round(p.SpreadGood, 4), SpreadService: round(p.SpreadService, 4),
		Clock: round(p.ClockPPM, 4), ClockError: round(p.ClockError, 4), Edge: seconds(p.EdgeMS / 1000), House: p.House,
	}
}

// Rounded is the clip as a document holds it.
func (c Clip) Rounded() Clip {
	c.Duration = seconds(c.Duration)
	c.Sound, c.ByHand = newSound(c.Sound), c.ByHand.rounded()
	c.Warnings = each(c.Warnings, same)
	return c
}

func newFiring(f judge.JudgedFiring) Firing {
	placed := f.Mark != nil
	out := Firing{
		Clip: f.Clip, Open: seconds(f.Open), Edge: string(f.Edge), Buzz: newBuzz(f.Buzz),
		Close: some(f.Close, 7, f.Closed), Duration: some(f.Duration(), 7, f.Closed), U: some(f.U, 8, f.Closed), Common: some(f.Common, 8, f.Closed),
		Opening: newBlades(f.Opening), Closing: newBlades(f.Closing), Bounce: some(f.Bounce, 5, f.Bounce > 0),
		Assumed: f.Assumed, Deviation: some(f.Deviation, 5, f.Closed && placed),
		Judged: f.Judged, Reason: f.Reason,
		Symptoms: each(f.Symptoms, func(s judge.SymptomName) string { return string(s) }),
	}
	if placed {
		out.Marked, out.Nominal = &f.Mark.Label, &f.Mark.Nominal
	}
	return out
}

func newBuzz(b shutter.Buzz) Buzz {
	return Buzz{
		Heard: b.Heard, Rate: some(b.Rate, 2, b.Heard && b.Rate > 0), Level: some(b.Level, 2, b.Heard),
		Early: some(b.Early, 2, b.Early > 0), Late: some(b.Late, 2, b.Late > 0), Falters: each(b.Falters, newFalter),
	}
}

func newSpeed(s judge.Speed) Speed {
	sum := s.Summary
	any, many := sum.N > 0, sum.N > 1
	mean := any && !sum.MeanHidden
	known := mean && sum.U95 != 0 // one firing, and nothing like it to tell its scatter by
	out := Speed{
		Marked: s.Mark.Label, Nominal: s.Mark.Nominal, Assumed: s.Assumed, Firings: each(s.Firings, same),
		N: sum.N, Mean: some(sum.Duration, 7, mean), First: some(sum.First, 7, sum.First > 0),
		Deviation: some(sum.Deviation, 5, mean), Median: some(sum.Median, 5, any),
		SD: some(sum.SD, 5, many), Spread: some(sum.Spread, 5, many),
		Scatter: some(sum.Scatter, 6, known), DF: sum.DF, U95: some(sum.U95, 5, known), Residual: newResidual(s.Residual),
		Symptoms: each(s.Symptoms, newSymptom), Verdict: s.Verdict, Why: s.Why, Next: s.Next,
	}
	if known {
		b := sum.Budget
		out.Budget = &Budget{stops(b.Repeatability), stops(b.Onset), stops(b.Clock), stops(b.Edge)}
	}
	return out
}

func newSymptom(s judge.Symptom) Symptom {
	return Symptom{Name: string(s.Name), Firings: each(s.Firings, same), Why: s.Why, Cause: s.Cause}
}

// some is x to so many decimals, or nil unless there is one.
func some(x float64, decimals int, there bool) *float64 {
	if !there || math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	x = round(x, decimals)
	return &x
}

// decibels rounds a level, if there is a finite one.
func decibels(x *float64) *float64 {
	if x == nil {
		return nil
	}
	return some(*x, 2, true)
}

func seconds(x float64) float64 { return round(x, 7) }
func stops(x float64) float64   { return round(x, 5) }

// round gives x to so many decimals, 0 for what is not finite and never −0.
func round(x float64, decimals int) float64 {
	scale := math.Pow10(decimals)
	x = math.Round(x*scale) / scale
	if math.IsNaN(x) || math.IsInf(x, 0) || x == 0 {
		return 0
	}
	return x
}
