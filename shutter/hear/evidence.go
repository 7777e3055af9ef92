package hear

import (
	"math"

	"earshot/shutter/hear/timing"
)

// priorOdds is how much evidence a pair of sounds needs to be a firing at all, as
// a logarithm of odds.
const priorOdds = 7

// prominence weighs by how many dB both ends stand over all between them.
func prominence(margin float64) float64 { return within((margin-10)/3, -6, 2) }

// impulse weighs how much both ends stand out, and how soon they are gone. Of an
// opening closed again within 35 ms the decay cannot be told.
func impulse(a, b *sound, span float64) float64 {
	decay := b.decay
	if span > 0.035 {
		decay = math.Min(decay, a.decay)
	}
	return a.surprise() + b.surprise() + within((decay-8)/3, -4, 1)
}

// rate is how many sounds a second as loud as a pair's weaker end there are
// around it, but for its own.
func (r *room) rate(p *pair, weaker float64) float64 {
	const around, comparable = 5.0, 6.0 // s, dB
	a, b := r.sounds[p.open].at, r.sounds[p.close].at
	n := 1
	for i := p.open - 1; i >= 0 && a-r.sounds[i].at < around; i-- {
		if r.sounds[i].level > weaker-comparable {
			n++
		}
	}
	for i := p.close + 1; i < len(r.sounds) && r.sounds[i].at-b < around; i++ {
		if r.sounds[i].level > weaker-comparable {
			n++
		}
	}
	return float64(n) / (2 * around)
}

// balance weighs how much louder one end is than the other: the same blades make
// both.
func balance(a, b *sound) float64 {
	const usual = 12 // dB
	return within((usual-math.Abs(a.level-b.level))/3, -5, 0)
}

// spanEvidence weighs a span against chance. Sounds that come by chance at rate λ
// are followed by the next after d with density λ·exp(−λ·d); the durations of a
// shutter are spread evenly over the logarithm of d, over the e-folds between the
// shortest and the longest. That a span is longer than sounds mostly are apart
// speaks against the two belonging together, not for it, though chance seldom
// leaves such a gap either.
func spanEvidence(span, rate float64) float64 {
	folds := math.Log(longestSpan / shortestSpan)
	most := 3.0
	if rate*span > 1 {
		most = 0
	}
	return within(rate*span-math.Log(rate*span*folds), -3, most)
}

// buzzEvidence weighs what lies between the ends, which stand by so many dB over
// what is around. A steady sound there that is not there before or after is the
// escapement's. Without it a slow speed is unlikely, if it could have been heard: it
// lies 20 to 35 dB under the ends (common practice, no source).
func (p *pair) buzzEvidence(over float64) float64 {
	const certain = 4
	slow := within(math.Log2(p.span/0.08), 0, 2.5) * (1 - p.heard())
	p.excused = slow * (1 - within((over-15)/15, 0, 1))
	return certain*p.heard() - slow + p.excused
}

// followed is the evidence against a firing from what is as loud as it right after it,
// or right before its release: a shutter is silent for a while.
const followed = 2

// surroundings weighs what comes right before the opening and right after the
// closing. Several neighbours that sound the same, or more of them than a reflex
// makes, are a train of clicks; spacings that go on beyond the pair make a clock,
// unless sounds are so many that some had to fall there; and after its closing a
// shutter is silent for a while.
func (r *room) surroundings(p *pair, weaker, rate float64) float64 {
	const inTrain = 4
	const releaseSounds, flaps = 4, 2 // blades closing, and what the mirror hits
	const same = 0.03                 // of the span: how evenly a clock ticks
	clock := math.Max(0, math.Log(0.9/(1-math.Exp(-rate*2*same*p.span))))
	before := r.neighbours(p.open, -1, p.span, weaker, same)
	after := r.neighbours(p.close, +1, p.span, weaker, same)
	sum := 0.0
	if before.alike > 1 || before.near > releaseSounds {
		sum -= inTrain
	}
	if after.alike > 1 || after.near > flaps {
		sum -= inTrain
	}
	p.before = math.Min(0, r.sounds[p.open].surprise())
	if before.regular {
		sum -= clock
		p.before -= clock
	}
	if after.regular {
		sum -= clock
	}
	if after.near > 0 {
		sum -= followed
	}
	return math.Max(sum-r.unrest(&r.sounds[p.open]), -8)
}

// unrest weighs how loud it is all through the time before an opening, over how
// quiet it gets around: a shutter is fired out of silence, or so soon after a
// reflex's release that its sounds leave silence between. The blades that reopen
// as a reflex is wound, and the end of a winding, come amid what is no silence.
func (r *room) unrest(s *sound) float64 {
	const before, around, most = 0.15, 1.0, 4 // s, s, of the logarithm of odds
	now := r.clip.Level(s.at-before, s.at, 0.25)
	quiet := r.clip.Level(s.at-around, s.at+around, 0.1)
	if math.IsInf(now, -1) {
		return 0
	}
	return within((now-quiet-3)/3, 0, most)
}

// neighbours says what lies next to a sound, on one side of it.
type neighbours struct {
	near    int  // how many as loud lie within the time of a train's clicks
	alike   int  // how many of those sound the same
	regular bool // another lies as far off as the pair is long
}

// neighbours looks from sound at on in direction step.
func (r *room) neighbours(at, step int, span, weaker, same float64) (n neighbours) {
	const comparable, train = 10.0, 0.15 // dB, s
	from := &r.sounds[at]
	for i := at + step; i >= 0 && i < len(r.sounds); i += step {
		s := &r.sounds[i]
		gap := math.Abs(s.at - from.at)
		if gap > (1+same)*span && gap > train {
			break
		}
		if gap < timing.SameSound || s.level < weaker-comparable || s.surprise() <= 0 {
			continue
		}
		if gap < train {
			n.near++
			if unlikeness(s.spectrum, from.spectrum) < alikeTrain {
				n.alike++
			}
		}
		n.regular = n.regular || math.Abs(gap-span) < same*span
	}
	return n
}

// alikeTrain is how little neighbouring clicks of a train differ, dB.
const alikeTrain = 4

func square(x float64) float64 { return x * x }

func within(x, lo, hi float64) float64 { return math.Min(math.Max(x, lo), hi) }
