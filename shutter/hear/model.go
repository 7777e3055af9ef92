package hear

import (
	"math"
	"slices"

	"earshot/shutter"
)

// oneSound is the distance in dB between the medians of openings and closings below which
// the two are one sound. Over the seeds of the tests two curtains are 1.2 apart at most,
// and the blades of a leaf shutter 3.1 at least.
const oneSound = 2

// soundsAlike tells whether the openings of a set sound like its closings, as those
// of two curtains do.
func (r *recordedClip) soundsAlike(set []pair) bool {
	if len(set) == 0 {
		return false
	}
	m := r.modelOf(set)
	return distance(&m.open.centre, &m.close.centre) < oneSound
}

// model is the sound of one shutter: what its openings and closings sound like, and how
// unusual that is among the other sounds of the clip.
type model struct {
	open, close *class
	alikeOdds   float64 // evidence against firings without a buzz whose openings and closings sound alike
	first       *class  // the first sounds of a reflex's releases; nil where there are none
	releaseLead float64 // s from a reflex's first sound to the opening; 0 where there is none
	r           *recordedClip

	fast       []pair       // firings that are not in the set
	fastSounds map[int]bool // sounds that are fast firings, or may be
}

// modelOf learns the sound of a shutter from a set of its firings, at least one.
func (r *recordedClip) modelOf(set []pair) *model {
	var opens, closes []int
	for _, p := range set {
		opens = append(opens, p.open)
		closes = append(closes, p.close)
	}
	m := &model{r: r}
	if r.kind == shutter.FocalPlane {
		both := slices.Concat(opens, closes)
		slices.Sort(both)
		m.open = r.class(both)
		m.close = m.open
	} else {
		m.open, m.close = r.class(opens), r.class(closes)
		m.alikeOdds = alikeness(m.open, m.close)
	}
	m.releaseLead = m.findLead(opens)
	m.first = m.firsts(opens)
	return m
}

// know adds what is not in the set that the model was learnt from: fast firings, and sounds
// that may be fast firings.
func (m *model) know(fast []pair, may []int) {
	m.fast, m.fastSounds = fast, map[int]bool{}
	for _, p := range m.fast {
		m.fastSounds[p.open] = true
	}
	for _, i := range may {
		m.fastSounds[i] = true
	}
}

// Terms of how like the shutter the ends of a pair sound, in the order in which they are
// told.
const (
	openingLike = iota
	openingUnlike
	closingLike
	closingUnlike
	releaseFits
	releaseLacks
	numLikenessTerms
)

// likenessNames are what the terms are called.
var likenessNames = [numLikenessTerms]string{"opening", "opening unlike", "closing", "closing unlike", "release", "release missing"}

// likeness is the evidence for p, as a logarithm of odds, from how like this shutter its
// ends sound: the sum of its likenessTerms.
func (m *model) likeness(p *pair) (sum float64) {
	for _, value := range m.likenessTerms(p) {
		sum += value
	}
	return sum
}

// likenessTerms are the terms for p, 0 for those that don't apply. An end less like the
// shutter than chance would have it rules the pair out: then the likeness of the other end
// doesn't count either.
func (m *model) likenessTerms(p *pair) (t [numLikenessTerms]float64) {
	const toChance, ruledOut, unreleased = -1, -20, -6
	open := m.open.weight(p.open)
	if open < toChance {
		t[openingUnlike] = ruledOut
		return t
	}
	close := m.close.weight(p.close)
	if close < toChance {
		t[closingUnlike] = ruledOut
		return t
	}
	t[openingLike], t[closingLike] = open, close
	if m.releaseLead > 0 {
		if w := m.released(p); w > 0 {
			t[releaseFits] = w
		} else { // as a reflex is wound, its view opens, and sounds like an opening
			t[openingLike], t[releaseLacks] = 0, unreleased
		}
	}
	return t
}

// alikeness is the evidence against firings without a buzz whose openings and closings
// sound alike: those are more likely of a clock, or of somebody knocking.
func alikeness(open, close *class) float64 {
	const distinct, slope, most = 2.2, 4, 5
	apart := distance(&open.centre, &close.centre) / math.Hypot(open.scatter(likeSpread), close.scatter(likeSpread)) * math.Sqrt2
	return within((distinct-apart)*slope, 0, most)
}
