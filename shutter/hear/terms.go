package hear

import (
	"fmt"
	"math"

	"earshot/shutter"
)

// terms are the evidence for a pair of two sounds, one by one. Their sum is what weigh
// finds, where it weighs all.
func (r *room) terms(p pair) []shutter.Evidence {
	a, b := &r.sounds[p.open], &r.sounds[p.close]
	p.span = b.at - a.at
	r.weigh(&p, r.drowning(p))
	weaker := math.Min(a.level, b.level)
	buzz, quiet := r.buzz(a, b)
	p.buzz, p.steady = buzz, r.steady(a, b)
	rate := r.rate(&p, weaker)
	escapement := p.buzzEvidence(weaker - quiet)
	return []shutter.Evidence{
		{Weight: -priorOdds, What: toOvercome},
		{Weight: prominence(p.margin), What: marginText(p.margin)},
		{Weight: impulse(a, b, p.span), What: impulseText(a, b)},
		{Weight: balance(a, b), What: fmt.Sprintf("the one is %.0f dB louder than the other", math.Abs(a.level-b.level))},
		{Weight: spanEvidence(p.span, rate), What: fmt.Sprintf("they are %s apart, amid %.1f sounds a second as loud", shutter.TimeText(p.span), rate)},
		{Weight: escapement, What: p.buzzText(escapement)},
		{Weight: r.surroundings(&p, weaker, rate), What: r.surroundingsText(&p, weaker, rate)},
	}
}

// toOvercome is said of what speaks against any pair.
const toOvercome = "what any two sounds must overcome"

// drowning is the loudest of the sounds between the ends of a pair, dBFS.
func (r *room) drowning(p pair) float64 {
	loudest := math.Inf(-1)
	for i := p.open + 1; i < p.close; i++ {
		loudest = math.Max(loudest, drowns(&r.sounds[p.open], &r.sounds[i]))
	}
	return loudest
}

// silence is more than any sound stands over another, dB.
const silence = 100

func marginText(margin float64) string {
	if margin <= -1 {
		return fmt.Sprintf("something between is %.0f dB louder than the weaker end", -margin)
	}
	if margin > silence {
		return "nothing is heard between them"
	}
	return fmt.Sprintf("both ends stand %.0f dB over all between them", math.Max(margin, 0))
}

func impulseText(a, b *sound) string {
	return fmt.Sprintf("the ends stand %.0f and %.0f dB out of what came before, and have fallen %.0f and %.0f dB soon after", a.stand, b.stand, a.decay, b.decay)
}

func (p *pair) buzzText(weight float64) string {
	const some = 0.5
	switch {
	case p.heard() > some:
		return fmt.Sprintf("an escapement buzzes between, %.0f dB over what is around", p.buzz)
	case weight > some:
		return "something steady is heard between, an escapement perhaps"
	case weight < -some:
		return "no escapement buzzes between, and at such a time one should be heard"
	case p.excused > some:
		return "no escapement can be heard between for noise"
	}
	return "whether an escapement buzzes between tells little at such a time"
}

func (r *room) surroundingsText(p *pair, weaker, rate float64) string {
	const some = 0.5
	weight := r.surroundings(p, weaker, rate)
	unrest := r.unrest(&r.sounds[p.open])
	switch {
	case weight > -some:
		return "it is quiet right before and after"
	case unrest >= -weight-some:
		return "it is not quiet before the opening"
	case unrest > some:
		return "it is not quiet before the opening, and other sounds lie right beside the two"
	}
	return "other sounds lie right beside the two, or go on at the same spacing"
}

// likeness is the evidence for a pair from how like the shutter its ends sound.
func (a *Account) likeness(p pair) []shutter.Evidence {
	v := a.voice
	if v == nil {
		return nil
	}
	open, close := v.open.weight(p.open), v.close.weight(p.close)
	all := []shutter.Evidence{
		{Weight: open, What: likenessText("opening", v.open, p.open)},
		{Weight: close, What: likenessText("closing", v.close, p.close)},
	}
	const nothing = 1e-9 // but for rounding
	total := v.likeness(&p)
	rest := total - open - close
	switch {
	case math.Abs(rest) < nothing:
	case total < -worthless:
		return append(all, shutter.Evidence{Weight: rest, What: ruledOut})
	case rest > 0:
		return append(all, shutter.Evidence{Weight: rest, What: fmt.Sprintf("it follows a sound by %.0f ms, as openings of this camera follow its release", v.lead*1000)})
	default:
		return append(all, shutter.Evidence{Weight: rest, What: fmt.Sprintf("no release is heard %.0f ms before, as it is before other openings", v.lead*1000)})
	}
	return all
}

// ruledOut is said where one end alone is too unlike for a firing.
const ruledOut = "an end less like than chance rules it out"

func likenessText(end string, c *class, i int) string {
	return fmt.Sprintf("its %s is %.1f dB unlike the %ss found, which are %.1f dB unlike each other", end, c.distance(i), end, c.spread)
}

// opensLike is the evidence that sound i is an opening, though nothing closes it.
func (a *Account) opensLike(i int) []shutter.Evidence {
	v := a.voice
	if v == nil {
		return nil
	}
	return []shutter.Evidence{
		{Weight: v.open.weight(i), What: likenessText("opening", v.open, i)},
		{Weight: -v.close.weight(i), What: "it is " + moreOrLess(v, i) + " like a closing"},
	}
}

func moreOrLess(v *voice, i int) string {
	if v.close.weight(i) > 0 {
		return "also"
	}
	return "not"
}
