package assign

import (
	"math"
	"math/rand/v2"

	"earshot/shutter"
)

// simSitting is a simulated person firing a simulated shutter through its speeds:
// what was heard, where each firing truly belongs, and what is told about it. It is
// made from what happens at a table, in s and in order, and shares no figure or
// formula with the model by which firings are laid.
type simSitting struct {
	firings []shutter.Firing
	truth   []string // label of the true mark; empty for a sound that is no firing
	faulty  []bool
	steps   []shutter.Step // with the counts the person meant to fire
}

// simShutter is one shutter in one state.
type simShutter struct {
	errorAt    []float64 // s at each step: what the escapement adds or takes
	scatter    float64   // relative
	closeEarly float64   // chance of a firing that closes early
	hang       float64   // chance of one that does not close
	stiff      float64   // relative slowness of the first firing at a step, worn off by firing
	erratic    int       // step at which it is erratic, -1 for none
}

// simHabits is one person's way of working.
type simHabits struct {
	wind, windScatter float64 // s, and relative: the pause in which the shutter is wound
	turn              float64 // s: what turning the dial adds, on average
	interrupted       float64 // chance of a pause that something else lengthens
	missed, spurious  float64 // chances of a firing not heard, and of a sound taken for one
	miscount          float64 // chance of a step fired once more or less than meant
	clips             bool    // a new clip here and there
}

func simulateSitting(rng *rand.Rand) simSitting {
	steps := simSteps(rng)
	sh, person := simShutterFor(rng, steps), simPerson(rng)
	s := simSitting{steps: steps}
	clock, clip := 1+3*rng.Float64(), 0
	for at, step := range steps {
		if at > 0 && person.clips && rng.Float64() < 0.4 {
			clip, clock = clip+1, 1+2*rng.Float64()
		} else if at > 0 {
			clock += person.turn * (0.3 + 1.4*rng.Float64())
		}
		count := step.Count
		if rng.Float64() < person.miscount {
			count = max(1, count+1-2*rng.IntN(2))
		}
		for n := range count {
			if rng.Float64() < person.spurious {
				s.hear(shutter.Firing{Clip: clip, Open: clock, Close: clock + 0.004*math.Pow(2, 8*rng.Float64()), Closed: true}, "", true)
				clock += 1 + rng.Float64()
			}
			d, closed, faulty := sh.fire(rng, at, n, step.Mark.Nominal)
			f := shutter.Firing{Clip: clip, Open: clock, Closed: closed}
			if closed {
				f.Close = clock + d
			}
			if rng.Float64() >= person.missed {
				s.hear(f, step.Mark.Label, faulty)
			}
			clock += d + person.wind*math.Exp(person.windScatter*rng.NormFloat64())
			if rng.Float64() < person.interrupted {
				clock += 3 + 10*rng.Float64()
			}
		}
	}
	return s
}

func (s *simSitting) hear(f shutter.Firing, mark string, faulty bool) {
	s.firings, s.truth, s.faulty = append(s.firings, f), append(s.truth, mark), append(s.faulty, faulty)
}

// untold is the steps without their counts.
func (s simSitting) untold() []shutter.Step {
	steps := make([]shutter.Step, len(s.steps))
	for i, st := range s.steps {
		steps[i] = shutter.Step{Mark: st.Mark}
	}
	return steps
}

func simSteps(rng *rand.Rand) []shutter.Step {
	dial := shutter.Binary().Marks[2:]
	if rng.IntN(4) == 0 {
		dial = shutter.Older().Marks
	}
	from, to := rng.IntN(2), 5+rng.IntN(3)
	marks := append([]shutter.Mark(nil), dial[from:to]...)
	if rng.IntN(5) == 0 { // from the fast end
		for i, j := 0, len(marks)-1; i < j; i, j = i+1, j-1 {
			marks[i], marks[j] = marks[j], marks[i]
		}
	}
	count, own := 2+rng.IntN(4), rng.IntN(4) == 0
	steps := make([]shutter.Step, len(marks))
	for i, m := range marks {
		steps[i] = shutter.Step{Mark: m, Count: count}
		if own { // more at the slow speeds, say
			steps[i].Count = max(1, count+rng.IntN(3)-1)
		}
	}
	return steps
}

// simShutterFor draws a shutter. Old ones are mostly slow, by about the same share
// at each slow speed; the blades add a little at the fast end.
func simShutterFor(rng *rand.Rand, steps []shutter.Step) simShutter {
	sh := simShutter{scatter: 0.01 * math.Pow(2, 3.5*rng.Float64()), erratic: -1}
	common := 0.15 + 0.25*rng.NormFloat64() // share of the nominal time, natural log
	common = min(max(common, -0.5), 1.04)
	tilt := 0.15 * rng.NormFloat64() // how much of it is gone at the fast end
	blades := 0.002 * rng.Float64()
	uneven := -1
	if rng.IntN(8) == 0 {
		uneven = rng.IntN(len(steps))
	}
	for i, st := range steps {
		share := common + tilt*float64(i)/float64(len(steps)) + 0.06*rng.NormFloat64()
		if i == uneven {
			share += 0.35 * float64(1-2*rng.IntN(2))
		}
		sh.errorAt = append(sh.errorAt, st.Mark.Nominal*math.Expm1(share)+blades)
	}
	switch rng.IntN(12) {
	case 0:
		sh.closeEarly = 0.2
	case 1:
		sh.hang = 0.1
	case 2:
		sh.stiff = 0.6
	case 3:
		sh.erratic = rng.IntN(len(steps))
	}
	return sh
}

// fire returns how long the n-th firing at a step lasts. One that hangs is closed
// by hand after a while, which is not heard.
func (sh simShutter) fire(rng *rand.Rand, step, n int, nominal float64) (d float64, closed, faulty bool) {
	d = nominal + sh.errorAt[step]
	d *= 1 + sh.stiff*math.Exp(-0.7*float64(n))*math.Exp(-0.4*float64(step))
	d *= math.Exp(sh.scatter * rng.NormFloat64())
	if step == sh.erratic {
		d *= math.Exp(0.25 * rng.NormFloat64())
	}
	switch u := rng.Float64(); {
	case u < sh.closeEarly:
		return max(0.003, d*(0.1+0.4*rng.Float64())), true, true
	case u < sh.closeEarly+sh.hang:
		return d + 5 + 5*rng.Float64(), false, true
	}
	return d, true, false
}

func simPerson(rng *rand.Rand) simHabits {
	p := simHabits{wind: 1.5 + 4*rng.Float64(), windScatter: 0.1 + 0.25*rng.Float64(), turn: 3 * rng.Float64(), interrupted: 0.02}
	p.clips = rng.IntN(6) == 0
	if rng.IntN(3) == 0 {
		p.missed, p.spurious, p.miscount = 0.01, 0.005, 0.05
	}
	return p
}
