package shutter

import (
	"math"
	"slices"

	"earshot/dsp"
)

// Spans between which a pair of sounds may be a firing, in s: from what can be
// told from one sound to the slowest speed, 4 s, 0.8 stop slow.
const (
	shortestSpan = sameSound
	longestSpan  = 7.0
)

// A pair is two sounds that may be the opening and the closing of one firing.
// Its evidence is in natural logarithms of odds, firing against chance.
type pair struct {
	open, close int // indices into the sounds
	span        float64
	margin      float64 // dB by which the weaker end stands above all between
	buzz        float64 // dB of steady sound between, over that around
	evidence    float64 // all but likeness to a class of sounds
	likeness    float64 // likeness of both ends to those of the other firings
}

// heard is how sure it is that an escapement buzzed between the ends, 0 to 1: by
// how much louder it was than around, and by how much weaker than the ends.
func (p *pair) heard() float64 {
	return within((p.buzz-1)/buzzSure, 0, 1) * within((p.margin-3)/(buzzUnder-3), 0, 1)
}

const (
	buzzSure  = 4  // dB over what is around that make a buzz certain
	buzzUnder = 10 // dB under the ends at which nothing between is too loud for one
)

func (p *pair) score() float64 { return p.evidence + p.likeness }

// room is a clip with those of its sounds that may be an end of a firing.
type room struct {
	h      *dsp.Hearing
	sounds []sound
	step   float64 // s a frame of the track
	frames []float64
}

func newRoom(h *dsp.Hearing) *room {
	all := slices.DeleteFunc(stand(sounds(h)), func(s sound) bool { return !s.described })
	return &room{h: h, sounds: all, step: h.Seconds(float64(h.Track.Step))}
}

// pairs lists the pairs of sounds between which nothing is as loud as they are.
// For each opening the search ends at the first sound that drowns it, so the
// list is short even where the clip is full of sounds.
func (r *room) pairs() []pair {
	const drowned = 3 // dB: an end this much weaker than what lies between is none
	var all []pair
	for i := range r.sounds {
		a := &r.sounds[i]
		loudest := math.Inf(-1)
		for j := i + 1; j < len(r.sounds) && loudest < a.level+drowned; j++ {
			b := &r.sounds[j]
			span := b.at - a.at
			if span > longestSpan {
				break
			}
			if span >= shortestSpan && loudest < b.level+drowned {
				if p := (pair{open: i, close: j, span: span}); r.weigh(&p, loudest) {
					all = append(all, p)
				}
			}
			loudest = math.Max(loudest, past(b.level, span))
		}
	}
	return all
}

// weigh gathers the evidence for p, given the loudest sound between its ends, and
// tells whether p is worth keeping.
func (r *room) weigh(p *pair, loudest float64) bool {
	a, b := &r.sounds[p.open], &r.sounds[p.close]
	weaker := math.Min(a.level, b.level)
	p.margin = weaker - math.Max(loudest, r.loudestBetween(a.at, b.at))
	p.evidence = within((p.margin-10)/3, -6, 2) + impulse(a, b, p.span) + balance(a, b) - priorOdds
	if p.evidence < -worthless {
		return false
	}
	p.buzz = r.buzz(a, b)
	rate := r.rate(p, weaker)
	p.evidence += spanEvidence(p.span, rate) + p.buzzEvidence() + r.surroundings(p, weaker, rate)
	return p.evidence > -worthless
}

// priorOdds is how much evidence a pair of sounds needs to be a firing at all, as
// a logarithm of odds.
const priorOdds = 7

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

// buzzEvidence weighs what lies between the ends. A steady sound there that is
// not there before or after is the escapement's; without it a slow speed is
// unlikely.
func (p *pair) buzzEvidence() float64 {
	const certain = 4
	slow := within(math.Log2(p.span/0.08), 0, 2.5)
	return certain*p.heard() - slow*(1-p.heard())
}

// surroundings weighs what comes right before the opening and right after the
// closing. Neighbours that sound the same, or more of them than a reflex makes on
// its release, are a train of clicks; spacings that go on beyond the pair make a
// clock, unless sounds are so many that some had to fall there; and after its
// closing a shutter is silent for a while.
func (r *room) surroundings(p *pair, weaker, rate float64) float64 {
	const inTrain, followed = 4, 2
	const releaseSounds = 2 // blades closing, and the mirror
	const same = 0.03       // of the span: how evenly a clock ticks
	clock := math.Max(0, math.Log(0.9/(1-math.Exp(-rate*2*same*p.span))))
	before := r.neighbours(p.open, -1, p.span, weaker, same)
	after := r.neighbours(p.close, +1, p.span, weaker, same)
	sum := 0.0
	for _, n := range []neighbours{before, after} {
		if n.alike || n.near > releaseSounds {
			sum -= inTrain
		}
		if n.regular {
			sum -= clock
		}
	}
	if after.near > 0 {
		sum -= followed
	}
	return math.Max(sum, -8)
}

// neighbours says what lies next to a sound, on one side of it.
type neighbours struct {
	near    int  // how many as loud lie within the time of a train's clicks
	alike   bool // one of those sounds the same
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
		if gap < sameSound || s.level < weaker-comparable || s.surprise() <= 0 {
			continue
		}
		if gap < train {
			n.near++
			n.alike = n.alike || unlikeness(&s.spectrum, &from.spectrum) < alikeTrain
		}
		n.regular = n.regular || math.Abs(gap-span) < same*span
	}
	return n
}

// alikeTrain is how little neighbouring clicks of a train differ, dB.
const alikeTrain = 4

// loudestBetween is the level of the loudest hop between two sounds, leaving out
// the ringing of the first and the start of the second.
func (r *room) loudestBetween(from, to float64) float64 {
	loudest := math.Inf(-1)
	first, end := r.between(from+sameSound, to-sameSound)
	for i := first; i < end; i++ {
		loudest = math.Max(loudest, past(r.h.Track.Peak(i), float64(i)*r.step-from))
	}
	return loudest
}

// buzz is how much louder it is between the ends than before and after, dB, each
// told by the level that a quarter of the frames stay under, which stray sounds
// do not touch. The first part of the span, in which the opening still rings in
// the room, is left out; after the closing, which rings as long, the same time
// is looked at, as if it had been as loud as the opening.
func (r *room) buzz(a, b *sound) float64 {
	const shortest, around = 0.1, 0.5
	span := b.at - a.at
	if span < shortest {
		return 0
	}
	ring := math.Max(0.03, 0.4*math.Min(span, around))
	inside := r.quarter(a.at+ring, b.at)
	before := r.quarter(a.at-around, a.at)
	after := r.quarter(b.at+ring, b.at+math.Min(span, around)) + math.Max(0, a.level-b.level)
	return inside - math.Max(before, after)
}

// quarter is the level that a quarter of the frames between two times stay under.
func (r *room) quarter(from, to float64) float64 {
	first, end := r.between(from, to)
	if first >= end {
		return math.Inf(-1)
	}
	r.frames = r.frames[:0]
	for i := first; i < end; i++ {
		r.frames = append(r.frames, r.h.Track.Peak(i))
	}
	slices.Sort(r.frames)
	return r.frames[len(r.frames)/4]
}

// between is the range of frames of the track that lie wholly between two times.
func (r *room) between(from, to float64) (first, end int) {
	n := float64(r.h.Track.Len())
	return int(within(math.Ceil(from/r.step), 0, n)), int(within(math.Floor(to/r.step), 0, n))
}

func square(x float64) float64 { return x * x }

func within(x, lo, hi float64) float64 { return math.Min(math.Max(x, lo), hi) }
