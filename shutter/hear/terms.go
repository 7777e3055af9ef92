package hear

import (
	"fmt"
	"math"
	"strings"

	"earshot/shutter"
)

// term is one thing that speaks for a firing, or against it, with what it counts for.
type term struct {
	name  string
	value float64 // natural logarithm of odds
	words string
}

// terms are what the evidence for a pair of two sounds is the sum of.
func (r *recordedClip) terms(p pair) (all []term) {
	p.span = r.sounds[p.close].at - r.sounds[p.open].at
	var m measured
	m.ends(r, p, r.drowning(p))
	m.around()
	for _, t := range pairTerms {
		value := t.value(&m)
		all = append(all, term{t.name, value, t.words(&m, value)})
	}
	return all
}

// drowning is the loudest of the sounds between the ends of a pair, dBFS.
func (r *recordedClip) drowning(p pair) float64 {
	loudest := math.Inf(-1)
	for i := p.open + 1; i < p.close; i++ {
		loudest = math.Max(loudest, drowns(&r.sounds[p.open], &r.sounds[i]))
	}
	return loudest
}

// sumOf is what terms come to.
func sumOf(terms []term) (sum float64) {
	for _, t := range terms {
		sum += t.value
	}
	return sum
}

// evidence is the terms as they are told.
func evidence(terms []term) (all []shutter.Evidence) {
	for _, t := range terms {
		all = append(all, shutter.Evidence{Weight: t.value, What: t.words})
	}
	return all
}

// likeness is what the likeness of a pair to the shutter is the sum of.
func (a *Account) likeness(p pair) (all []term) {
	m := a.model
	if m == nil {
		return nil
	}
	values := m.likenessTerms(&p)
	for i, words := range [numLikenessTerms]func() string{
		openingLike:   func() string { return likenessText("opening", m.open, p.open) },
		openingUnlike: func() string { return likenessText("opening", m.open, p.open) + ruledOut },
		closingLike:   func() string { return likenessText("closing", m.close, p.close) },
		closingUnlike: func() string { return likenessText("closing", m.close, p.close) + ruledOut },
		releaseFits: func() string {
			return fmt.Sprintf("it follows a sound by %.0f ms, as openings of this camera follow its release", m.releaseLead*1000)
		},
		releaseLacks: func() string {
			return fmt.Sprintf("no release is heard %.0f ms before, as it is before other openings: like as it is, it may be the view that opens", m.releaseLead*1000)
		},
	} {
		if values[i] != 0 {
			all = append(all, term{likenessNames[i], values[i], words()})
		}
	}
	return all
}

// ruledOut is said where one end alone is too unlike for a firing.
const ruledOut = ": less like than chance, which rules the pair out"

func likenessText(end string, c *class, i int) string {
	return fmt.Sprintf("its %s is %.1f dB unlike the %ss found, which are %.1f dB unlike each other", end, c.distance(i), end, c.spread)
}

// setTerms are what all that is left of the worth of the set found is the sum of, but for
// those that come to nothing.
func (a *Account) setTerms() (all []term) {
	if a.model == nil {
		return nil
	}
	for i, value := range a.model.scoreSet(a.found.set) {
		if value != 0 {
			all = append(all, term{value: value, words: setTerms[i].words})
		}
	}
	return all
}

// setNotes say what the firings found have together; none where there are none.
func (a *Account) setNotes() []string {
	terms := a.setTerms()
	if len(terms) == 0 {
		return nil
	}
	var each []string
	for _, t := range terms {
		each = append(each, signed(t.value)+" "+t.words)
	}
	return []string{fmt.Sprintf("the firings found have, as one set, %s: %s", signed(sumOf(terms)), strings.Join(each, "; "))}
}

// signed is evidence as a number with a sign.
func signed(value float64) string {
	return strings.Replace(fmt.Sprintf("%+.1f", value), "-", "−", 1)
}

// opensLike is the evidence that sound i is an opening, though nothing closes it.
func (a *Account) opensLike(i int) []term {
	m := a.model
	if m == nil {
		return nil
	}
	return []term{
		{likenessNames[openingLike], m.open.weight(i), likenessText("opening", m.open, i)},
		{likenessNames[closingLike], -m.close.weight(i), "it is " + moreOrLess(m, i) + " like a closing"},
	}
}

func moreOrLess(m *model, i int) string {
	if m.close.weight(i) > 0 {
		return "also"
	}
	return "not"
}
