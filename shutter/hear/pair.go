package hear

import (
	"context"
	"math"
	"slices"

	"earshot/dsp"
	"earshot/shutter"
	"earshot/shutter/hear/recording"
	"earshot/shutter/hear/scene"
	"earshot/shutter/hear/timing"
)

// sameStop is how long the stop of a curtain may go on making new sounds, in s. The
// curtain's start comes 10 to 20 ms before its stop, and its bounce 3 to 8 ms after
// (common practice, no source); the mirror may fall in between. Were they joined to the
// stop, the loudest of them would now and then be taken for it.
const sameStop = 0.003

// movement is how long one movement may go on making new sounds, in s.
func movement(k shutter.Kind) float64 {
	if k == shutter.FocalPlane {
		return sameStop
	}
	return timing.SameSound
}

// The shortest and the longest span of a firing, in s. Shorter ones can't be told from one
// sound; the longest is the slowest speed, 4 s, when it is 0.8 stop slow.
const (
	shortestSpan = timing.SameSound
	longestSpan  = 7.0
)

// A pair is two sounds that may be the opening and the closing of one firing.
// Its evidence is in natural logarithms of odds, firing against chance.
type pair struct {
	open, close int // indices into the sounds
	span        float64
	margin      float64 // dB by which the weaker end is louder than all between
	buzz        float64 // dB by which the steady sound between exceeds that around
	steady      float64 // the same in standard deviations
	excused     float64 // the part of the evidence by which noise excuses a missing buzz
	before      float64 // the part of the evidence that a reflex's release before the opening would explain
	evidence    float64 // the sum of pairTerms
	likeness    float64 // of both ends to those of the other firings

	explained []scene.Term // what decided where the explanation of the whole clip did; else nil
}

func (p *pair) score() float64 { return p.evidence + p.likeness }

// recordedClip is a clip with those of its sounds that may be an end of a firing.
type recordedClip struct {
	kind   shutter.Kind
	clip   recording.Clip
	sounds []sound
}

func newRecordedClip(h *dsp.Hearing, src dsp.Source, kind shutter.Kind) *recordedClip {
	clip := recording.Of(h, src)
	all := slices.DeleteFunc(measureProminence(sounds(&clip, h.Transients, movement(kind))), func(s sound) bool { return s.spectrum == nil })
	return &recordedClip{clip: clip, kind: kind, sounds: all}
}

// pairs lists the pairs of sounds between which nothing is as loud as they are. For each
// opening the search ends at the first sound that drowns it. So the list is short even
// where the clip is full of sounds. The search ends early once ctx is done.
func (r *recordedClip) pairs(ctx context.Context) []pair {
	const drowned = 3 // dB: a sound this much weaker than what lies between is not an end
	var all []pair
	m := new(measured) // one for all of them: it would be allocated for each
	for i := range r.sounds {
		if ctx.Err() != nil {
			return nil
		}
		a := &r.sounds[i]
		loudest := math.Inf(-1)
		for j := i + 1; j < len(r.sounds) && loudest < a.level+drowned; j++ {
			b := &r.sounds[j]
			span := b.at - a.at
			if span > longestSpan {
				break
			}
			if span >= shortestSpan && loudest < b.level+drowned {
				if p := (pair{open: i, close: j, span: span}); r.scorePair(m, &p, loudest) {
					all = append(all, p)
				}
			}
			loudest = math.Max(loudest, drowns(a, b))
		}
	}
	return all
}

// drowns is the level of sound s, which follows an opening, as far as it counts against a
// closing after it, dBFS. What may be ringing of the opening counts less.
func drowns(open, s *sound) float64 {
	const echo = 6 // dB: a sound nearer to the level of the opening is not its ringing
	if s.level > open.level-echo {
		return s.level
	}
	return past(s.level, s.at-open.at)
}

// scorePair sets the evidence for p to the sum of pairTerms, given the loudest sound between
// its ends, and tells whether p is worth keeping. It uses m to measure into.
func (r *recordedClip) scorePair(m *measured, p *pair, loudest float64) bool {
	m.ends(r, *p, loudest)
	sum := 0.0
	for i := range pairTerms {
		if i == costlyTerms {
			if sum < -worthless {
				return false
			}
			m.around()
		}
		sum += pairTerms[i].value(m)
	}
	*p = m.pair
	p.evidence, p.excused, p.before = sum, m.buzzExcused(), m.beforeRelease()
	return sum-p.before > -worthless
}

// ends are the times of the sounds that p is of.
func (r *recordedClip) ends(p *pair) timing.Ends {
	e := timing.Ends{Open: r.sounds[p.open].at}
	if p.close != never {
		e.Close, e.Closed = r.sounds[p.close].at, true
	}
	return e
}
