package main

import (
	"math"
	"math/rand/v2"

	"earshot/dsp/synth"
	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/judge"
)

// simulatedShutters is how many shutters are simulated of each kind by statistics
// alone.
const simulatedShutters = 3000

// simulate judges n shutters with the ailment. Their firings are drawn, not heard: times, whether
// they closed, and the figures of blades and buzz. These scatter as in the clips: levels by 0.7
// to 1.4 dB, rise times by 0.03 to 0.2 stop, onsets by 0.02 ms.
func (a ailment) simulate(seed uint64, n int) diagnosis {
	d := diagnosis{ailment: a}
	for i := range n {
		rnd := rand.New(rand.NewPCG(seed, uint64(i)))
		firings, laying := a.patient(rnd)
		d.count(i, symptomsOf(judge.Judge(firings, laying, judge.Standard())))
	}
	return d
}

// patient is one shutter fired through 1 to 1/30.
func (a ailment) patient(rnd *rand.Rand) (firings []shutter.Firing, laying assign.Laying) {
	p := patient{rnd: rnd, off: 0.08 * rnd.NormFloat64(), scatter: 0.004 * math.Pow(10, rnd.Float64()),
		level: between(rnd, 0.7, 1.4), lead: between(rnd, 0.03, 0.2)}
	if a.fault != nil {
		p.fault = a.fault(rnd)
	}
	for k, s := range synth.Modern()[:6] {
		mark, _ := shutter.Binary().Find(s.Label)
		run := assign.Run{Mark: mark}
		for i, f := range p.fire(mark, k < 4, a.firings) {
			f.Open = float64(10*len(firings) + i)
			f.Close += f.Open
			run.Firings, firings = append(run.Firings, len(firings)), append(firings, f)
		}
		laying.Runs = append(laying.Runs, run)
	}
	return firings, laying
}

// patient is a simulated shutter: how far it is off, and how all scatters.
type patient struct {
	rnd                       *rand.Rand
	off, scatter, level, lead float64
	fault                     synth.Fault
}

// fire returns the firings at one speed; their Close is their duration.
func (p patient) fire(mark shutter.Mark, buzz bool, n int) []shutter.Firing {
	step := p.off + 0.05*p.rnd.NormFloat64()
	all := make([]shutter.Firing, n)
	for i := range all {
		x := step + p.stops(mark, buzz, i) + p.scatter*p.rnd.NormFloat64()
		all[i] = shutter.Firing{Closed: true, Close: mark.Nominal*math.Exp2(x) + 20e-6*p.rnd.NormFloat64(), U: 30e-6, Common: 20e-6,
			Buzz: shutter.Buzz{Heard: buzz}, Opening: p.blades(), Closing: p.blades()}
	}
	if p.concerns(mark, buzz) && p.fault.Share > 0 {
		for _, i := range p.rnd.Perm(n)[:max(1, int(math.Round(p.fault.Share*float64(n))))] {
			p.suffer(&all[i])
		}
	}
	return all
}

func (p patient) blades() shutter.Blades {
	return shutter.Blades{Level: -25, Lead: 0.003, Strength: p.level * p.rnd.NormFloat64(), Drawn: math.Exp2(p.lead * p.rnd.NormFloat64())}
}

// concerns tells whether the fault shows at a mark.
func (p patient) concerns(mark shutter.Mark, buzz bool) bool {
	for _, m := range p.fault.Marks {
		if m == mark.Label {
			return true
		}
	}
	return len(p.fault.Marks) == 0 && (buzz || p.fault.Symptom != synth.Hesitates)
}

// stops is by how much the fault puts the i-th firing at a speed off.
func (p patient) stops(mark shutter.Mark, buzz bool, i int) float64 {
	switch f := p.fault; {
	case !p.concerns(mark, buzz):
	case f.Symptom == synth.NeedsExercise:
		return f.Grade * math.Exp(-float64(i)/2.5) / 2 // the half of what is left when it has been fired for a while
	case f.Symptom == synth.Erratic:
		return f.Grade * p.rnd.NormFloat64()
	case f.Symptom == synth.UnevenSteps, f.Symptom == synth.SlowEscapement && buzz:
		return f.Grade
	}
	return 0
}

// suffer gives one firing the fault.
func (p patient) suffer(f *shutter.Firing) {
	g := p.fault.Grade
	switch p.fault.Symptom {
	case synth.HangsOpen:
		f.Closed, f.Close = false, 0
	case synth.ClosesEarly:
		f.Close *= math.Exp2(-g)
	case synth.Hesitates:
		f.Buzz.Falters = []shutter.Falter{{Start: f.Close / 2, Length: g}}
		f.Close += g
	case synth.LazyBlades:
		b := []*shutter.Blades{&f.Opening, &f.Closing}[p.rnd.IntN(2)]
		b.Strength -= g
		b.Drawn *= 1 + g/6
	case synth.BouncesOpen:
		f.Bounce = g
	}
}
