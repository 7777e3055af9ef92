// Package scene explains a clip: which of its sounds are the openings and closings of a
// shutter, and which are none. [Explain] is the way in; [Fit] is how its weights came to be.
//
// # What is heard
//
// A clip is its level over time in a few ears, 1 ms a value, and the spectra of its sudden
// sounds. A sound is a steep rise in any ear over the last few ms, and over what is left by
// then of what rang before. At most a dozen a second are kept, the most prominent, which
// bounds the work whatever is played.
//
// # What is weighed
//
// An arc is a sound taken for an opening, a later one for the closing, and perhaps one
// before for the release of a reflex body. It has a vector of features, each bounded. The
// weight of a feature times its value is what it counts, a logarithm of odds; their sum is
// the score of the arc. Two firings in a row have features of their own: one lasts as long
// as the other or is a step of the dial away; one firing in between may be passed over. An
// explanation is a row of arcs that don't overlap; its score is the sum. This is a
// semi-Markov conditional random field (Sarawagi and Cohen 2004, from memory): the best
// explanation comes from dynamic programming (Viterbi), the probability of each arc from
// the forward–backward sums (Rabiner 1989, from memory).
//
// What the openings and closings of this shutter sound like is learned from the best
// explanation, which is then looked for again, from several starts. Of these the one that
// is most likely a shutter's stands, if it is more likely one than not.
//
// # Where the weights come from
//
// Both tables of weights are fitted by maximum likelihood on recordings whose truth is
// known, of generators that share nothing (make train). None was chosen by hand.
package scene
