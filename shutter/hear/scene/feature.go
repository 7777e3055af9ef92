package scene

// The features of an arc, each bounded; then those of two firings in a row.
const (
	fBias = iota
	fPromOpen
	fPromClose
	fStrongOpen
	fStrongClose
	fQuickOpen
	fQuickClose
	fBalance
	fBefore
	fLongBefore
	fAfter
	fLongAfter
	fInside
	fBuzz
	fWant
	fShort
	fLong
	fLikeOpen
	fLikeClose
	fCrossOpen
	fCrossClose
	fLevelOpen
	fLevelClose
	fAlike
	fRelease
	fLead
	fReleaseLike
	fBusy
	fCrowd
	numArc
)

const (
	fRepeat = numArc + iota
	fSoon
	fOutlier
	numFeatures
)

// ofClass are those that need to know what the shutter sounds like.
var ofClass = [...]int{fLikeOpen, fLikeClose, fCrossOpen, fCrossClose, fLevelOpen, fLevelClose, fLead, fReleaseLike}

// features names each feature, and says for a person what it means.
var features = [numFeatures]struct{ name, means string }{
	fBias:        {"bias", "two sounds by themselves"},
	fPromOpen:    {"opening rises", "how far the opening rises out of what came before, to 15 dB"},
	fPromClose:   {"closing rises", "how far the closing rises out of what came before, to 15 dB"},
	fStrongOpen:  {"opening rises far", "how far the opening rises beyond 15 dB"},
	fStrongClose: {"closing rises far", "how far the closing rises beyond 15 dB"},
	fQuickOpen:   {"opening sudden", "how suddenly the opening rises"},
	fQuickClose:  {"closing sudden", "how suddenly the closing rises"},
	fBalance:     {"unequal", "how unequal opening and closing are in level"},
	fBefore:      {"loud before", "the loudest sound in the 150 ms before"},
	fLongBefore:  {"loud long before", "the loudest sound in the 600 ms before"},
	fAfter:       {"loud after", "the loudest sound in the 150 ms after"},
	fLongAfter:   {"loud long after", "the loudest sound in the 600 ms after"},
	fInside:      {"loud inside", "the loudest sound between the two"},
	fBuzz:        {"buzz", "a steady sound between the two, as of an escapement"},
	fWant:        {"no buzz", "no buzz where one would be heard"},
	fShort:       {"short", "it is shorter than 30 ms"},
	fLong:        {"long", "it is longer than a second"},
	fLikeOpen:    {"like openings", "the opening is like those of the other firings"},
	fLikeClose:   {"like closings", "the closing is like those of the other firings"},
	fCrossOpen:   {"unlike closings", "the opening is more like openings than like closings"},
	fCrossClose:  {"unlike openings", "the closing is more like closings than like openings"},
	fLevelOpen:   {"opening's level", "the opening is louder or weaker than those of the others"},
	fLevelClose:  {"closing's level", "the closing is louder or weaker than those of the others"},
	fAlike:       {"ends alike", "both ends are one sound twice, and nothing buzzes between"},
	fRelease:     {"release", "a release before the opening, as of a reflex body"},
	fLead:        {"release in time", "the release comes as long before the opening as in the other firings"},
	fReleaseLike: {"release like closings", "the release is like the closings, as of blades that close first"},
	fBusy:        {"busy", "how many sounds as loud there are within a second"},
	fCrowd:       {"crowd", "how many sounds as loud lie within and just around"},
	fRepeat:      {"repeats", "it lasts as long as the firing before, or is a step of the dial away"},
	fSoon:        {"soon", "it comes within half a second of the firing before"},
	fOutlier:     {"passed over", "a firing that lasts unlike both its neighbours"},
}

// Weights are what each feature counts, in logarithms of odds for a value of 1.
type Weights [numFeatures]float64

// The features of a whole explanation.
const (
	oBias = iota
	oScore
	oWorst
	oCount
	oBuzz
	oRepeat
	oRange
	oApart
	oTight
	oStrangers
	oBusy
	oBeat
	oAlone
	oAlike
	oShort
	oReleased
	oTotal
	oRepeats
	oFew
	numOdds
)

// odds names each feature of an explanation.
var odds = [numOdds]struct{ name, means string }{
	oBias:      {"bias", "some explanation"},
	oScore:     {"score", "the score of it all, for each firing"},
	oWorst:     {"low score", "the score that a quarter of its firings stay under"},
	oCount:     {"count", "how many firings there are"},
	oBuzz:      {"buzz", "how much buzzes"},
	oRepeat:    {"repeats", "how well one firing repeats the other"},
	oRange:     {"range", "how far the shortest and the longest are apart"},
	oApart:     {"ends apart", "how unlike openings and closings are"},
	oTight:     {"spread", "how unlike the openings are each other, and the closings"},
	oStrangers: {"strangers", "how many sounds as loud are as like its ends and belong to none"},
	oBusy:      {"busy", "how many sounds as loud there are besides"},
	oBeat:      {"beat", "how well the openings keep time"},
	oAlone:     {"company", "how loud it is around the firings"},
	oAlike:     {"ends alike", "how many are one sound twice without a buzz"},
	oShort:     {"short", "how short most are"},
	oReleased:  {"released", "how many have a release"},
	oTotal:     {"total", "the score of it all"},
	oRepeats:   {"repetitions", "how often one firing repeats the other"},
	oFew:       {"few", "one firing or two"},
}

// OddsWeights are what each feature of an explanation counts.
type OddsWeights [numOdds]float64

func (w *OddsWeights) of(f *[numOdds]float64) (sum float64) {
	for i, x := range f {
		sum += w[i] * x
	}
	return sum
}
