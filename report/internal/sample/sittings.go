package sample

import (
	"math"
	"slices"
	"time"

	"earshot/report"
	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/judge"
)

// sitting is a shutter on the table, for building documents by hand.
type sitting struct {
	check judge.Check
	lens  report.Lens
	at    float64
}

// NewSitting begins a sitting with a lens of a name.
func NewSitting(name string) *sitting {
	return &sitting{check: judge.Check{Policy: judge.Standard(), Verdict: judge.Good}, lens: report.Lens{Name: name, Serial: "20417", Shutter: "leaf"}}
}

// shot is what a test says of one speed.
type shot struct {
	label      string
	nominal    float64
	deviations []float64 // NaN for one that hangs open
	u95        float64
	verdict    judge.Verdict
	assumed    bool
	erratic    bool // no mean is given
	symptoms   []judge.SymptomName
}

func (s *sitting) add(o shot) *sitting {
	mark := shutter.Mark{Label: o.label, Nominal: o.nominal}
	sp := judge.Speed{Mark: mark, Assumed: o.assumed, Verdict: o.verdict}
	var timed []float64
	shown := map[judge.SymptomName][]int{} // the firings of a symptom that shows in single ones
	for _, x := range o.deviations {
		n := len(s.check.Firings)
		f := judge.JudgedFiring{Mark: &mark, Assumed: o.assumed, Judged: true}
		f.Open = s.at
		if math.IsNaN(x) {
			f.Judged, f.Reason, f.Symptoms = false, "it never closed", []judge.SymptomName{judge.HangsOpen}
			shown[judge.HangsOpen] = append(shown[judge.HangsOpen], n)
		} else {
			f.Closed, f.Deviation, f.Close, f.U = true, x, s.at+o.nominal*math.Exp2(x), 2e-5
			if x <= -1 && slices.Contains(o.symptoms, judge.ClosesEarly) {
				f.Symptoms = []judge.SymptomName{judge.ClosesEarly}
				shown[judge.ClosesEarly] = append(shown[judge.ClosesEarly], n)
			}
			timed = append(timed, x)
		}
		s.at += 3
		sp.Firings = append(sp.Firings, n)
		s.check.Firings = append(s.check.Firings, f)
	}
	if len(timed) > 0 {
		sp.Summary = o.summary(timed)
	}
	for _, name := range o.symptoms {
		firings := shown[name]
		if firings == nil {
			firings = sp.Firings
		}
		sp.Symptoms = append(sp.Symptoms, judge.Symptom{Name: name, Firings: firings, Why: "it does"})
	}
	s.check.Speeds = append(s.check.Speeds, sp)
	return s
}

// summary sums up the firings that were timed.
func (o shot) summary(x []float64) judge.Summary {
	n, sorted := len(x), slices.Sorted(slices.Values(x))
	sum := 0.0
	for _, d := range x {
		sum += d
	}
	mean, spread := sum/float64(n), sorted[n-1]-sorted[0]
	return judge.Summary{N: n, Deviation: mean, Duration: o.nominal * math.Exp2(mean), Median: (sorted[(n-1)/2] + sorted[n/2]) / 2, First: 1,
		SD: spread / 2, Spread: spread, U95: o.u95, MeanHidden: o.erratic}
}

func (s *sitting) judged(v judge.Verdict, partly bool) report.Document {
	s.check.Verdict, s.check.Partly = v, partly
	return report.New(s.check, report.Facts{
		Version: "v0.1.0", Made: time.Date(2026, 11, 25, 10, 30, 0, 0, time.UTC), Lens: s.lens,
		Clips: []report.Clip{{File: "corvane-105.wav", SHA256: "3f2a9c1be7d04455aa01bb02cc03dd04ee05ff06778899aabbccddeeff001122", Format: "WAV, PCM 16 bit", Rate: 48000, Channels: 1, Duration: 71.2}},
	})
}

var hangs = math.NaN()

// Healthy is a shutter without a fault.
func Healthy() report.Document {
	return NewSitting("Corvane 105 mm f/3.5").
		add(shot{label: "1", nominal: 1, deviations: []float64{0.12, 0.09, 0.10}, u95: 0.04, verdict: judge.Good}).
		add(shot{label: "1/2", nominal: 0.5, deviations: []float64{0.06, 0.05, 0.07}, u95: 0.04, verdict: judge.Good}).
		add(shot{label: "1/4", nominal: 0.25, deviations: []float64{-0.02, 0.02, 0.01}, u95: 0.04, verdict: judge.Good}).
		add(shot{label: "1/8", nominal: 0.125, deviations: []float64{-0.08, -0.05, -0.06}, u95: 0.05, verdict: judge.Good}).
		add(shot{label: "1/15", nominal: 1.0 / 16, deviations: []float64{0.11, 0.13, 0.12}, u95: 0.07, verdict: judge.Good}).
		add(shot{label: "1/30", nominal: 1.0 / 32, deviations: []float64{0.14, 0.12, 0.10}, u95: 0.10, verdict: judge.Good}).
		judged(judge.Good, false)
}

// Troubled has every mark that a chart can have.
func Troubled() report.Document {
	return NewSitting("Ostrel 80 mm f/2.8").
		add(shot{label: "1", nominal: 1, deviations: []float64{0.82, 0.61, 0.44, 0.35, 0.31}, u95: 0.3, verdict: judge.ServiceAdvised, symptoms: []judge.SymptomName{judge.NeedsExercise}}).
		add(shot{label: "1/2", nominal: 0.5, deviations: []float64{hangs, 0.4, hangs, 0.37, 0.41}, verdict: judge.ServiceAdvised, erratic: true, symptoms: []judge.SymptomName{judge.HangsOpen}}).
		add(shot{label: "1/4", nominal: 0.25, deviations: []float64{0.62, -0.1, 0.2}, u95: 0.6, verdict: judge.ServiceAdvised, erratic: true, symptoms: []judge.SymptomName{judge.Erratic}}).
		add(shot{label: "1/8", nominal: 0.125, deviations: []float64{0.36, 0.33, 0.37}, u95: 0.05, verdict: judge.Steady}).
		add(shot{label: "1/15", nominal: 1.0 / 16, deviations: []float64{0.10, -1.4, 0.12}, u95: 0.07, verdict: judge.ServiceAdvised, erratic: true, symptoms: []judge.SymptomName{judge.ClosesEarly}}).
		judged(judge.ServiceAdvised, false)
}

// Assumed was told no speeds.
func Assumed() report.Document {
	return NewSitting("Belwin 75 mm").
		add(shot{label: "1/2", nominal: 0.5, deviations: []float64{0.16, 0.15, 0.17}, u95: 0.04, assumed: true}).
		add(shot{label: "1/8", nominal: 0.125, deviations: []float64{-0.28, -0.25, -0.26}, u95: 0.05, assumed: true}).
		add(shot{label: "1/30", nominal: 1.0 / 32, deviations: []float64{0.14, 0.12, 0.10}, u95: 0.10, assumed: true}).
		judged(judge.NotJudged, true)
}

func single() report.Document {
	return NewSitting("Tamsel 90 mm").
		add(shot{label: "1/4", nominal: 0.25, deviations: []float64{0.31, 0.28, 0.30}, u95: 0.04, verdict: judge.Steady}).
		judged(judge.Steady, true)
}

// Eight has as many speeds as a dial of slow ones.
func Eight() report.Document {
	s := NewSitting("The Imaginary Optical Works of Little Wending “Panoptikon” Anastigmat 21 cm f/4.5 in dial-set leaf shutter, coated, second version ⅓ 快门")
	for i, o := range []shot{{label: "1", nominal: 1}, {label: "1/2", nominal: 0.5}, {label: "1/5", nominal: 0.2}, {label: "1/10", nominal: 0.1}, {label: "1/25", nominal: 0.04}, {label: "1/50", nominal: 0.02}, {label: "1/100", nominal: 0.01}, {label: "1/250", nominal: 0.004}} {
		x := 0.5 - 0.12*float64(i)
		o.deviations, o.u95, o.verdict = []float64{x, x + 0.03, x - 0.02, x + 0.01}, 0.003/o.nominal, judge.Good
		if x > 0.3 {
			o.verdict = judge.Steady
		}
		if o.u95 > 1.0/3 {
			o.verdict = judge.NotJudged
		}
		s.add(o)
	}
	return s.judged(judge.Steady, false)
}

// FarOff is off by more than the axis shows.
func FarOff() report.Document {
	return NewSitting("Marrow 127 mm").
		add(shot{label: "1", nominal: 1, deviations: []float64{2.9, 3.0, 3.1}, u95: 0.1, verdict: judge.ServiceAdvised}).
		add(shot{label: "1/2", nominal: 0.5, deviations: []float64{-2.9, -3.0, -3.02}, u95: 0.1, verdict: judge.ServiceAdvised}).
		add(shot{label: "1/4", nominal: 0.25, deviations: []float64{0.3, 6.2, 0.1, -5}, u95: 0.1, verdict: judge.ServiceAdvised, erratic: true, symptoms: []judge.SymptomName{judge.Erratic}}).
		judged(judge.ServiceAdvised, true)
}

// LateHang is a lens one of whose firings hung and was ended by something else, as
// the judge of shutters tells it.
func LateHang() report.Document {
	return NewSitting("Vastrel 90 mm").FiredAt(map[string][]float64{"1": {0.02, 2.66, 0.03}, "1/2": {0, 0.01, 0.01}, "1/4": {0, 0, 0.01}, "1/8": {0, 0.01, 0}})
}

// unlike is a lens with as many speeds as sound can judge, each off in its own way.
func unlike() report.Document {
	deviations := map[string][]float64{}
	for i, m := range shutter.Binary().Marks {
		x := 0.36 + 0.1*float64(i%7)
		if i%2 == 1 {
			x = -x
		}
		deviations[m.Label] = []float64{x, x, x}
	}
	return NewSitting("Unlike 90 mm").FiredAt(deviations)
}

// FiredAt judges firings that deviate so much at each speed.
func (s *sitting) FiredAt(deviations map[string][]float64) report.Document {
	var (
		firings []shutter.Firing
		laying  assign.Laying
	)
	for _, m := range shutter.Binary().Marks {
		run := assign.Run{Mark: m}
		for _, x := range deviations[m.Label] {
			run.Firings = append(run.Firings, len(firings))
			firings = append(firings, shutter.Firing{Open: s.at, Close: s.at + m.Nominal*math.Exp2(x), Closed: true, U: 2e-5})
			s.at += 60
		}
		if len(run.Firings) > 0 {
			laying.Runs = append(laying.Runs, run)
		}
	}
	s.check = judge.Judge(firings, laying, judge.Standard())
	return s.judged(s.check.Verdict, s.check.Partly)
}

// Examples are all of these by name.
func Examples() map[string]report.Document {
	return map[string]report.Document{
		"healthy": Healthy(), "troubled": Troubled(), "assumed": Assumed(), "single": single(), "eight": Eight(), "far-off": FarOff(),
		"late-hang": LateHang(), "rested": AfterRest(Healthy, 0), "rested-hung": AfterRest(Troubled, 5), "unlike": unlike(), "nothing": {Policy: Healthy().Policy},
	}
}

// AfterRest is the document of a lens that had rested, firing n the first of all.
func AfterRest(of func() report.Document, n int) report.Document {
	d := of()
	d.Lens.Rested = "90d"
	d.Rest = &report.AfterRest{Firing: &n, Later: []int{}}
	return d
}
