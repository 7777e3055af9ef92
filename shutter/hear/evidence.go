package hear

import (
	"fmt"
	"math"

	"earshot/shutter"
	"earshot/shutter/hear/timing"
)

// pairTerms are what speaks for any two sounds being a firing, or against it, in the order
// in which they are told. Their sum is the evidence for a pair. Terms from costlyTerms on
// are not asked of a pair that those before make worthless.
var pairTerms = [...]struct {
	name  string
	value func(*measured) float64
	words func(m *measured, value float64) string
}{
	{prior, (*measured).prior, (*measured).priorWords},
	{"margin", (*measured).marginEvidence, (*measured).marginWords},
	{"impulse", (*measured).impulse, (*measured).impulseWords},
	{"balance", (*measured).balance, (*measured).balanceWords},
	{"span", (*measured).spanEvidence, (*measured).spanWords},
	{"escapement", (*measured).escapement, (*measured).escapementWords},
	{"surroundings", (*measured).surroundings, (*measured).surroundingsWords},
}

const (
	prior       = "prior" // what speaks against any pair
	costlyTerms = 4
)

// measured is what was measured of two sounds that may be a firing.
type measured struct {
	pair             // its margin, buzz and steady
	clip             *recordedClip
	opening, closing *sound
	weaker           float64 // level of the weaker of the two, dBFS

	// Measured for the costly terms.
	quiet         float64 // the level that a buzz must exceed to be heard, dBFS
	rate          float64 // sounds as loud around the pair, a second
	beforeOpening neighbours
	afterClosing  neighbours
	unrest        float64 // how far it is from quiet before the opening, as evidence
}

// ends measures p as far as its ends tell, given the loudest sound between.
func (m *measured) ends(r *recordedClip, p pair, loudest float64) {
	m.clip, m.pair, m.opening, m.closing = r, p, &r.sounds[p.open], &r.sounds[p.close]
	m.weaker = math.Min(m.opening.level, m.closing.level)
	m.margin = m.weaker - math.Max(loudest, r.loudestBetween(m.opening.at, m.closing.at))
}

// around measures what lies between the ends and around them.
func (m *measured) around() {
	r := m.clip
	m.buzz, m.quiet = r.buzz(m.opening, m.closing)
	m.steady = r.steady(m.opening, m.closing)
	m.rate = r.rate(&m.pair, m.weaker)
	m.beforeOpening = r.neighbours(m.open, -1, m.span, m.weaker, evenTicks)
	m.afterClosing = r.neighbours(m.close, +1, m.span, m.weaker, evenTicks)
	m.unrest = r.unrest(m.opening)
}

// priorOdds is how much evidence a pair of sounds needs to be a firing at all, as
// a logarithm of odds.
const priorOdds = 7

func (m *measured) prior() float64 { return -priorOdds }

func (m *measured) priorWords(float64) string { return "what any two sounds must overcome" }

// marginEvidence weighs by how many dB both ends stand over all between them.
func (m *measured) marginEvidence() float64 { return within((m.margin-10)/3, -6, 2) }

func (m *measured) marginWords(float64) string {
	const silence = 100 // dB: more than any sound stands over another
	if m.margin <= -1 {
		return fmt.Sprintf("something between is %.0f dB louder than the weaker end", -m.margin)
	}
	if m.margin > silence {
		return "nothing is heard between them"
	}
	return fmt.Sprintf("both ends stand %.0f dB over all between them", math.Max(m.margin, 0))
}

// impulse weighs how much both ends stand out, and how soon they are gone. The decay of an
// opening can't be measured where the closing comes within 35 ms.
func (m *measured) impulse() float64 {
	decay := m.closing.decay
	if m.span > 0.035 {
		decay = math.Min(decay, m.opening.decay)
	}
	return m.opening.prominenceOdds() + m.closing.prominenceOdds() + within((decay-8)/3, -4, 1)
}

func (m *measured) impulseWords(float64) string {
	a, b := m.opening, m.closing
	return fmt.Sprintf("the ends stand %.0f and %.0f dB out of what came before, and have fallen %.0f and %.0f dB soon after", a.prominence, b.prominence, a.decay, b.decay)
}

// balance weighs how much louder one end is than the other: the same blades make
// both.
func (m *measured) balance() float64 {
	const usual = 12 // dB
	return within((usual-m.unbalance())/3, -5, 0)
}

func (m *measured) balanceWords(float64) string {
	return fmt.Sprintf("the one is %.0f dB louder than the other", m.unbalance())
}

func (m *measured) unbalance() float64 { return math.Abs(m.opening.level - m.closing.level) }

// spanEvidence weighs the span against chance. Sounds that come by chance at rate λ
// are followed by the next after d with density λ·exp(−λ·d). The durations of a
// shutter are spread evenly over the logarithm of d, over the e-folds between the
// shortest and the longest. Chance seldom leaves a gap longer than sounds mostly are
// apart, but that speaks against the two belonging together, not for it.
func (m *measured) spanEvidence() float64 {
	folds := math.Log(longestSpan / shortestSpan)
	expected, most := m.rate*m.span, 3.0
	if expected > 1 {
		most = 0
	}
	return within(expected-math.Log(expected*folds), -3, most)
}

func (m *measured) spanWords(float64) string {
	return fmt.Sprintf("they are %s apart, amid %.1f sounds a second as loud", shutter.TimeText(m.span), m.rate)
}

// escapement weighs what is heard between the ends. A steady sound there that is not
// there before or after is the escapement's. Without it a slow speed is unlikely, if it
// could have been heard.
func (m *measured) escapement() float64 {
	const certain = 4
	return certain*m.heard() - m.buzzMissed() + m.buzzExcused()
}

// buzzMissed is what speaks against a slow speed of which no escapement was heard.
func (m *measured) buzzMissed() float64 {
	return within(math.Log2(m.span/0.08), 0, 2.5) * (1 - m.heard())
}

// buzzExcused is the part of that which noise excuses: an escapement lies 20 to 35 dB
// under the ends (common practice, no source), and may lie under the noise as well.
func (m *measured) buzzExcused() float64 {
	over := m.weaker - m.quiet
	return m.buzzMissed() * (1 - within((over-15)/15, 0, 1))
}

func (m *measured) escapementWords(value float64) string {
	const some = 0.5
	switch {
	case m.heard() > some:
		return fmt.Sprintf("an escapement buzzes between, %.0f dB over what is around", m.buzz)
	case value > some:
		return "something steady is heard between, an escapement perhaps"
	case value < -some:
		return "no escapement buzzes between, and at such a time one should be heard"
	case m.buzzExcused() > some:
		return "no escapement can be heard between for noise"
	}
	return "whether an escapement buzzes between tells little at such a time"
}

// followed is the evidence against a firing from what is as loud as it right after it,
// or right before its release: a shutter is silent for a while.
const followed = 2

// evenTicks is how evenly a clock ticks, as a part of the interval.
const evenTicks = 0.03

// surroundings weighs what comes right before the opening and right after the closing.
// Several neighbours that sound the same are a train of clicks, and so are more of them
// than a reflex makes. Spacings that go on beyond the pair make a clock. After its closing
// a shutter is silent for a while.
func (m *measured) surroundings() float64 {
	const inTrain, most = 4, 8
	const releaseSounds, flaps = 4, 2 // blades closing, and what the mirror hits
	sum := 0.0
	if m.beforeOpening.alike > 1 || m.beforeOpening.near > releaseSounds {
		sum -= inTrain
	}
	if m.afterClosing.alike > 1 || m.afterClosing.near > flaps {
		sum -= inTrain
	}
	if m.beforeOpening.regular {
		sum -= m.clock()
	}
	if m.afterClosing.regular {
		sum -= m.clock()
	}
	if m.afterClosing.near > 0 {
		sum -= followed
	}
	return math.Max(sum-m.unrest, -most)
}

// clock is the evidence of a clock from one sound that lies as far off as the pair is
// long. It is nothing where sounds are so many that some had to lie there.
func (m *measured) clock() float64 {
	return math.Max(0, math.Log(0.9/(1-math.Exp(-m.rate*2*evenTicks*m.span))))
}

// beforeRelease is the part of the evidence that a reflex's release before the opening
// would explain.
func (m *measured) beforeRelease() float64 {
	sum := math.Min(0, m.opening.prominenceOdds())
	if m.beforeOpening.regular {
		sum -= m.clock()
	}
	return sum
}

func (m *measured) surroundingsWords(value float64) string {
	const some = 0.5
	switch {
	case value > -some:
		return "it is quiet right before and after"
	case m.unrest >= -value-some:
		return "it is not quiet before the opening"
	case m.unrest > some:
		return "it is not quiet before the opening, and other sounds lie right beside the two"
	}
	return "other sounds lie right beside the two, or go on at the same spacing"
}

// rate is how many sounds a second are as loud as the weaker end of a pair, in the seconds
// around the pair.
func (r *recordedClip) rate(p *pair, weaker float64) float64 {
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

// unrest weighs how loud it stays before an opening, compared with the quietest around. A
// shutter is fired out of silence. Even the sounds of a reflex's release leave silence
// between them and the opening. The end of a winding, and the blades of a reflex that
// reopen as it is wound, do not come out of silence.
func (r *recordedClip) unrest(s *sound) float64 {
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
func (r *recordedClip) neighbours(at, step int, span, weaker, same float64) (n neighbours) {
	const comparable, train = 10.0, 0.15 // dB, s
	from := &r.sounds[at]
	for i := at + step; i >= 0 && i < len(r.sounds); i += step {
		s := &r.sounds[i]
		gap := math.Abs(s.at - from.at)
		if gap > (1+same)*span && gap > train {
			break
		}
		if gap < timing.SameSound || s.level < weaker-comparable || s.prominenceOdds() <= 0 {
			continue
		}
		if gap < train {
			n.near++
			if s.spectrum.Unlike(from.spectrum) < alikeTrain {
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
